// The interview on the shipped pack.
#include <gtest/gtest.h>

#include <algorithm>

#include "pack/interview_run.hpp"
#include "pack/shipped_pack.hpp"

namespace flinch::test {
namespace {

std::string tier_name_of(Pack const& pack, std::optional<TierId> tier) {
  return tier ? pack[*tier].name : "none";
}

std::string cause_name_of(Pack const& pack, std::optional<CauseId> cause) {
  return cause ? pack[*cause].name : "none";
}

// Asked until nothing more is worth asking, and told only what the example tells.
TEST(ShippedInterview, EndsForEveryExampleWithTheTierAndFirstCauseOfItsWholeFile) {
  auto const pack = shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  Interview interview(tables, Reader::clinician);
  ASSERT_GE(pack->examples.size(), 100U);
  for (auto const& example : pack->examples) {
    auto const whole = assessor.assess(example.patient);
    auto const run = run_interview(tables, interview, whole);
    EXPECT_EQ(tier_name_of(*pack, run.tier), tier_name_of(*pack, whole.judgement.tier))
        << example.name;
    EXPECT_EQ(cause_name_of(*pack, run.first), cause_name_of(*pack, first_cause(whole)))
        << example.name;
  }
}

// Of what was denied nobody asks which, how much or when.
TEST(ShippedInterview, NoChoiceIsPutOfWhatWasDenied) {
  auto const pack = shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  auto const sign = [&](char const* name) { return *pack->find_sign(name); };
  Case sick;
  sick.answers = {{sign("vomiting"), Answer(true)}};
  for (auto const* denied : {"ate_poison", "ate_object", "ate_own_chews", "burnt"})
    sick.answers.emplace_back(sign(denied), Answer(false));
  for (auto const* denied : {"wound", "lump"})
    sick.answers.emplace_back(sign(denied), Answer(Findings{false, true, {}, {}}));
  auto const result = assessor.assess(sick);
  for (auto const* of_it : {"poison_kind", "poison_when", "bait_kind", "chocolate_kind",
                            "drug_kind", "own_chews_kind", "human_medicine_kind", "object_kind",
                            "wound_kind", "wound_depth", "burn_kind", "lump_kind"})
    ASSERT_NE(result.find(sign(of_it)), nullptr) << of_it << " is still open";
  // What was told of it counts all the same, and clashes.
  sick.answers.emplace_back(sign("poison_kind"), Answer(Choice{1}));
  auto const clash = assessor.assess(sick);
  EXPECT_EQ(clash.judgement.tier, TierId{0});
  EXPECT_FALSE(clash.judgement.contradictions.empty());
}

// A keeper is never asked for hands or a clinic, and every alarm that a keeper's answers can fire
// is within reach of the interview.
TEST(ShippedInterview, AKeeperWhoseDogIsInDangerIsAskedForIt) {
  auto const pack = shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  Interview interview(tables, Reader::keeper);
  for (auto const& alarm : pack->alarms) {
    if (alarm.trigger().kind != Condition::Kind::test) continue;
    auto const& test = alarm.trigger().test;
    if (test.kind != flinch::Test::Kind::holds ||
        !can_see(Reader::keeper, (*pack)[test.sign].seen_by))
      continue;
    Case sick;
    sick.answers.emplace_back(test.sign, (*pack)[test.sign].kind == AnswerKind::sites
                                             ? Answer(Findings{true, false, {}, {}})
                                             : Answer(true));
    auto const whole = assessor.assess(sick);
    auto const run = run_interview(tables, interview, whole);
    ASSERT_TRUE(run.tier) << alarm.name;
    EXPECT_LE(*run.tier, alarm.see) << alarm.name;
  }
}

}  // namespace
}  // namespace flinch::test
