// `unless`: an alarm stands while its mild fact is unknown or false, and is silent once it is
// known.
#include <gtest/gtest.h>

#include <algorithm>

#include "flinch/assess/evaluator.hpp"
#include "flinch/assess/open_questions.hpp"
#include "flinch/care/promises.hpp"
#include "flinch/explain/rule.hpp"
#include "flinch/explain/tier.hpp"
#include "flinch/explain/what_if.hpp"
#include "flinch/interview/interview.hpp"
#include "flinch/proofread/coverage.hpp"
#include "flinch/proofread/proofread.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

char const* const text = R"(
sign sways "sways"
  ask "Does it sway?"
  answer yes or no
  seen by anyone
  alone see now unless for_months because "Brain or poison." cite judgement
  alone see soon because "x" cite judgement
sign old_trouble "old trouble"
  ask "Is it an old trouble?"
  answer yes or no
  seen by anyone
sign for_months "for months"
  ask "For months?"
  answer yes or no
  part of old_trouble
  seen by anyone
sign male_thing "male thing"
  ask "A thing of males?"
  answer yes or no
  applies if sex is male
  seen by anyone
sign vomits "vomits"
  ask "Does it vomit?"
  answer yes or no
  seen by anyone
sign journey "journey"
  ask "Only on journeys?"
  answer yes or no
  seen by anyone
alarm both "Sways and vomits"
  if sways and vomits
  unless journey and not male_thing
  see now
  because "x"
  cite judgement
)";

std::string head(std::string const& sex) {
  return std::string(pack_of(text)->patient_key()) + ": {sex: " + sex + "}\n";
}

struct Dog {
  explicit Dog(std::string const& yaml, std::string const& more = "")
      : pack(pack_of(text + more)),
        tables(pack),
        assessor(tables),
        patient(case_of(*pack, yaml)),
        result(assessor.assess(patient)) {}
  [[nodiscard]] AlarmId alarm(std::string const& name) const {
    for (std::uint32_t i = 0; i < pack->alarms.size(); ++i)
      if (pack->alarms[i].name == name) return AlarmId{i};
    throw std::out_of_range(name);
  }
  [[nodiscard]] Truth truth(std::string const& name) const { return result.truth(alarm(name)); }
  [[nodiscard]] std::string tier() const { return tier_name(*pack, result.judgement.tier); }
  [[nodiscard]] std::string ceiling() const { return tier_name(*pack, result.judgement.ceiling); }

  std::shared_ptr<Pack const> pack;
  Tables tables;
  Assessor assessor;
  Case patient;
  Assessment result;
};

TEST(Unless, StandsWhileUnknownOrFalseAndIsSilentOnceKnown) {
  for (auto const& [answers, truth, tier] :
       {std::tuple("{sways: yes}", Truth::yes, "now"),
        std::tuple("{sways: yes, for_months: no}", Truth::yes, "now"),
        std::tuple("{sways: yes, for_months: \"can't tell\"}", Truth::yes, "now"),
        std::tuple("{sways: yes, for_months: yes}", Truth::no, "soon"),
        std::tuple("{for_months: yes}", Truth::no, "watch"),
        std::tuple("{for_months: no}", Truth::unknown, "none"),
        std::tuple("{sways: no}", Truth::no, "none")}) {
    Dog const dog(std::string("answers: ") + answers + "\n");
    EXPECT_EQ(dog.truth("sways_alone_now"), truth) << answers;
    EXPECT_EQ(dog.tier(), tier) << answers;
  }
}

TEST(Unless, WhatFollowsByMeaningIsKnownToo) {
  // A no to the whole is a no to its part.
  EXPECT_EQ(Dog("answers: {sways: yes, old_trouble: no}\n").truth("sways_alone_now"), Truth::yes);
  // What cannot apply is a no, and `not` of it is known to hold.
  std::string const told = "answers: {sways: yes, vomits: yes, journey: yes}\n";
  EXPECT_EQ(Dog(head("female") + told).truth("both"), Truth::no);
  EXPECT_EQ(Dog(head("male") + told).truth("both"), Truth::yes) << "who knows of the thing?";
}

// Age two, a haze of age: the yes still ranks, but nobody knows which of the two is so.
TEST(Unless, AClashHoldsNoAlarmBack) {
  for (auto const* const answers :
       {"{sways: yes, old_trouble: no, for_months: yes}", "{sways: yes, for_months: yes}"}) {
    Dog const dog(std::string("answers: ") + answers + "\n");
    bool const clashes = !dog.result.judgement.contradictions.empty();
    EXPECT_EQ(dog.truth("sways_alone_now"), clashes ? Truth::yes : Truth::no) << answers;
    EXPECT_EQ(dog.tier(), clashes ? "now" : "soon") << answers;
    EXPECT_EQ(held_back(dog.tables, dog.result).empty(), clashes) << answers;
    EXPECT_EQ(Evaluator(dog.tables, dog.result.knowledge)
                  .truth((*dog.pack)[dog.alarm("sways_alone_now")].condition),
              dog.truth("sways_alone_now"));
  }
  // `not male_thing` in a bitch that is said to have it.
  Dog const told(head("female") +
                 "answers: {sways: yes, vomits: yes, journey: yes, male_thing: yes}\n");
  EXPECT_EQ(told.truth("both"), Truth::yes);
}

TEST(Unless, TheCeilingFallsOnlyWhenTheMildFactIsKnown) {
  EXPECT_EQ(Dog("answers: {sways: no}\n").ceiling(), "none");
  EXPECT_EQ(Dog("answers: {vomits: yes, for_months: yes}\n").ceiling(), "now") << "by both";
  EXPECT_EQ(Dog("answers: {vomits: no, for_months: yes}\n").ceiling(), "soon");
  EXPECT_EQ(Dog("answers: {vomits: no, for_months: no}\n").ceiling(), "now");
}

TEST(Unless, WhatCanOnlyCalmIsNoOpenDanger) {
  Dog const dog("answers: {vomits: no}\n");
  for (auto const& question : open_questions(dog.tables, dog.result)) {
    EXPECT_NE((*dog.pack)[question.sign].name, "old_trouble");
    EXPECT_NE((*dog.pack)[question.sign].name, "journey");
  }
}

TEST(Unless, TheInterviewAsksWhatWouldCalm) {
  Dog const dog(head("male") + "answers: {sways: yes, vomits: no}\n");
  Interview interview(dog.tables, Reader::keeper);
  auto const outlook = interview.next(dog.result);
  ASSERT_TRUE(outlook.screen);
  ASSERT_FALSE(outlook.screen->questions.empty());
  EXPECT_EQ((*dog.pack)[outlook.screen->questions.front().sign].name, "old_trouble");
}

TEST(Unless, TheInterviewAsksNothingWhereAnotherAlarmStandsAnyway) {
  auto const dog = [](std::string const& standing) {
    return Dog(
        head("male") + "answers: {sways: yes, vomits: no, old_trouble: yes" + standing + "}\n",
        "sign bleeds \"bleeds\"\n  ask \"Does it bleed?\"\n  answer yes or no\n"
        "  seen by anyone\n  alone see now because \"x\" cite judgement\n");
  };
  auto const asks = [](Dog const& one) {
    Interview interview(one.tables, Reader::keeper);
    auto const outlook = interview.next(one.result);
    return outlook.screen ? (*one.pack)[outlook.screen->questions.front().sign].name : "";
  };
  EXPECT_EQ(asks(dog(", bleeds: no")), "for_months");
  EXPECT_NE(asks(dog(", bleeds: yes")), "for_months");
}

TEST(Unless, AnExplanationNamesWhatHoldsTheAlarmBackAndWhatWouldMakeItFire) {
  Dog dog("answers: {sways: yes, for_months: yes}\n");
  auto const why = explain_tier(dog.tables, dog.result);
  ASSERT_EQ(why.held_back.size(), 1U);
  EXPECT_EQ(why.held_back.front().alarm, dog.alarm("sways_alone_now"));
  ASSERT_EQ(why.held_back.front().behind.size(), 1U);
  EXPECT_EQ((*dog.pack)[why.held_back.front().behind.front()].name, "for_months");

  auto const alarm =
      explain_alarm(dog.tables, dog.assessor, dog.patient, dog.alarm("sways_alone_now"));
  EXPECT_TRUE(alarm.is_held_back);
  ASSERT_FALSE(alarm.ways.empty());
  ASSERT_EQ(alarm.ways.front().changes.size(), 1U);
  auto const& change = alarm.ways.front().changes.front();
  EXPECT_EQ((*dog.pack)[change.sign].name, "for_months");
  EXPECT_EQ(change.answer, Answer(false));

  Dog other("answers: {for_months: no}\n");
  auto const open =
      explain_alarm(other.tables, other.assessor, other.patient, other.alarm("sways_alone_now"));
  EXPECT_FALSE(open.is_held_back);
  ASSERT_EQ(open.ways.size(), 1U) << "swaying is enough";
  ASSERT_EQ(open.ways.front().changes.size(), 1U);
  EXPECT_EQ((*other.pack)[open.ways.front().changes.front().sign].name, "sways");
}

TEST(Unless, ANowThatRestsOnAnUnknownMildFactCanBeCalmedByOneAnswer) {
  Dog dog("answers: {sways: yes, vomits: no}\n");
  auto const found = smallest_changes(dog.tables, dog.assessor, dog.patient);
  bool const is_found =
      std::any_of(found.lower_tier.begin(), found.lower_tier.end(), [&](ChangeSet const& set) {
        return set.changes.size() == 1 &&
               (*dog.pack)[set.changes.front().sign].name == "for_months";
      });
  EXPECT_TRUE(is_found);
}

TEST(Unless, WhatItAsksForIsNotToldByThatAlone) {
  // An answer of choice tells where an alarm uses it as true, not where it can only calm.
  std::string const choices = R"(
sign a "a"
  ask "?"
  answer yes or no
  seen by anyone
sign kind "kind"
  ask "?"
  answer one of plain, odd
  seen by anyone
alarm it "it"
  if a
  unless kind is plain
  see now
  because "x"
  cite judgement
)";
  EXPECT_TRUE(assess(pack_of(choices), "answers: {kind: plain}\n").judgement.nothing_told);
  EXPECT_EQ(assess(pack_of(choices), "answers: {a: yes, kind: plain}\n").judgement.fired.size(),
            0U);
}

std::string codes(std::string const& rest) {
  std::string out;
  for (auto const& warning : proofread(Tables(pack_of(rest))).warnings)
    if (warning.code == Code::untested_unless || warning.code == Code::danger_calms)
      out += (out.empty() ? "" : "; ") + warning.message;
  return out;
}

TEST(Unless, AnExampleMustShowItBothWays) {
  std::string const standing = "example stands\n  yes sways\n  expect tier now\n";
  std::string const held =
      "example held\n  yes sways, for_months\n  expect not alarm sways_alone_now\n"
      "example held_too\n  yes sways, vomits, journey\n  no male_thing\n  expect not alarm both\n";
  std::string const both = "example fires\n  yes sways, vomits\n  expect alarm both\n";
  EXPECT_EQ(codes(text + standing + held + both), "");
  EXPECT_EQ(codes(text + standing + both),
            "no example shows the alarm `sways_alone_now` held back by its `unless`; "
            "no example shows the alarm `both` held back by its `unless`");
  EXPECT_EQ(codes(text + held + both), "") << "the two that fire sway as well";
  EXPECT_EQ(codes(text + standing + held),
            "no example shows the alarm `both` standing beside its `unless`");
}

TEST(Unless, ADangerSignOfTheSameTierOrAHigherOneMustNotCalm) {
  auto const pack = [](std::string const& unless, std::string const& see) {
    return "sign a \"a\"\n  ask \"a?\"\n  answer yes or no\n  seen by anyone\n"
           "sign whole \"whole\"\n  ask \"w?\"\n  answer yes or no\n  seen by anyone\n"
           "sign danger \"danger\"\n  ask \"d?\"\n  answer yes or no\n  part of whole\n"
           "  seen by anyone\n"
           "sign steps \"steps\"\n  ask \"s?\"\n  answer steps none, little, much\n"
           "  seen by anyone\n"
           "alarm other \"other\"\n  if danger or steps at least much\n  see " +
           see +
           "\n  because \"x\"\n  cite judgement\n"
           "alarm it \"it\"\n  if a\n  unless " +
           unless +
           "\n  see soon\n  because \"x\"\n  cite judgement\n"
           "example e\n  yes a, danger\n  with steps much\n  expect alarm other\n"
           "example f\n  yes a\n  expect alarm it\n"
           "example g\n  yes a\n  no danger\n  with steps little\n  expect tier at least watch\n";
  };
  std::string const by_danger = "the danger sign `danger` would hold back the alarm `it`";
  EXPECT_EQ(codes(pack("danger", "now")), by_danger);
  EXPECT_EQ(codes(pack("danger", "soon")), by_danger);
  EXPECT_EQ(codes(pack("danger", "watch")), "") << "of a lesser tier it may";
  EXPECT_EQ(codes(pack("whole", "now")), by_danger) << "a yes to a part is a yes to the whole";
  EXPECT_EQ(codes(pack("not danger", "now")), "") << "one danger more lets it stand";
  EXPECT_EQ(codes(pack("steps is little", "now")), "");
  EXPECT_EQ(codes(pack("steps at least little", "now")),
            "the danger sign `steps` would hold back the alarm `it`");
}

TEST(Unless, ANumberOrAGateMayBeADangerSignToo) {
  auto const pack = [](std::string const& unless, std::string const& accept) {
    return "sign warm \"warm\"\n  ask \"w?\"\n  answer number in C from 30 to 44\n"
           "  seen by anyone\n"
           "sign bleeds \"bleeds\"\n  ask \"b?\"\n  answer yes or no\n  seen by anyone\n"
           "sign calm \"calm\"\n  ask \"c?\"\n  answer yes or no\n  applies if not bleeds\n"
           "  seen by anyone\n"
           "sign a \"a\"\n  ask \"a?\"\n  answer yes or no\n  seen by anyone\n"
           "alarm hot \"hot\"\n  if warm >= 39 C or bleeds\n  see now\n  because \"x\"\n"
           "  cite judgement\n"
           "alarm it \"it\"\n  if a\n  unless " +
           unless + "\n  see now\n  because \"x\"\n  cite judgement\n" + accept +
           "example e\n  yes a\n  expect alarm it\n";
  };
  auto const calms = [&](std::string const& unless, std::string const& accept = "") {
    std::string out;
    for (auto const& warning : proofread(Tables(pack_of(pack(unless, accept)))).warnings)
      if (warning.code == Code::danger_calms) out += warning.message;
    return out;
  };
  auto const by = [](std::string const& sign) {
    return "the danger sign `" + sign + "` would hold back the alarm `it`";
  };
  EXPECT_EQ(calms("warm >= 39 C"), by("warm"));
  EXPECT_EQ(calms("warm >= 38 C"), by("warm"));
  EXPECT_EQ(calms("not warm < 38 C"), by("warm"));
  EXPECT_EQ(calms("warm < 38 C"), "");
  EXPECT_EQ(calms("not calm"), by("bleeds")) << "a dog that bleeds cannot be calm";
  EXPECT_EQ(calms("calm"), "");
  // An `accept` that names one danger sign lets no other pass.
  EXPECT_EQ(calms("bleeds or warm >= 39 C", "  accept danger-calms \"`warm`: x.\"\n"),
            by("bleeds"));
  EXPECT_EQ(calms("bleeds", "  accept danger-calms \"It bleedsalot.\"\n"), by("bleeds"));
}

TEST(Unless, ABrokenPromiseSaysWhatHeldTheAlarmBack) {
  auto const instead = [](std::string const& answers, std::string const& promise) {
    auto const pack = pack_of(text + ("example e\n  " + answers + "\n  expect " + promise + "\n"));
    Tables const tables(pack);
    Assessor assessor(tables);
    auto const broken = broken_promises(tables, assessor, pack->examples.front());
    return broken.empty() ? std::string() : broken.front().instead;
  };
  EXPECT_EQ(instead("yes sways, for_months", "alarm sways_alone_now"),
            "held back by its `unless`: for_months");
  EXPECT_EQ(instead("yes sways", "alarm sways_alone_now"), "");
  EXPECT_EQ(instead("yes sways", "alarm both"), "it did not fire: not known: vomits");
  EXPECT_EQ(instead("no sways", "alarm both"),
            "it did not fire: it would need `sways`, which is no here, and `vomits`, which is not "
            "known");
  EXPECT_EQ(instead("yes sways", "not alarm sways_alone_now"),
            "it fired: of its `unless` not known: for_months");
  EXPECT_EQ(instead("yes sways\n  no for_months", "not alarm sways_alone_now"),
            "it fired: its `unless` does not hold: for_months");
  EXPECT_EQ(instead("yes sways", "not alarm sways_alone_soon"), "it fired");
}

}  // namespace
}  // namespace flinch::test
