// What the telephone desk says about how far the urgency may be from what it will be, on the pack
// that ships.
#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "call/call_desk.hpp"
#include "pack/shipped_pack.hpp"
#include "support/tries.hpp"

namespace flinch::test {
namespace {

// The highest tier that an alarm asks for once this sign is there as well, by assessing it.
std::optional<TierId> alarm_tier_with(Assessor& assessor, Case patient, SignId sign) {
  patient.answers.emplace_back(sign, true);
  std::sort(patient.answers.begin(), patient.answers.end(),
            [](auto const& a, auto const& b) { return a.first < b.first; });
  return assessor.assess(patient).judgement.alarm_tier;
}

// Calls in which most answers are no and one in ten is yes: as long as one open answer alone would
// raise the urgency, the desk says so, and of each question whether it would.
TEST(CallUrgency, OneAnswerIsEnoughWheneverAssessingItSaysSo) {
  auto const pack = shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  std::mt19937 random(20261126);
  std::size_t alone_seen = 0;
  for (std::size_t round = 0; round < tries(12); ++round) {
    cli::CallModel call(tables, {}, cli::Keeping::in_memory, desk_clock);
    for (int i = 0; i < 90 && call.state().outlook.screen; ++i) {
      auto const& state = call.state();
      bool is_one_enough = false;
      for (auto const& open : call.open_danger()) {
        if ((*pack)[open.sign].kind != AnswerKind::yes_or_no) continue;
        auto const tier = alarm_tier_with(assessor, state.patient, open.sign);
        bool const raises =
            tier && (!state.result.judgement.tier || *tier < *state.result.judgement.tier);
        if (!raises) continue;
        is_one_enough = true;
        ++alone_seen;
        ASSERT_TRUE(open.alone_reaches) << (*pack)[open.sign].name;
        EXPECT_LE(*open.alone_reaches, *tier) << (*pack)[open.sign].name;
      }
      if (is_one_enough) {
        ASSERT_EQ(call.urgency(), cli::Urgency::one_answer_away);
      }
      auto const kind = (*pack)[*call.focus()].kind;
      bool const is_yes_or_no = kind == AnswerKind::yes_or_no || kind == AnswerKind::sites;
      press(call, !is_yes_or_no ? "?" : random() % 10 == 0 ? "yes\n" : "no\n");
      if (call.state().activity != cli::Activity::asking) press(call, "\x1b");
    }
  }
  EXPECT_GT(alone_seen, tries(1000));
}

// A digit and the rest: nothing is answered that was not read out.
TEST(CallUrgency, OnlyWhatWasReadOutIsDenied) {
  Tables const tables(shipped_pack());
  for (char const digit : {'1', '2', '3', '4', '5', '6', '7'}) {
    cli::CallModel call(tables, {}, cli::Keeping::in_memory, desk_clock);
    auto const listed = call.state().outlook.screen->questions;
    press(call, std::string(1, digit) + "\x1b");
    press(call, "00");
    EXPECT_EQ(call.state().patient.answers.size(), listed.size()) << digit;
    for (auto const& [sign, answer] : call.state().patient.answers)
      EXPECT_TRUE(std::any_of(listed.begin(), listed.end(), [&, wanted = sign](Question const& q) {
        return q.sign == wanted;
      })) << call.pack()[sign].name;
  }
}

}  // namespace
}  // namespace flinch::test
