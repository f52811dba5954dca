#pragma once
// Where a pack's frequencies come from, and which judged ones weigh more than a judgement should.
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "flinch/model/pack.hpp"

namespace flinch {

/// What stands behind a frequency of a rule.
enum class Backing : std::uint8_t {
  counted,  ///< printed in a source, with its sample
  derived,  ///< worked out from a source: odds turned into shares, a percentage without its sample
  judged    ///< nothing published
};
[[nodiscard]] Backing backing(std::optional<double> sample_size, std::optional<SourceId> source);
[[nodiscard]] Backing backing(RuleEntry const& entry);

/// How many figures of each kind.
struct BackingCounts {
  std::size_t counted = 0;
  std::size_t derived = 0;
  std::size_t judged = 0;
  void add(Backing kind);
};

/// The title of the outermost site that the cause affects first; "the whole patient" when it
/// affects none.
[[nodiscard]] std::string body_region(Pack const& pack, Cause const& cause);

/// The frequencies that the rules give for the causes of each body region.
[[nodiscard]] std::map<std::string, BackingCounts> count_figures(Pack const& pack);

/// A judged frequency whose ratio to the usual one passes what a single answer should weigh.
struct StrongClue {
  RuleId rule{};
  CauseId cause{};
  double ratio = 1;          ///< frequency with the cause over the usual frequency, held
  bool takes_hands = false;  ///< every alternative needs hands or a clinic
};

/// The judged clues that, when true, speak for a cause more than fivefold when anyone can see
/// them, or more than twentyfold when it takes hands: limits chosen by judgement, so that each
/// rule beyond them has to say why. Strongest first, then in the order of the pack.
[[nodiscard]] std::vector<StrongClue> strong_clues(Pack const& pack);

}  // namespace flinch
