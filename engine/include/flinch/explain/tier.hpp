#pragma once
// Why the patient must be seen so soon: which alarms fired, what was swallowed, which causes reach
// which threshold.
#include <optional>
#include <vector>

#include "flinch/assess/assessment.hpp"
#include "flinch/assess/evaluator.hpp"

namespace flinch {

struct FiredAlarm {
  AlarmId alarm{};
  ConditionNode condition;
  std::vector<SignId> behind;
};

/// An alarm that would ask for more than the tier, if its `unless` was not known to hold.
struct HeldBack {
  AlarmId alarm{};
  std::vector<SignId> behind;  ///< whose answers hold it back
};

/// A cause and what it adds to the chance of a tier.
struct CauseShare {
  CauseId cause{};
  double posterior = 0;
};

/// One tier seen from the ranking.
struct TierReason {
  TierId tier{};
  TierChance chance;
  /// The causes that need this tier or a higher one, most probable first.
  std::vector<CauseShare> causes;
};

struct TierExplanation {
  std::optional<TierId> tier;
  bool is_by_alarm = false;         ///< an alarm, or something taken, asks for it
  bool is_by_ranking = false;       ///< the ranking reaches it
  std::vector<FiredAlarm> fired;    ///< most urgent first, then in the order of the pack
  std::vector<HeldBack> held_back;  ///< in the same order
  /// Exposures of the assessment that ask for a tier, by index, in the same order.
  std::vector<std::size_t> taken;
  std::vector<TierReason> tiers;  ///< most urgent first
  std::uint32_t open_alarms = 0;  ///< alarms for a higher tier that may still fire
  std::optional<TierId> ceiling;
};

/// The alarms that what is known holds back, and that would ask for a higher tier than that
/// reached; most urgent first, then in the order of the pack.
[[nodiscard]] std::vector<HeldBack> held_back(Tables const& tables, Assessment const& result);

[[nodiscard]] TierExplanation explain_tier(Tables const& tables, Assessment const& result);

}  // namespace flinch
