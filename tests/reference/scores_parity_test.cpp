// The statistics of an audit against scikit-learn on the same vectors (tests/reference/scores.py:
// cohen_kappa_score, brier_score_loss, log_loss, roc_auc_score), and against published examples.
#include <gtest/gtest.h>

#include <sstream>

#include "flinch/audit/statistics.hpp"
#include "reference/outside.hpp"
#include "support/source_tree.hpp"

namespace flinch::test {
namespace {

std::vector<std::vector<std::string>> scores() {
  static auto const rows = [] {
    std::istringstream lines(
        output_of(std::string(FLINCH_PYTHON) + " " + source_path("tests/reference/scores.py")));
    std::vector<std::vector<std::string>> out;
    for (std::string line; std::getline(lines, line);) out.push_back(words(line));
    return out;
  }();
  return rows;
}

TEST(ScoresParity, WeightedKappaEqualsThatOfScikitLearn) {
  std::size_t compared = 0;
  for (auto const& row : scores()) {
    if (row.at(0) != "grades") continue;
    auto const grades = std::stoul(row.at(1));
    auto const cases = (row.size() - 4) / 2;
    GradeTable cells(grades, std::vector<std::size_t>(grades));
    for (std::size_t i = 0; i < cases; ++i)
      ++cells[std::stoul(row[4 + i])][std::stoul(row[4 + cases + i])];
    EXPECT_NEAR(weighted_kappa(cells, KappaWeights::linear).value(), std::stod(row[2]), 1e-12);
    EXPECT_NEAR(weighted_kappa(cells, KappaWeights::quadratic).value(), std::stod(row[3]), 1e-12);
    ++compared;
  }
  EXPECT_EQ(compared, 12U) << "python3-sklearn is needed; tests/run installs it";
}

TEST(ScoresParity, BrierLogLossAndRocAreaEqualThoseOfScikitLearn) {
  std::size_t compared = 0;
  for (auto const& row : scores()) {
    if (row.at(0) != "forecasts") continue;
    auto const cases = (row.size() - 5) / 2;
    std::vector<Forecast> forecasts;
    for (std::size_t i = 0; i < cases; ++i)
      forecasts.push_back({std::stod(row[5 + cases + i]), row[5 + i] == "1"});
    EXPECT_NEAR(brier_score(forecasts).value(), std::stod(row[1]), 1e-12);
    EXPECT_NEAR(log_loss(forecasts).value(), std::stod(row[2]), 1e-12);
    EXPECT_NEAR(roc_area(forecasts).value(), std::stod(row[3]), 1e-12);
    EXPECT_EQ(roc_curve(forecasts).size(), std::stoul(row[4]));
    ++compared;
  }
  EXPECT_EQ(compared, 12U) << "python3-sklearn is needed; tests/run installs it";
}

// Newcombe RG (1998) Two-sided confidence intervals for the single proportion: comparison of seven
// methods. Stat Med 17:857-872, the method of Wilson (1927); figures as quoted by another text.
TEST(PublishedStatistics, WilsonIntervalsOfNewcombe1998) {
  struct Row {
    std::size_t count, of;
    double low, high;
  };
  for (auto const& row : std::vector<Row>{{81, 263, 0.2553, 0.3662},
                                          {15, 148, 0.0624, 0.1605},
                                          {0, 20, 0.0000, 0.1611},
                                          {1, 29, 0.0061, 0.1718}}) {
    auto const interval = wilson_interval(row.count, row.of);
    EXPECT_NEAR(interval.low, row.low, 1e-4) << row.count << " of " << row.of;
    EXPECT_NEAR(interval.high, row.high, 1e-4) << row.count << " of " << row.of;
  }
}

// Hanley JA, McNeil BJ (1982) Radiology 143:29-36, the ratings of 109 CT images from 1 to 5; counts
// and area as quoted by other texts: 0.893.
TEST(PublishedStatistics, RocAreaOfHanleyAndMcNeil1982) {
  std::vector<std::size_t> const normal = {33, 6, 6, 11, 2};
  std::vector<std::size_t> const abnormal = {3, 2, 2, 11, 33};
  std::vector<Forecast> ratings;
  for (std::size_t rating = 0; rating < 5; ++rating) {
    ratings.insert(ratings.end(), normal[rating], {static_cast<double>(rating), false});
    ratings.insert(ratings.end(), abnormal[rating], {static_cast<double>(rating), true});
  }
  EXPECT_NEAR(roc_area(ratings).value(), 2642.0 / 2958.0, 1e-12);
  EXPECT_NEAR(roc_area(ratings).value(), 0.893, 0.0005);
}

// Brier GW (1950) Mon Weather Rev 78:1-3, ten forecasts of rain (from memory): 0.19 over both
// classes, half of that over one.
TEST(PublishedStatistics, BriersTenForecasts) {
  std::vector<Forecast> const rain = {{0.7, false}, {0.9, true}, {0.8, true}, {0.4, true},
                                      {0.2, false}, {0, false},  {0, false},  {0, false},
                                      {0, false},   {0.1, false}};
  EXPECT_NEAR(2 * brier_score(rain).value(), 0.19, 1e-12);
}

}  // namespace
}  // namespace flinch::test
