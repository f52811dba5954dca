#include "explain/change_reach.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

namespace flinch {
namespace {

// A bound is kept a little wide: rounding must not leave a pair out.
constexpr double slack = 1e-6;

bool in_both(std::vector<std::uint64_t> const& a, std::vector<std::uint64_t> const& b,
             std::size_t i) {
  return ((a[i / 64] & b[i / 64]) >> (i % 64) & 1U) != 0;
}

}  // namespace

PairReach::PairReach(Tables const& tables, Assessment const& before)
    : tables_(tables),
      before_(before),
      posteriors_(before.judgement.posteriors),
      scores_(posteriors_.size()),
      see_(scores_.size(), tables.pack().tiers.size()),
      ranges_(tables.pack().rules.size()),
      alarms_(tables.pack().alarms.size(), Truth::unknown),
      is_moved_(scores_.size()) {
  std::transform(posteriors_.begin(), posteriors_.end(), scores_.begin(),
                 [](double posterior) { return std::log(posterior); });
  highest_ = lowest_ = scores_;
  for (auto const& tier : before.judgement.tiers) needing_.push_back(tier.probability);
  for (std::size_t i = 0; i < tables.pack().causes.size(); ++i)
    see_[i] = index(tables.pack().causes[i].see);
  std::vector<RuleOutcome const*> outcomes(ranges_.size(), nullptr);
  for (auto const& outcome : before.rules) outcomes[index(outcome.rule)] = &outcome;
  for (std::uint32_t rule = 0; rule < ranges_.size(); ++rule) range_rule(rule, outcomes[rule]);
  for (auto const& alarm : before.alarms) alarms_[index(alarm.alarm)] = alarm.truth;
}

void PairReach::range_rule(std::uint32_t rule, RuleOutcome const* now) {
  RuleId const id{rule};
  auto const outcomes = tables_.outcomes(id);
  bool const weighs = now != nullptr && now->contribution_count > 0;
  bool const overlaps = tables_.overlap_of(id) >= 0;
  for (auto const& entry : tables_.entries(id)) {
    double most = 0;
    double least = 0;
    for (std::uint32_t band = 0; band < outcomes; ++band) {
      most = std::max(most, tables_.weight(entry, band));
      least = std::min(least, tables_.weight(entry, band));
    }
    auto const present = weighs ? tables_.weight(entry, now->band) : 0;
    // In an overlap it is open how much of the present weight counts.
    ranges_[rule].push_back({static_cast<std::uint32_t>(index(entry.cause)),
                             most - (overlaps ? std::min(0.0, present) : present),
                             (overlaps ? std::max(0.0, present) : present) - least});
  }
}

// The sign itself, its wholes and its parts, and what can stop or start to apply by any of these.
std::vector<bool> PairReach::signs_moved_by(SignId changed) const {
  auto const& pack = tables_.pack();
  std::vector<bool> moved(pack.signs.size());
  std::vector<SignId> news{changed};
  auto const reach = [&](SignId sign) {
    if (moved[index(sign)]) return;
    moved[index(sign)] = true;
    news.push_back(sign);
  };
  moved[index(changed)] = true;
  while (!news.empty()) {
    auto const sign = news.back();
    news.pop_back();
    if (pack[sign].part_of) reach(*pack[sign].part_of);
    for (auto const part : tables_.parts_of(sign)) reach(SignId{part});
    for (auto const root : tables_.roots_of(sign))
      if (tables_.root(root).kind == RootKind::applies) reach(SignId{tables_.root(root).subject});
  }
  return moved;
}

void PairReach::reach_alarm(std::uint32_t alarm, SignReach& out) const {
  auto const see = tables_.pack().alarms[alarm].see;
  bool const is_higher = !before_.judgement.tier || see < *before_.judgement.tier;
  if (alarms_[alarm] != Truth::yes && is_higher) out.can_raise_alarm = true;
  if (alarms_[alarm] == Truth::yes && see == before_.judgement.tier) out.can_drop_alarm = true;
}

SignReach PairReach::of_sign(SignId changed) const {
  SignReach out;
  out.rules.resize(ranges_.size() / 64 + 1);
  out.overlaps.resize(tables_.pack().overlaps.size() / 64 + 1);
  auto const moved = signs_moved_by(changed);
  for (std::uint32_t sign = 0; sign < moved.size(); ++sign) {
    if (!moved[sign]) continue;
    if (tables_.bears_on_taken(SignId{sign})) out.can_raise_alarm = out.can_drop_alarm = true;
    for (auto const i : tables_.roots_of(SignId{sign})) {
      auto const& root = tables_.root(i);
      if (root.kind == RootKind::alarm) reach_alarm(root.subject, out);
      if (root.kind != RootKind::rule) continue;
      set_bit(out.rules, root.subject);
      auto const overlap = tables_.overlap_of(RuleId{root.subject});
      if (overlap >= 0) set_bit(out.overlaps, static_cast<std::size_t>(overlap));
    }
  }
  return out;
}

PairReach::Sharing PairReach::sharing(RuleId rule, SignReach const& a, SignReach const& b) const {
  if (in_both(a.rules, b.rules, index(rule))) return Sharing::rule;
  auto const overlap = tables_.overlap_of(rule);
  bool const is_shared =
      overlap >= 0 && in_both(a.overlaps, b.overlaps, static_cast<std::size_t>(overlap));
  return is_shared ? Sharing::overlap : Sharing::nothing;
}

void PairReach::move(std::size_t cause, double up, double down) {
  if (!is_moved_[cause]) {
    is_moved_[cause] = true;
    moved_.push_back(cause);
  }
  highest_[cause] += up;
  lowest_[cause] -= down;
}

void PairReach::add_alone(ChangeEffect const& alone, SignReach const& a, SignReach const& b) {
  for (auto const& delta : alone.deltas)
    if (sharing(delta.rule, a, b) == Sharing::nothing)
      move(index(delta.cause), delta.counted, -delta.counted);
  for (auto const& delta : alone.overlapping)
    if (sharing(delta.rule, a, b) == Sharing::overlap)
      move(index(delta.cause), std::max(0.0, delta.weight), std::max(0.0, -delta.weight));
}

void PairReach::take(Reaching const& a, Reaching const& b) {
  for (auto const cause : moved_) {
    is_moved_[cause] = false;
    highest_[cause] = lowest_[cause] = scores_[cause];
  }
  moved_.clear();
  add_alone(a.alone, a.sign, b.sign);
  add_alone(b.alone, a.sign, b.sign);
  for (std::size_t word = 0; word < a.sign.rules.size(); ++word)
    for (auto bits = a.sign.rules[word] & b.sign.rules[word]; bits != 0; bits &= bits - 1)
      for (auto const& range :
           ranges_[word * 64 + static_cast<std::size_t>(std::countr_zero(bits))])
        move(range.cause, range.gain, range.loss);
  can_raise_alarm_ = a.sign.can_raise_alarm || b.sign.can_raise_alarm;
  can_drop_alarm_ = a.sign.can_drop_alarm || b.sign.can_drop_alarm;
}

bool PairReach::could_change_first() const {
  auto const first_cause = before_.ranking.front().cause;
  auto const first = first_cause ? index(*first_cause) : scores_.size() - 1;
  for (std::size_t i = 0; i < scores_.size(); ++i)
    if (i != first && highest_[i] >= lowest_[first] - slack) return true;
  return false;
}

// Only of what moves has the chance to be reckoned anew.
double PairReach::chance(std::size_t tier, std::vector<double> const& needing,
                         std::vector<double> const& others) const {
  double need = needing_[tier];
  double rest = 1 - need;
  for (auto const i : moved_) {
    bool const needs = see_[i] <= tier;
    (needs ? need : rest) += std::exp(needs ? needing[i] : others[i]) - posteriors_[i];
  }
  return need / (need + rest);
}

bool PairReach::could_raise_tier() const {
  if (before_.judgement.nothing_told || can_raise_alarm_ || !before_.judgement.tier) return true;
  for (std::size_t t = 0; t < index(*before_.judgement.tier); ++t) {
    auto const threshold = tables_.pack().tiers[t].threshold();
    if (threshold && chance(t, highest_, lowest_) >= *threshold - slack) return true;
  }
  return false;
}

bool PairReach::could_lower_tier() const {
  bool const is_held_by_alarm = before_.judgement.alarm_tier == before_.judgement.tier;
  if (is_held_by_alarm && !can_drop_alarm_) return false;
  if (before_.judgement.ranking_tier != before_.judgement.tier) return true;
  constexpr std::uint32_t changed = 2;  // without a sign told the ranking sets no tier
  if (before_.judgement.told_signs <= changed) return true;
  auto const tier = index(*before_.judgement.tier);
  auto const threshold = tables_.pack().tiers[tier].threshold();
  return threshold && chance(tier, lowest_, highest_) < *threshold + slack;
}

}  // namespace flinch
