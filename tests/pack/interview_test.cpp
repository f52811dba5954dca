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
