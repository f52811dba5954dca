#pragma once
// How far two changed answers that do not meet can lead together at most: a few comparisons, so
// that most pairs need not be added up.
#include <vector>

#include "explain/change_effect.hpp"

namespace flinch {

/// What a change brings to any pair that it is part of, seen from one tier. Logarithms of the odds
/// that the patient needs the tier or a higher one.
struct TierPush {
  double alone = 0;  ///< the odds with this change
  double up = 0;     ///< at most so much higher with it, whatever the other change does
  double down = 0;   ///< at most so much lower: 0 or less
};

struct SumBound {
  /// The largest part, over all causes, of its way to the first place; two that sum up to less
  /// than 1 change nothing there.
  double to_first = 0;
  std::vector<TierPush> tiers;
};

/// Bounds against the assessment without a change.
class SumBounds {
 public:
  SumBounds(Pack const& pack, Assessment const& before);
  [[nodiscard]] SumBound of(ChangeEffect const& effect) const;
  [[nodiscard]] bool could_change_first(SumBound const& a, SumBound const& b) const;
  /// Whether the chance could reach the threshold of this tier, which has one, or fall below it.
  [[nodiscard]] bool could_reach(std::size_t tier, SumBound const& a, SumBound const& b) const;
  [[nodiscard]] bool could_miss(std::size_t tier, SumBound const& a, SumBound const& b) const;

 private:
  Pack const& pack_;
  std::size_t first_ = 0;     ///< the cause that stands first; past the last: none
  bool is_tied_ = false;      ///< another stands as high
  std::vector<double> gaps_;  ///< of each cause: how far its score lies below the first one's
  std::vector<double>
      thresholds_;  ///< of each tier: logarithm of the odds; of one without: not used
};

}  // namespace flinch
