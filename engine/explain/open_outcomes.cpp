#include "explain/open_outcomes.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

namespace flinch {
namespace {

std::uint64_t overlap_and_cause(std::int32_t overlap, CauseId cause) {
  return static_cast<std::uint64_t>(overlap) << 32U | static_cast<std::uint64_t>(cause);
}

// What `strength` adds to those that count, strongest first: the strongest in full, each next one a
// share of the share before.
double added(std::vector<double> const& strengths, double strength, double share) {
  double out = 0;
  double part = 1;
  bool is_in = false;
  for (auto const other : strengths) {
    if (!is_in && strength > other) {
      out += part * strength;
      is_in = true;
    }
    // Behind the new one each counts a share of what it did.
    if (is_in) out -= part * (1 - share) * other;
    part *= share;
  }
  return is_in ? out : out + part * strength;
}

// Of "it is so" with the chance `after` from the chance `before`, in bits.
double divergence(double after, double before) {
  auto const term = [](double a, double b) { return a > 0 && b > 0 ? a * std::log2(a / b) : 0; };
  return std::max(0.0, term(after, before) + term(1 - after, 1 - before));
}

}  // namespace

OpenOutcomes::OpenOutcomes(Tables const& tables, Assessment const& result)
    : tables_(tables),
      judgement_(result.judgement),
      is_open_(tables.pack().rules.size(), true),
      is_silent_(tables.pack().rules.size(), false) {
  for (auto const& outcome : result.rules)
    if (outcome.truth != Truth::unknown)
      is_open_[index(outcome.rule)] = false;
    else if (outcome.contribution_count > 0)
      is_silent_[index(outcome.rule)] = true;
  for (auto const& c : result.contributions) {
    auto const overlap = tables.overlap_of(c.rule);
    if (overlap >= 0)
      overlapping_[{overlap_and_cause(overlap, c.cause), c.weight > 0}].push_back(
          std::abs(c.weight));
  }
  for (auto& [group, strengths] : overlapping_)
    std::sort(strengths.begin(), strengths.end(), std::greater<>());
}

bool OpenOutcomes::names(RuleId rule, CauseId cause) const {
  auto const entries = tables_.entries(rule);
  return std::any_of(entries.begin(), entries.end(),
                     [&](Tables::Entry const& entry) { return entry.cause == cause; });
}

std::vector<double> OpenOutcomes::usual(RuleId rule) const {
  auto const& pack = tables_.pack();
  std::vector<double> out;
  double sum = 0;
  for (auto const share : pack[rule].usual)
    sum += out.emplace_back(std::clamp(share, pack.hold_low, pack.hold_high));
  if (is_silent_[index(rule)]) {
    // Of those who did not mention it.
    auto const mentioned = pack[pack[rule].condition->test.sign].mentioned.value_or(0);
    out.front() *= (1 - mentioned) / (1 - mentioned * out.front());
  }
  if (pack[rule].condition) return {out.front(), 1 - out.front()};
  for (auto& share : out) share /= sum;
  return out;
}

double OpenOutcomes::moved(RuleId rule, std::optional<CauseId> cause, std::uint32_t band) const {
  if (!cause) return 0;
  for (auto const& entry : tables_.entries(rule))
    if (entry.cause == *cause) return moved(rule, entry, band);
  return 0;
}

double OpenOutcomes::weight(RuleId rule, Tables::Entry const& entry, std::uint32_t band) const {
  auto const now = is_silent_[index(rule)] ? tables_.weight(entry, Tables::band_not_mentioned) : 0;
  return tables_.weight(entry, band) - now;
}

// An answer takes the place of what was weighed because nobody mentioned it.
double OpenOutcomes::moved(RuleId rule, Tables::Entry const& entry, std::uint32_t band) const {
  auto const more = put_in(rule, entry, tables_.weight(entry, band));
  if (!is_silent_[index(rule)]) return more;
  return more - put_in(rule, entry, tables_.weight(entry, Tables::band_not_mentioned));
}

double OpenOutcomes::put_in(RuleId rule, Tables::Entry const& entry, double weight) const {
  auto const overlap = tables_.overlap_of(rule);
  if (overlap < 0) return weight;
  bool const is_for = weight > 0;
  auto const found = overlapping_.find({overlap_and_cause(overlap, entry.cause), is_for});
  if (found == overlapping_.end()) return weight;
  auto const share = tables_.pack().overlaps[static_cast<std::size_t>(overlap)].share;
  auto others = found->second;
  if (is_silent_[index(rule)]) {
    auto const own = tables_.weight(entry, Tables::band_not_mentioned);
    auto const at = std::find(others.begin(), others.end(), std::abs(own));
    if ((own > 0) == is_for && at != others.end()) others.erase(at);
  }
  auto const more = added(others, std::abs(weight), share);
  return is_for ? more : -more;
}

double OpenOutcomes::bits_about(RuleId rule, std::optional<CauseId> cause) const {
  auto const present = judgement_.posterior(cause);
  auto const shares = usual(rule);
  std::vector<double> often;
  std::vector<double> after;
  double all = 0;
  for (std::uint32_t band = 0; band < tables_.outcomes(rule); ++band) {
    double frequency = 1;  // against the usual one
    double sum = 1;        // of the posteriors before they are scaled
    for (auto const& entry : tables_.entries(rule)) {
      auto const chance = judgement_.posterior(entry.cause);
      auto const its = weight(rule, entry, band);
      auto const counted = moved(rule, entry, band);
      auto const more = chance * std::expm1(its);
      frequency += more;
      sum += counted == its ? more : chance * std::expm1(counted);
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
  auto const both = judgement_.posterior(first) + judgement_.posterior(second);
  if (both <= 0) return 0;
  auto const present = judgement_.posterior(first) / both;
  auto const weight_for = [&](std::optional<CauseId> cause, std::uint32_t band) {
    for (auto const& entry : tables_.entries(rule))
      if (entry.cause == cause) return weight(rule, entry, band);
    return 0.0;
  };
  auto const shares = usual(rule);
  double bits = 0;
  double all = 0;
  for (std::uint32_t band = 0; band < tables_.outcomes(rule); ++band) {
    auto const often = shares[band] * (present * std::exp(weight_for(first, band)) +
                                       (1 - present) * std::exp(weight_for(second, band)));
    auto const one = present * std::exp(moved(rule, first, band));
    auto const other = (1 - present) * std::exp(moved(rule, second, band));
    all += often;
    bits += often * divergence(one / (one + other), present);
  }
  return bits / all;
}

}  // namespace flinch
