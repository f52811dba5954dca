#include "explain/change_reach.hpp"

#include <algorithm>
#include <cmath>

namespace flinch {
namespace {

// A bound is kept a little wide: rounding must not leave a pair out.
constexpr double slack = 1e-6;

}  // namespace

ReachTaker::ReachTaker(Tables const& tables, Assessment const& before)
    : tables_(tables),
      before_(before),
      scores_(tables.pack().causes.size() + 1),
      see_(scores_.size(), tables.pack().tiers.size()),
      outcomes_(tables.pack().rules.size(), nullptr),
      alarms_(tables.pack().alarms.size(), Truth::unknown) {
  for (auto const& ranked : before.ranking)
    scores_[ranked.cause ? index(*ranked.cause) : scores_.size() - 1] = std::log(ranked.posterior);
  for (std::size_t i = 0; i < tables.pack().causes.size(); ++i)
    see_[i] = index(tables.pack().causes[i].see);
  for (auto const& outcome : before.rules) outcomes_[index(outcome.rule)] = &outcome;
  for (auto const& alarm : before.alarms) alarms_[index(alarm.alarm)] = alarm.truth;
}

// The sign itself, its wholes and its parts, and what can stop or start to apply by any of these.
std::vector<bool> ReachTaker::signs_moved_by(SignId changed) const {
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

void ReachTaker::reach_rule(std::uint32_t rule, ChangeReach& out) const {
  RuleId const id{rule};
  auto const& written = tables_.pack()[id];
  auto const outcomes = written.condition ? 2U : static_cast<std::uint32_t>(written.bands.size());
  auto const* now = outcomes_[rule];
  bool const is_known = now != nullptr && now->truth != Truth::unknown;
  for (auto const& entry : tables_.entries(id)) {
    double highest = 0;
    double lowest = 0;
    for (std::uint32_t band = 0; band < outcomes; ++band) {
      highest = std::max(highest, tables_.weight(entry, band));
      lowest = std::min(lowest, tables_.weight(entry, band));
    }
    auto const present = is_known ? tables_.weight(entry, now->band) : 0;
    // What an overlap took from the present weight, or gives back to others, is not known here.
    bool const is_shared = tables_.overlap_of(id) >= 0;
    out.gain[index(entry.cause)] += highest - (is_shared ? std::min(0.0, present) : present);
    out.loss[index(entry.cause)] += (is_shared ? std::max(0.0, present) : present) - lowest;
  }
}

void ReachTaker::reach_alarm(std::uint32_t alarm, ChangeReach& out) const {
  auto const see = tables_.pack().alarms[alarm].see;
  bool const is_higher = !before_.tier || see < *before_.tier;
  if (alarms_[alarm] != Truth::yes && is_higher) out.can_raise_alarm = true;
  if (alarms_[alarm] == Truth::yes && see == before_.tier) out.can_drop_alarm = true;
}

ChangeReach ReachTaker::take(SignId changed) const {
  auto const causes = tables_.pack().causes.size() + 1;
  ChangeReach out{std::vector<double>(causes), std::vector<double>(causes), false, false};
  auto const moved = signs_moved_by(changed);
  std::vector<bool> seen(tables_.root_count());
  for (std::uint32_t sign = 0; sign < moved.size(); ++sign) {
    if (!moved[sign]) continue;
    for (auto const i : tables_.roots_of(SignId{sign})) {
      if (seen[i]) continue;
      seen[i] = true;
      auto const& root = tables_.root(i);
      if (root.kind == RootKind::rule) reach_rule(root.subject, out);
      if (root.kind == RootKind::alarm) reach_alarm(root.subject, out);
    }
  }
  return out;
}

bool ReachTaker::could_change_first(ChangeReach const& a, ChangeReach const& b) const {
  auto const first_cause = before_.ranking.front().cause;
  auto const first = first_cause ? index(*first_cause) : scores_.size() - 1;
  auto const least = scores_[first] - a.loss[first] - b.loss[first] - slack;
  for (std::size_t i = 0; i < scores_.size(); ++i)
    if (i != first && scores_[i] + a.gain[i] + b.gain[i] >= least) return true;
  return false;
}

double ReachTaker::most_for_tier(std::size_t tier, ChangeReach const& a,
                                 ChangeReach const& b) const {
  double needing = 0;
  double others = 0;
  for (std::size_t i = 0; i < scores_.size(); ++i) {
    if (see_[i] <= tier)
      needing += std::exp(scores_[i] + a.gain[i] + b.gain[i]);
    else
      others += std::exp(scores_[i] - a.loss[i] - b.loss[i]);
  }
  return needing / (needing + others);
}

double ReachTaker::least_for_tier(std::size_t tier, ChangeReach const& a,
                                  ChangeReach const& b) const {
  double needing = 0;
  double others = 0;
  for (std::size_t i = 0; i < scores_.size(); ++i) {
    if (see_[i] <= tier)
      needing += std::exp(scores_[i] - a.loss[i] - b.loss[i]);
    else
      others += std::exp(scores_[i] + a.gain[i] + b.gain[i]);
  }
  return needing / (needing + others);
}

bool ReachTaker::could_raise_tier(ChangeReach const& a, ChangeReach const& b) const {
  if (before_.too_few_answers || a.can_raise_alarm || b.can_raise_alarm || !before_.tier)
    return true;
  for (std::size_t t = 0; t < index(*before_.tier); ++t) {
    auto const threshold = tables_.pack().tiers[t].threshold();
    if (threshold && most_for_tier(t, a, b) >= *threshold - slack) return true;
  }
  return false;
}

bool ReachTaker::could_lower_tier(ChangeReach const& a, ChangeReach const& b) const {
  bool const is_held_by_alarm = before_.alarm_tier == before_.tier;
  if (is_held_by_alarm && !a.can_drop_alarm && !b.can_drop_alarm) return false;
  if (before_.ranking_tier != before_.tier) return true;
  auto const tier = index(*before_.tier);
  auto const threshold = tables_.pack().tiers[tier].threshold();
  return threshold && least_for_tier(tier, a, b) < *threshold + slack;
}

}  // namespace flinch
