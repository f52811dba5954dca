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
  EXPECT_DOUBLE_EQ(converted(120, "per hour", "per minute"), 2);
  EXPECT_DOUBLE_EQ(converted(3, "per day", "per hour"), 0.125);
  EXPECT_DOUBLE_EQ(converted(150, "umol per L", "mmol per L"), 0.15);
  EXPECT_DOUBLE_EQ(converted(90, "mg per dL", "g per L"), 0.9);
  EXPECT_DOUBLE_EQ(converted(2.5, "g per dL", "g per L"), 25);
  EXPECT_DOUBLE_EQ(converted(500, "ug per dL", "mg per dL"), 0.5);
}

TEST(Units, WholeYearsOfMonthsAreExact) {
  EXPECT_EQ(converted(18, "months", "years"), 1.5);
  EXPECT_EQ(converted(12, "months", "years"), 1);
}

TEST(Units, TheSameUnitLeavesTheNumberAlone) { EXPECT_EQ(converted(39.5, "C", "C"), 39.5); }

TEST(Units, UnknownOnesAreNotGuessed) {
  EXPECT_FALSE(find_unit("Celsius"));
  EXPECT_FALSE(find_unit("KG"));
  EXPECT_FALSE(find_unit("mmol/L"));
}

TEST(Units, TheOnesThatFitAreNamed) {
  EXPECT_EQ(units_that_fit(Dimension::temperature), "`C`, `F`");
  EXPECT_EQ(units_that_fit(Dimension::time),
            "`seconds`, `minutes`, `hours`, `days`, `weeks`, `months`, `years`");
  EXPECT_EQ(units_that_fit(Dimension::none), "");
  EXPECT_EQ(units_that_fit(Dimension::substance_concentration), "`mmol per L`, `umol per L`");
  EXPECT_NE(all_units_that_fit().find("`mg per dL`"), std::string::npos);
  EXPECT_EQ(all_units_that_fit().find("`day`"), std::string::npos) << "the plural alone";
}

}  // namespace
}  // namespace flinch
