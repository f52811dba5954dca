#include "flinch/assess/uncertainty.hpp"

#include <algorithm>
#include <boost/math/special_functions/trigamma.hpp>
#include <cmath>

namespace flinch {
namespace {

// The quantile of the normal distribution that leaves 2.5% above it.
constexpr double of_95_per_cent = 1.959963984540054;

// In double precision: ten digits are more than enough, and long doubles are slow.
double trigamma(double x) {
  using namespace boost::math::policies;
  return boost::math::trigamma(x, policy<promote_double<false>>());
}

// Of ln p, p being Beta(x + 1/2, n - x + 1/2) of a sample, or, of `outcomes` bands, its share of a
// Dirichlet distribution with 1/2 added to each.
double variance_of_log(double share, double patients, std::size_t outcomes) {
  return trigamma(share * patients + 0.5) -
         trigamma(patients + 0.5 * static_cast<double>(outcomes));
}

/// A figure as the pack has it: its shares (one: how often a sign is there) and its sample.
struct Written {
  std::vector<double> const& shares;
  std::optional<double> patients;
  double mentioned = 0;  ///< share of keepers who tell of its sign unasked
};

double variance_of(Pack const& pack, Written const& figure, bool is_banded, std::uint32_t band);

// Of ln(1 - m p), m being the share who tell of the sign: from that of ln(1 - p) by its linear
// part.
double variance_unmentioned(Pack const& pack, Written const& figure) {
  auto const p = std::clamp(figure.shares.front(), pack.hold_low, pack.hold_high);
  auto const slope = figure.mentioned * (1 - p) / (1 - figure.mentioned * p);
  return slope * slope * variance_of(pack, figure, false, 1);
}

// The variance of the logarithm of what counted: the share of the outcome `band`; for an `if` rule
// 0 is "there", 1 "not there".
double variance_of(Pack const& pack, Written const& figure, bool is_banded, std::uint32_t band) {
  auto const& shares = figure.shares;
  if (!is_banded && band == Tables::band_not_mentioned) return variance_unmentioned(pack, figure);
  auto const share = is_banded ? shares[band] : band == 0 ? shares.front() : 1 - shares.front();
  if (figure.patients)
    return variance_of_log(share, *figure.patients, is_banded ? shares.size() : 2);
  auto const held = std::clamp(share, pack.hold_low, pack.hold_high);
  return variance_of_log(held, judged_worth / std::min(held, 1 - held), 2);
}

}  // namespace

Uncertainty::Uncertainty(Tables const& tables, Assessment const& result)
    : tables_(tables),
      result_(result),
      judgement_(result.judgement),
      base_variance_(trigamma(judged_worth + 0.5)) {
  auto const& pack = tables.pack();
  for (auto const& outcome : result.rules) {
    if (outcome.contribution_count == 0) continue;
    auto const& rule = pack[outcome.rule];
    bool const is_banded = !rule.condition;
    auto const mentioned = is_banded ? 0 : pack[rule.condition->test.sign].mentioned.value_or(0);
    rules_.push_back({figures_.size(), rule.entries.size(),
                      variance_of(pack, {rule.usual, rule.usual_sample_size, mentioned}, is_banded,
                                  outcome.band),
                      outcome.truth == Truth::unknown});
    auto const contributions = result.contributions_of(outcome);
    for (std::size_t i = 0; i < contributions.size(); ++i) {
      auto const& entry = rule.entries[i];
      figures_.push_back({index(entry.cause), contributions[i].share,
                          variance_of(pack, {entry.frequencies, entry.sample_size, mentioned},
                                      is_banded, outcome.band)});
    }
  }
}

// Of a sum of scores, each times its slope. The usual figure of a rule counts against each cause
// that the rule names, so what is common to them cancels.
template <class SlopeOf>
double Uncertainty::variance(SlopeOf const& slope_of, Silence silence) const {
  double out = 0;
  for (std::size_t i = 0; i < judgement_.posteriors.size(); ++i)
    out += slope_of(i) * slope_of(i) * base_variance_;
  for (auto const& rule : rules_) {
    if (rule.is_silent && silence == Silence::ignored) continue;
    double usual_slope = 0;
    for (std::size_t i = rule.first; i < rule.first + rule.count; ++i) {
      auto const& figure = figures_[i];
      auto const slope = slope_of(figure.cause) * figure.share;
      if (slope == 0) continue;
      usual_slope += slope;
      out += slope * slope * figure.variance;
    }
    out += usual_slope * usual_slope * rule.usual_variance;
  }
  return out;
}

// Of the chance of one of the causes that are `inside`. The slope of its log odds on a score is the
// cause's part of those inside, or less its part of those outside.
Interval Uncertainty::share(std::vector<bool> const& inside, Silence silence) const {
  auto const& chances =
      silence == Silence::counts ? judgement_.posteriors : judgement_.posteriors_by_answers();
  double in = 0;
  double out = 0;
  for (std::size_t i = 0; i < inside.size(); ++i) (inside[i] ? in : out) += chances[i];
  if (in <= 0 || out <= 0) return {in, in};
  std::vector<double> slopes(inside.size());
  for (std::size_t i = 0; i < inside.size(); ++i)
    slopes[i] = inside[i] ? chances[i] / in : -chances[i] / out;
  auto const log_odds = std::log(in / out);
  auto const reach =
      of_95_per_cent * std::sqrt(variance([&](std::size_t i) { return slopes[i]; }, silence));
  auto const chance_of = [](double odds) { return 1 / (1 + std::exp(-odds)); };
  return {chance_of(log_odds - reach), chance_of(log_odds + reach)};
}

Interval Uncertainty::chance(std::optional<CauseId> cause) const {
  std::vector<bool> inside(judgement_.posteriors.size());
  inside[judgement_.place(cause)] = true;
  return share(inside, Silence::counts);
}

Interval Uncertainty::tier_chance(TierId tier) const {
  auto const& causes = tables_.pack().causes;
  std::vector<bool> inside(judgement_.posteriors.size());
  for (std::size_t i = 0; i < causes.size(); ++i) inside[i] = causes[i].see <= tier;
  return share(inside, Silence::ignored);
}

bool Uncertainty::is_only_just(TierId tier) const {
  auto const threshold = tables_.pack()[tier].threshold();
  return threshold && tier_chance(tier).holds(*threshold);
}

Interval Uncertainty::difference(std::optional<CauseId> first,
                                 std::optional<CauseId> second) const {
  if (first == second) return {};
  auto const one = judgement_.place(first);
  auto const other = judgement_.place(second);
  auto const middle = std::log(judgement_.posterior(first) / judgement_.posterior(second));
  auto const reach = of_95_per_cent * std::sqrt(variance(
                                          [&](std::size_t cause) {
                                            return cause == one ? 1.0 : cause == other ? -1.0 : 0.0;
                                          },
                                          Silence::counts));
  return {middle - reach, middle + reach};
}

bool Uncertainty::are_told_apart(std::optional<CauseId> first,
                                 std::optional<CauseId> second) const {
  return !difference(first, second).holds(0);
}

std::vector<std::optional<CauseId>> Uncertainty::alike_with_first() const {
  std::vector<std::optional<CauseId>> out;
  auto const first = result_.ranking.front().cause;
  for (std::size_t i = 1; i < result_.ranking.size(); ++i)
    if (!are_told_apart(first, result_.ranking[i].cause)) out.push_back(result_.ranking[i].cause);
  return out;
}

}  // namespace flinch
