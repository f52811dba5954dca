#include "flinch/explain/contrast.hpp"

#include <algorithm>
#include <cmath>

namespace flinch {
namespace {

double evidence_of(Assessment const& result, CauseId cause) {
  for (auto const& ranked : result.ranking)
    if (ranked.cause == cause) return ranked.evidence;
  return 0;
}

std::vector<RuleContrast> settled(Tables const& tables, Assessment const& result, CauseId first,
                                  CauseId second) {
  std::vector<RuleContrast> out;
  for (auto const& rule : result.rules) {
    RuleContrast one{rule.rule, rule.truth, rule.band, 0, 0, {}};
    for (std::uint32_t i = 0; i < rule.contribution_count; ++i) {
      auto const& c = result.contributions[rule.first_contribution + i];
      if (c.cause == first) one.for_first = c.counted();
      if (c.cause == second) one.for_second = c.counted();
    }
    if (one.difference() == 0) continue;
    one.behind = signs_behind(tables, result, rule.rule);
    out.push_back(std::move(one));
  }
  std::stable_sort(out.begin(), out.end(), [](RuleContrast const& a, RuleContrast const& b) {
    return std::abs(a.difference()) > std::abs(b.difference());
  });
  return out;
}

double weight_for(Tables const& tables, RuleId rule, CauseId cause, std::uint32_t band) {
  for (auto const& entry : tables.entries(rule))
    if (entry.cause == cause) return tables.weight(entry, band);
  return 0;
}

}  // namespace

double OpenContrast::reach() const { return std::max(most_for_first, most_for_second); }

Contrast contrast(Tables const& tables, Assessment const& result, CauseId first, CauseId second) {
  Contrast out;
  out.first = first;
  out.second = second;
  out.base_difference = tables.log_prior(index(first)) - tables.log_prior(index(second));
  out.total = out.base_difference + evidence_of(result, first) - evidence_of(result, second);
  out.rules = settled(tables, result, first, second);
  auto open = open_rules(tables, result, first);
  for (auto& other : open_rules(tables, result, second))
    if (std::none_of(open.begin(), open.end(),
                     [&](OpenRule const& o) { return o.rule == other.rule; }))
      open.push_back(std::move(other));
  for (auto& rule : open) {
    OpenContrast one{rule.rule, 0, 0, std::move(rule.signs)};
    auto const& written = tables.pack()[rule.rule];
    auto const outcomes = written.condition ? 2U : written.bands.size();
    for (std::uint32_t band = 0; band < outcomes; ++band) {
      auto const difference =
          weight_for(tables, rule.rule, first, band) - weight_for(tables, rule.rule, second, band);
      one.most_for_first = std::max(one.most_for_first, difference);
      one.most_for_second = std::max(one.most_for_second, -difference);
    }
    if (one.reach() > 0) out.open.push_back(std::move(one));
  }
  std::stable_sort(out.open.begin(), out.open.end(),
                   [](OpenContrast const& a, OpenContrast const& b) {
                     return a.reach() != b.reach() ? a.reach() > b.reach() : a.rule < b.rule;
                   });
  return out;
}

}  // namespace flinch
