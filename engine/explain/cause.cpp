#include "flinch/explain/cause.hpp"

#include <algorithm>
#include <cmath>

#include "flinch/explain/condition.hpp"

namespace flinch {
namespace {

// Of the same overlap, cause and direction, the rule that counted in full.
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
  for (auto const& rule : result.rules) {
    for (std::uint32_t i = 0; i < rule.contribution_count; ++i) {
      auto const& c = result.contributions[rule.first_contribution + i];
      if (c.cause != cause) continue;
      RuleWeight one{rule.rule, rule.truth,  rule.band,    c.weight,
                     c.share,   c.counted(), std::nullopt, signs_behind(tables, result, c.rule)};
      if (c.share < 1) one.stronger = counted_in_full(tables, result, c);
      out.push_back(std::move(one));
    }
  }
  std::stable_sort(out.begin(), out.end(), [](RuleWeight const& a, RuleWeight const& b) {
    return std::abs(a.counted) > std::abs(b.counted);
  });
  return out;
}

bool is_settled(Assessment const& result, RuleId rule) {
  auto const at = std::lower_bound(result.rules.begin(), result.rules.end(), rule,
                                   [](RuleOutcome const& o, RuleId r) { return o.rule < r; });
  return at != result.rules.end() && at->rule == rule && at->truth != Truth::unknown;
}

}  // namespace

double OpenRule::reach() const { return std::max(most_for, -most_against); }

std::vector<SignId> signs_behind(Tables const& tables, Assessment const& result, RuleId id) {
  auto const& rule = tables.pack()[id];
  if (!rule.condition) return {rule.over};
  return signs_behind(condition_tree(tables, result, *rule.condition));
}

std::vector<OpenRule> open_rules(Tables const& tables, Assessment const& result, CauseId cause) {
  std::vector<OpenRule> out;
  auto const& pack = tables.pack();
  for (std::uint32_t i = 0; i < pack.rules.size(); ++i) {
    RuleId const rule{i};
    if (is_settled(result, rule)) continue;
    for (auto const& entry : tables.entries(rule)) {
      if (entry.cause != cause) continue;
      OpenRule open{rule, 0, 0, {}};
      auto const outcomes = pack.rules[i].condition ? 2U : pack.rules[i].bands.size();
      for (std::uint32_t band = 0; band < outcomes; ++band) {
        open.most_for = std::max(open.most_for, tables.weight(entry, band));
        open.most_against = std::min(open.most_against, tables.weight(entry, band));
      }
      open.signs = signs_behind(tables, result, rule);
      out.push_back(std::move(open));
    }
  }
  std::stable_sort(out.begin(), out.end(),
                   [](OpenRule const& a, OpenRule const& b) { return a.reach() > b.reach(); });
  return out;
}

CauseExplanation explain_cause(Tables const& tables, Assessment const& result, CauseId cause) {
  CauseExplanation out;
  out.cause = cause;
  auto const place = std::find_if(result.ranking.begin(), result.ranking.end(),
                                  [&](Ranked const& r) { return r.cause == cause; });
  out.rank = static_cast<std::size_t>(place - result.ranking.begin()) + 1;
  out.numbers = *place;
  out.log_prior = tables.log_prior(index(cause));
  out.log_scale = out.log_prior + place->evidence - std::log(place->posterior);
  out.weights = weights_of(tables, result, cause);
  out.open = open_rules(tables, result, cause);
  return out;
}

}  // namespace flinch
