#include "flinch/interview/gain.hpp"

#include <algorithm>
#include <cmath>

#include "flinch/assess/evaluator.hpp"

namespace flinch {
namespace {

double surprise(double p) { return p > 0 ? -p * std::log2(p) : 0; }

// Entropy in bits of "it holds" with frequency p, or of shares that sum to one.
double entropy(std::span<double const> shares) {
  if (shares.size() == 1) return surprise(shares[0]) + surprise(1 - shares[0]);
  double sum = 0;
  for (auto const share : shares) sum += surprise(share);
  return sum;
}

}  // namespace

Gains::Gains(Tables const& tables) : tables_(tables) {
  auto const& pack = tables.pack();
  auto const add = [&](std::vector<double> const& shares) {
    auto const first = frequencies_.size();
    double sum = 0;
    for (auto const share : shares) {
      frequencies_.push_back(std::clamp(share, pack.hold_low, pack.hold_high));
      sum += frequencies_.back();
    }
    if (shares.size() > 1)
      for (auto i = first; i < frequencies_.size(); ++i) frequencies_[i] /= sum;
    entropies_.push_back(entropy(std::span<double const>(frequencies_).subspan(first)));
  };
  for (auto const& rule : pack.rules) {
    rows_.push_back({static_cast<std::uint32_t>(frequencies_.size()),
                     static_cast<std::uint32_t>(entropies_.size()),
                     static_cast<std::uint32_t>(rule.usual.size())});
    add(rule.usual);
    for (auto const& entry : rule.entries) add(entry.frequencies);
  }
}

double Gains::rule_bits(RuleId rule, std::span<double const> posteriors) const {
  auto const& row = rows_[index(rule)];
  auto const entries = tables_.entries(rule);
  auto const* const usual = &frequencies_[row.first_frequency];
  auto const* const entropies = &entropies_[row.first_entropy];
  double named = 0;
  double inside = 0;  // entropy that is left when the cause is known
  for (std::size_t i = 0; i < entries.size(); ++i) {
    auto const chance = posteriors[index(entries[i].cause)];
    named += chance;
    inside += chance * entropies[i + 1];
  }
  auto const unnamed = std::max(0.0, 1 - named);
  inside += unnamed * entropies[0];
  double whole = 0;
  for (std::uint32_t outcome = 0; outcome < row.outcomes; ++outcome) {
    auto mean = unnamed * usual[outcome];
    for (std::size_t i = 0; i < entries.size(); ++i)
      mean += posteriors[index(entries[i].cause)] * usual[(i + 1) * row.outcomes + outcome];
    whole += row.outcomes == 1 ? entropy(std::span(&mean, 1)) : surprise(mean);
  }
  return std::max(0.0, whole - inside);
}

std::span<Gain const> Gains::weigh(Assessment const& result) {
  auto const& pack = tables_.pack();
  gains_.assign(pack.signs.size(), {});
  for (std::uint32_t i = 0; i < pack.rules.size(); ++i) {
    RuleId const rule{i};
    if (result.truth(rule) == Truth::unknown) weigh_rule(rule, result);
  }
  return gains_;
}

void Gains::weigh_rule(RuleId id, Assessment const& result) {
  auto const& rule = tables_.pack()[id];
  auto const pending = Evaluator(tables_, result.knowledge).behind(rule);
  auto const bits =
      rule_bits(id, result.judgement.posteriors) / static_cast<double>(pending.size());
  for (auto const sign : pending) {
    auto& gain = gains_[index(sign)];
    if (!gain.rule || bits > gain.bits) gain = {bits, id};
  }
}

}  // namespace flinch
