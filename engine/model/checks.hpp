#pragma once
// Mistakes that can only be seen in a whole pack: conditions that cannot vary, alarms that a danger
// sign would silence.
#include <vector>

#include "flinch/model/pack.hpp"
#include "flinch/text/diagnostic.hpp"

namespace flinch {

/// Conditions of signs, meanings, rules, alarms and care that can never be true or never be false,
/// and alarms that their `unless` always holds back. All combinations of the signs' values that the
/// tests tell apart are tried, up to a limit; beyond it nothing is said. Whether a sign applies is
/// not looked at: an answer that was given stands. Returns for each alarm whether nothing was said
/// of it.
[[nodiscard]] std::vector<bool> check_conditions_vary(Pack const& pack, Report& report);

/// `applies if` that leads, however far round, back to its own sign.
void check_applies_cycles(Pack const& pack, Report& report);

/// Alarms that become less true when a danger sign (one that some alarm uses as true) is added,
/// unless they say `on purpose`. Of an alarm that cannot vary (`vary`) it is not said as well.
void check_danger_signs(Pack const& pack, std::vector<bool> const& vary, Report& report);

}  // namespace flinch
