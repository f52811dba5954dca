#pragma once
// What a careful colleague would remark on a pack that loads without a mistake.
//
//   Tables const tables(pack);
//   Proof const proof = proofread(tables);
//   std::cerr << render(proof.warnings, sources);
//
// Nothing here changes what is computed for a patient. Every warning says what is remarkable, why
// it matters, and what can be done; the statement concerned, or the pack, may `accept` it with a
// reason.
#include <functional>
#include <string>
#include <vector>

#include "flinch/assess/tables.hpp"
#include "flinch/text/diagnostic.hpp"

namespace flinch {

/// A judged figure is remarked on beyond this factor between the frequency with a cause and the
/// usual one, or between their complements. The limit is itself a judgement: a hundredfold turns
/// one patient in a hundred into one in two, which no answer should do that nobody has counted.
inline constexpr double strong_factor = 100;

/// Two rules over one sign are remarked on when one answer makes both move a cause by this factor:
/// what moves less "barely" counts in docs/packs.md, once or twice.
inline constexpr double telling_factor = 1.3;

/// A warning that the pack accepts, with the reason given there.
struct AcceptedWarning {
  Diagnostic warning;
  std::string reason;
};

/// From here on a rule speaks clearly: the word "clearly" of docs/packs.md.
inline constexpr double clear_decibans = 5;

struct Proof {
  std::vector<Diagnostic> warnings;  ///< in source order
  /// Pairs of figures that do not go together: those that are impossible, in source order; then the
  /// silent ones, the heaviest first. They are worked off, and stand apart from the warnings.
  std::vector<Diagnostic> pairs;
  std::vector<AcceptedWarning> accepted;  ///< in source order
};

/// Every remark on the pack of these tables, most of them in time proportional to the pack; pairs
/// of rules are compared where they share a sign and a cause. What would take too many combinations
/// of answers to know is passed over in silence, so that no warning is a guess. Asked between two
/// kinds of remark, `is_outdated` ends it early: what comes back then is of no use.
[[nodiscard]] Proof proofread(Tables const& tables, std::function<bool()> const& is_outdated = {});

}  // namespace flinch
