// A dog with the typical signs of a published series ranks the disorder first or second. That the
// pack stores the figures as published is tested by counted_figures.py.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "pack/shipped_pack.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

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
