// What a dog is watched for at home, and how urgently its keeper is told to act then, must not be
// more urgent than what the same answers come to when they are given.
#include <gtest/gtest.h>

#include <algorithm>

#include "flinch/assess/assessment.hpp"
#include "pack/made_patients.hpp"
#include "pack/shipped_pack.hpp"

namespace flinch::test {
namespace {

struct Threshold {
  char const* watch;  ///< the statement that tells it
  char const* words;  ///< what it says, in its own words
  char const* tier;
  std::vector<std::pair<char const*, Answer>> answers;
};

Answer choice(Pack const& pack, char const* sign, char const* value) {
  auto const& values = pack[*pack.find_sign(sign)].values;
  for (std::uint32_t i = 0; i < values.size(); ++i)
    if (values[i].name == value) return Choice{i};
  ADD_FAILURE() << value << " is no value of " << sign;
  return Choice{0};
}

std::vector<Threshold> thresholds(Pack const& pack) {
  auto const gums = [&](char const* colour) { return choice(pack, "gum_colour", colour); };
  Findings at_spine;
  at_spine.found_somewhere = true;
  at_spine.found.push_back({*pack.find_site("spine"), Side::any});
  return {
      {"watch_general", "collapses", "now", {{"collapsed", true}}},
      {"watch_breathing", "Working for breath: leave now", "now", {{"breathing_trouble", true}}},
      {"watch_breathing", "more than 45", "today", {{"breathing_rate", 46.0}}},
      {"watch_gums",
       "Pale, white, blue, brown or yellow gums: leave now",
       "now",
       {{"gum_colour", gums("pale")}}},
      {"watch_gums",
       "Pale, white, blue, brown or yellow gums: leave now",
       "now",
       {{"gum_colour", gums("blue")}}},
      {"watch_gums",
       "Pale, white, blue, brown or yellow gums: leave now",
       "now",
       {{"gum_colour", gums("brown")}}},
      {"watch_gums",
       "Pale, white, blue, brown or yellow gums: leave now",
       "now",
       {{"gum_colour", gums("yellow")}}},
      {"watch_gums",
       "Brick red: telephone now, and be seen today",
       "today",
       {{"gum_colour", gums("red")}}},
      {"watch_temperature", "from 39.7 C, seen today", "today", {{"temperature", 39.7}}},
      {"watch_temperature", "from 40 C", "now", {{"temperature", 40.0}}},
      {"watch_temperature", "under 37.2 C: leave now", "now", {{"temperature", 37.1}}},
      {"watch_belly", "Retching that brings nothing up", "now", {{"retching_dry", true}}},
      {"watch_belly", "restlessness", "now", {{"belly_swollen", true}, {"restless", true}}},
      {"watch_belly", "drool", "now", {{"belly_swollen", true}, {"drools", true}}},
      {"watch_belly", "A belly that swells: telephone now", "today", {{"belly_swollen", true}}},
      {"watch_urine", "Strains without a drop: leave now", "now", {{"no_urine", true}}},
      {"watch_legs", "any wobble", "today", {{"hindlegs_failing", true}}},
      {"watch_legs", "cannot stand: leave now", "now", {{"cannot_walk", true}}},
      {"watch_legs",
       "wetting without knowing",
       "today",
       {{"soils_without_knowing", true}, {"tender", at_spine}}},
      {"watch_after_overdose", "vomiting", "now", {{"human_painkiller", true}, {"vomiting", true}}},
      {"watch_after_overdose",
       "black stool",
       "now",
       {{"human_painkiller", true}, {"black_stool", true}}},
      {"watch_after_overdose",
       "brown or pale gums",
       "now",
       {{"human_painkiller", true}, {"gum_colour", gums("brown")}}},
      {"watch_after_overdose",
       "swollen face",
       "now",
       {{"human_painkiller", true}, {"face_swollen", true}}},
      {"watch_after_overdose",
       "yellow eyes",
       "now",
       {{"human_painkiller", true}, {"yellow_skin", true}}},
      {"watch_after_overdose",
       "much thirst",
       "now",
       {{"human_painkiller", true}, {"thirst", choice(pack, "thirst", "more")}}},
      {"watch_after_overdose",
       "wobbling",
       "now",
       {{"human_painkiller", true}, {"balance_lost", true}}},
      {"watch_after_overdose", "fits", "now", {{"human_painkiller", true}, {"seizure", true}}},
  };
}

TEST(WatchThresholds, TheSameAnswersReachTheTierThatIsToldAtHome) {
  auto const pack = shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  for (auto const& one : thresholds(*pack)) {
    auto const care = std::find_if(pack->care.begin(), pack->care.end(),
                                   [&](Care const& c) { return c.name == one.watch; });
    ASSERT_NE(care, pack->care.end()) << one.watch;
    EXPECT_NE(care->watch.find(one.words), std::string::npos)
        << one.watch << " no longer says: " << one.words;
    // Everything else about the dog is well, so that nothing else raises the tier.
    auto answers = well_patient(*pack);
    for (auto const& [sign, answer] : one.answers) answers[*pack->find_sign(sign)] = answer;
    Case patient;
    patient.answers.assign(answers.begin(), answers.end());
    auto const result = assessor.assess(patient);
    ASSERT_TRUE(result.judgement.tier) << one.watch << ": " << one.words;
    auto const least = std::find_if(pack->tiers.begin(), pack->tiers.end(),
                                    [&](Tier const& tier) { return tier.name == one.tier; });
    EXPECT_LE(index(*result.judgement.tier), static_cast<std::size_t>(least - pack->tiers.begin()))
        << one.watch << ": " << one.words << " came to " << (*pack)[*result.judgement.tier].name;
  }
}

}  // namespace
}  // namespace flinch::test
