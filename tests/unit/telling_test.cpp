#include "flinch/telling/telling.hpp"

#include <gtest/gtest.h>

#include "support/small_pack.hpp"

namespace flinch {
namespace {

using test::case_of;
using test::pack_of;
using Lines = std::vector<std::string>;

std::string sign(std::string const& name) {
  return "sign " + name + " \"" + name + "\"\n  ask \"" + name +
         "?\"\n  answer yes or no\n  seen by anyone\n";
}

std::string alarm(std::string const& name, std::string const& clauses) {
  return "alarm " + name + "_alarm \"" + name + " alarm\"\n  if " + name + "\n" + clauses +
         "  because \"Of " + name + ".\"\n  cite judgement\n";
}

std::string first_aid(std::string const& name, std::string const& clauses) {
  return "care " + name + "\n  first aid\n  how \"How.\"\n" + clauses +
         "  grade C\n  because \"x\"\n  cite judgement\n";
}

std::string const causes =
    "cause mild \"Mild\"\n  base 90 per 1000\n  see watch\n  because \"x\"\n  cite judgement\n"
    "cause bad \"Bad\"\n  base 1 per 1000\n  see now\n  because \"x\"\n  cite judgement\n"
    "rule r\n  if d\n  usual 1%\n  in bad 90%\n  because \"x\"\n  cite judgement\n";

std::string const base = sign("a") + sign("b") + sign("c") + sign("d") + causes;

Telling told(std::string const& statements, std::string const& answers,
             Reader reader = Reader::keeper) {
  auto const pack = pack_of(base + statements);
  Tables const tables(pack);
  Assessor assessor(tables);
  return tell(tables, assessor.assess(case_of(*pack, "answers: {" + answers + "}")), reader);
}

Lines script(std::string const& statements, std::string const& answers) {
  return told(statements, answers).script.lines;
}

TEST(Script, FirstAidInTheOrderOfThePackThenAlarmsThenWhatSuitsAnyDog) {
  auto const pack = first_aid("any", "  say \"Any dog.\"\n") +
                    first_aid("air", "  say \"Air.\"\n  fit if a\n") +
                    first_aid("blood", "  say \"Blood.\"\n  fit if b\n") +
                    alarm("a", "  see now\n  say \"Alarm a.\"\n");
  EXPECT_EQ(script(pack, "b: yes, a: yes"), (Lines{"Air.", "Blood.", "Alarm a.", "Any dog."}));
  EXPECT_EQ(script(pack, "a: no, b: no, c: yes"), Lines{}) << "nothing that is seen within a day";
}

TEST(Script, ALineThatGivesWayToOneThatIsToldIsNot) {
  auto const pack = first_aid("cool", "  say \"Cool.\"\n  fit if b\n") +
                    first_aid("warm", "  say \"Warm.\"\n  gives way to cool\n  fit if a\n") +
                    alarm("a", "  see now\n  say \"Blanket.\"\n  gives way to warm, cool\n") +
                    alarm("c", "  see now\n  say \"Cushion.\"\n  gives way to warm\n");
  EXPECT_EQ(script(pack, "a: yes, b: yes"), Lines{"Cool."});
  EXPECT_EQ(script(pack, "a: yes, b: no"), Lines{"Warm."});
  EXPECT_EQ(script(pack, "c: yes, a: no"), Lines{"Cushion."});
}

TEST(Telling, AMeasureWhoseBarIsOpenIsAskedAboutAndNeverTold) {
  auto const pack = first_aid("cover", "  say \"Cover it.\"\n  fit if a\n  never if b\n") +
                    alarm("a", "  see now\n  say \"Go.\"\n");
  auto const open = told(pack, "a: yes");
  EXPECT_EQ(open.script.lines, Lines{"Go."});
  EXPECT_EQ(open.ask_us_first, Lines{"cover"});
  EXPECT_EQ(ask_us_first_words(open), "Ask us first, before any of these: cover.");
  auto const cleared = told(pack, "a: yes, b: no");
  EXPECT_EQ(cleared.script.lines, (Lines{"Cover it.", "Go."}));
  EXPECT_EQ(ask_us_first_words(cleared), "");
  EXPECT_EQ(told(pack, "a: yes, b: yes").ask_us_first, Lines{}) << "barred is not asked about";
}

TEST(Script, SaysAThingOnceAndNoMoreThanFive) {
  std::string pack;
  for (auto const* name : {"one", "two", "three", "four", "five", "six"})
    pack += first_aid(name, std::string("  say \"Do ") + name + ".\"\n  fit if a\n");
  pack += alarm("a", "  see now\n  say \"Do two.\"\n") + alarm("b", "  see now\n  say \"Then.\"\n");
  auto const out = told(pack, "a: yes, b: yes").script;
  EXPECT_EQ(out.lines, (Lines{"Do one.", "Do two.", "Do three.", "Do four.", "Do five."}));
  EXPECT_EQ(out.further, (Lines{"Do six.", "Then."}));
}

TEST(Script, OfALesserAlarmNothingIsSaid) {
  auto const pack = alarm("a", "  see now\n  say \"Now.\"\n") +
                    alarm("b", "  see soon\n  say \"There is time.\"\n");
  EXPECT_EQ(script(pack, "a: yes, b: yes"), Lines{"Now."});
}

TEST(Script, WhatIsNotOfferedIsNotTold) {
  auto const pack = first_aid("cool", "  say \"Cool.\"\n  fit if a\n  never if b \"Not then.\"\n") +
                    alarm("a", "  see now\n");
  EXPECT_EQ(script(pack, "a: yes, b: no"), Lines{"Cool."});
  EXPECT_EQ(script(pack, "a: yes, b: yes"), Lines{});
  EXPECT_EQ(script(pack, "a: yes"), Lines{}) << "unknown asks first";
}

TEST(Telling, AnAlarmAndALikelihoodAreToldApart) {
  auto const by_alarm = told(alarm("a", "  see now\n"), "a: yes").urgency;
  EXPECT_FALSE(by_alarm.is_by_likelihood);
  ASSERT_EQ(by_alarm.reasons.size(), 1U);
  EXPECT_EQ(by_alarm.reasons[0].by, UrgentBy::alarm);
  EXPECT_EQ(by_alarm.reasons[0].what, "a alarm.");
  EXPECT_EQ(by_alarm.reasons[0].because, "Of a.");
  auto const likely = told(alarm("a", "  see now\n"), "d: yes").urgency;
  EXPECT_TRUE(likely.is_by_likelihood);
  ASSERT_EQ(likely.reasons.size(), 1U);
  EXPECT_EQ(likely.reasons[0].by, UrgentBy::likelihood);
  EXPECT_NE(likely.reasons[0].what.find("Bad"), std::string::npos) << likely.reasons[0].what;
}

TEST(Telling, WhatIsOpenIsOneListAndAKeeperIsAskedForNothingOfAClinic) {
  auto const pack = "sign x \"x\"\n  ask \"x?\"\n  answer yes or no\n  seen by clinic\n" +
                    alarm("a", "  see now\n") + alarm("x", "  see now\n");
  auto const asks = [&](Reader reader) {
    Lines out;
    for (auto const& question : told(pack, "b: yes, c: no, d: no", reader).open)
      out.push_back(question.ask + question.who_else);
    return out;
  };
  EXPECT_EQ(asks(Reader::keeper), Lines{"a?"});
  EXPECT_EQ(asks(Reader::handler), Lines{"a?"});
  EXPECT_EQ(asks(Reader::nurse), (Lines{"a?", "x?at the clinic"}));
  EXPECT_NE(told(pack, "b: yes, c: no, d: no", Reader::nurse).open_count.find("1 needs a clinic"),
            std::string::npos);
}

TEST(Telling, WhereTheVetComesNobodyIsSentToAClinic) {
  auto const pack =
      pack_of(base + "sign x \"x\"\n  ask \"x?\"\n  answer yes or no\n  seen by clinic\n" +
              alarm("a", "  see now\n") + alarm("x", "  see now\n"));
  Tables const tables(pack);
  Assessor assessor(tables);
  Setting setting;
  setting.practice.emplace();
  setting.practice->seen_at = SeenAt::home;
  auto const telling = [&](std::string const& answers) {
    return tell(tables, assessor.assess(case_of(*pack, "answers: {" + answers + "}")),
                Reader::nurse, setting);
  };
  auto const nothing = telling("");
  EXPECT_EQ(nothing.urgency.say.find("clinic"), std::string::npos) << nothing.urgency.say;
  for (auto const& question : nothing.open)
    EXPECT_EQ(question.who_else, question.ask == "x?" ? "by the vet" : "") << question.ask;
  EXPECT_EQ(nothing.open_count.find("clinic"), std::string::npos) << nothing.open_count;
  auto const now = telling("a: yes");
  ASSERT_EQ(now.ring_again.size(), 1U);
  EXPECT_EQ(now.ring_again[0].text, "ring us again at once.");
}

// Who was well until it ate something has no signs of a cause: that a rule speaks of what was taken
// makes nobody test for that cause, and the treatment goes by the whole of what tells which it was.
TEST(Telling, NextForADogThatTookSomethingIsItsTreatment) {
  std::string const pills =
      sign("pills") +
      "sign red_pill \"red\"\n  ask \"?\"\n  answer yes or no\n  part of pills\n  seen by anyone\n"
      "sign mg \"mg\"\n  ask \"?\"\n  answer number in mg from 0 to 1000\n  seen by anyone\n"
      "cause sore \"Sore\"\n  base 50 per 1000\n  see watch\n  next \"Walk it\"\n  because \"x\"\n"
      "  cite judgement\n"
      "rule on_pills\n  if pills\n  usual 5%\n  in sore 50%\n  because \"x\"\n  cite judgement\n"
      "rule is_stiff\n  if a\n  usual 5%\n  in sore 50%\n  because \"x\"\n  cite judgement\n"
      "care red_taken \"Red\"\n  taken mg\n  level 10 mg per kg see now \"harm\"\n  fit if "
      "red_pill\n"
      "  how \"Ring.\"\n  grade C\n  because \"x\"\n  cite judgement\n"
      "care wash \"Wash\"\n  for clinician\n  fit if pills\n  how \"Wash the stomach. Then "
      "wait.\"\n"
      "  grade C\n  because \"x\"\n  cite judgement\n";
  EXPECT_EQ(told(pills, "red_pill: yes").next, Lines{"Wash the stomach"});
  EXPECT_EQ(told(pills, "red_pill: yes, a: yes").next, (Lines{"Wash the stomach", "Walk it"}));
}

}  // namespace
}  // namespace flinch
