#include "assess/effects.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "assess/evaluate.hpp"

namespace flinch {
namespace {

constexpr std::size_t most_factors = std::size_t{1} << 20U;  // 16 MB

}  // namespace

Effects::Effects(Tables const& tables)
    : tables_(tables),
      numbered_(tables.clusters().states()),
      shares_(tables),
      sums_(tables.pack().causes.size()),
      stack_(tables.deepest_stack() + 1) {}

Effect Effects::of_answer(SignId sign, std::uint32_t cell) {
  auto const& own = tables_.clusters().own(sign);
  if (own.rule_count == 0) return {};
  bool const is_kept = own.keeping == Clusters::Keeping::numbered;
  if (is_kept && numbered_[own.first_state + cell] > 0)
    return effect(numbered_[own.first_state + cell]);
  auto const truth_of = [&](Tables::Leaf const& leaf) { return tables_.cells().truth(leaf, cell); };
  decided_.clear();
  for (auto const& member : tables_.clusters().members(own))
    if (auto const outcome =
            root_outcome(tables_, tables_.rule_root(member.rule), stack_, truth_of))
      decided_.push_back({member.rule, outcome - 1});
  if (!is_kept) return of_outcomes(decided_);
  auto const number = keep(decided_);
  numbered_[own.first_state + cell] = number;
  return effect(number);
}

std::uint32_t& Effects::number_of(std::uint32_t cluster, std::uint64_t state) {
  auto const& its = tables_.clusters()[cluster];
  if (its.keeping == Clusters::Keeping::numbered)
    return numbered_[its.first_state + static_cast<std::uint32_t>(state)];
  return coded_[cluster][state];
}

Effect Effects::of_state(std::uint32_t cluster, std::uint64_t state) {
  if (auto const number = number_of(cluster, state)) return effect(number);
  decided_.clear();
  for (auto const& member : tables_.clusters().members(tables_.clusters()[cluster]))
    if (auto const outcome = member.outcome(state)) decided_.push_back({member.rule, outcome - 1});
  auto const number = keep(decided_);
  number_of(cluster, state) = number;
  return effect(number);
}

Effect Effects::of_outcomes(std::span<Decided const> decided) {
  passing_.clear();
  auto const kept = append(decided, passing_);
  return {passing_, kept.reach};
}

// Its number; forgets all others first when there are too many.
std::uint32_t Effects::keep(std::span<Decided const> decided) {
  if (factors_.size() + kept_.size() > most_factors) {
    numbered_ = Zeroed<std::uint32_t>(tables_.clusters().states());
    coded_.clear();
    kept_.clear();
    factors_.clear();
  }
  kept_.push_back(append(decided, factors_));
  return static_cast<std::uint32_t>(kept_.size());
}

std::vector<Contribution> const& Effects::contributions(std::span<Decided const> decided) {
  contributions_.clear();
  for (auto const& one : decided)
    for (auto const& entry : tables_.entries(one.rule))
      contributions_.push_back({one.rule, entry.cause, tables_.weight(entry, one.band), 1});
  shares_.set(contributions_);
  return contributions_;
}

Effects::Kept Effects::append(std::span<Decided const> decided, std::vector<Factor>& out) {
  causes_.clear();
  for (auto const& contribution : contributions(decided)) {
    causes_.push_back(static_cast<std::uint32_t>(contribution.cause));
    sums_[causes_.back()] += contribution.counted();
  }
  std::sort(causes_.begin(), causes_.end());
  causes_.erase(std::unique(causes_.begin(), causes_.end()), causes_.end());
  Kept kept{static_cast<std::uint32_t>(out.size()), 0, 0};
  for (auto const cause : causes_) {
    auto sum = std::exchange(sums_[cause], 0.0);
    kept.reach = std::max(kept.reach, std::abs(sum));
    for (; std::abs(sum) > furthest; sum -= std::copysign(furthest, sum))
      out.push_back({cause, std::exp(std::copysign(furthest, sum))});
    out.push_back({cause, std::exp(sum)});
  }
  kept.count = static_cast<std::uint32_t>(out.size()) - kept.first;
  return kept;
}

}  // namespace flinch
