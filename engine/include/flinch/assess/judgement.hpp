#pragma once
// What comes out for one dog in short: how urgent it is and how probable each cause, without the
// reasons. An `Assessment` is the same with them.
#include <cstdint>
#include <optional>
#include <vector>

#include "flinch/assess/exposure.hpp"
#include "flinch/model/case.hpp"
#include "flinch/model/pack.hpp"

namespace flinch {

/// Two answers that cannot both be right; the more dangerous one, `counted`, counts.
struct Contradiction {
  enum class Kind : std::uint8_t {
    part_without_whole,  ///< yes to the part `counted`, no to the whole `against`
    does_not_apply,      ///< yes to `counted`, though it cannot apply, by `against`
    found_and_clear      ///< found at a site of `counted` that was given as clear
  };
  Kind kind{};
  SignId counted{};
  SignId against{};
  friend bool operator==(Contradiction const&, Contradiction const&) = default;
};

/// One tier seen from the ranking.
struct TierChance {
  /// Of a cause that needs this tier or a higher one, by the answers alone.
  double probability = 0;
  std::optional<double> threshold;  ///< 1 / (1 + harm)
  bool is_reached = false;
};

struct Judgement {
  std::vector<Contradiction> contradictions;
  /// Probability of each cause of the pack; last, of none of them.
  std::vector<double> posteriors;
  /// The same by the answers alone, which the tiers go by; empty where silence says nothing.
  std::vector<double> by_answers;
  std::vector<AlarmId> fired;        ///< alarms whose condition holds, in pack order
  std::vector<Exposure> exposures;   ///< what it has taken, in pack order
  std::vector<TierChance> tiers;     ///< one a tier
  std::uint32_t told_signs = 0;      ///< given answers that tell of something that is there
  bool nothing_told = true;          ///< no such answer: then the ranking says nothing
  std::optional<TierId> alarm_tier;  ///< highest of the alarms that fired and of `exposures`
  /// Highest whose threshold is reached, and so the lowest at least; none with nothing told.
  std::optional<TierId> ranking_tier;
  std::optional<TierId> tier;  ///< the higher of both; none when nothing can be said
  /// The highest tier that an alarm, or something taken, may still ask for, whatever the unknown
  /// answers are.
  std::optional<TierId> ceiling;

  /// Places in `posteriors` of the `count` most probable, or of all when there are fewer: most
  /// probable first, ties in the order of the pack. Those that differ by less than one part in
  /// 10^12 are ties: rounding decides nothing.
  void most_probable(std::size_t count, std::vector<std::uint32_t>& out) const;
};

}  // namespace flinch
