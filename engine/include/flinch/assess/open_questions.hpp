#pragma once
// What is still unasked and could raise the tier.
#include <optional>
#include <vector>

#include "flinch/assess/assessment.hpp"

namespace flinch {

/// A question whose answer could let an alarm fire, or tell of something taken, that asks for a
/// higher tier than has been reached. Where a whole sign is unknown, the whole is asked: a no
/// settles all its parts.
struct OpenQuestion {
  SignId sign{};
  TierId could_reach{};            ///< the highest tier among `alarms` and `taken`
  std::vector<AlarmId> alarms;     ///< those that hang on it
  std::vector<std::size_t> taken;  ///< indices of the care statements of what may have been taken
  bool could_not_tell = false;     ///< it was asked, and nobody could tell
  /// The highest tier, above the present one, that its answer alone could bring about; none when
  /// it could do so only together with other answers.
  std::optional<TierId> alone_reaches;
  /// The same, a yes to its parts left aside: life threats are asked for before wholes that lead to
  /// one.
  std::optional<TierId> itself_reaches;
};

/// Highest tier first; then those that alone could reach the highest; then those that anyone can
/// answer; then those on which more hangs. What could not be told comes last in its tier.
[[nodiscard]] std::vector<OpenQuestion> open_questions(Tables const& tables,
                                                       Assessment const& result);

}  // namespace flinch
