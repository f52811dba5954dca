#include "flinch/interview/interview.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

char const* const text = R"(
sign trouble "trouble"
  ask "?"
  answer yes or no
  seen by anyone
sign part "part"
  ask "?"
  answer yes or no
  part of trouble
  seen by anyone
sign collapsed "collapsed"
  ask "?"
  answer yes or no
  seen by anyone
sign wound "wound"
  ask "?"
  answer sites
  seen by hands
sign fever "fever"
  ask "?"
  answer number in C from 30 to 44
  seen by clinic
sign straining "straining"
  ask "?"
  answer yes or no
  applies if sex is male
  seen by anyone
sign limps "limps"
  ask "?"
  answer yes or no
  seen by anyone
  takes 10 seconds
sign sways "sways"
  ask "?"
  answer yes or no
  seen by anyone
  takes 120 seconds
cause a "a"
  base 50 per 1000
  see watch
  because "x"
  cite judgement
cause b "b"
  base 50 per 1000
  see watch
  because "x"
  cite judgement
rule limps "limps"
  if limps
  usual 20%
  in a 90%
  because "x"
  cite judgement
rule sways "sways"
  if sways
  usual 20%
  in a 90%
  because "x"
  cite judgement
rule strains "strains"
  if straining
  usual 10%
  in b 80%
  because "x"
  cite judgement
alarm high "High"
  if collapsed
  see now
  because "x"
  cite judgement
alarm inner "Inner"
  if part
  see now
  because "x"
  cite judgement
alarm open "Open"
  if wound at belly or fever >= 41 C
  see now
  because "x"
  cite judgement
alarm lower "Lower"
  if straining and limps
  see soon
  because "x"
  cite judgement
)";

class InterviewTest : public testing::Test {
 protected:
  // "danger: collapsed trouble", after these answers.
  std::string next(Reader reader, std::string const& yaml,
                   std::vector<std::string> const& skipped = {}, InterviewLimits limits = {}) {
    Interview interview(tables_, reader, limits);
    std::vector<SignId> set_aside;
    for (auto const& name : skipped) set_aside.push_back(*pack_->find_sign(name));
    outlook_ = interview.next(Assessor(tables_).assess(case_of(*pack_, yaml)), set_aside);
    if (!outlook_.screen) return "nothing";
    std::string out;
    switch (outlook_.screen->kind) {
      case Screen::Kind::patient:
        out = "dog:";
        break;
      case Screen::Kind::place:
        out = "place:";
        break;
      case Screen::Kind::danger:
        out = "danger:";
        break;
      case Screen::Kind::system:
        out = "system:";
        break;
      case Screen::Kind::telling:
        out = "telling:";
        break;
    }
    for (auto const& question : outlook_.screen->questions)
      out += " " + (*pack_)[question.sign].name;
    return out;
  }

  std::shared_ptr<Pack const> pack_ = pack_of(text);
  Tables tables_{pack_};
  Outlook outlook_;
};

TEST_F(InterviewTest, TheDogComesFirstWhereItMatters) {
  EXPECT_EQ(next(Reader::keeper, "answers: {}"), "dog: sex") << "no rule asks for its age";
  EXPECT_EQ(outlook_.patient_left, 1U);
}

TEST_F(InterviewTest, ThenDangersOfTheHighestTierThemselvesBeforeWholesOfOne) {
  EXPECT_EQ(next(Reader::keeper, "dog: {sex: male}"), "danger: collapsed trouble");
  EXPECT_EQ(next(Reader::keeper, "{dog: {sex: male}, answers: {trouble: yes, collapsed: no}}"),
            "danger: part");
  EXPECT_EQ(outlook_.screen->questions[0].could_reach, TierId{0});
}

TEST_F(InterviewTest, ANoToTheWholeSettlesItsParts) {
  EXPECT_EQ(next(Reader::keeper, "{dog: {sex: male}, answers: {collapsed: no}}"),
            "danger: trouble");
  next(Reader::keeper, "{dog: {sex: male}, answers: {trouble: no, collapsed: no}}");
  ASSERT_TRUE(outlook_.screen);
  EXPECT_FALSE(outlook_.screen->questions.empty());
  for (auto const& question : outlook_.screen->questions)
    EXPECT_NE((*pack_)[question.sign].name, "part");
}

// What was found somewhere is asked for its place until it is known or set aside.
TEST_F(InterviewTest, ThePlaceOfAFindingIsAskedForFirst) {
  std::string const found = "{dog: {sex: male}, answers: {trouble: no, wound: yes}}";
  EXPECT_EQ(next(Reader::handler, found), "place: wound");
  EXPECT_EQ(outlook_.screen->questions[0].alone_reaches, TierId{0});
  EXPECT_FALSE(outlook_.is_enough);
  EXPECT_EQ(next(Reader::handler, found, {"wound"}), "danger: collapsed");
  EXPECT_EQ(next(Reader::keeper, found), "danger: collapsed") << "a keeper cannot look";
  EXPECT_EQ(next(Reader::handler, "{dog: {sex: male}, answers: {wound: {found: [left elbow]}}}"),
            "danger: collapsed trouble");
}

// A place that no condition names is not asked for; one that cannot raise the tier waits for what
// could.
TEST_F(InterviewTest, PlacesDoNotHoldUpDangers) {
  auto const with = [](std::string const& rule) {
    return std::string(text) + R"(
sign limp "limp"
  ask "Does it limp, and on which leg?"
  answer sites in foreleg
  seen by anyone
)" + rule;
  };
  std::string const found = "{dog: {sex: male}, answers: {trouble: no, limp: yes}}";
  std::string const calm = "{dog: {sex: male}, answers: {trouble: no, collapsed: no, limp: yes}}";
  auto const rule = [](std::string const& condition) {
    return "rule limp \"limp\"\n  if " + condition +
           "\n  usual 20%\n  in a 80%\n  because \"x\"\n  cite judgement\n";
  };
  pack_ = pack_of(with(rule("limp")));
  tables_ = Tables(pack_);
  EXPECT_EQ(next(Reader::keeper, found), "danger: collapsed");
  EXPECT_NE(next(Reader::keeper, calm), "place: limp");
  EXPECT_EQ(outlook_.place_left, 0U);
  pack_ = pack_of(with(rule("limp at left foreleg")));
  tables_ = Tables(pack_);
  EXPECT_EQ(next(Reader::keeper, found), "danger: collapsed");
  EXPECT_EQ(outlook_.place_left, 1U);
  EXPECT_EQ(next(Reader::keeper, calm), "place: limp");
}

TEST_F(InterviewTest, WhatASingleAnswerCouldReachIsToldApart) {
  next(Reader::keeper, "dog: {sex: male}");
  EXPECT_EQ(outlook_.one_answer_reaches, TierId{0});
  EXPECT_EQ(outlook_.danger_screens, 2U) << "one list of two, and two that only help each other";
  next(Reader::keeper, "{dog: {sex: male}, answers: {trouble: no, collapsed: no}}");
  EXPECT_EQ(outlook_.one_answer_reaches, std::nullopt);
  EXPECT_EQ(outlook_.several_answers_reach, TierId{1});
}

TEST_F(InterviewTest, TheReaderIsAskedOnlyWhatTheyCanSee) {
  std::string const calm = "{dog: {sex: male}, answers: {trouble: no, collapsed: no}}";
  EXPECT_EQ(next(Reader::handler, calm), "danger: wound");
  EXPECT_EQ(
      next(Reader::clinician,
           "{dog: {sex: male}, answers: {trouble: no, collapsed: no, wound: no, straining: no, "
           "limps: no, sways: no}}"),
      "danger: fever");
  EXPECT_EQ(next(Reader::nurse, calm), next(Reader::keeper, calm));
}

// A list that tells much stands before a single question of a danger, not before a list of them.
TEST_F(InterviewTest, ATellingListComesBeforeASingleDanger) {
  EXPECT_EQ(next(Reader::clinician,
                 "{dog: {sex: male}, answers: {trouble: no, collapsed: no, wound: no}}"),
            "telling: straining limps sways");
  EXPECT_EQ(next(Reader::clinician, "{dog: {sex: male}, answers: {trouble: no, collapsed: no}}"),
            "danger: wound");
}

TEST_F(InterviewTest, WhatCannotApplyIsNotAsked) {
  next(Reader::keeper, "{dog: {sex: female}, answers: {trouble: no, collapsed: no, limps: yes}}");
  ASSERT_TRUE(outlook_.screen);
  for (auto const& question : outlook_.screen->questions)
    EXPECT_NE((*pack_)[question.sign].name, "straining");
  EXPECT_EQ(outlook_.danger_left, 0U);
}

TEST_F(InterviewTest, WhatCouldNotBeToldOrWasSkippedIsNotAskedAgain) {
  EXPECT_EQ(next(Reader::keeper, "{dog: {sex: male}, answers: {trouble: can't tell}}"),
            "danger: collapsed")
      << "the part waits until all that decides has been asked";
  EXPECT_EQ(next(Reader::keeper, "dog: {sex: male}", {"collapsed"}), "danger: trouble");
}

TEST_F(InterviewTest, OfTwoThatTellTheSameTheCheaperIsAsked) {
  auto const id = [&](char const* name) { return *pack_->find_sign(name); };
  Interview const interview(tables_, Reader::keeper);
  EXPECT_LT(interview.effort_s(id("limps")), interview.effort_s(id("sways")));
  auto const screen =
      next(Reader::keeper, "{dog: {sex: male}, answers: {trouble: no, collapsed: no}}");
  ASSERT_NE(screen.find("limps"), std::string::npos) << screen;
  ASSERT_NE(screen.find("sways"), std::string::npos) << screen;
  EXPECT_LT(screen.find("limps"), screen.find("sways")) << screen;
}

TEST_F(InterviewTest, ItIsEnoughWhenNothingCanRaiseTheTierOrTellsMuch) {
  std::string const all =
      "{dog: {sex: male}, answers: {trouble: no, collapsed: no, straining: no, limps: no, sways: "
      "no}}";
  EXPECT_EQ(next(Reader::keeper, all), "nothing");
  EXPECT_TRUE(outlook_.is_enough);
  next(Reader::clinician, all);
  EXPECT_FALSE(outlook_.is_enough) << "a clinician can still take the temperature";
  EXPECT_EQ(outlook_.worth_asking(), 2U);
}

TEST_F(InterviewTest, WhatTellsLittleIsOfferedButNotWorthAsking) {
  InterviewLimits limits;
  limits.least_bits = 5;
  auto const screen =
      next(Reader::keeper,
           "{dog: {sex: male}, answers: {trouble: no, collapsed: no, straining: no}}", {}, limits);
  EXPECT_TRUE(outlook_.is_enough);
  EXPECT_EQ(screen, "telling: limps sways") << "several while nothing was told";
}

TEST_F(InterviewTest, AScreenHasEightLinesAtMost) {
  std::string many = text;
  for (int i = 0; i < 20; ++i)
    many += "sign d" + std::to_string(i) +
            " \"d\"\n  ask \"?\"\n  answer yes or no\n  seen by anyone\n" + "alarm d" +
            std::to_string(i) + " \"d\"\n  if d" + std::to_string(i) +
            "\n  see now\n  because \"x\"\n  cite judgement\n";
  auto const pack = pack_of(many);
  Tables const tables(pack);
  Interview interview(tables, Reader::keeper);
  auto const outlook = interview.next(Assessor(tables).assess(case_of(*pack, "dog: {sex: male}")));
  EXPECT_EQ(outlook.screen->questions.size(), 8U);
  EXPECT_GE(outlook.danger_left, 22U);
}

// The opening, on a pack of its own.
char const* const opening_text = R"(
site eye "eye" paired
sign since "since when"
  ask "?"
  answer steps days, weeks
  seen by anyone
  asked first
sign gait "gait"
  ask "?"
  answer yes or no
  seen by anyone
sign limps "limps"
  ask "?"
  answer yes or no
  part of gait
  seen by anyone
sign hops "hops"
  ask "?"
  answer yes or no
  part of gait
  seen by anyone
sign carries "carries"
  ask "?"
  answer yes or no
  part of gait
  seen by anyone
sign sore_eye "sore eye"
  ask "?"
  answer sites in eye
  seen by anyone
sign skin "skin"
  ask "?"
  answer yes or no
  seen by anyone
sign spots "spots"
  ask "?"
  answer yes or no
  part of skin
  seen by anyone
sign lumps "lumps"
  ask "?"
  answer yes or no
  part of skin
  seen by anyone
sign sores "sores"
  ask "?"
  answer yes or no
  part of skin
  seen by anyone
sign collapsed "collapsed"
  ask "?"
  answer yes or no
  seen by anyone
  asked first
sign swells "swells"
  ask "?"
  answer yes or no
  seen by anyone
sign strains "strains"
  ask "?"
  answer yes or no
  applies if sex is male
  seen by anyone
cause a "a"
  base 50 per 1000
  see watch
  because "x"
  cite judgement
rule limps "limps"
  if limps
  usual 20%
  in a 90%
  because "x"
  cite judgement
alarm high "High"
  if collapsed or carries or spots
  see now
  because "x"
  cite judgement
alarm both "Both"
  if sore_eye and swells
  see now
  because "x"
  cite judgement
alarm water "Water"
  if strains
  see now
  because "x"
  cite judgement
)";

class OpeningTest : public testing::Test {
 protected:
  std::string next(std::string const& yaml) {
    Interview interview(tables_, Reader::keeper);
    auto const patient = case_of(*pack_, yaml);
    auto const outlook =
        interview.next(Assessor(tables_).assess(patient), {}, std::span(patient.came_for));
    std::string out = outlook.is_opening ? "" : "(after the opening)";
    if (outlook.screen)
      for (auto const& question : outlook.screen->questions)
        out += (out.empty() ? "" : " ") + (*pack_)[question.sign].name;
    return out;
  }

  std::shared_ptr<Pack const> pack_ = pack_of(opening_text);
  Tables tables_{pack_};
};

TEST_F(OpeningTest,
       WhereThenSinceWhenThenFirstDangersThenThoseOfTheComplaintThenSystemsThenTheDog) {
  EXPECT_EQ(next("{came for: [sore_eye, limps], answers: {sore_eye: yes, limps: yes}}"),
            "sore_eye");
  EXPECT_EQ(next("{came for: [sore_eye, limps], answers: {sore_eye: [left eye], limps: yes}}"),
            "since");
  EXPECT_EQ(next("{came for: [sore_eye, limps], "
                 "answers: {sore_eye: [left eye], limps: yes, since: days}}"),
            "collapsed carries swells skin")
      << "a part of the same whole, and what an alarm asks for with it; not what cannot raise; "
         "then "
         "the systems, since there is room";
  EXPECT_EQ(next("{came for: [sore_eye, limps], answers: {sore_eye: [left eye], limps: yes, "
                 "since: days, collapsed: no, carries: no, swells: no}}"),
            "skin");
  EXPECT_EQ(next("{came for: [sore_eye, limps], answers: {sore_eye: [left eye], limps: yes, "
                 "since: days, collapsed: no, carries: no, swells: no, skin: no}}"),
            "sex");
  EXPECT_EQ(next("{came for: [sore_eye, limps], dog: {sex: male}, answers: {sore_eye: [left eye], "
                 "limps: yes, since: days, collapsed: no, carries: no, swells: no, skin: no}}"),
            "(after the opening) strains");
}

TEST_F(OpeningTest, WithoutAComplaintNobodyIsAskedSinceWhen) {
  EXPECT_EQ(next("{answers: {}}"), "collapsed gait skin");
  EXPECT_EQ(next("{answers: {collapsed: no}}"), "gait skin");
}

}  // namespace
}  // namespace flinch::test
