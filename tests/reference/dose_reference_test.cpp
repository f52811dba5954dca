// Doses against published tables and worked examples, and against common practice. The source of
// each row stands beside it.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "flinch/care/energy.hpp"
#include "pack/shipped_pack.hpp"
#include "support/dose_text.hpp"

namespace flinch {
namespace {

using test::dose_of;
using test::given;
using test::kg_per_lb;
using test::shipped_pack;

// Common practice, no published source. None of these is advice: see docs/care.md for where the
// evidence disagrees.
TEST(DosesOfPractice, GlucosamineHundredMgPerTenPounds) {
  EXPECT_NEAR(given("give 22.0462 mg per kg by mouth", 50 * kg_per_lb).high, 500, 0.01);
  EXPECT_DOUBLE_EQ(
      given("give 22.0463 mg per kg by mouth\n  form tablet 500 mg", 50 * kg_per_lb).amount, 500);
}
TEST(DosesOfPractice, ChondroitinFiftyMgPerTenPounds) {
  EXPECT_NEAR(given("give 11.0231 mg per kg by mouth", 80 * kg_per_lb).high, 400, 0.01);
}
TEST(DosesOfPractice, MsmHundredMgPerTenPounds) {
  EXPECT_NEAR(given("give 22.0462 mg per kg by mouth", 30 * kg_per_lb).high, 300, 0.01);
}
TEST(DosesOfPractice, FattyAcidsThousandMgPerTenPoundsPassTheSafeLimitFromEightKg) {
  // Published safe limit 370 mg per kg^0.75 (National Research Council 2006, unit from memory):
  // practice means mg of oil, the limit EPA and DHA; read as EPA and DHA, practice passes it.
  auto const practice = given("give 220.462 mg per kg by mouth", 10).high;
  auto const limit = given("give 370 mg per kg^0.75 by mouth", 10).high;
  EXPECT_NEAR(practice, 2204.6, 0.1);
  EXPECT_GT(practice, limit);
}
TEST(DosesOfPractice, FlaxOilOneTablespoonForFortyToFiftyPounds) {
  auto const spoons = [](double lb) {
    return given("give 0.6614 mL per kg by mouth\n  form spoon 15 mL", lb * kg_per_lb)
        .portions.at(0)
        .count;
  };
  EXPECT_DOUBLE_EQ(spoons(50.1), 1);
  EXPECT_DOUBLE_EQ(spoons(100.2), 2);
  EXPECT_DOUBLE_EQ(spoons(12.6), 0.25);
}
TEST(DosesOfPractice, ValerianTinctureTenthOfAMlPerTenPounds) {
  EXPECT_NEAR(given("give 0.0220463 mL per kg by mouth", 10 * kg_per_lb).amount, 0.1, 1e-9);
  EXPECT_NEAR(given("give 0.0220463 mL per kg by mouth", 50 * kg_per_lb).amount, 0.5, 1e-9);
}
TEST(DosesOfPractice, AspirinAQuarterTabletForTenPounds) {
  // 325 mg for 40 lb: 17.9 mg/kg, within the textbook's 10 to 20.
  std::string const practice = "give 17.9128 mg per kg by mouth\n  form tablet 325 mg in quarters";
  auto const tablets = [&](double lb) {
    return given(practice, lb * kg_per_lb).portions.at(0).count;
  };
  EXPECT_DOUBLE_EQ(tablets(10), 0.25);
  EXPECT_DOUBLE_EQ(tablets(40), 1);
  // Less than nine tenths of the amount is no dose, and more is never given: a whole tablet serves
  // up to 44.4 lb, and just under 40 lb, where three quarters would be left, nothing does.
  EXPECT_DOUBLE_EQ(tablets(44.4), 1);
  for (double const lb : {39.9, 44.5})
    EXPECT_TRUE(std::holds_alternative<DoseRefusal>(dose_of(practice, lb * kg_per_lb))) << lb;
}

struct WeightAndValue {
  double kg;
  double value;
};

// Resting energy by the shipped pack's figure, for the weights of `test::dosed`.
std::optional<double> resting_kcal(double kg) {
  return resting_energy_kcal(shipped_pack()->resting_energy, test::dosed, kg);
}

// 70 x kg^0.75: Merck Veterinary Manual, nutritional requirements of small animals, as quoted.
TEST(PublishedArithmetic, RestingEnergy) {
  for (auto const& [kg, kcal] : {WeightAndValue{2, 118},
                                 {5, 234},
                                 {10, 394},
                                 {15, 534},
                                 {20, 662},
                                 {25, 783},
                                 {30, 897},
                                 {40, 1113},
                                 {50, 1316},
                                 {60, 1509}})
    EXPECT_EQ(std::lround(*resting_kcal(kg)), std::lround(kcal)) << kg;
  EXPECT_FALSE(resting_kcal(0.4));
  EXPECT_FALSE(resting_kcal(101));
}

// 30 x kg + 70 is the same source's approximation for 2 to 45 kg: within a fifth of the power law.
TEST(PublishedArithmetic, LinearRestingEnergyIsNear) {
  for (double kg = 2; kg <= 45; kg += 0.5)
    EXPECT_NEAR(30 * kg + 70, *resting_kcal(kg), 0.2 * *resting_kcal(kg)) << kg;
}

// Body surface of dogs, textbook oncology tables (as quoted): two printed digits.
TEST(PublishedArithmetic, BodySurface) {
  for (auto const& [kg, m2] : {WeightAndValue{0.5, 0.06},
                               {1, 0.10},
                               {2, 0.16},
                               {3, 0.21},
                               {4, 0.25},
                               {5, 0.30},
                               {6, 0.33},
                               {8, 0.40},
                               {10, 0.47},
                               {12, 0.53},
                               {14, 0.59},
                               {15, 0.61},
                               {18, 0.69},
                               {20, 0.74},
                               {22, 0.79},
                               {25, 0.86},
                               {28, 0.93},
                               {30, 0.98},
                               {35, 1.08},
                               {40, 1.18},
                               {45, 1.28},
                               {50, 1.37},
                               {55, 1.46},
                               {60, 1.55}})
    EXPECT_NEAR(body_surface_m2(0.101, kg), m2, 0.006) << kg;
}

// EPA and DHA by weight: 310 x kg^0.75 (Bauer 2011, from memory), never over 370 x kg^0.75.
TEST(PublishedArithmetic, MarineFattyAcids) {
  for (auto const& [kg, mg] : {WeightAndValue{2, 521},
                               {5, 1037},
                               {10, 1743},
                               {15, 2363},
                               {20, 2932},
                               {25, 3466},
                               {30, 3974},
                               {40, 4931},
                               {50, 5829},
                               {60, 6683}})
    EXPECT_NEAR(given("give 310 mg per kg^0.75 by mouth", kg).high, mg, 0.6) << kg;
  EXPECT_NEAR(given("give 370 mg per kg^0.75 by mouth", 30).high, 4743, 0.6);
}

// Worked example: 36 kg at a score of 7 of 9 aims at 30 kg and 897 kcal a day; first benefit at 2.2
// kg, on the force plate at 3.2 kg (Marshall 2010, abstract).
TEST(PublishedArithmetic, WeightLoss) {
  auto const pack = shipped_pack();
  auto const& all = pack->care;
  auto const care =
      std::find_if(all.begin(), all.end(), [](Care const& c) { return c.slims_by.has_value(); });
  ASSERT_NE(care, all.end());
  auto const loss = [&](double kg, double score) {
    return weight_loss(*pack, care->slimming, kg, score);
  };
  auto const plan = loss(36, 7);
  ASSERT_TRUE(plan);
  EXPECT_NEAR(plan->aim_kg, 30, 1e-9);
  EXPECT_EQ(std::lround(*plan->kcal_a_day), 897);
  ASSERT_EQ(plan->benefits.size(), 2U);
  EXPECT_NEAR(plan->benefits[0].from_kg, 2.2, 0.05);
  EXPECT_NEAR(plan->benefits[1].from_kg, 3.2, 0.05);
  EXPECT_FALSE(loss(36, 5)) << "an ideal dog is not slimmed";
  EXPECT_FALSE(loss(36, 2));
  EXPECT_FALSE(loss(101, 8));
}

// Labels: meloxicam 0.1 mg/kg for 12 kg with 1.5 mg/mL is 0.8 mL, 1.6 mL on the first day (SPC);
// carprofen 4.4 mg/kg for 25 kg is 110 mg (21 CFR 520.304).
TEST(PublishedArithmetic, LabelledDoses) {
  EXPECT_NEAR(
      given("give 0.1 mg per kg by mouth\n  form liquid 1.5 mg per mL", 12).portions.at(0).count,
      0.8, 1e-9);
  EXPECT_NEAR(
      given("give 0.2 mg per kg by mouth\n  form liquid 1.5 mg per mL", 12).portions.at(0).count,
      1.6, 1e-9);
  EXPECT_NEAR(given("give 4.4 mg per kg by mouth", 25).amount, 110, 1e-9);
}

}  // namespace
}  // namespace flinch
