#include "flinch/explain/ladder.hpp"

#include <algorithm>
#include <cmath>

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

  void take(RuleId rule) {
    for (auto const& c : result_.contributions)
      if (c.rule == rule) scores_[index(c.cause)] += c.counted();
  }

  [[nodiscard]] double probability() const {
    auto const highest = *std::max_element(scores_.begin(), scores_.end());
    double sum = 0;
    for (auto const score : scores_) sum += std::exp(score - highest);
    return std::exp(scores_[cause_] - highest) / sum;
  }

 private:
  Assessment const& result_;
  std::size_t cause_;
  std::vector<double> scores_;
};

}  // namespace

std::vector<Rung> ladder(Tables const& tables, Assessment const& result, CauseId cause) {
  Climb climb(tables, result, cause);
  std::vector<Rung> out{{std::nullopt, Truth::unknown, 0, 0, climb.probability()}};
  auto const named = reasons(result, cause);
  for (auto const& reason : named) {
    climb.take(reason.rule);
    out.push_back({reason.rule, reason.truth, reason.band, reason.weight, climb.probability()});
  }
  bool are_others = false;
  for (auto const& outcome : result.rules) {
    if (outcome.contribution_count == 0 ||
        std::any_of(named.begin(), named.end(),
                    [&](Reason const& r) { return r.rule == outcome.rule; }))
      continue;
    climb.take(outcome.rule);
    are_others = true;
  }
  if (are_others) out.push_back({std::nullopt, Truth::unknown, 0, 0, climb.probability()});
  return out;
}

}  // namespace flinch
