// What a vet types for a disease finds it: the trade's abbreviations and names. Common usage, from
// memory; no list was copied.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>

#include "flinch/interview/sign_search.hpp"
#include "flinch/model/find_named.hpp"
#include "pack/shipped_pack.hpp"

namespace flinch::test {
namespace {

struct Called {
  char const* words;
  char const* cause;
};

constexpr Called diseases[] = {
    {"GDV", "stomach_torsion"},
    {"CCL", "cruciate_rupture"},
    {"CCLR", "cruciate_rupture"},
    {"cruciate rupture", "cruciate_rupture"},
    {"IVDD", "disc_extrusion_back"},
    {"slipped disc", "disc_extrusion_neck"},
    {"haemoabdomen", "bleeding_belly"},
    {"HSA", "bleeding_belly"},
    {"pyometra", "womb_infection"},
    {"pyo", "womb_infection"},
    {"IMHA", "blood_destruction"},
    {"ITP", "low_platelets"},
    {"OA", "other_arthritis"},
    {"DJD", "other_arthritis"},
    {"HGE", "bloody_diarrhoea"},
    {"AHDS", "bloody_diarrhoea"},
    {"IMPA", "immune_polyarthritis"},
    {"SRMA", "steroid_meningitis"},
    {"FCE", "cord_stroke"},
    {"ANNPE", "disc_blow"},
    {"CHF", "heart_or_lung"},
    {"MMVD", "heart_or_lung"},
    {"DKA", "diabetic_crisis"},
    {"AKI", "kidney_failure"},
    {"UTI", "cystitis"},
    {"FB", "intestinal_blockage"},
    {"foreign body", "intestinal_blockage"},
    {"KCS", "dry_eye"},
    {"OE", "ear_disease"},
    {"OM", "middle_ear_disease"},
    {"Addison's", "adrenal_crisis"},
    {"HAC", "overactive_adrenals"},
    {"CHD", "hip_dysplasia"},
    {"HD", "hip_dysplasia"},
    {"FCP", "elbow_dysplasia"},
    {"UAP", "elbow_dysplasia"},
    {"OCD", "osteochondrosis_shoulder"},
    {"MPL", "patellar_luxation"},
    {"LCPD", "hip_necrosis"},
    {"HOD", "hypertrophic_osteodystrophy"},
    {"pano", "panosteitis"},
    {"OSA", "bone_tumour"},
    {"MCT", "mast_cell_tumour"},
    {"TCC", "bladder_tumour"},
    {"DM", "degenerative_myelopathy"},
    {"CDRM", "degenerative_myelopathy"},
    {"wobblers", "wobbler"},
    {"AAI", "atlantoaxial_instability"},
    {"DLSS", "lumbosacral_stenosis"},
    {"MUO", "brain_inflammation"},
    {"GME", "brain_inflammation"},
    {"MMM", "jaw_muscle_inflammation"},
    {"CDS", "ageing_brain"},
    {"BOAS", "short_nose_crisis"},
    {"GOLPP", "laryngeal_paralysis"},
    {"CPV", "parvovirus"},
    {"parvo", "parvovirus"},
    {"CIRDC", "kennel_cough"},
    {"BPH", "prostate_disease"},
    {"UO", "blocked_urethra"},
    {"RTA", "accident_injuries"},
    {"TBI", "head_injury"},
    {"EIC", "exercise_collapse"},
    {"PLL", "lens_luxation"},
};

TEST(ClinicalNames, AbbreviationsOfTheTradeFindTheirDisease) {
  auto const pack = shipped_pack();
  constexpr std::array causes = {NamedKind::cause};
  for (auto const& one : diseases) {
    auto const found = find_named(*pack, one.words, causes).best();
    EXPECT_TRUE(std::any_of(found.begin(), found.end(), [&](Named thing) {
      return name_of(*pack, thing) == one.cause;
    })) << one.words;
  }
}

// At a desk they give signs of the disease to ask for, none of which is recorded by Enter.
TEST(ClinicalNames, AtADeskADiseaseGivesItsSignsToAskFor) {
  auto const pack = shipped_pack();
  SignSearch const search(*pack);
  std::size_t by_disease = 0;
  for (auto const& one : diseases) {
    auto const found = search.find(one.words, 9);
    ASSERT_FALSE(found.empty()) << one.words;
    by_disease += found.front().of_disease ? 1 : 0;  // else a sign is said so as well
    for (auto const& sign : found) {
      if (!sign.of_disease) continue;
      EXPECT_FALSE(sign.is_exact) << one.words;
      EXPECT_EQ((*pack)[sign.sign].seen_by, SeenBy::anyone) << one.words;
    }
  }
  EXPECT_GE(by_disease, 50U) << "of " << std::size(diseases);
  for (auto const* const only :
       {"GDV", "CCL", "IMHA", "FCE", "AHDS", "DKA", "AKI", "CIRDC", "pyometra"})
    EXPECT_TRUE(search.find(only, 1).front().of_disease) << only;
  auto const gdv = search.find("a GDV", 9);
  ASSERT_FALSE(gdv.empty());
  auto const retching = pack->find_sign("retching_dry");
  EXPECT_TRUE(std::any_of(gdv.begin(), gdv.end(),
                          [&](FoundSign const& one) { return one.sign == *retching; }));
  EXPECT_FALSE(search.find("swollen belly", 9).front().of_disease);
}

TEST(ClinicalNames, DiseasesThatADogIsKnownToHaveAreAskedAsSuch) {
  auto const pack = shipped_pack();
  SignSearch const search(*pack);
  constexpr Called known[] = {{"CKD", "known_kidney_disease"},
                              {"heart failure", "known_heart_disease"},
                              {"HBC", "road_accident"},
                              {"cherry eye", "third_lid_up"}};
  for (auto const& one : known) {
    auto const found = search.find(one.words, 1);
    ASSERT_FALSE(found.empty()) << one.words;
    EXPECT_EQ((*pack)[found.front().sign].name, one.cause) << one.words;
  }
}

}  // namespace
}  // namespace flinch::test
