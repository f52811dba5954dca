#include "flinch/explain/tier.hpp"

#include <algorithm>

namespace flinch {
namespace {

std::uint32_t count_open_alarms(Pack const& pack, Assessment const& result) {
  std::uint32_t open = 0;
  for (std::uint32_t i = 0; i < pack.alarms.size(); ++i) {
    bool const would_raise = !result.judgement.tier || pack.alarms[i].see < *result.judgement.tier;
    open += result.truth(AlarmId{i}) == Truth::unknown && would_raise ? 1 : 0;
  }
  return open;
}

}  // namespace

std::vector<HeldBack> held_back(Tables const& tables, Assessment const& result) {
  auto const& pack = tables.pack();
  Evaluator const evaluator(tables, result.knowledge);
  std::vector<HeldBack> out;
  for (auto const& outcome : result.alarms) {
    auto const& alarm = pack[outcome.alarm];
    bool const is_higher = !result.judgement.tier || alarm.see < *result.judgement.tier;
    if (alarm.unless() != nullptr && is_higher && outcome.truth == Truth::no &&
        evaluator.truth(alarm.trigger()) == Truth::yes)
      out.push_back({outcome.alarm, evaluator.behind(alarm.condition.parts.back())});
  }
  std::stable_sort(out.begin(), out.end(), [&](HeldBack const& a, HeldBack const& b) {
    return pack[a.alarm].see < pack[b.alarm].see;
  });
  return out;
}

TierExplanation explain_tier(Tables const& tables, Assessment const& result) {
  auto const& pack = tables.pack();
  Evaluator const evaluator(tables, result.knowledge);
  TierExplanation out;
  out.tier = result.judgement.tier;
  out.ceiling = result.judgement.ceiling;
  out.is_by_alarm = result.judgement.tier && result.judgement.alarm_tier == result.judgement.tier;
  out.is_by_ranking =
      result.judgement.tier && result.judgement.ranking_tier == result.judgement.tier;
  out.open_alarms = count_open_alarms(pack, result);
  for (auto const alarm : result.judgement.fired) {
    auto const& condition = pack[alarm].condition;
    out.fired.push_back({alarm, evaluator.tree(condition), evaluator.behind(condition)});
  }
  std::stable_sort(out.fired.begin(), out.fired.end(),
                   [&](FiredAlarm const& a, FiredAlarm const& b) {
                     return pack[a.alarm].see < pack[b.alarm].see;
                   });
  out.held_back = held_back(tables, result);
  for (std::size_t i = 0; i < result.judgement.exposures.size(); ++i)
    if (result.judgement.exposures[i].see) out.taken.push_back(i);
  std::stable_sort(out.taken.begin(), out.taken.end(), [&](std::size_t a, std::size_t b) {
    return *result.judgement.exposures[a].see < *result.judgement.exposures[b].see;
  });
  bool const is_moved =
      std::any_of(result.ranking.begin(), result.ranking.end(),
                  [](Ranked const& ranked) { return ranked.by_answers != ranked.posterior; });
  for (std::uint32_t i = 0; i < result.judgement.tiers.size(); ++i) {
    TierReason reason{TierId{i}, result.judgement.tiers[i], {}};
    for (auto const& ranked : result.ranking)
      if (ranked.cause && pack[*ranked.cause].see <= reason.tier)
        reason.causes.push_back({*ranked.cause, ranked.by_answers});
    // Where silence has moved the ranking its order is another one.
    if (is_moved)
      std::stable_sort(reason.causes.begin(), reason.causes.end(),
                       [](auto const& a, auto const& b) { return a.posterior > b.posterior; });
    out.tiers.push_back(std::move(reason));
  }
  return out;
}

}  // namespace flinch
