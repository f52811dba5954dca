#include "assess/overlaps.hpp"

#include <algorithm>
#include <cmath>

namespace flinch {

void OverlapShares::set(std::vector<Contribution>& contributions) {
  overlapping_.clear();
  for (std::uint32_t i = 0; i < contributions.size(); ++i) {
    auto const& contribution = contributions[i];
    auto const overlap = tables_.overlap_of(contribution.rule);
    if (overlap < 0) continue;
    auto const direction = contribution.weight > 0 ? 1U : 0U;
    overlapping_.push_back({static_cast<std::uint64_t>(overlap) << 33U |
                                static_cast<std::uint64_t>(contribution.cause) << 1U | direction,
                            std::abs(contribution.weight), i});
  }
  // Contributions come by rule, so the place settles equal weights.
  std::sort(overlapping_.begin(), overlapping_.end(),
            [](Overlapping const& a, Overlapping const& b) {
              if (a.group != b.group) return a.group < b.group;
              return a.strength != b.strength ? a.strength > b.strength : a.place < b.place;
            });
  for (std::size_t i = 1; i < overlapping_.size(); ++i) {
    if (overlapping_[i].group != overlapping_[i - 1].group) continue;
    auto const share = tables_.pack().overlaps[overlapping_[i].group >> 33U].share;
    contributions[overlapping_[i].place].share =
        contributions[overlapping_[i - 1].place].share * share;
  }
}

}  // namespace flinch
