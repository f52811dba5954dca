// What must hold for every audit, comparison and set of learnt frequencies.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>

#include "flinch/audit/compare.hpp"
#include "flinch/audit/learn.hpp"
#include "property/random_pack.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

std::vector<NamedCase> closed_cases(Pack const& pack, unsigned seed, std::size_t count) {
  std::mt19937 random(seed);
  auto const below = [&](std::size_t n) {
    return std::uniform_int_distribution<std::uint32_t>(0,
                                                        static_cast<std::uint32_t>(n - 1))(random);
  };
  std::vector<NamedCase> out;
  for (std::size_t i = 0; i < count; ++i) {
    out.push_back({fmt::format("{}", i), random_case(pack, random)});
    auto const cause = below(pack.causes.size() + 1);
    out.back().patient.outcome =
        CaseOutcome{true, cause < pack.causes.size() ? std::optional(CauseId{cause}) : std::nullopt,
                    TierId{below(pack.tiers.size())}};
  }
  return out;
}

template <class Check>
void for_some_packs(Check const& check) {
  unsigned sound = 0;
  for (unsigned seed = 9000; seed < 9200; ++seed) {
    auto const loaded = load_random_pack(seed, Alarms::on_purpose);
    if (!loaded.outcome) continue;
    ++sound;
    auto const& pack = *loaded.outcome.value;
    check(pack, closed_cases(*pack, seed, 30), seed);
    if (testing::Test::HasFailure()) return;
  }
  EXPECT_GE(sound, 30U) << "too few random packs are sound to say anything";
}

TEST(AuditProperties, EveryCaseIsCountedOnceAndTheirOrderDoesNotMatter) {
  for_some_packs([](auto const& pack, auto cases, unsigned seed) {
    Tables const tables(pack);
    auto const one = audit(tables, cases);
    std::size_t counted = 0;
    for (auto const& row : one.triage.cells) counted += std::accumulate(row.begin(), row.end(), 0U);
    ASSERT_EQ(counted, cases.size()) << seed;
    ASSERT_EQ(one.triage.exact.count + one.triage.under.count + one.triage.over.count, counted);
    std::size_t by_cause = 0;
    for (auto const& row : one.by_cause) by_cause += row.hits.first.of;
    ASSERT_EQ(by_cause, cases.size()) << seed;
    ASSERT_LE(one.hits.first.count, one.hits.top_three.count) << seed;
    std::reverse(cases.begin(), cases.end());
    auto const turned = audit(tables, cases);
    ASSERT_EQ(turned.triage.cells, one.triage.cells) << seed;
    ASSERT_EQ(turned.hits.first.count, one.hits.first.count) << seed;
    ASSERT_EQ(turned.misses.size(), one.misses.size()) << seed;
    ASSERT_EQ(turned.now_area.has_value(), one.now_area.has_value()) << seed;
    ASSERT_NEAR(turned.now_area.value_or(0), one.now_area.value_or(0), 1e-12) << seed;
  });
}

TEST(AuditProperties, ComparingTheOtherWayRoundMirrorsTheMovements) {
  std::size_t moved = 0;
  for_some_packs([&](auto const& pack, auto const& cases, unsigned seed) {
    Tables const before(pack);
    // The same pack with other figures: those learnt from invented cases.
    auto const changed =
        std::make_shared<Pack const>(with_learned(*pack, learn(before, cases, {1, 1})));
    Tables const after(changed);
    std::vector<CasePair> pairs;
    for (auto const& one : cases) pairs.push_back({one.name, one.patient, one.patient});
    ASSERT_TRUE(compare(before, before, pairs).movements.empty()) << seed;
    auto const there = compare(before, after, pairs);
    auto const back = compare(after, before, pairs);
    ASSERT_EQ(there.later, back.sooner) << seed;
    ASSERT_EQ(there.sooner, back.later) << seed;
    ASSERT_EQ(there.movements.size(), back.movements.size()) << seed;
    moved += there.movements.size();
    // No alarm differs, so some figure must explain each movement; and the later come first.
    bool later_is_over = false;
    for (auto const& movement : there.movements) {
      ASSERT_FALSE(movement.why.empty()) << seed << ' ' << movement.name;
      ASSERT_FALSE(later_is_over && movement.steps_later > 0) << seed;
      later_is_over = movement.steps_later <= 0;
    }
  });
  EXPECT_GT(moved, 100U) << "too little moved to say anything";
}

TEST(AuditProperties, LearntFiguresLieBetweenThePresentAndTheCounted) {
  std::size_t figures = 0;
  for_some_packs([&](auto const& pack, auto const& cases, unsigned seed) {
    for (auto const& figure : learn(Tables(pack), cases, {10, 1}).figures) {
      ++figures;
      auto const whole = figure.present.size() == 1
                             ? 1
                             : std::accumulate(figure.present.begin(), figure.present.end(), 0.0);
      for (std::size_t i = 0; i < figure.present.size(); ++i) {
        auto const counted =
            static_cast<double>(figure.counts[i]) / static_cast<double>(figure.patients);
        auto const present = figure.present[i] / whole;
        ASSERT_GE(figure.proposed[i], std::min(counted, present) - 1e-12) << seed;
        ASSERT_LE(figure.proposed[i], std::max(counted, present) + 1e-12) << seed;
      }
    }
  });
  EXPECT_GT(figures, 500U);
}

}  // namespace
}  // namespace flinch::test
