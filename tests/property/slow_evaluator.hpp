#pragma once
// A second, slow and obvious implementation of the semantics, written from the description in
// docs/ranking.md and docs/language.md and sharing no code with the engine: every rule is evaluated
// for every case, by walking the condition.
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "flinch/model/pack.hpp"

namespace flinch::test {

struct SlowResult {
  std::map<std::string, long double> posterior;  ///< by cause; "" for none of the listed
  std::map<std::string, int> alarms;             ///< -1 false, 0 unknown, 1 true
  std::set<std::string> taken;                   ///< measures that speak of what it has taken
  std::optional<std::size_t> alarm_tier;  ///< index of the tier, by alarms and what was taken
  std::optional<std::size_t> ranking_tier;
  std::optional<std::size_t> ceiling;
  std::size_t told_signs = 0;  ///< signs whose given answer tells of something that is there
  /// How near the nearest tier's probability came to its threshold: rounding may decide there.
  long double nearest_threshold = 1;
};

[[nodiscard]] SlowResult evaluate_slowly(Pack const& pack, Case const& patient);

/// -1 false, 0 unknown, 1 true, of a condition under these answers.
[[nodiscard]] int slow_truth(Pack const& pack, Condition const& condition,
                             std::map<SignId, Answer> const& answers);

/// The answers and what follows from them by meaning alone.
[[nodiscard]] std::map<SignId, Answer> slow_consequences(Pack const& pack, Case const& patient);

}  // namespace flinch::test
