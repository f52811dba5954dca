#include "flinch/explain/cause.hpp"

#include <algorithm>
#include <cmath>

#include "explain/open_outcomes.hpp"
#include "flinch/assess/evaluator.hpp"

namespace flinch {
namespace {

// Of the same overlap, cause and direction, the rule that counted in full: there is one, since
// where the next ones count in full as well none is weakened.
std::optional<RuleId> counted_in_full(Tables const& tables, Assessment const& result,
                                      Contribution const& weakened) {
  for (auto const& other : result.contributions)
    if (other.cause == weakened.cause && other.share == 1 &&
        tables.overlap_of(other.rule) == tables.overlap_of(weakened.rule) &&
        (other.weight > 0) == (weakened.weight > 0))
      return other.rule;
  return std::nullopt;
}

std::vector<RuleWeight> weights_of(Tables const& tables, Assessment const& result, CauseId cause) {
  std::vector<RuleWeight> out;
  Evaluator const evaluator(tables, result.knowledge);
  for (auto const& rule : result.rules) {
    for (auto const& c : result.contributions_of(rule)) {
      if (c.cause != cause) continue;
      RuleWeight one{rule.rule, rule.truth,  rule.band,    c.weight,
                     c.share,   c.counted(), std::nullopt, evaluator.behind(tables.pack()[c.rule])};
      if (c.share < 1) one.stronger = counted_in_full(tables, result, c);
      out.push_back(std::move(one));
    }
  }
  std::stable_sort(out.begin(), out.end(), [](RuleWeight const& a, RuleWeight const& b) {
    return std::abs(a.counted) > std::abs(b.counted);
  });
  return out;
}

}  // namespace

std::vector<OpenRule> open_rules(Tables const& tables, Assessment const& result,
                                 std::optional<CauseId> cause) {
  std::vector<OpenRule> out;
  auto const& pack = tables.pack();
  OpenOutcomes const outcomes(tables, result);
  Evaluator const evaluator(tables, result.knowledge);
  for (std::uint32_t i = 0; i < pack.rules.size(); ++i) {
    RuleId const rule{i};
    if (!outcomes.is_open(rule) || (cause && !outcomes.names(rule, *cause))) continue;
    OpenRule open{rule, outcomes.bits_about(rule, cause), 0, 0, {}};
    for (std::uint32_t band = 0; band < tables.outcomes(rule); ++band) {
      auto const moved = outcomes.moved(rule, cause, band);
      open.most_for = std::max(open.most_for, moved);
      open.most_against = std::min(open.most_against, moved);
    }
    open.signs = evaluator.behind(tables.pack()[rule]);
    out.push_back(std::move(open));
  }
  std::stable_sort(out.begin(), out.end(),
                   [](OpenRule const& a, OpenRule const& b) { return a.bits > b.bits; });
  return out;
}

CauseExplanation explain_cause(Tables const& tables, Assessment const& result,
                               std::optional<CauseId> cause) {
  CauseExplanation out;
  out.cause = cause;
  auto const log_prior = [&](Ranked const& ranked) {
    return tables.log_prior(ranked.cause ? index(*ranked.cause) : tables.pack().causes.size());
  };
  // One scale for all: taken from the first, whose posterior cannot be too small to have one.
  auto const& first = result.ranking.front();
  out.rank = result.place(cause) + 1;
  out.numbers = result.ranked(cause);
  out.log_prior = log_prior(out.numbers);
  out.log_scale = log_prior(first) + first.evidence - std::log(first.posterior);
  if (cause) out.weights = weights_of(tables, result, *cause);
  out.open = open_rules(tables, result, cause);
  return out;
}

}  // namespace flinch
