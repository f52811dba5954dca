// The lowest levels of the shipped poisons against the figures as their sources print them, turned
// into mg per kg here, and that an amount is weighed against them.
#include <gtest/gtest.h>

#include <algorithm>
#include <stdexcept>

#include "flinch/assess/assessment.hpp"
#include "pack/shipped_pack.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

constexpr double kg_per_lb = 0.45359237;
constexpr double g_per_oz = 28.349523;

class PoisonLevels : public ::testing::Test {
 protected:
  std::shared_ptr<Pack const> pack = shipped_pack();

  [[nodiscard]] Care const& care(std::string const& name) const { return care_named(*pack, name); }
  [[nodiscard]] std::size_t reached(std::string const& name, std::string const& answers) {
    Tables const tables(pack);
    Assessor assessor(tables);
    auto const result = assessor.assess(
        case_of(*pack, "dog: {species: dog, weight: 10 kg}\nanswers: {" + answers + "}"));
    EXPECT_EQ(tier_name(*pack, result.judgement.tier), "now") << name;
    for (auto const& exposure : result.judgement.exposures)
      if (pack->care[exposure.care].name == name) return exposure.reached.size();
    return 999;
  }
};

TEST_F(PoisonLevels, AreTheLowestThatTheSourcesPrint) {
  struct Printed {
    char const* care;
    std::size_t level;
    double mg_per_kg;
  };
  for (auto const& printed : {
           Printed{"nicotine_eaten", 0, 0.5},     // a clinic's page; 1 elsewhere
           {"nicotine_eaten", 1, 4 / kg_per_lb},  // VeterinaryPartner: 4 mg per lb
           {"cannabis_eaten", 1, 3000.0 / 1000},  // a thousandth of 3000 mg per kg
           {"calcium_blocker_eaten", 1, 50},      // petpoisoncontrol.com, diltiazem
           {"ace_inhibitor_eaten", 1, 20},        // ASPCA as told by vetblog.net
           {"ssri_eaten", 0, 1},                  // Clinician's Brief
           {"ssri_eaten", 1, 3},
           {"ssri_eaten", 2, 8},
           {"tricyclic_eaten", 1, 15},                  // Johnson 1990, abstract
           {"amphetamine_eaten", 0, 1},                 // vetgirlontherun
           {"amphetamine_eaten", 1, 0.59 / kg_per_lb},  // peteducation.com: 0.59 mg per lb
           {"amphetamine_eaten", 2, 23.3 / 2},          // LD50, its dextro form twice as toxic
           {"methylphenidate_eaten", 0, 0.36},          // JAVMA 2010, 128 dogs
           {"methylphenidate_eaten", 1, 10.2},
           {"baclofen_eaten", 0, 0.5},  // Today's Veterinary Practice 2018
           {"baclofen_eaten", 1, 1},
           {"milk_chocolate_eaten", 0, 20 * g_per_oz / 60 * 1000},  // 20 mg per kg, 60 mg an ounce
           {"milk_chocolate_eaten", 2, 60 * g_per_oz / 60 * 1000},
           {"dark_chocolate_eaten", 0, 20 * g_per_oz / 450 * 1000},  // 450 mg an ounce
           {"dark_chocolate_eaten", 2, 60 * g_per_oz / 450 * 1000},
           {"grapes_eaten", 1, 0.1 * g_per_oz * 1000},  // 0.1 ounce of dry weight per kg
           {"grapes_eaten", 2, 19600},
       }) {
    auto const& level = care(printed.care).levels.at(printed.level);
    EXPECT_LE(level.mg_per_kg, printed.mg_per_kg * 1.0001) << printed.care << ": never above";
    EXPECT_NEAR(level.mg_per_kg, printed.mg_per_kg, 0.05 * printed.mg_per_kg) << printed.care;
  }
}

TEST_F(PoisonLevels, AnAmountIsWeighedAgainstThem) {
  EXPECT_EQ(reached("nicotine_eaten", "ate_nicotine: yes, drug_mg: 4 mg"), 0U);
  EXPECT_EQ(reached("nicotine_eaten", "ate_nicotine: yes, drug_mg: 20 mg"), 1U);
  EXPECT_EQ(reached("nicotine_eaten", "ate_nicotine: yes, drug_mg: 88 mg"), 2U);
  auto const medicine = [](std::string const& kind, std::string const& mg) {
    return "ate_human_medicine: yes, human_medicine_kind: " + kind + ", human_medicine_mg: " + mg +
           " mg";
  };
  EXPECT_EQ(reached("ssri_eaten", medicine("ssri", "9")), 0U);
  EXPECT_EQ(reached("ssri_eaten", medicine("ssri", "100")), 3U);
  EXPECT_EQ(reached("beta_blocker_eaten", medicine("beta_blocker", "1")), 1U) << "none is safe";
  EXPECT_EQ(reached("tricyclic_eaten", medicine("tricyclic", "150")), 2U);
  EXPECT_EQ(reached("amphetamine_eaten", medicine("amphetamine", "12")), 1U);
  EXPECT_EQ(reached("methylphenidate_eaten", medicine("methylphenidate", "102")), 2U);
  EXPECT_EQ(reached("cannabis_eaten", "ate_cannabis: yes, drug_mg: 30 mg"), 2U);
}

// Each problem is a heading of the clinician's page; a measure without one would stand under none.
TEST_F(PoisonLevels, EachClinicianMeasureNamesItsProblem) {
  for (auto const& one : pack->care)
    EXPECT_EQ(one.for_clinician && !one.taken, !one.problem.empty()) << one.name;
}

}  // namespace
}  // namespace flinch::test
