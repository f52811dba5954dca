#include "support/dose_text.hpp"

#include <stdexcept>

#include "support/small_pack.hpp"

namespace flinch::test {

ComputedDose dose_of(std::string const& clauses, std::optional<double> weight_kg) {
  auto const pack =
      pack_of("\ncare x \"X\"\n  " + clauses + "\n  grade D\n  because \"x\"\n  cite judgement\n");
  auto const& care = pack->care.front();
  return compute_dose(*care.give, care.at_most, care.forms, weight_kg, pack->doses);
}

GivenDose given(std::string const& clauses, double weight_kg) {
  auto const dose = dose_of(clauses, weight_kg);
  if (auto const* out = std::get_if<GivenDose>(&dose)) return *out;
  throw std::runtime_error("refused: " + clauses);
}

}  // namespace flinch::test
