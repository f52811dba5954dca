// The nomogram against published examples: the line that it draws ends where they say.
#include "nomogram.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <regex>

namespace flinch::cli {
namespace {

struct Example {
  double before;
  double ratio;
  double after;
};

// Where the line from the left axis through the middle one meets the right axis.
double right_end(double before, double ratio) {
  using namespace nomogram;
  auto const slope = (middle_y(ratio) - left_y(before)) / (middle_x - left_x);
  return left_y(before) + slope * (right_x - left_x);
}

// Therapeutic Guidelines, worked examples of post-test probability (fatigue appendix), as read
// there: ferritin with sensitivity 0.90 and specificity 0.85, a ratio of 6: pre-test 2 % gives
// "about 11 %", 50 % "about 86 %". A negative result: 0.10 / 0.85.
TEST(Nomogram, TheLinePassesThePublishedPostTestProbabilities) {
  for (auto const& [before, ratio, after] : {Example{0.02, 6, 0.109091},
                                             {0.15, 6, 0.514286},
                                             {0.50, 6, 0.857143},
                                             {0.02, 0.117647, 0.002395},
                                             {0.15, 0.117647, 0.020339},
                                             {0.50, 0.117647, 0.105263}})
    EXPECT_NEAR(nomogram::right_probability(right_end(before, ratio)), after, 1e-6)
        << before << " through " << ratio;
  EXPECT_NEAR(nomogram::right_probability(right_end(0.02, 6)), 0.11, 0.005);
  EXPECT_NEAR(nomogram::right_probability(right_end(0.50, 6)), 0.86, 0.005);
}

// Centre for Evidence-Based Medicine, teaching worksheet on diagnosis: TP 731, FP 270, FN 78, TN
// 1500; it prints a post-test probability of 73 %.
TEST(Nomogram, TheLinePassesTheWorksheetsPredictiveValue) {
  double const prevalence = (731.0 + 78) / 2579;
  double const ratio = (731.0 / 809) / (270.0 / 1770);
  EXPECT_NEAR(nomogram::right_probability(right_end(prevalence, ratio)), 0.730270, 1e-6);
}

// The line as drawn, read back from the picture.
TEST(Nomogram, ThePictureDrawsThatLine) {
  auto const picture = nomogram_picture("x", 0.15, 0.514286);
  std::smatch found;
  ASSERT_TRUE(std::regex_search(
      picture, found,
      std::regex("class=\"path\" x1=\"70.0\" y1=\"([0-9.]+)\" x2=\"310.0\" y2=\"([0-9.]+)\"")));
  auto const middle = (std::stod(found[1]) + std::stod(found[2])) / 2;
  EXPECT_NEAR(middle, nomogram::middle_y(6), 0.01);
  EXPECT_NEAR(nomogram::right_probability(std::stod(found[2])), 0.514286, 1e-4);
}

TEST(Nomogram, WhatTheAxesCannotHoldIsAnArrowAndTheWordsAreTrueAllTheSame) {
  constexpr double before = 0.00005;
  constexpr double after = 0.999995;
  auto const picture = nomogram_picture("x", before, after);
  EXPECT_NE(picture.find("The axes end at"), std::string::npos);
  EXPECT_NE(picture.find("a likelihood ratio of over 999,900,000"), std::string::npos);
  EXPECT_EQ(picture.find("<circle"), std::string::npos) << "no dot says that the line passes there";
  auto const inside = nomogram_picture("x", 0.1, 0.9);
  EXPECT_EQ(inside.find("The axes end at"), std::string::npos);
  EXPECT_NE(inside.find("From 10.0% before the answers to 90.0% after them"), std::string::npos);
  EXPECT_NE(inside.find("a likelihood ratio of 81.0."), std::string::npos);
}

TEST(Nomogram, TheRatioIsThatOfTheTrueEnds) {
  // 0.002 to 0.99: odds 0.002/0.998 to 99.
  EXPECT_NEAR(likelihood_ratio(0.002, 0.99), 99.0 / (0.002 / 0.998), 1e-6);
  EXPECT_NE(nomogram_words(0.00002, 0.99).find("ratio of 4,950,000."), std::string::npos)
      << nomogram_words(0.00002, 0.99);
}

}  // namespace
}  // namespace flinch::cli
