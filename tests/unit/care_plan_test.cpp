#include "flinch/care/plan.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <stdexcept>

#include "flinch/assess/open_questions.hpp"
#include "flinch/care/promises.hpp"
#include "support/small_pack.hpp"

namespace flinch {
namespace {

using test::case_of;
using test::pack_of;

std::string const words = test::yes_or_no_signs({"a", "b", "c", "danger"}) + R"(
sign pill_mg "pill"
  ask "?"
  answer number in mg from 0 to 10000
  seen by anyone
sign pill_hours "pill hours"
  ask "?"
  answer number in hours from 0 to 100
  seen by anyone
cause mild "Mild"
  base 90 per 1000
  see watch
  because "x"
  cite judgement
rule a_rule "A"
  if a
  usual 50%
  in mild 51%
  because "x"
  cite judgement
rule b_rule "B"
  if b
  usual 50%
  in mild 51%
  because "x"
  cite judgement
rule c_rule "C"
  if c
  usual 50%
  in mild 51%
  because "x"
  cite judgement
alarm red "Red"
  if danger
  see now
  because "x"
  cite judgement
)";

std::string care(std::string const& name, std::string const& clauses) {
  return "care " + name + "\n" + clauses + "  grade C\n  because \"x\"\n  cite judgement\n";
}

struct Planned {
  std::shared_ptr<Pack const> pack;
  CarePlan plan;
  [[nodiscard]] PlannedMeasure const* find(std::string const& name) const {
    for (auto const* list : {&plan.measures, &plan.avoid, &plan.watch})
      for (auto const& measure : *list)
        if (pack->care[measure.care].name == name) return &measure;
    return nullptr;
  }
};

Planned planned_by(std::shared_ptr<Pack const> pack, std::string const& yaml,
                   Reader reader = Reader::keeper) {
  Planned out{std::move(pack), {}};
  Tables const tables(out.pack);
  Assessor assessor(tables);
  out.plan = plan_care(tables, assessor.assess(case_of(*out.pack, yaml)), reader);
  return out;
}

Planned planned(std::string const& statements, std::string const& yaml,
                Reader reader = Reader::keeper) {
  return planned_by(pack_of(words + statements), yaml, reader);
}

constexpr char const* settled =
    "dog: {species: dog, weight: 10 kg}\nanswers: {a: no, b: no, c: no, danger: no}";

constexpr char const* settled_and_told =
    "dog: {species: dog, weight: 10 kg}\nanswers: {a: no, b: no, c: yes, danger: no}";

// Decided here, so that no page leaves out what another tells.
TEST(CareWarnings, TheSameAreToldOnEveryPage) {
  auto const statements =
      care("fits", "  avoid \"x\"\n") + care("may_fit", "  avoid \"x\"\n  fit if a\n") +
      care("never", "  avoid \"x\"\n  never if b\n") +
      care("checks", "  for clinician\n  avoid \"x\"\n") +
      "care weak\n  avoid \"x\"\n  grade D\n  because \"x\"\n  cite judgement\n";
  auto const names = [](Planned const& planned, std::vector<std::size_t> const& told) {
    std::vector<std::string> out;
    for (auto const i : told) out.push_back(planned.pack->care[planned.plan.avoid[i].care].name);
    return out;
  };
  using Names = std::vector<std::string>;
  auto const at = [&](char const* danger, Reader reader) {
    return planned(statements, std::string("answers: {b: yes, c: no, danger: ") + danger + "}",
                   reader);
  };
  for (auto const reader : {Reader::keeper, Reader::nurse, Reader::clinician}) {
    auto const calm = at("no", reader);
    auto const told = warnings_to_tell(*calm.pack, calm.plan);
    EXPECT_EQ(names(calm, told.apply), (Names{"fits", "weak"}));
    EXPECT_EQ(names(calm, told.may_not), Names{"may_fit"});
    auto const urgent = at("yes", reader);
    auto const soon = warnings_to_tell(*urgent.pack, urgent.plan);
    EXPECT_EQ(names(urgent, soon.apply), Names{"fits"}) << "at the top tier grade D is left out";
    EXPECT_EQ(names(urgent, soon.may_not), Names{"may_fit"});
  }
}

// The whole table of never against ask vet: the most cautious word wins.
TEST(CareGates, KleeneTableOfNeverAndAskVet) {
  auto const statements = care("m", "  how \"x\"\n  never if a \"a forbids\"\n  ask vet if b\n");
  struct Row {
    char const* a;
    char const* b;
    Advice advice;
  };
  for (auto const& row : {Row{"no", "no", Advice::offered},
                          {"no", "yes", Advice::ask_vet},
                          {"no", "can't tell", Advice::ask_vet},
                          {"yes", "no", Advice::withheld},
                          {"yes", "yes", Advice::withheld},
                          {"yes", "can't tell", Advice::withheld},
                          {"can't tell", "no", Advice::ask_first},
                          {"can't tell", "yes", Advice::ask_first},
                          {"can't tell", "can't tell", Advice::ask_first}}) {
    auto const out = planned(statements, std::string("dog: {species: dog}\nanswers: {a: ") + row.a +
                                             ", b: " + row.b + "}");
    ASSERT_NE(out.find("m"), nullptr);
    EXPECT_EQ(out.find("m")->advice, row.advice) << row.a << ' ' << row.b;
  }
}

TEST(CareGates, TheReasonAndTheAnswerBehindItAreKept) {
  auto const out = planned(care("m", "  how \"x\"\n  never if a or b \"they forbid\"\n"),
                           "dog: {species: dog}\nanswers: {a: no, b: yes}");
  auto const& gates = out.find("m")->gates;
  ASSERT_EQ(gates.size(), 1U);
  EXPECT_EQ(gates[0].reason, "they forbid");
  EXPECT_EQ(gates[0].signs, std::vector{*out.pack->find_sign("b")});
}

TEST(CareGates, NeverAskedIsAskedFirst) {
  auto const out = planned(care("m", "  how \"x\"\n  never if a or b\n"),
                           "dog: {species: dog}\nanswers: {a: no}");
  auto const& gates = out.find("m")->gates;
  EXPECT_EQ(out.find("m")->advice, Advice::ask_first);
  EXPECT_EQ(gates[0].signs, std::vector{*out.pack->find_sign("b")});
}

TEST(CareGates, WhatDoesNotFitIsLeftOutWhatMayFitIsMarked) {
  auto const statements = care("m", "  how \"x\"\n  fit if a\n");
  EXPECT_EQ(planned(statements, "dog: {species: dog}\nanswers: {a: no}").find("m"), nullptr);
  EXPECT_EQ(planned(statements, "dog: {species: dog}").find("m")->fits, Truth::unknown);
  EXPECT_EQ(planned(statements, "dog: {species: dog}\nanswers: {a: yes}").find("m")->fits,
            Truth::yes);
}

TEST(CareGates, TheClinicianAloneSeesCrossChecks) {
  auto const statements = care("m", "  for clinician\n  give 1 mg per kg by mouth\n");
  EXPECT_EQ(planned(statements, settled, Reader::keeper).find("m"), nullptr);
  EXPECT_EQ(planned(statements, settled, Reader::nurse).find("m"), nullptr);
  EXPECT_NE(planned(statements, settled, Reader::clinician).find("m"), nullptr);
}

// To have the cupboard open, not to draw up: no dose is among what the nurse gets.
TEST(CareGates, TheNurseHearsWhichInjectionsTheVetMayAskFor) {
  auto const statements =
      care("m", "  for clinician\n  give 1 mg per kg by injection\n") +
      care("n", "  for clinician\n  give 1 mg per kg by injection\n  never if c \"x\"\n") +
      care("o", "  for clinician\n  give 1 mg per kg by mouth\n");
  auto const* in_danger =
      "dog: {species: dog, weight: 10 kg}\nanswers: {a: no, b: no, c: yes, danger: yes}";
  auto const nurse = planned(statements, in_danger, Reader::nurse);
  ASSERT_EQ(nurse.plan.vet_may_ask_for.size(), 1U);
  EXPECT_EQ(nurse.pack->care[nurse.plan.vet_may_ask_for[0]].name, "m");
  EXPECT_EQ(nurse.find("m"), nullptr);
  for (auto const reader : {Reader::keeper, Reader::clinician})
    EXPECT_TRUE(planned(statements, in_danger, reader).plan.vet_may_ask_for.empty());
  EXPECT_TRUE(planned(statements, settled_and_told, Reader::nurse).plan.vet_may_ask_for.empty())
      << "nothing is in a hurry";
}

GateKind mouth_gate(std::string const& yaml) {
  auto const out = planned(care("m", "  first aid\n  give 1 mg per kg by mouth\n") +
                               care("n", "  first aid\n  how \"x\"\n") +
                               care("o", "  first aid\n  by mouth\n  how \"x\"\n"),
                           yaml);
  EXPECT_EQ(out.find("n")->advice, Advice::offered) << "only what goes by mouth is held back";
  EXPECT_EQ(out.find("o")->advice, out.find("m")->advice);
  EXPECT_NE(out.find("m")->advice, Advice::offered);
  return out.find("m")->gates.at(0).kind;
}

TEST(CareMouth, NothingByMouthAtTheTopTier) {
  EXPECT_EQ(mouth_gate("dog: {species: dog, weight: 10 kg}\nanswers: {danger: yes}"),
            GateKind::by_mouth_now);
}

TEST(CareMouth, AnAmountWithoutAWayMayBeSwallowed) {
  auto const out = planned(care("mass", "  first aid\n  give 1 mg per kg every 8 hours\n") +
                               care("volume", "  first aid\n  give 2 mL\n") +
                               care("pieces", "  first aid\n  give 2 every 8 hours\n") +
                               care("minutes", "  first aid\n  give 5 minutes every 6 hours\n") +
                               care("skin", "  first aid\n  give 1 mg per kg on the skin\n"),
                           "dog: {species: dog, weight: 10 kg}\nanswers: {danger: yes}");
  EXPECT_EQ(out.find("mass")->advice, Advice::withheld);
  EXPECT_EQ(out.find("volume")->advice, Advice::withheld);
  EXPECT_EQ(out.find("pieces")->advice, Advice::withheld);
  EXPECT_EQ(out.find("minutes")->advice, Advice::offered);
  EXPECT_EQ(out.find("skin")->advice, Advice::offered);
}

TEST(CareMouth, NothingByMouthWhileTooLittleIsKnown) {
  EXPECT_EQ(mouth_gate("dog: {species: dog, weight: 10 kg}\nanswers: {danger: no}"),
            GateKind::by_mouth_nothing_told);
}

TEST(CareMouth, WhileDangerSignsAreOpenTheyAreAskedFirst) {
  EXPECT_EQ(mouth_gate("dog: {species: dog, weight: 10 kg}\nanswers: {a: no, b: no, c: yes}"),
            GateKind::by_mouth_may_rise);
}

TEST(CareMouth, OpenWhenAllIsKnownToBeWell) {
  auto const out = planned(care("m", "  give 1 mg per kg by mouth\n"), settled_and_told);
  EXPECT_EQ(out.find("m")->advice, Advice::offered);
  EXPECT_FALSE(out.plan.mouth);
}

TEST(CareDoses, AMissingWeightIsAskedForAnImpossibleOneWithholds) {
  auto const sound = care("m", "  give 1 mg per kg by skin\n");
  auto const missing = planned(sound, "dog: {species: dog}\nanswers: {a: no}");
  EXPECT_EQ(missing.find("m")->advice, Advice::ask_first);
  EXPECT_EQ(*missing.find("m")->gates.at(0).refusal, DoseRefusal::weight_unknown);
  auto const tiny = planned(sound, "dog: {species: dog, weight: 300 g}\nanswers: {a: no}");
  EXPECT_EQ(tiny.find("m")->advice, Advice::withheld);
  EXPECT_EQ(*tiny.find("m")->gates.at(0).refusal, DoseRefusal::weight_out_of_range);
}

TEST(CareTopTier, OnlyFirstAidDoesNotWait) {
  auto const statements = care("m", "  how \"x\"\n") + care("n", "  first aid\n  how \"x\"\n") +
                          care("o", "  avoid \"x\"\n") + care("p", "  watch \"x\"\n");
  auto const now = planned(statements, "dog: {species: dog}\nanswers: {danger: yes}");
  EXPECT_EQ(now.find("m")->gates.at(0).kind, GateKind::leave_now);
  EXPECT_EQ(now.find("m")->advice, Advice::withheld);
  for (auto const* name : {"n", "o", "p"}) EXPECT_EQ(now.find(name)->advice, Advice::offered);
  EXPECT_EQ(planned(statements, settled).find("m")->advice, Advice::offered);
}

char const* const pill = R"(
care pill "Pill"
  taken pill_mg
  since pill_hours
  level 100 mg per kg see now "death"
  level 25 mg per kg "vomiting"
  fit if not c
  how "x"
  grade C
  because "x"
  cite judgement
)";

struct Weighed {
  std::shared_ptr<Pack const> pack;
  Assessment result;
  CarePlan plan;
  [[nodiscard]] std::string tier() const { return test::tier_name(*pack, result.judgement.tier); }
};

Weighed weighed(std::string const& yaml) {
  Weighed out{pack_of(words + std::string(pill)), {}, {}};
  Tables const tables(out.pack);
  Assessor assessor(tables);
  out.result = assessor.assess(case_of(*out.pack, yaml));
  out.plan = plan_care(tables, out.result, Reader::keeper);
  return out;
}

TEST(Exposures, LevelsAreReachedFromLowToHighAndSetTheTierLikeAnAlarm) {
  auto const below = weighed(
      "dog: {species: dog, weight: 8 kg}\nanswers: {pill_mg: 199 mg, "
      "a: no, b: no, c: no, danger: no, pill_hours: 3 hours}");
  ASSERT_EQ(below.result.judgement.exposures.size(), 1U);
  EXPECT_TRUE(below.result.judgement.exposures[0].reached.empty());
  EXPECT_EQ(*below.result.judgement.exposures[0].hours, 3);
  auto const at = weighed(
      "dog: {species: dog, weight: 8 kg}\nanswers: {pill_mg: 200 mg, "
      "a: no, b: no, c: no, danger: no}");
  EXPECT_EQ(at.result.judgement.exposures[0].reached, std::vector<std::size_t>{0});
  EXPECT_FALSE(at.result.judgement.exposures[0].see);
  EXPECT_NE(at.tier(), "now");
  auto const deadly = weighed(
      "dog: {species: dog, weight: 8 kg}\nanswers: {pill_mg: 800 mg, "
      "a: no, b: no, c: no, danger: no}");
  EXPECT_EQ(deadly.result.judgement.exposures[0].reached, (std::vector<std::size_t>{0, 1}));
  EXPECT_EQ(deadly.tier(), "now");
  EXPECT_EQ(test::tier_name(*deadly.pack, deadly.result.judgement.alarm_tier), "now");
  EXPECT_EQ(deadly.plan.tier, deadly.result.judgement.tier);
  EXPECT_EQ(deadly.plan.mouth->kind, GateKind::by_mouth_now);
}

TEST(Exposures, AnUnknownSubstanceCountsByItsAmount) {
  auto const unknown =
      weighed("dog: {species: dog, weight: 8 kg}\nanswers: {pill_mg: 800 mg, a: no, b: no}");
  EXPECT_EQ(unknown.result.judgement.exposures.at(0).is_this, Truth::unknown);
  EXPECT_EQ(unknown.tier(), "now");
}

TEST(Exposures, AKnownSubstanceWithoutAnAmountCountsAsTheMostHarmful) {
  for (auto const* amount : {"", ", pill_mg: can't tell", ", pill_mg: 0 mg"}) {
    auto const known =
        weighed(std::string("dog: {species: dog, weight: 8 kg}\nanswers: {c: no") + amount + "}");
    EXPECT_FALSE(known.result.judgement.exposures.at(0).mg) << amount;
    EXPECT_TRUE(known.result.judgement.exposures.at(0).reached.empty()) << amount;
    EXPECT_EQ(known.tier(), "now") << amount;
  }
}

TEST(Exposures, AMissingOrImpossibleWeightCountsAsTheSmallestDog) {
  for (auto const* patient : {"{species: dog}", "{species: dog, weight: 300 g}"}) {
    auto const little = weighed(std::string("dog: ") + patient +
                                "\nanswers: {a: no, b: no, c: no, danger: no, pill_mg: 5 mg}");
    EXPECT_FALSE(little.result.judgement.exposures.at(0).mg_per_kg);
    EXPECT_NE(little.tier(), "now") << patient;
    auto const much = weighed(std::string("dog: ") + patient +
                              "\nanswers: {a: no, b: no, c: no, danger: no, pill_mg: 50 mg}");
    EXPECT_EQ(much.tier(), "now") << patient;
    EXPECT_TRUE(much.result.judgement.exposures.at(0).reached.empty()) << "but no level is claimed";
  }
}

TEST(Exposures, WhatWasNotTakenSetsNothingAndWhatIsOpenStaysPossible) {
  auto const not_taken = weighed(settled + std::string("\n"));
  EXPECT_EQ(not_taken.tier(), "now") << "not c is the pill, and nobody said how much";
  auto const other = weighed("dog: {species: dog}\nanswers: {a: no, b: no, c: yes, danger: no}");
  EXPECT_TRUE(other.result.judgement.exposures.empty());
  EXPECT_NE(test::tier_name(*other.pack, other.result.judgement.ceiling), "now");
  auto const open = weighed("dog: {species: dog}\nanswers: {a: no, b: no, danger: no}");
  EXPECT_TRUE(open.result.judgement.exposures.empty());
  EXPECT_NE(open.tier(), "now");
  EXPECT_EQ(test::tier_name(*open.pack, open.result.judgement.ceiling), "now");
  Tables const tables(open.pack);
  auto const questions = open_questions(tables, open.result);
  ASSERT_EQ(questions.size(), 1U);
  EXPECT_EQ(questions[0].sign, *open.pack->find_sign("c"));
  EXPECT_EQ(questions[0].alone_reaches, TierId{0});
}

TEST(CareStop, KnownTrueWithholdsUnknownAndFalseDoNot) {
  auto const statements = care("m", "  how \"x\"\n  stop if a \"it hurts\"\n");
  EXPECT_EQ(planned(statements, settled).find("m")->advice, Advice::offered);
  auto const unknown = planned(statements, "dog: {species: dog}\nanswers: {b: no}");
  EXPECT_EQ(unknown.find("m")->advice, Advice::offered);
  auto const stopped = planned(statements, "dog: {species: dog}\nanswers: {a: yes}");
  EXPECT_EQ(stopped.find("m")->advice, Advice::withheld);
  EXPECT_EQ(stopped.find("m")->gates.at(0).kind, GateKind::stop);
  EXPECT_EQ(stopped.find("m")->gates.at(0).reason, "it hurts");
}

char const* const soon_alarm = R"(
alarm amber "Amber"
  if a
  see soon
  because "x"
  cite judgement
)";

// The small pack with a tier of half a day in place of three days.
std::shared_ptr<Pack const> pack_of_today(std::string const& statements) {
  std::string text = test::preamble + (words + statements);
  std::string const three_days = "within 3 days";
  text.replace(text.find(three_days), three_days.size(), "within 12 hours");
  return test::sound_pack({{"pack.flinch", text}});
}

TEST(CareWithinADay, WhatIsNotForTheWaitWaits) {
  auto const statements =
      soon_alarm + care("m", "  how \"x\"\n") + care("n", "  first aid\n  how \"x\"\n") +
      care("o", "  while waiting\n  how \"x\"\n") + care("w", "  watch \"x\"\n") +
      care("v", "  while waiting\n  watch \"x\"\n") + care("p", "  avoid \"x\"\n") +
      care("f", "  fasting \"food\"\n");
  auto const pack = pack_of_today(statements);
  auto const today = planned_by(pack, "dog: {species: dog}\nanswers: {a: yes, danger: no}");
  ASSERT_EQ(test::tier_name(*today.pack, today.plan.tier), "soon");
  EXPECT_EQ(today.find("m")->advice, Advice::withheld);
  EXPECT_EQ(today.find("m")->gates.at(0).kind, GateKind::seen_first);
  EXPECT_EQ(today.find("w")->advice, Advice::withheld);
  for (auto const* name : {"n", "o", "v", "p", "f"})
    EXPECT_EQ(today.find(name)->advice, Advice::offered) << name;
  auto const well = planned_by(pack, settled_and_told);
  for (auto const* name : {"m", "n", "o", "w", "v", "p"})
    EXPECT_EQ(well.find(name)->advice, Advice::offered) << name;
  EXPECT_EQ(well.find("f"), nullptr) << "no fast where food may go on";
}

TEST(CareDoses, NoNumberStandsWhereAGateIsAnsweredYes) {
  auto const statements =
      care("m", "  for clinician\n  give 1 mg per kg by skin\n  ask vet if b \"asked\"\n");
  auto const dose_of = [&](char const* b) {
    return planned(
               statements,
               std::string("dog: {species: dog, weight: 10 kg}\nanswers: {a: no, danger: no, b: ") +
                   b + "}",
               Reader::clinician)
        .find("m")
        ->dose;
  };
  EXPECT_TRUE(dose_of("no"));
  EXPECT_TRUE(dose_of("can't tell")) << "it holds if that is answered no, and says so";
  EXPECT_FALSE(dose_of("yes"));
}

TEST(CareMouth, OfSeveralFastsTheFirstThatIsKnownToFitIsTold) {
  auto const statements = care("none", "  fasting \"no water\"\n  fit if b\n") +
                          care("meal", "  fasting \"no meal\"\n") +
                          care("late", "  fasting \"never told\"\n");
  auto const told = [&](std::string const& answers) -> std::string {
    auto const out = planned(statements, "dog: {species: dog}\nanswers: {" + answers + "}");
    return out.plan.fast ? out.pack->care[out.plan.avoid[*out.plan.fast].care].name : "";
  };
  EXPECT_EQ(told("danger: yes, b: yes"), "none");
  EXPECT_EQ(told("danger: yes, b: no"), "meal");
  EXPECT_EQ(told("danger: yes"), "meal") << "unknown takes no water away";
  EXPECT_EQ(told("danger: no, a: no, b: yes, c: no"), "") << "no fast where no visit is near";
  EXPECT_EQ(told("danger: no"), "") << "nothing told is no reason to fast";
}

TEST(CareQuestions, AKeeperIsAskedForNoTestThatOnlyAClinicCanDo) {
  auto const* const test = R"(
sign drawer "drawer test"
  ask "Does the shin slide?"
  answer yes or no
  seen by clinic
  may hurt
)";
  auto const statements = test + care("m", "  how \"x\"\n  never if drawer or b \"loose\"\n");
  auto const asked = [&](Reader reader) {
    auto const out =
        planned(statements,
                "dog: {species: dog, weight: 10 kg}\nanswers: {a: no, c: no, danger: no}", reader);
    std::vector<std::string> names;
    for (auto const& question : out.plan.questions)
      names.push_back((*out.pack)[question.sign].name);
    names.push_back(out.plan.for_examination.empty() ? "-" : "examination");
    return names;
  };
  EXPECT_EQ(asked(Reader::keeper), (std::vector<std::string>{"examination"}));
  EXPECT_EQ(asked(Reader::clinician), (std::vector<std::string>{"drawer", "b", "-"}));
}

TEST(CarePromises, EachKindIsKeptAndBroken) {
  auto const statements = care("m", "  how \"x\"\n  never if a \"no\"\n  fit if not c\n");
  auto const broken = [&](std::string const& patient, std::string const& promise) {
    auto const pack =
        pack_of(words + statements + "example e\n" + patient + "  expect " + promise + "\n");
    Tables const tables(pack);
    Assessor assessor(tables);
    auto const out = broken_promises(tables, assessor, pack->examples.at(0));
    return out.empty() ? std::string() : out[0].promise + ": " + out[0].instead;
  };
  std::string const open = "  no a, b, c, danger\n";
  std::string const barred = "  yes a\n  no b, c, danger\n";
  std::string const unknown = "  yes b\n  no c, danger\n";
  std::string const unfit = "  yes c\n  no a, b, danger\n";
  EXPECT_EQ(broken(open, "offered m"), "");
  EXPECT_EQ(broken(barred, "withheld m"), "");
  EXPECT_EQ(broken(unknown, "ask first m"), "");
  EXPECT_EQ(broken(unfit, "not offered m"), "");
  EXPECT_EQ(broken(barred, "offered m"), "offered m: withheld: `never if`: a");
  EXPECT_EQ(broken(unknown, "offered m"), "offered m: ask first: `never if`: not known: a");
  EXPECT_EQ(broken(open, "withheld m"), "withheld m: offered");
  EXPECT_EQ(broken(open, "ask first m"), "ask first m: offered");
  EXPECT_EQ(broken(open, "not offered m"), "not offered m: offered");
  EXPECT_EQ(broken(unfit, "withheld m"), "withheld m: it does not fit");
  EXPECT_EQ(broken("  no a, danger\n", "offered m"),
            "offered m: it is not known to fit: not known: c");
}

// Every way that is swallowed is barred as `by mouth` is; no other is.
TEST(CarePlan, WhatIsSwallowedIsHeldBackWhateverItsWayIsCalled) {
  auto const advice = [&](std::string const& way) {
    return planned(care("m", "  first aid\n  give 1 mg per kg " + way + "\n"),
                   "dog: {species: dog, weight: 10 kg}\nanswers: {danger: yes}")
        .find("m")
        ->advice;
  };
  for (auto const* way : {"by mouth", "by drench", "by gavage", "by tube", "under the tongue",
                          "on the food", "on the plate", "into the water", "into the stomach"})
    EXPECT_EQ(advice(way), Advice::withheld) << way;
  for (auto const* way : {"by injection", "on the skin", "into the vein", "by vein", "on the back"})
    EXPECT_EQ(advice(way), Advice::offered) << way;
}

// Each amount is reckoned in the row: dose x weight, then down to what can be measured.
TEST(CarePromises, AnAmountIsPromisedAsItComesOut) {
  auto const broken = [&](std::string const& clauses, std::string const& weight,
                          std::string const& promise) {
    auto const pack = pack_of(words + care("m", clauses) + "example e\n  dog weight " + weight +
                              "\n  yes c\n  no a, danger\n  expect " + promise + "\n");
    Tables const tables(pack);
    Assessor assessor(tables);
    auto const out = broken_promises(tables, assessor, pack->examples.at(0));
    return out.empty() ? std::string() : out[0].promise + ": " + out[0].instead;
  };
  // 2 x 7.3 = 14.6 mg, without a form to three digits
  std::string const plain = "  give 2 mg per kg on the skin\n";
  EXPECT_EQ(broken(plain, "7.3 kg", "offered m 14.6 mg"), "");
  EXPECT_EQ(broken(plain, "7.3 kg", "offered m 0.0146 g"), "");
  EXPECT_EQ(broken(plain, "7.3 kg", "offered m 146 mg"), "offered m 146 mg: offered 14.6 mg");
  EXPECT_EQ(broken(plain, "7.3 kg", "offered m 14.5 mg"), "offered m 14.5 mg: offered 14.6 mg");
  // A tenfold slip in the dose.
  EXPECT_EQ(broken("  give 20 mg per kg on the skin\n", "7.3 kg", "offered m 14.6 mg"),
            "offered m 14.6 mg: offered 146 mg");
  // 2 x 10 = 20 mg: 4 mL of 5 mg per mL; 0.4 mL where the strength slipped by ten
  std::string const drawn = "  give 2 mg per kg on the skin\n  form liquid 5 mg per mL\n";
  EXPECT_EQ(broken(drawn, "10 kg", "offered m 20 mg in 4 mL"), "");
  EXPECT_EQ(broken(drawn, "10 kg", "offered m in 0.004 L"), "");
  EXPECT_EQ(broken("  give 2 mg per kg on the skin\n  form liquid 50 mg per mL\n", "10 kg",
                   "offered m 20 mg in 4 mL"),
            "offered m 20 mg in 4 mL: offered 20 mg in 0.4 mL");
  // 1 to 2 mg x 10 = 10 to 20 mg; tablets of 12 mg in halves: 1 1/2 hold 18 mg
  std::string const range = "  give 1 to 2 mg per kg on the skin\n  form tablet 12 mg in halves\n";
  EXPECT_EQ(broken(range, "10 kg", "offered m 18 mg"), "");
  EXPECT_EQ(broken(range, "10 kg", "offered m 18 mg in 1.5 tablets"), "");
  EXPECT_EQ(broken(range, "10 kg", "offered m in 1 to 1.5 tablets"), "");
  EXPECT_EQ(broken(range, "10 kg", "offered m in 2 tablets"),
            "offered m in 2 tablets: offered 10 to 18 mg in 1 to 1.5 tablets");
  EXPECT_EQ(broken(range, "10 kg", "offered m 10 to 18 mg"), "");
  EXPECT_EQ(broken(range, "10 kg", "offered m 1 to 18 mg"),
            "offered m 1 to 18 mg: offered 10 to 18 mg");
  // 5 x 10 = 50, at most 30 mg
  EXPECT_EQ(broken("  give 5 mg per kg on the skin\n  at most 30 mg\n", "10 kg", "offered m 30 mg"),
            "");
  // 1.5 % of 10 kg in grams
  EXPECT_EQ(broken("  give 1.5% on the skin\n", "10 kg", "offered m 150 g"), "");
  EXPECT_EQ(broken("  give 3 on the skin\n", "10 kg", "offered m 3"), "");
  // Where it is not known whether the vet is asked first the amount stands as well.
  EXPECT_EQ(broken(plain + "  ask vet if b\n", "7.3 kg", "ask first m 14.6 mg"), "");
  EXPECT_EQ(broken(plain + "  ask vet if b\n", "7.3 kg", "offered m 14.6 mg"),
            "offered m 14.6 mg: ask first (the vet) 14.6 mg: `ask vet if`: not known: b");
  // A yes for which the vet is asked leaves no number to copy.
  EXPECT_EQ(broken(plain + "  ask vet if c\n", "7.3 kg", "ask first m 14.6 mg"),
            "ask first m 14.6 mg: ask first (the vet): `ask vet if`: c");
  EXPECT_EQ(broken(plain, "0.2 kg", "offered m 0.4 mg"),
            "offered m 0.4 mg: withheld: the weight lies outside `doses`");
}

TEST(CareSlimming, TheScoreIsTheSignThatTheMeasureNames) {
  auto const* const fat = R"(
sign fatness "fatness"
  ask "?"
  answer number from 1 to 9
  seen by hands
sign body_condition "a name that means nothing here"
  ask "?"
  answer yes or no
  seen by anyone
)";
  auto const statements = fat + care("weight_loss", "  how \"x\"\n  fit if body_condition\n") +
                          care("diet",
                               "  how \"x\"\n  slims by fatness\n  ideal score 5\n  "
                               "each point 10%\n  lost a week 1% to 2%\n");
  auto const out = planned(statements,
                           "dog: {species: dog, weight: 36 kg}\nanswers: {fatness: 7, "
                           "body_condition: yes, a: no, b: no, c: no, danger: no}");
  EXPECT_FALSE(out.find("weight_loss")->weight_loss);
  ASSERT_TRUE(out.find("diet")->weight_loss);
  EXPECT_NEAR(out.find("diet")->weight_loss->aim_kg, 30, 1e-9);
}

}  // namespace
}  // namespace flinch
