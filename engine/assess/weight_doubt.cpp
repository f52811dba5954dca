#include "flinch/assess/weight_doubt.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "flinch/model/body_weight.hpp"
#include "flinch/model/shown_weight.hpp"
#include "flinch/model/units.hpp"

namespace flinch {
namespace {

std::optional<double> number(Answer const* answer) {
  return answer == nullptr ? std::nullopt : std::optional(std::get<double>(*answer));
}

std::optional<std::uint32_t> choice(Answer const* answer) {
  return answer == nullptr ? std::nullopt : std::optional(std::get<Choice>(*answer).index);
}

// What is usual, by the breed or else by the size that was told.
template <class Given>
std::optional<WeightDoubt> expected(Pack const& pack, Given const& given) {
  auto const& table = pack.breeds;
  WeightDoubt out;
  if (auto const index = choice(given(patient_sign::breed))) {
    auto const& breed = table.breeds[*index];
    out.breed = index;
    out.usual = breed.adult_weight;
    bool const is_told = out.usual.high_kg > 0;
    if (!is_told && breed.size && pack.size_by_weight)
      out.usual = (*pack.size_by_weight)[*breed.size];
    bool const is_crossbreed = !breed.size && pack.size_by_weight;
    if (!is_crossbreed && out.usual.high_kg > 0) return out;
    out.breed.reset();
  }
  out.size = choice(given(patient_sign::size));
  if (!out.size || !pack.size_by_weight) return std::nullopt;
  out.usual = (*pack.size_by_weight)[*out.size];
  return out;
}

// What small ones soon gain, beside their share.
double little_more_kg(Pack const& pack, WeightRange const& usual) {
  constexpr double of_lightest = 2;
  constexpr double of_high = 0.25;
  return pack.weight_doubts.leeway_kg.value_or(
      std::min(of_lightest * pack.doses.lightest_kg, of_high * usual.high_kg));
}

double most_kg(Pack const& pack, WeightRange const& usual) {
  return pack.weight_doubts.above_of_high * usual.high_kg + little_more_kg(pack, usual);
}

// As pounds it would be usual, as kilograms it is more than the fattest weighs.
bool may_be_pounds(Pack const& pack, WeightRange const& usual, double kg) {
  auto const as_pounds_kg = convert(kg, *find_unit("lb"), *find_unit("kg"));
  return as_pounds_kg >= usual.low_kg && as_pounds_kg <= usual.high_kg &&
         kg > pack.weight_doubts.pounds_above * usual.high_kg + little_more_kg(pack, usual);
}

template <class Given>
std::optional<WeightDoubt> doubt(Pack const& pack, Given const& given) {
  auto const kg = number(given(patient_sign::weight));
  if (!kg) return std::nullopt;
  auto const confirmed = number(given(patient_sign::weight_confirmed));
  if (confirmed && is_same_weight(*confirmed, *kg)) return std::nullopt;
  auto out = expected(pack, given);
  if (!out) return std::nullopt;
  out->kg = *kg;
  auto const age = number(given(patient_sign::age));
  bool const is_grown = age && pack.size_by_weight && *age >= pack.grown_years;
  bool const fits = *kg <= most_kg(pack, out->usual) && !may_be_pounds(pack, out->usual, *kg) &&
                    (!is_grown || *kg >= out->usual.low_kg * pack.weight_doubts.below_of_low);
  return fits ? std::nullopt : out;
}

// Only what was given: a size that follows from the weight fits it always.
auto given_in(Knowledge const& knowledge) {
  return [&](SignId sign) -> Answer const* {
    auto const* known = knowledge.find(sign);
    return known != nullptr && known->origin == Origin::given ? &known->answer : nullptr;
  };
}

auto given_in(Case const& patient) {
  return [&](SignId sign) -> Answer const* {
    auto const found = std::find_if(patient.answers.begin(), patient.answers.end(),
                                    [&](auto const& one) { return one.first == sign; });
    return found == patient.answers.end() ? nullptr : &found->second;
  };
}

template <class Given>
std::optional<double> for_amounts(Pack const& pack, Given const& given) {
  auto const kg = number(given(patient_sign::weight));
  if (!kg || !is_believable_kg(pack.doses, *kg) || doubt(pack, given)) return std::nullopt;
  return kg;
}

}  // namespace

std::optional<WeightDoubt> doubt_of_weight(Pack const& pack, Knowledge const& knowledge) {
  return doubt(pack, given_in(knowledge));
}

std::optional<WeightDoubt> doubt_of_weight(Pack const& pack, Case const& patient) {
  return doubt(pack, given_in(patient));
}

std::optional<double> weight_for_amounts(Pack const& pack, Knowledge const& knowledge) {
  return for_amounts(pack, given_in(knowledge));
}

std::optional<double> weight_for_amounts(Pack const& pack, Case const& patient) {
  return for_amounts(pack, given_in(patient));
}

bool is_same_weight(double kg, double other_kg) {
  constexpr double same = 0.01;
  return std::abs(kg - other_kg) <= same * std::max(kg, other_kg);
}

bool bears_on_weight(SignId sign) {
  return sign == patient_sign::weight || sign == patient_sign::weight_confirmed ||
         sign == patient_sign::age || sign == patient_sign::breed || sign == patient_sign::size;
}

namespace {

std::string range_words(Pack const& pack, WeightRange const& usual) {
  auto const& [low_kg, high_kg] = usual;
  auto const [unit, in_a_kg] = weight_unit(pack);
  if (high_kg >= std::numeric_limits<double>::max())
    return fmt::format("{:.3g} {} or more", low_kg * in_a_kg, unit);
  if (low_kg <= 0) return fmt::format("up to {:.3g} {}", high_kg * in_a_kg, unit);
  return fmt::format("{:.3g} to {:.3g} {}", low_kg * in_a_kg, high_kg * in_a_kg, unit);
}

}  // namespace

std::string doubt_words(Pack const& pack, WeightDoubt const& doubt) {
  auto const who = doubt.breed ? "a grown " + pack.breeds.breeds[*doubt.breed].name
                               : fmt::format("a grown one of the size \"{}\"",
                                             pack[patient_sign::size].values[*doubt.size].label);
  auto const [unit, in_a_kg] = weight_unit(pack);
  return fmt::format("{:.3g} {} is far {} than usual: {} weighs {}", doubt.kg * in_a_kg, unit,
                     doubt.is_too_heavy() ? "more" : "less", who, range_words(pack, doubt.usual));
}

}  // namespace flinch
