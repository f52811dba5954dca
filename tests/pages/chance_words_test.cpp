#include "chance_words.hpp"

#include <gtest/gtest.h>

namespace flinch::cli {
namespace {

TEST(ChanceWords, NoChanceReadsAsNoneOrAsCertain) {
  struct Case {
    double share;
    char const* text;
  };
  for (auto const& [share, text] : {Case{0, "under 0.1%"},
                                    {0.0009, "under 0.1%"},
                                    {0.001, "0.1%"},
                                    {0.5, "50.0%"},
                                    {0.9994, "99.9%"},
                                    {0.9996, "over 99.9%"},
                                    {1, "over 99.9%"}})
    EXPECT_EQ(per_cent(share), text);
}

TEST(ChanceWords, RatiosAreNeverPowersOfTen) {
  struct Case {
    double ratio;
    char const* text;
  };
  for (auto const& [ratio, text] : {Case{0, "under 0.001"},
                                    {0.00123, "0.00123"},
                                    {0.11765, "0.118"},
                                    {0.9996, "1.00"},
                                    {1.0898, "1.09"},
                                    {9.996, "10.0"},
                                    {99.96, "100"},
                                    {999.6, "1,000"},
                                    {1490.2, "1,490"},
                                    {40793, "40,790"},
                                    {998004, "998,000"},
                                    {1234567890, "over 999,900,000"}})
    EXPECT_EQ(ratio_in_words(ratio), text);
}

}  // namespace
}  // namespace flinch::cli
