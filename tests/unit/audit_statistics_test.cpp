#include <gtest/gtest.h>

#include "flinch/audit/statistics.hpp"

namespace flinch {
namespace {

TEST(Statistics, WithNothingCountedTheIntervalIsEverything) {
  auto const nothing = wilson_interval(0, 0);
  EXPECT_EQ(nothing.low, 0);
  EXPECT_EQ(nothing.high, 1);
  EXPECT_EQ(nothing.share(), 0);
}

TEST(Statistics, TheIntervalEndsAtNoneAndAtAll) {
  for (std::size_t n = 1; n < 60; ++n) {
    EXPECT_EQ(wilson_interval(0, n).low, 0);
    EXPECT_EQ(wilson_interval(n, n).high, 1);
    EXPECT_LT(wilson_interval(0, n).high, 1);
    EXPECT_GT(wilson_interval(n, n).low, 0);
  }
}

TEST(Statistics, MoreCasesNarrowTheInterval) {
  auto const width = [](Proportion const& p) { return p.high - p.low; };
  EXPECT_LT(width(wilson_interval(50, 100)), width(wilson_interval(5, 10)));
}

TEST(Statistics, KappaIsNotDefinedWhereChanceAlwaysAgrees) {
  EXPECT_FALSE(weighted_kappa({}, KappaWeights::linear));
  EXPECT_FALSE(weighted_kappa({{0, 0}, {0, 0}}, KappaWeights::linear));
  EXPECT_FALSE(weighted_kappa({{7, 0}, {0, 0}}, KappaWeights::quadratic));
  EXPECT_DOUBLE_EQ(weighted_kappa({{5, 0}, {0, 5}}, KappaWeights::linear).value(), 1);
  EXPECT_DOUBLE_EQ(weighted_kappa({{0, 5}, {5, 0}}, KappaWeights::linear).value(), -1);
}

TEST(Statistics, TheRocAreaNeedsBothKinds) {
  EXPECT_FALSE(roc_area({}));
  std::vector<Forecast> const all_true = {{0.2, true}, {0.8, true}};
  EXPECT_FALSE(roc_area(all_true));
  EXPECT_TRUE(roc_curve(all_true).empty());
}

TEST(Statistics, TiesCountHalf) {
  std::vector<Forecast> const tied = {{0.5, true}, {0.5, false}};
  EXPECT_DOUBLE_EQ(roc_area(tied).value(), 0.5);
  std::vector<Forecast> const half = {{0.5, true}, {0.5, false}, {0.1, false}, {0.9, true}};
  EXPECT_DOUBLE_EQ(roc_area(half).value(), 3.5 / 4);
  ASSERT_EQ(roc_curve(half).size(), 3U);
  EXPECT_EQ(roc_curve(half).back().hit_share, 1);
  EXPECT_EQ(roc_curve(half).back().false_alarm_share, 1);
}

TEST(Statistics, ACertainMistakeCostsMuchAndNotEverything) {
  std::vector<Forecast> const wrong = {{0, true}};
  EXPECT_NEAR(log_loss(wrong).value(), 36.04, 0.01);
  EXPECT_DOUBLE_EQ(brier_score(wrong).value(), 1);
  EXPECT_FALSE(log_loss({}));
  EXPECT_FALSE(brier_score({}));
}

TEST(Statistics, BandsTakeTheirLowerEndAndTheLastTakesOne) {
  std::vector<Forecast> const forecasts = {
      {0, false}, {0.1, true}, {0.19, false}, {0.95, true}, {1, true}};
  auto const bands = reliability(forecasts);
  ASSERT_EQ(bands.size(), 10U);
  EXPECT_EQ(bands[0].came_true.of, 1U);
  EXPECT_EQ(bands[1].came_true.of, 2U);
  EXPECT_EQ(bands[1].came_true.count, 1U);
  EXPECT_NEAR(bands[1].mean_forecast, 0.145, 1e-12);
  EXPECT_EQ(bands[9].came_true.of, 2U);
  EXPECT_EQ(bands[5].came_true.of, 0U);
}

}  // namespace
}  // namespace flinch
