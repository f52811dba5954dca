#include "flinch/explain/tier.hpp"

#include <algorithm>

namespace flinch {
namespace {

std::uint32_t count_open_alarms(Pack const& pack, Assessment const& result) {
  std::uint32_t open = 0;
  auto known = result.alarms.begin();
  for (std::uint32_t i = 0; i < pack.alarms.size(); ++i) {
    auto truth = Truth::unknown;
    if (known != result.alarms.end() && known->alarm == AlarmId{i}) truth = (known++)->truth;
    bool const would_raise = !result.tier || pack.alarms[i].see < *result.tier;
    open += truth == Truth::unknown && would_raise ? 1 : 0;
  }
  return open;
}

}  // namespace

TierExplanation explain_tier(Tables const& tables, Assessment const& result) {
  auto const& pack = tables.pack();
  TierExplanation out;
  out.tier = result.tier;
  out.ceiling = result.ceiling;
  out.is_by_alarm = result.tier && result.alarm_tier == result.tier;
  out.is_by_ranking = result.tier && result.ranking_tier == result.tier;
  out.open_alarms = count_open_alarms(pack, result);
  for (auto const& outcome : result.alarms) {
    if (outcome.truth != Truth::yes) continue;
    auto tree = condition_tree(tables, result, pack[outcome.alarm].condition);
    auto behind = signs_behind(tree);
    out.fired.push_back({outcome.alarm, std::move(tree), std::move(behind)});
  }
  std::stable_sort(out.fired.begin(), out.fired.end(),
                   [&](FiredAlarm const& a, FiredAlarm const& b) {
                     return pack[a.alarm].see < pack[b.alarm].see;
                   });
  for (std::size_t i = 0; i < result.exposures.size(); ++i)
    if (result.exposures[i].see) out.taken.push_back(i);
  std::stable_sort(out.taken.begin(), out.taken.end(), [&](std::size_t a, std::size_t b) {
    return *result.exposures[a].see < *result.exposures[b].see;
  });
  bool const is_moved =
      std::any_of(result.ranking.begin(), result.ranking.end(),
                  [](Ranked const& ranked) { return ranked.by_answers != ranked.posterior; });
  for (std::uint32_t i = 0; i < result.tiers.size(); ++i) {
    TierReason reason{TierId{i}, result.tiers[i], {}};
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
