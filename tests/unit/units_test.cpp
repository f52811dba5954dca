#include "flinch/model/units.hpp"

#include <gtest/gtest.h>

namespace flinch {
namespace {

double converted(double value, char const* from, char const* to) {
  return convert(value, *find_unit(from), *find_unit(to));
}

// Definitions: the avoirdupois pound is 0.45359237 kg exactly (international yard and pound
// agreement, 1959); degrees Fahrenheit are C * 9/5 + 32.
TEST(Units, ConvertByTheirDefinitions) {
  EXPECT_DOUBLE_EQ(converted(1, "lb", "kg"), 0.45359237);
  EXPECT_DOUBLE_EQ(converted(16, "oz", "lb"), 1);
  EXPECT_DOUBLE_EQ(converted(212, "F", "C"), 100);
  EXPECT_DOUBLE_EQ(converted(-40, "F", "C"), -40);
  EXPECT_DOUBLE_EQ(converted(103.1, "F", "C"), 39.5);
  EXPECT_DOUBLE_EQ(converted(1500, "ug", "mg"), 1.5);
  EXPECT_DOUBLE_EQ(converted(2, "weeks", "days"), 14);
}

TEST(Units, WholeYearsOfMonthsAreExact) {
  EXPECT_EQ(converted(18, "months", "years"), 1.5);
  EXPECT_EQ(converted(12, "months", "years"), 1);
}

TEST(Units, TheSameUnitLeavesTheNumberAlone) { EXPECT_EQ(converted(39.5, "C", "C"), 39.5); }

TEST(Units, UnknownOnesAreNotGuessed) {
  EXPECT_FALSE(find_unit("Celsius"));
  EXPECT_FALSE(find_unit("KG"));
}

TEST(Units, TheOnesThatFitAreNamed) {
  EXPECT_EQ(units_that_fit(Dimension::temperature), "`C`, `F`");
  EXPECT_EQ(units_that_fit(Dimension::time),
            "`seconds`, `minutes`, `hours`, `days`, `weeks`, `months`, `years`");
  EXPECT_EQ(units_that_fit(Dimension::none), "");
}

}  // namespace
}  // namespace flinch
