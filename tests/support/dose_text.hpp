#pragma once
// Doses written as the language writes them, for tests.
#include <optional>
#include <string>

#include "flinch/care/dose.hpp"

namespace flinch::test {

/// The dose of a care statement with these clauses ("give 22 mg per kg by mouth\n form ...") for a
/// dog of this weight; throws when the clauses are not sound.
[[nodiscard]] ComputedDose dose_of(std::string const& clauses, std::optional<double> weight_kg);

/// The one that is given; throws when it was refused.
[[nodiscard]] GivenDose given(std::string const& clauses, double weight_kg);

/// As in the packs of these tests.
inline constexpr DosedWeights dosed{0.5, 100};

inline constexpr double kg_per_lb = 0.45359237;

}  // namespace flinch::test
