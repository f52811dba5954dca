#include "explain/sum_bounds.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace flinch {
namespace {

// A bound is kept a little wide: rounding must not leave a pair out.
constexpr double pair_slack = 1e-6;

}  // namespace

SumBounds::SumBounds(Pack const& pack, Assessment const& before)
    : pack_(pack), gaps_(before.ranking.size()), thresholds_(pack.tiers.size()) {
  auto const& first = before.ranking.front();
  first_ = before.judgement.place(first.cause);
  for (std::size_t i = 0; i < gaps_.size(); ++i) {
    gaps_[i] = std::log(first.posterior / before.judgement.posteriors[i]);
    is_tied_ = is_tied_ || (i != first_ && gaps_[i] < pair_slack);
  }
  for (std::size_t t = 0; t < thresholds_.size(); ++t)
    if (auto const threshold = pack.tiers[t].threshold())
      thresholds_[t] = std::log(*threshold / (1 - *threshold));
}

SumBound SumBounds::of(ChangeEffect const& effect) const {
  SumBound out;
  std::vector<double> gains(gaps_.size());
  for (auto const& [cause, factor] : effect.factors) gains[cause] = std::log(factor);
  auto const gain_of_first = gains[first_];
  out.to_first = -std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < gains.size(); ++i)
    if (i != first_) out.to_first = std::max(out.to_first, (gains[i] - gain_of_first) / gaps_[i]);

  // Causes by tier, those that need none last; one that the change leaves alone has a gain of 0.
  auto const tiers = pack_.tiers.size();
  std::vector<double> most(tiers + 1);
  std::vector<double> least(tiers + 1);
  for (auto const& factor : effect.factors) {
    auto const t =
        factor.cause < pack_.causes.size() ? index(pack_.causes[factor.cause].see) : tiers;
    most[t] = std::max(most[t], gains[factor.cause]);
    least[t] = std::min(least[t], gains[factor.cause]);
  }
  // Summed from below: what little is left must not be the difference of two large sums.
  std::vector<double> rest(tiers, effect.unscaled.back());
  for (std::size_t t = tiers - 1; t-- > 0;) rest[t] = rest[t + 1] + effect.tier_sums[t + 1];
  double need = 0;
  for (std::size_t t = 0; t < tiers; ++t) {
    need += effect.tier_sums[t];
    auto const here = static_cast<std::ptrdiff_t>(t) + 1;
    out.tiers.push_back({std::log(need / rest[t]),
                         *std::max_element(most.begin(), most.begin() + here) -
                             *std::min_element(least.begin() + here, least.end()),
                         *std::min_element(least.begin(), least.begin() + here) -
                             *std::max_element(most.begin() + here, most.end())});
  }
  return out;
}

bool SumBounds::could_change_first(SumBound const& a, SumBound const& b) const {
  return is_tied_ || a.to_first + b.to_first >= 1 - pair_slack;
}

// Written so that what is no number leaves no pair out.
bool SumBounds::could_reach(std::size_t tier, SumBound const& a, SumBound const& b) const {
  auto const& one = a.tiers[tier];
  auto const& other = b.tiers[tier];
  return !(std::min(one.alone + other.up, other.alone + one.up) < thresholds_[tier] - pair_slack);
}

bool SumBounds::could_miss(std::size_t tier, SumBound const& a, SumBound const& b) const {
  auto const& one = a.tiers[tier];
  auto const& other = b.tiers[tier];
  return !(std::max(one.alone + other.down, other.alone + one.down) >
           thresholds_[tier] + pair_slack);
}

}  // namespace flinch
