#include "flinch/care/plan.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "support/small_pack.hpp"

namespace flinch {
namespace {

using test::case_of;
using test::pack_of;

char const* const words = R"(
sign a "a"
  ask "?"
  answer yes or no
  seen by anyone
sign b "b"
  ask "?"
  answer yes or no
  seen by anyone
sign c "c"
  ask "?"
  answer yes or no
  seen by anyone
sign danger "danger"
  ask "?"
  answer yes or no
  seen by anyone
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

Planned planned(std::string const& statements, std::string const& yaml,
                CareReader audience = CareReader::keeper) {
  Planned out{pack_of(words + statements), {}};
  Tables const tables(out.pack);
  Assessor assessor(tables);
  out.plan = plan_care(tables, assessor.assess(case_of(*out.pack, yaml)), audience);
  return out;
}

constexpr char const* settled =
    "dog: {species: dog, weight: 10 kg}\nanswers: {a: no, b: no, c: no, danger: no}";

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
  EXPECT_EQ(planned(statements, settled, CareReader::keeper).find("m"), nullptr);
  EXPECT_EQ(planned(statements, settled, CareReader::nurse).find("m"), nullptr);
  EXPECT_NE(planned(statements, settled, CareReader::clinician).find("m"), nullptr);
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

TEST(CareMouth, NothingByMouthWhileTooLittleIsKnown) {
  EXPECT_EQ(mouth_gate("dog: {species: dog, weight: 10 kg}\nanswers: {danger: no}"),
            GateKind::by_mouth_too_few);
}

TEST(CareMouth, WhileDangerSignsAreOpenTheyAreAskedFirst) {
  EXPECT_EQ(mouth_gate("dog: {species: dog, weight: 10 kg}\nanswers: {a: no, b: no, c: no}"),
            GateKind::by_mouth_may_rise);
}

TEST(CareMouth, OpenWhenAllIsKnownToBeWell) {
  auto const out = planned(care("m", "  give 1 mg per kg by mouth\n"), settled);
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

TEST(CareExposure, LevelsAreReachedFromLowToHighAndRaiseTheTier) {
  auto const below = planned(pill,
                             "dog: {species: dog, weight: 8 kg}\nanswers: {pill_mg: 199 mg, "
                             "a: no, b: no, c: no, danger: no, pill_hours: 3 hours}");
  ASSERT_EQ(below.plan.exposures.size(), 1U);
  EXPECT_TRUE(below.plan.exposures[0].reached.empty());
  EXPECT_EQ(*below.plan.exposures[0].hours, 3);
  auto const at = planned(pill,
                          "dog: {species: dog, weight: 8 kg}\nanswers: {pill_mg: 200 mg, "
                          "a: no, b: no, c: no, danger: no}");
  EXPECT_EQ(at.plan.exposures[0].reached, std::vector<std::size_t>{0});
  EXPECT_FALSE(at.plan.raised_by_taken);
  auto const deadly = planned(pill,
                              "dog: {species: dog, weight: 8 kg}\nanswers: {pill_mg: 800 mg, "
                              "a: no, b: no, c: no, danger: no}");
  EXPECT_EQ(deadly.plan.exposures[0].reached, (std::vector<std::size_t>{0, 1}));
  EXPECT_TRUE(deadly.plan.raised_by_taken);
  EXPECT_EQ(test::tier_name(*deadly.pack, deadly.plan.tier), "now");
  EXPECT_EQ(deadly.plan.mouth->kind, GateKind::by_mouth_now);
}

TEST(CareExposure, AnUnknownSubstanceCountsAnUnknownAmountIsAsked) {
  auto const unknown =
      planned(pill, "dog: {species: dog, weight: 8 kg}\nanswers: {pill_mg: 800 mg, a: no, b: no}");
  EXPECT_EQ(unknown.plan.exposures.at(0).is_this, Truth::unknown);
  EXPECT_TRUE(unknown.plan.raised_by_taken);
  auto const amount = planned(pill, "dog: {species: dog, weight: 8 kg}\nanswers: {c: no}");
  EXPECT_FALSE(amount.plan.exposures.at(0).mg);
  auto const weight = planned(pill, "dog: {species: dog}\nanswers: {c: no, pill_mg: 5 mg}");
  EXPECT_EQ(*weight.plan.exposures.at(0).refusal, DoseRefusal::weight_unknown);
  EXPECT_FALSE(weight.plan.exposures.at(0).mg_per_kg);
  EXPECT_FALSE(weight.plan.raised_by_taken);
  auto const much = planned(pill, "dog: {species: dog}\nanswers: {c: no, pill_mg: 50 mg}");
  EXPECT_TRUE(much.plan.raised_by_taken) << "as for the smallest dog";
  EXPECT_TRUE(much.plan.exposures.at(0).reached.empty()) << "but no level is claimed";
}

}  // namespace
}  // namespace flinch
