#include "assess/overlaps.hpp"

#include <cmath>

namespace flinch {
namespace {

constexpr std::uint32_t none = 0xFFFFFFFF;

}  // namespace

OverlapShares::OverlapShares(Tables const& tables)
    : tables_(tables),
      strongest_(tables.pack().overlaps.size() * (tables.pack().causes.size() + 1) * 2, none) {}

void OverlapShares::insert(std::vector<Contribution> const& contributions, std::uint32_t place,
                           std::uint32_t group) {
  if (strongest_[group] == none) groups_.push_back(group);
  auto const strength = std::abs(contributions[place].weight);
  // Contributions come by rule: behind its equals, the later keeps its place.
  auto* link = &strongest_[group];
  while (*link != none && std::abs(contributions[*link].weight) >= strength) link = &weaker_[*link];
  weaker_[place] = *link;
  *link = place;
}

void OverlapShares::set(std::vector<Contribution>& contributions) {
  weaker_.resize(contributions.size());
  for (std::uint32_t i = 0; i < contributions.size(); ++i) {
    auto const& contribution = contributions[i];
    auto const overlap = tables_.overlap_of(contribution.rule);
    if (overlap < 0) continue;
    auto const row = static_cast<std::size_t>(overlap) * (tables_.pack().causes.size() + 1) +
                     index(contribution.cause);
    insert(contributions, i,
           static_cast<std::uint32_t>(row * 2 + (contribution.weight > 0 ? 1U : 0U)));
  }
  for (auto const group : groups_) {
    auto const overlap = group / 2 / (tables_.pack().causes.size() + 1);
    auto const share = tables_.pack().overlaps[overlap].share;
    auto place = strongest_[group];
    while (weaker_[place] != none) {
      auto const weaker = weaker_[place];
      contributions[weaker].share = contributions[place].share * share;
      place = weaker;
    }
    strongest_[group] = none;
  }
  groups_.clear();
}

}  // namespace flinch
