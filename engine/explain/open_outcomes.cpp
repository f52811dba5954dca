#include "explain/open_outcomes.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

namespace flinch {
namespace {

std::uint64_t overlap_and_cause(std::int32_t overlap, CauseId cause) {
  return static_cast<std::uint64_t>(overlap) << 32U | static_cast<std::uint64_t>(cause);
}

// The strongest in full, each next one a share of the share before.
double counted(std::vector<double> const& strengths, double share) {
  double sum = 0;
  double part = 1;
  for (auto const strength : strengths) {
    sum += part * strength;
    part *= share;
  }
  return sum;
}

// Of "it is so" with the chance `after` from the chance `before`, in bits.
double divergence(double after, double before) {
  auto const term = [](double a, double b) { return a > 0 && b > 0 ? a * std::log2(a / b) : 0; };
  return std::max(0.0, term(after, before) + term(1 - after, 1 - before));
}

}  // namespace

OpenOutcomes::OpenOutcomes(Tables const& tables, Assessment const& result)
    : tables_(tables), posteriors_(tables.pack().causes.size() + 1) {
  for (auto const& ranked : result.ranking) posteriors_[place(ranked.cause)] = ranked.posterior;
  for (auto const& c : result.contributions) {
    auto const overlap = tables.overlap_of(c.rule);
    if (overlap >= 0)
      overlapping_[{overlap_and_cause(overlap, c.cause), c.weight > 0}].push_back(
          std::abs(c.weight));
  }
  for (auto& [group, strengths] : overlapping_)
    std::sort(strengths.begin(), strengths.end(), std::greater<>());
}

std::size_t OpenOutcomes::place(std::optional<CauseId> cause) const {
  return cause ? index(*cause) : tables_.pack().causes.size();
}

std::vector<double> OpenOutcomes::usual(RuleId rule) const {
  auto const& pack = tables_.pack();
  std::vector<double> out;
  double sum = 0;
  for (auto const share : pack[rule].usual)
    sum += out.emplace_back(std::clamp(share, pack.hold_low, pack.hold_high));
  if (pack[rule].condition) return {out.front(), 1 - out.front()};
  for (auto& share : out) share /= sum;
  return out;
}

double OpenOutcomes::moved(RuleId rule, std::optional<CauseId> cause, std::uint32_t band) const {
  if (!cause) return 0;
  for (auto const& entry : tables_.entries(rule)) {
    if (entry.cause != *cause) continue;
    auto const weight = tables_.weight(entry, band);
    auto const overlap = tables_.overlap_of(rule);
    if (overlap < 0) return weight;
    bool const is_for = weight > 0;
    auto const found = overlapping_.find({overlap_and_cause(overlap, *cause), is_for});
    if (found == overlapping_.end()) return weight;
    auto strengths = found->second;
    auto const share = tables_.pack().overlaps[static_cast<std::size_t>(overlap)].share;
    auto const before = counted(strengths, share);
    auto const strength = std::abs(weight);
    strengths.insert(
        std::upper_bound(strengths.begin(), strengths.end(), strength, std::greater<>()), strength);
    auto const more = counted(strengths, share) - before;
    return is_for ? more : -more;
  }
  return 0;
}

double OpenOutcomes::bits_about(RuleId rule, std::optional<CauseId> cause) const {
  auto const present = posteriors_[place(cause)];
  auto const shares = usual(rule);
  std::vector<double> often;
  std::vector<double> after;
  double all = 0;
  for (std::uint32_t band = 0; band < tables_.outcomes(rule); ++band) {
    double frequency = 1;  // against the usual one
    double sum = 1;        // of the posteriors before they are scaled
    for (auto const& entry : tables_.entries(rule)) {
      auto const chance = posteriors_[index(entry.cause)];
      frequency += chance * std::expm1(tables_.weight(entry, band));
      sum += chance * std::expm1(moved(rule, entry.cause, band));
    }
    all += often.emplace_back(shares[band] * frequency);
    after.push_back(std::min(1.0, present * std::exp(moved(rule, cause, band)) / sum));
  }
  double bits = 0;
  for (std::size_t band = 0; band < often.size(); ++band)
    bits += often[band] / all * divergence(after[band], present);
  return bits;
}

double OpenOutcomes::bits_between(RuleId rule, std::optional<CauseId> first,
                                  std::optional<CauseId> second) const {
  auto const both = posteriors_[place(first)] + posteriors_[place(second)];
  if (both <= 0) return 0;
  auto const present = posteriors_[place(first)] / both;
  auto const weight = [&](std::optional<CauseId> cause, std::uint32_t band) {
    for (auto const& entry : tables_.entries(rule))
      if (entry.cause == cause) return tables_.weight(entry, band);
    return 0.0;
  };
  auto const shares = usual(rule);
  double bits = 0;
  double all = 0;
  for (std::uint32_t band = 0; band < tables_.outcomes(rule); ++band) {
    auto const often = shares[band] * (present * std::exp(weight(first, band)) +
                                       (1 - present) * std::exp(weight(second, band)));
    auto const one = present * std::exp(moved(rule, first, band));
    auto const other = (1 - present) * std::exp(moved(rule, second, band));
    all += often;
    bits += often * divergence(one / (one + other), present);
  }
  return bits / all;
}

}  // namespace flinch
