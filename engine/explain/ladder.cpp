#include "flinch/explain/ladder.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "flinch/explain/reasons.hpp"

namespace flinch {
namespace {

class Climb {
 public:
  Climb(Tables const& tables, Assessment const& result, CauseId cause)
      : result_(result), cause_(index(cause)) {
    for (std::size_t i = 0; i <= tables.pack().causes.size(); ++i)
      scores_.push_back(tables.log_prior(i));
  }

  void apply(RuleId rule) { add(rule, 1); }
  void put_back(RuleId rule) { add(rule, -1); }

  [[nodiscard]] double probability() const { return 1 / (1 + std::exp(-log_odds())); }

  // Against all others together, "none of the listed causes" among them.
  [[nodiscard]] double log_odds() const {
    double highest = -std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < scores_.size(); ++i)
      if (i != cause_) highest = std::max(highest, scores_[i]);
    double others = 0;
    for (std::size_t i = 0; i < scores_.size(); ++i)
      if (i != cause_) others += std::exp(scores_[i] - highest);
    return scores_[cause_] - highest - std::log(others);
  }

 private:
  void add(RuleId rule, double sign) {
    for (auto const& c : result_.contributions_of(rule))
      scores_[index(c.cause)] += sign * c.counted();
  }

  Assessment const& result_;
  std::size_t cause_;
  std::vector<double> scores_;
};

// Those without which the chance would be furthest from what it is, furthest first.
std::vector<RuleOutcome> strongest_of(Climb climb, std::vector<RuleOutcome> const& rules) {
  constexpr std::size_t most = 2;
  auto const with_all = climb.log_odds();
  std::vector<std::pair<double, RuleOutcome>> moved;
  for (auto const& outcome : rules) {
    climb.put_back(outcome.rule);
    moved.emplace_back(std::abs(climb.log_odds() - with_all), outcome);
    climb.apply(outcome.rule);
  }
  std::stable_sort(moved.begin(), moved.end(),
                   [](auto const& a, auto const& b) { return a.first > b.first; });
  std::vector<RuleOutcome> out;
  for (auto const& [by, outcome] : moved)
    if (out.size() < most) out.push_back(outcome);
  return out;
}

}  // namespace

std::vector<Rung> ladder(Tables const& tables, Assessment const& result, CauseId cause) {
  Climb climb(tables, result, cause);
  std::vector<Rung> out{{std::nullopt, Truth::unknown, 0, 0, climb.probability(), {}}};
  auto const named = reasons(result, cause);
  for (auto const& reason : named) {
    climb.apply(reason.rule);
    out.push_back({reason.rule, reason.truth, reason.band, reason.weight, climb.probability(), {}});
  }
  std::vector<RuleOutcome> others;
  for (auto const& outcome : result.rules)
    if (outcome.contribution_count > 0 &&
        std::none_of(named.begin(), named.end(),
                     [&](Reason const& r) { return r.rule == outcome.rule; }))
      others.push_back(outcome);
  if (others.empty()) return out;
  for (auto const& outcome : others) climb.apply(outcome.rule);
  out.push_back({std::nullopt, Truth::unknown, 0, 0, climb.probability(), {}});
  out.back().strongest = strongest_of(climb, others);
  return out;
}

}  // namespace flinch
