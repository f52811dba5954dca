#pragma once
// What the patient has swallowed already, against the levels of the pack's `taken` statements. It
// sets a tier like an alarm.
//
//   for (auto const& exposure : assessor.assess(patient).judgement.exposures) exposure.see ...
#include <cstddef>
#include <optional>
#include <vector>

#include "flinch/assess/knowledge.hpp"
#include "flinch/assess/tables.hpp"
#include "flinch/assess/truth.hpp"

namespace flinch {

/// Something that the patient has taken, or may have: too urgent rather than too late. An amount
/// without a known substance counts for each that it may have been, and so do those that cannot be
/// told beside a known one; of a substance neither known nor counted, but known to have been taken,
/// the one that harms by least counts; a known substance without an amount, or with an amount of 0,
/// as the most harmful; without a weight for amounts (`weight_for_amounts`), so also with one that
/// is doubted, as for the smallest patient.
struct Exposure {
  std::size_t care = 0;              ///< index in the pack's list
  Truth is_this = Truth::unknown;    ///< whether it was this substance; never `no`
  std::optional<double> mg;          ///< above 0; none: not known
  std::optional<double> hours;       ///< since then
  std::optional<double> mg_per_kg;   ///< only with an amount and a weight for amounts
  std::vector<std::size_t> reached;  ///< indices of the levels that `mg_per_kg` reaches
  std::optional<TierId> see;         ///< the tier that it asks for
};

struct Swallowed {
  std::vector<Exposure> exposures;  ///< in the order of the pack
  /// The highest tier that answers to what was swallowed could still ask for, the weight taken at
  /// its word where nothing told so far speaks against it.
  std::optional<TierId> could_reach;
};

/// Whether the amount reaches the level. Rounding must not hide it: an amount at it does.
[[nodiscard]] bool reaches(double mg_per_kg, ToxicLevel const& level);

/// Everything that is known to have been taken, or cannot be ruled out with an amount or as the
/// most harmful that it may be.
[[nodiscard]] Swallowed weigh_exposures(Tables const& tables, Knowledge const& knowledge);

/// A sign that could still make something swallowed ask for a higher tier.
struct OpenExposure {
  SignId sign{};
  std::size_t care = 0;
  TierId could_reach{};
  bool is_decisive = false;  ///< its answer alone could do so
};

/// Which substance it was; and once something is known to have been swallowed, how much: where it
/// could ask for more than `tier`, what is asked for already. In the order of the pack.
[[nodiscard]] std::vector<OpenExposure> open_exposures(Tables const& tables,
                                                       Knowledge const& knowledge,
                                                       std::optional<TierId> tier);

}  // namespace flinch
