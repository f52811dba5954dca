#pragma once
// What was swallowed, in words: an estimate that never makes it less urgent.
#include <string>

#include "flinch/assess/assessment.hpp"

namespace flinch {

/// "Ibuprofen already taken: 400 mg, 2 hours ago, about 28.6 mg per kg". Amounts are rounded up,
/// to three digits; from 10,000 mg on they are told in grams.
[[nodiscard]] std::string taken_text(Pack const& pack, Exposure const& exposure);

/// Why it counts as it does: "reaches 25 mg per kg: vomiting after a single dose", of the highest
/// level; or that an amount or a weight that is not known counts as the worst; or "below the
/// published levels, which does not make it safe".
[[nodiscard]] std::string harm_text(Pack const& pack, Assessment const& result,
                                    Exposure const& exposure);

/// "25 mg per kg: vomiting after a single dose", from 1000 mg on in grams; of a level of nothing
/// the harm alone.
[[nodiscard]] std::string level_text(ToxicLevel const& level);

}  // namespace flinch
