#pragma once
// What comes out for one patient in short: how urgent it is and how probable each cause, without
// the reasons. An `Assessment` holds one, and the reasons beside it.
#include <algorithm>
#include <cstddef>
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
  /// The same by the answers alone; empty where silence says nothing: `posteriors_by_answers`.
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

  /// The place of a cause in `posteriors`; none: none of the listed causes, the last.
  [[nodiscard]] std::size_t place(std::optional<CauseId> cause) const {
    return cause ? index(*cause) : posteriors.size() - 1;
  }
  /// 0 to 1; none: of none of the listed causes.
  [[nodiscard]] double posterior(std::optional<CauseId> cause) const {
    return posteriors[place(cause)];
  }
  /// By the answers alone, what was not mentioned left aside: the tiers go by it.
  [[nodiscard]] std::vector<double> const& posteriors_by_answers() const {
    return by_answers.empty() ? posteriors : by_answers;
  }
  [[nodiscard]] bool has_fired(AlarmId alarm) const {
    return std::binary_search(fired.begin(), fired.end(), alarm);
  }

  /// Places in `posteriors` of the `count` most probable, or of all when there are fewer: most
  /// probable first, ties in the order of the pack. Those that differ by less than one part in
  /// 10^12 are ties: rounding decides nothing.
  void most_probable(std::size_t count, std::vector<std::uint32_t>& out) const;
};

}  // namespace flinch
