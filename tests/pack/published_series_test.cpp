// Disorders with a published series: the pack stores the published frequencies, and a dog with the
// series' typical signs ranks the disorder first or second.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "pack/shipped_pack.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

struct Figure {
  char const* cause;
  char const* rule;
  double percent;  ///< as printed, or k/n as a percentage
  double dogs;
  char const* source;
};

// Source and how it was read stand in rules/canine/sources.flinch; the comment is what was printed.
constexpr std::array figures = {
    Figure{"elbow_arthritis", "lame_legs", 75.65, 616, "oneill2020"},          // 466/616
    Figure{"elbow_arthritis", "elbow_range", 39.45, 616, "oneill2020"},        // 243/616
    Figure{"cruciate_rupture", "knee_slides", 60, 25, "carobbi2009"},          // 15/25, conscious
    Figure{"shoulder_tendon", "shoulder_tender", 49.3, 327, "canapps2016"},    // of 327
    Figure{"shoulder_tendon", "sports_dog", 39.4, 327, "canapps2016"},         // of 327
    Figure{"immune_polyarthritis", "fever_joints", 68.8, 16, "jvas2010"},      // 11/16
    Figure{"disc_extrusion_back", "back_tender", 73.5, 68, "scielo_sh"},       // 50/68
    Figure{"disc_extrusion_back", "cannot_walk", 58.5, 164, "scielo_tl2020"},  // 26.8 + 8.5 + 23.2
    Figure{"disc_extrusion_neck", "weak_all_legs", 41.02, 78,
           "scielo_cx2020"},  // 25.64 + 15.38 of 78
    Figure{"lumbosacral_stenosis", "reluctant_to_jump", 92.4, 131, "danielsson1999"},
    Figure{"lumbosacral_stenosis", "lower_back_tender", 84.7, 131, "danielsson1999"},
    Figure{"lumbosacral_stenosis", "shepherd_lower_back", 56.5, 131, "danielsson1999"},
    Figure{"steroid_meningitis", "fever_joints", 76, 29, "huveta_srma"},      // 22/29
    Figure{"steroid_meningitis", "mouth_meningitis", 24, 29, "huveta_srma"},  // 7/29
    Figure{"steroid_meningitis", "drools", 10.34, 29, "huveta_srma"},         // 3/29
    Figure{"syringomyelia", "cries_out_back", 65.4, 130, "rusbridge2019"},
    Figure{"syringomyelia", "reluctant_to_jump", 35.4, 130, "rusbridge2019"},
    Figure{"syringomyelia", "awake_at_night", 22, 130, "rusbridge2019"},
    Figure{"pancreatitis", "vomiting", 90, 70, "hess1998"},
    Figure{"pancreatitis", "belly_tender", 58, 70, "hess1998"},
    Figure{"pancreatitis", "diarrhoea", 33, 70, "hess1998"},
    Figure{"bloody_diarrhoea", "vomiting", 80, 108, "mortier2015"},
    Figure{"womb_infection", "discharge_vulva", 74.03, 77, "hiew_loi"},  // 57/77
    Figure{"prostate_disease", "straining_stool", 34, 289, "cazzuli2023"},
    Figure{"corneal_ulcer", "eye_tender", 46.16, 834, "oneill2017cud"},            // 385/834
    Figure{"steroid_meningitis", "stiff_all_over", 83, 29, "huveta_srma"},         // 24/29
    Figure{"steroid_meningitis", "meningitis_breeds", 75.41, 61, "lau2019"},       // 46/61
    Figure{"syringomyelia", "plays_less", 37.7, 130, "rusbridge2019"},             // less active
    Figure{"syringomyelia", "shuns_touch", 30, 130, "rusbridge2019"},              // touch aversion
    Figure{"syringomyelia", "rubs_head", 28.5, 130, "rusbridge2019"},              // head rubbing
    Figure{"syringomyelia", "spine_tender_anywhere", 54.6, 130, "rusbridge2019"},  // spinal pain
    Figure{"elbow_arthritis", "lags_on_walks", 19.97, 616, "oneill2020"},          // 123/616
    Figure{"lumbosacral_stenosis", "stiff_in_hard_work", 85.5, 131, "danielsson1999"},
    Figure{"disc_extrusion_neck", "front_leg_with_neck", 15, 80,
           "neckdachs2024"},                                                   // nerve-root sign
    Figure{"hind_limb_clot", "cannot_walk", 35, 100, "ruehl2020"},             // non-ambulatory
    Figure{"hind_limb_clot", "hind_pulse_weak", 74.19, 31, "lakebakaar2012"},  // 17 + 6 of 31
    Figure{"hind_limb_clot", "legs_tire", 38.5, 13, "goncalves2008"},          // 5/13
    Figure{"heatstroke", "ran_in_warmth", 74.2, 1259, "hall2020exertion"},     // exertional
    Figure{"tetanus", "tetanus_wound", 73.81, 42, "zitzl2022"},                // 31/42
    Figure{"heatstroke", "lethargic", 47.79, 856, "hall2021"},
    Figure{"heatstroke", "very_hot", 50, 54, "bruchim2006"},             // 27/54
    Figure{"prostate_disease", "lethargic", 27, 289, "cazzuli2023"},     // lethargy
    Figure{"eye_abscess", "stain_positive", 19.5, 41, "fischer2018"},    // corneal ulcer, 8/41
    Figure{"bladder_stones", "female_bladder", 52.4, 14008, "roe2012"},  // males
    Figure{"tremor_poisoning", "drools", 57.69, 26, "dutil2023"},        // 15/26, metaldehyde
    Figure{"tremor_poisoning", "seizure", 65.38, 26, "dutil2023"},       // 17/26, metaldehyde
};

TEST(PublishedSeries, ThePackStoresTheFiguresAsPrinted) {
  auto const pack = shipped_pack();
  for (auto const& figure : figures) {
    auto const rule = std::find_if(pack->rules.begin(), pack->rules.end(),
                                   [&](Rule const& r) { return r.name == figure.rule; });
    ASSERT_NE(rule, pack->rules.end()) << figure.rule;
    auto const entry =
        std::find_if(rule->entries.begin(), rule->entries.end(),
                     [&](RuleEntry const& e) { return (*pack)[e.cause].name == figure.cause; });
    ASSERT_NE(entry, rule->entries.end()) << figure.cause << " in " << figure.rule;
    EXPECT_NEAR(100 * entry->frequencies.at(0), figure.percent, 1e-9)
        << figure.cause << " in " << figure.rule;
    ASSERT_TRUE(entry->sample_size && entry->source) << figure.cause << " in " << figure.rule;
    EXPECT_EQ(*entry->sample_size, figure.dogs) << figure.rule;
    EXPECT_EQ((*pack)[*entry->source].name, figure.source);
  }
}

TEST(PublishedSeries, EveryFigureWithASampleIsInThisTest) {
  auto const pack = shipped_pack();
  std::size_t counted = 0;
  for (auto const& rule : pack->rules)
    for (auto const& entry : rule.entries) {
      if (!entry.sample_size) continue;
      ++counted;
      bool const is_listed = std::any_of(figures.begin(), figures.end(), [&](Figure const& f) {
        return rule.name == f.rule && (*pack)[entry.cause].name == f.cause;
      });
      EXPECT_TRUE(is_listed) << rule.name << " in " << (*pack)[entry.cause].name;
    }
  EXPECT_EQ(counted, figures.size());
}

struct Typical {
  char const* cause;
  char const* source;
  char const* yaml;
};

// The commonest signs and the signalment of each series, nothing else.
constexpr std::array typical = {
    Typical{"elbow_arthritis",
            "oneill2020: lameness 76 %, pain on examination 46 %, less movement 39 %; Labradors",
            "dog: {age: 8 years, breed: labrador}\nanswers: {lame: yes, tender: [left elbow], "
            "limited_range: [left elbow]}\n"},
    Typical{"cruciate_rupture",
            "taylorbrown2015, carobbi2009: over 3 years, Rottweiler; drawer 60 %, swelling beside "
            "the knee tendon",
            "dog: {age: 5 years, breed: rottweiler}\nanswers: {lame: yes, knee_slides: yes, "
            "swollen: [left stifle]}\n"},
    Typical{"patellar_luxation", "oneill2016: small breeds, young",
            "dog: {age: 2 years, breed: pomeranian}\nanswers: {skips_steps: yes, kneecap_slips: "
            "yes, lame: yes}\n"},
    Typical{"shoulder_tendon", "canapps2016: tendon painful 49 %, sporting 39 %, median six years",
            "dog: {age: 6 years}\nanswers: {lame: yes, sports_dog: yes, tender: [right shoulder], "
            "worse_after_exercise: yes}\n"},
    Typical{"immune_polyarthritis", "jvas2010: gait 100 %, fever 69 %, knee 100 %, wrist 56 %",
            "dog: {age: 5 years}\nanswers: {many_joints: yes, temperature: 40 C, swollen: [left "
            "stifle, right stifle], lame: yes}\n"},
    Typical{"disc_extrusion_back", "scielo_sh, scielo_tl2020: spinal pain 74 %, cannot walk 32 %",
            "dog: {age: 5 years, breed: dachshund}\nanswers: {hindlegs_failing: yes, cries_out: "
            "yes, tender: [back]}\n"},
    Typical{"disc_extrusion_neck", "scielo_cx2020: neck pain only 59 %",
            "dog: {age: 7 years, breed: beagle}\nanswers: {neck_moves_badly: yes, cries_out: yes, "
            "tender: [neck]}\n"},
    Typical{"lumbosacral_stenosis",
            "danielsson1999: reluctant to jump 92 %, pain on palpation 85 %, shepherds 57 %",
            "dog: {age: 6 years, breed: german shepherd}\nanswers: {reluctant_to_jump: yes, "
            "tender: [lumbosacral], worse_after_exercise: yes}\n"},
    Typical{"steroid_meningitis",
            "huveta_srma: neck pain 100 %, stiff 83 %, fever 76 %, off food 62 %, 6 to 18 months",
            "dog: {age: 11 months}\nanswers: {tender: [neck], temperature: 40 C, appetite: less, "
            "neck_moves_badly: yes}\n"},
    Typical{"syringomyelia",
            "rusbridge2019: vocalising 65 %, spinal pain 55 %, less jumping 35 %, scratching 29 %; "
            "Cavaliers",
            "dog: {age: 4 years, breed: cavalier}\nanswers: {cries_out: yes, reluctant_to_jump: "
            "yes, scratches_neck: yes}\n"},
    Typical{"pancreatitis", "hess1998: anorexia 91 %, vomiting 90 %, belly pain 58 %",
            "dog: {age: 8 years}\nanswers: {appetite: nothing, vomiting: yes, tender: [belly]}\n"},
    Typical{"bloody_diarrhoea", "mortier2015: vomiting first 80 %; median 5 years and 10 kg",
            "dog: {age: 5 years, weight: 9.8 kg}\nanswers: {vomiting: yes, bloody_stool: yes, "
            "diarrhoea: yes}\n"},
    Typical{"womb_infection", "hiew_loi: discharge 74 %, median eight years, weeks after heat",
            "dog: {age: 8 years, sex: female, neutered: no}\nanswers: {discharge_vulva: yes, "
            "in_season: yes, lame: no}\n"},
    Typical{"prostate_disease",
            "cazzuli2023: straining 34 %, off food 32 %; entire males of seven to eleven years",
            "dog: {age: 9 years, sex: male, neutered: no}\nanswers: {straining_stool: yes, "
            "blood_in_urine: yes, appetite: less}\n"},
    Typical{"bleeding_belly", "polishhemo: pale gums, slow refill and fast pulse in all 11",
            "dog: {age: 10 years}\nanswers: {gum_colour: pale, capillary_refill: 4 seconds, "
            "heart_rate: 180 per minute}\n"},
    Typical{"corneal_ulcer", "oneill2017cud: pain 46 %; short-nosed breeds",
            "dog: {age: 4 years, breed: pug}\nanswers: {squinting: yes, eye_red: yes, tender: "
            "[left eye]}\n"},
};

TEST(PublishedSeries, ADogWithTheTypicalSignsRanksTheDisorderFirstOrSecond) {
  auto const pack = shipped_pack();
  for (auto const& one : typical) {
    auto const result = assess(pack, one.yaml);
    std::string head;
    bool found = false;
    for (std::size_t i = 0; i < 2; ++i) {
      auto const& cause = result.ranking[i].cause;
      auto const name = cause ? (*pack)[*cause].name : "none";
      head += name + " ";
      found = found || name == one.cause;
    }
    EXPECT_TRUE(found) << one.cause << " (" << one.source << ") came after " << head;
  }
}

}  // namespace
}  // namespace flinch::test
