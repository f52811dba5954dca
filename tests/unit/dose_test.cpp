#include "flinch/care/dose.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "support/dose_text.hpp"
#include "support/small_pack.hpp"

namespace flinch {
namespace {

using test::dose_of;
using test::given;

DoseRefusal refusal(ComputedDose const& dose) { return std::get<DoseRefusal>(dose); }

TEST(Dose, TabletsAreSplitAndRoundedDown) {
  auto const halves = given("give 10 mg per kg by mouth\n  form tablet 100 mg in halves", 16);
  EXPECT_DOUBLE_EQ(halves.high, 160);
  ASSERT_EQ(halves.portions.size(), 1U);
  EXPECT_DOUBLE_EQ(halves.portions[0].count, 1.5);
  EXPECT_DOUBLE_EQ(halves.amount, 150);
  EXPECT_NEAR(*halves.per_kg, 150.0 / 16, 1e-12);
  EXPECT_DOUBLE_EQ(given("give 10 mg per kg by mouth\n  form tablet 100 mg in quarters", 18).amount,
                   175);
  EXPECT_EQ(refusal(dose_of("give 10 mg per kg by mouth\n  form capsule 100 mg", 18)),
            DoseRefusal::too_small_to_measure)
      << "100 of 180 mg is no dose";
  EXPECT_DOUBLE_EQ(given("give 10 mg per kg by mouth\n  form capsule 100 mg", 11).amount, 100);
}

TEST(Dose, ARangeIsToldFromTheFewestThatReachIt) {
  auto const range =
      given("give 10 to 20 mg per kg by mouth\n  form capsule 100 mg", 27).portions[0];
  EXPECT_DOUBLE_EQ(range.least_count, 3);
  EXPECT_DOUBLE_EQ(range.count, 5);
  EXPECT_DOUBLE_EQ(range.least_amount, 300);
  auto const single = given("give 10 mg per kg by mouth\n  form tablet 100 mg in halves", 15.5);
  EXPECT_DOUBLE_EQ(single.portions[0].least_count, single.portions[0].count);
}

TEST(Dose, InjectionsComeToTheFinerMark) {
  auto const drawn = given("give 1 mg per kg by injection\n  form liquid 100 mg per mL", 13.9);
  EXPECT_NEAR(drawn.portions[0].count, 0.13, 1e-12);
  EXPECT_EQ(refusal(dose_of("give 1 mg per kg by mouth\n  form liquid 100 mg per mL", 13.9)),
            DoseRefusal::too_small_to_measure)
      << "0.10 mL on a household syringe is less than nine tenths";
}

TEST(Dose, AWholePortionIsNotLostToBinaryRounding) {
  EXPECT_DOUBLE_EQ(given("give 0.1 mg per kg by mouth\n  form tablet 0.1 mg in quarters", 3).amount,
                   0.3);
}

TEST(Dose, LiquidsComeToAMarkOfTheSyringe) {
  auto const small = given("give 1 mg per kg by mouth\n  form liquid 10 mg per mL", 8.9);
  EXPECT_NEAR(small.portions[0].count, 0.85, 1e-12);
  EXPECT_NEAR(given("give 1 mg per kg by mouth\n  form liquid 10 mg per mL", 27.9).amount, 27,
              1e-9);
  EXPECT_NEAR(given("give 1 mg per kg by mouth\n  form liquid 1000 mg per L", 9.9).amount, 9.8,
              1e-9);
}

TEST(Dose, WithoutAFormThreeDigitsAreKept) {
  EXPECT_DOUBLE_EQ(given("give 1 mg per kg by mouth", 12.349).amount, 12.3);
}

TEST(Dose, TheMostAtOneTimeHolds) {
  auto const capped = given("give 100 mg per kg by mouth\n  at most 2 g\n  form tablet 500 mg", 60);
  EXPECT_TRUE(capped.is_capped);
  EXPECT_DOUBLE_EQ(capped.amount, 2000);
  EXPECT_DOUBLE_EQ(capped.high, 2000);
}

TEST(Dose, APortionBelowTheRangeIsLeftOut) {
  EXPECT_EQ(refusal(dose_of("give 18 to 19 mg per kg by mouth\n  form tablet 500 mg", 30)),
            DoseRefusal::too_small_to_measure);
  EXPECT_DOUBLE_EQ(given("give 15 to 19 mg per kg by mouth\n  form tablet 500 mg", 30).amount, 500);
}

TEST(Dose, SharesOfBodyWeightComeInGrams) {
  auto const share = given("give 1% every 7 days", 30);
  EXPECT_EQ(share.unit, "g");
  EXPECT_DOUBLE_EQ(share.amount, 300);
}

TEST(Dose, TimesNeedNoWeight) {
  auto const minutes = std::get<GivenDose>(dose_of("give 10 to 15 minutes every 6 hours", {}));
  EXPECT_DOUBLE_EQ(minutes.low, 10);
  EXPECT_DOUBLE_EQ(minutes.high, 15);
}

TEST(Dose, AMissingOrUnbelievableWeightIsRefused) {
  for (auto const* clauses : {"give 1 mg per kg by mouth", "give 10 mg by mouth", "give 1%",
                              "give 5 mL by mouth", "give 70 mg per kg^0.75 by mouth"}) {
    EXPECT_EQ(refusal(dose_of(clauses, {})), DoseRefusal::weight_unknown) << clauses;
    for (double const kg : {0.0, 0.49, -3.0, 100.1, std::numeric_limits<double>::infinity(),
                            std::numeric_limits<double>::quiet_NaN()})
      EXPECT_EQ(refusal(dose_of(clauses, kg)), DoseRefusal::weight_out_of_range) << clauses << kg;
    EXPECT_TRUE(std::holds_alternative<GivenDose>(dose_of(clauses, 0.5))) << clauses;
    EXPECT_TRUE(std::holds_alternative<GivenDose>(dose_of(clauses, 100))) << clauses;
  }
}

TEST(Dose, AFormOrMaximumOfAnotherKindIsAnError) {
  auto const load = [](std::string const& clauses) {
    return test::load({{"pack.flinch", std::string(test::preamble) + "\ncare x\n  " + clauses +
                                           "\n  grade D\n  because \"x\"\n  cite judgement\n"}});
  };
  EXPECT_TRUE(load("give 1 mg per kg by mouth\n  at most 5 mg").outcome);
  EXPECT_FALSE(load("give 1 mg per kg by mouth\n  at most 5 mL").outcome);
  EXPECT_FALSE(load("give 1 mg per kg by mouth\n  form spoon 5 mL").outcome);
}

}  // namespace
}  // namespace flinch
