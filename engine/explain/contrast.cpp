#include "flinch/explain/contrast.hpp"

#include <algorithm>
#include <cmath>

#include "explain/open_outcomes.hpp"
#include "flinch/assess/evaluator.hpp"

namespace flinch {
namespace {

std::vector<RuleContrast> settled(Tables const& tables, Assessment const& result,
                                  std::optional<CauseId> first, std::optional<CauseId> second) {
  std::vector<RuleContrast> out;
  Evaluator const evaluator(tables, result.knowledge);
  for (auto const& rule : result.rules) {
    RuleContrast one{rule.rule, rule.truth, rule.band, 0, 0, {}};
    for (auto const& c : result.contributions_of(rule)) {
      if (c.cause == first) one.for_first = c.counted();
      if (c.cause == second) one.for_second = c.counted();
    }
    if (one.difference() == 0) continue;
    one.behind = evaluator.behind(tables.pack()[rule.rule]);
    out.push_back(std::move(one));
  }
  std::stable_sort(out.begin(), out.end(), [](RuleContrast const& a, RuleContrast const& b) {
    return std::abs(a.difference()) > std::abs(b.difference());
  });
  return out;
}

double log_prior(Tables const& tables, std::optional<CauseId> cause) {
  return tables.log_prior(cause ? index(*cause) : tables.pack().causes.size());
}

}  // namespace

Contrast contrast(Tables const& tables, Assessment const& result, std::optional<CauseId> first,
                  std::optional<CauseId> second) {
  Contrast out;
  out.first = first;
  out.second = second;
  out.base_difference = log_prior(tables, first) - log_prior(tables, second);
  out.total = out.base_difference + result.ranked(first).evidence - result.ranked(second).evidence;
  out.rules = settled(tables, result, first, second);
  OpenOutcomes const outcomes(tables, result);
  Evaluator const evaluator(tables, result.knowledge);
  for (std::uint32_t i = 0; i < tables.pack().rules.size(); ++i) {
    RuleId const rule{i};
    bool const is_named =
        (first && outcomes.names(rule, *first)) || (second && outcomes.names(rule, *second));
    if (!is_named || !outcomes.is_open(rule)) continue;
    OpenContrast one{rule, outcomes.bits_between(rule, first, second), 0, 0, {}};
    for (std::uint32_t band = 0; band < tables.outcomes(rule); ++band) {
      auto const difference =
          outcomes.moved(rule, first, band) - outcomes.moved(rule, second, band);
      one.most_for_first = std::max(one.most_for_first, difference);
      one.most_for_second = std::max(one.most_for_second, -difference);
    }
    if (one.most_for_first == 0 && one.most_for_second == 0) continue;
    one.signs = evaluator.behind(tables.pack()[rule]);
    out.open.push_back(std::move(one));
  }
  std::stable_sort(out.open.begin(), out.open.end(),
                   [](OpenContrast const& a, OpenContrast const& b) {
                     return a.bits != b.bits ? a.bits > b.bits : a.rule < b.rule;
                   });
  return out;
}

}  // namespace flinch
