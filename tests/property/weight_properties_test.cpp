// No amount by weight ever comes out of a weight that can hardly be and that nobody has confirmed.
#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "flinch/care/plan.hpp"
#include "pack/shipped_pack.hpp"
#include "property/random_pack.hpp"
#include "support/tries.hpp"

namespace flinch::test {
namespace {

// Amounts that hang on the weight, in all that a plan tells.
std::size_t amounts_by_weight(Pack const& pack, CarePlan const& plan) {
  std::size_t out = 0;
  for (auto const* list : {&plan.measures, &plan.avoid, &plan.watch})
    for (auto const& measure : *list) {
      out += measure.weight_loss ? 1 : 0;
      auto const* given = measure.dose ? std::get_if<GivenDose>(&*measure.dose) : nullptr;
      // Times and counts have no per kg: that is how an amount by weight shows.
      if (given != nullptr) {
        EXPECT_EQ(given->per_kg.has_value(), depends_on_weight(*pack.care[measure.care].give));
        out += given->per_kg ? 1 : 0;
      }
    }
  return out;
}

std::size_t amounts_for_all_readers(Tables const& tables, Assessment const& result) {
  std::size_t out = 0;
  for (auto const reader : {Reader::keeper, Reader::nurse, Reader::handler, Reader::clinician})
    out += amounts_by_weight(tables.pack(), plan_care(tables, result, reader));
  return out;
}

void put(Case& patient, SignId sign, Answer answer) {
  std::erase_if(patient.answers, [&](auto const& one) { return one.first == sign; });
  std::erase(patient.cannot_tell, sign);
  patient.answers.emplace_back(sign, std::move(answer));
}

void leave_out(Case& patient, SignId sign) {
  std::erase_if(patient.answers, [&](auto const& one) { return one.first == sign; });
}

// Twice as heavy as the heaviest and two kilograms more, or a third of the lightest of a grown one:
// further out than where the doubt begins.
TEST(WeightProperties, NoAmountComesOutOfAWeightThatCanHardlyBe) {
  unsigned const seed = 18;
  auto const pack = shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  std::mt19937 random(seed);
  std::size_t confirmed = 0;
  std::size_t tried = 0;
  for (std::size_t i = 0; i < tries(600); ++i) {
    auto patient = random_case(*pack, random);
    auto const breed = static_cast<std::uint32_t>(random() % pack->breeds.breeds.size());
    auto const& its = pack->breeds.breeds[breed];
    if (!its.size) continue;
    bool const is_heavy = random() % 2 == 0;
    auto const kg = is_heavy ? 2 * its.adult_weight.high_kg + 2 : its.adult_weight.low_kg / 3;
    if (kg < 0.5 || kg > 100) continue;
    put(patient, patient_sign::breed, Choice{breed});
    put(patient, patient_sign::weight, kg);
    if (!is_heavy) put(patient, patient_sign::age, 5.0);
    auto const unconfirmed = random() % 3;
    if (unconfirmed == 0)
      leave_out(patient, patient_sign::weight_confirmed);
    else if (unconfirmed == 1)
      put(patient, patient_sign::weight_confirmed, its.adult_weight.high_kg);
    else {
      leave_out(patient, patient_sign::weight_confirmed);
      patient.cannot_tell.push_back(patient_sign::weight_confirmed);
    }
    ++tried;
    auto const result = assessor.assess(patient);
    ASSERT_EQ(amounts_for_all_readers(tables, result), 0U)
        << "seed " << seed << " case " << i << ": " << kg << " kg, " << its.name;
    for (auto const& exposure : result.judgement.exposures) {
      ASSERT_FALSE(exposure.mg_per_kg);
      // As harmful as for the smallest: what is reckoned with asks for no less.
      auto small = patient;
      leave_out(small, patient_sign::weight);
      auto const as_unknown = assessor.assess(small).judgement.exposures;
      auto const same = std::find_if(as_unknown.begin(), as_unknown.end(),
                                     [&](auto const& one) { return one.care == exposure.care; });
      ASSERT_NE(same, as_unknown.end());
      ASSERT_EQ(same->see, exposure.see);
    }
    put(patient, patient_sign::weight_confirmed, kg);
    confirmed += amounts_for_all_readers(tables, assessor.assess(patient));
  }
  EXPECT_GT(tried, tries(300));
  EXPECT_GT(confirmed, tries(100)) << "nothing was withheld because of the weight";
}

}  // namespace
}  // namespace flinch::test
