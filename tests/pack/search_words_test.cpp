// What callers say of life threats finds the sign at once.
#include <gtest/gtest.h>

#include <algorithm>
#include <span>

#include "flinch/interview/sign_search.hpp"
#include "pack/shipped_pack.hpp"

namespace flinch::test {
namespace {

struct Said {
  char const* words;
  char const* sign;
};

void expect_found(std::span<Said const> said) {
  auto const pack = shipped_pack();
  SignSearch const search(*pack);
  for (auto const& one : said) {
    auto const wanted = pack->find_sign(one.sign);
    ASSERT_TRUE(wanted) << one.sign;
    auto const found = search.find(one.words, 3);
    EXPECT_TRUE(std::any_of(found.begin(), found.end(), [&](FoundSign const& sign) {
      return sign.sign == *wanted;
    })) << one.words;
  }
}

TEST(SearchWords, EverydayWordsForLifeThreatsFindThemAmongTheFirstThree) {
  constexpr Said said[] = {
      {"unconscious", "collapsed"},
      {"lifeless", "collapsed"},
      {"blacked out", "collapsed"},
      {"out cold", "collapsed"},
      {"passed out", "collapsed"},
      {"not responding", "collapsed"},
      {"convulsing", "seizure"},
      {"convulsion", "seizure"},
      {"fitting", "seizure"},
      {"choking", "breathing_trouble"},
      {"suffocating", "breathing_trouble"},
      {"nearly drowned", "breathing_trouble"},
      {"drowned", "breathing_trouble"},
      {"cant breathe", "breathing_trouble"},
      {"gasping", "breathing_trouble"},
      {"electrocuted", "burnt"},
      {"electric shock", "burnt"},
      {"blue tongue", "gum_colour"},
      {"tongue gone blue", "gum_colour"},
      {"pale gums", "gum_colour"},
      {"back legs gone", "hindlegs_failing"},
      {"paralysed", "cannot_walk"},
      {"run over", "road_accident"},
      {"hit by a car", "road_accident"},
      {"ate rat poison", "ate_poison"},
      {"grapes", "ate_poison"},
      {"antifreeze", "ate_poison"},
      {"xylitol", "ate_poison"},
      {"heatstroke", "heatstroke_feared"},
      {"stabbed", "wound"},
      {"bloated", "belly_swollen"},
      {"pot-bellied", "belly_swollen"},
      {"swollen tummy", "belly_swollen"},
      {"seizing", "seizure"},
      {"foaming at the mouth", "seizure"},
      {"frothing at the mouth", "seizure"},
      {"blocked", "no_urine"},
      {"pus under her tail", "discharge_vulva"},
      {"cane toad", "stung_or_snake"},
      {"eye popped out", "eye_out"},
  };
  expect_found(said);
}

// By what it is called in the street and on the packet.
TEST(SearchWords, NamesOfMedicinesAndDrugsFindTheQuestionThatSetsTheTier) {
  constexpr Said said[] = {
      {"metoprolol", "ate_human_medicine"},
      {"beta blocker", "ate_human_medicine"},
      {"Norvasc", "ate_human_medicine"},
      {"amlodipine", "ate_human_medicine"},
      {"lisinopril", "ate_human_medicine"},
      {"ramipril", "ate_human_medicine"},
      {"Zoloft", "ate_human_medicine"},
      {"antidepressants", "ate_human_medicine"},
      {"Prozac", "ate_human_medicine"},
      {"venlafaxine", "ate_human_medicine"},
      {"Cymbalta", "ate_human_medicine"},
      {"amitriptyline", "ate_human_medicine"},
      {"Adderall", "ate_human_medicine"},
      {"Ritalin", "ate_human_medicine"},
      {"Vyvanse", "ate_human_medicine"},
      {"baclofen", "ate_human_medicine"},
      {"blood pressure tablets", "ate_human_medicine"},
      {"cigarettes", "ate_nicotine"},
      {"vape", "ate_nicotine"},
      {"snus", "ate_nicotine"},
      {"nicotine gum", "ate_nicotine"},
      {"weed", "ate_cannabis"},
      {"edible", "ate_cannabis"},
      {"THC", "ate_cannabis"},
      {"marijuana", "ate_cannabis"},
      {"hash brownie", "ate_cannabis"},
  };
  expect_found(said);
}

}  // namespace
}  // namespace flinch::test
