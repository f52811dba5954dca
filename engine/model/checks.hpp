#pragma once
// Mistakes that can only be seen in a whole pack: conditions that cannot vary, alarms that a danger
// sign would silence.
#include "flinch/model/pack.hpp"
#include "flinch/text/diagnostic.hpp"

namespace flinch {

/// Conditions of rules and alarms that can never be true or never be false. All combinations of the
/// signs' values that the tests tell apart are tried, up to a limit; beyond it nothing is said.
void check_conditions_vary(Pack const& pack, Report& report);

/// `applies if` that leads, however far round, back to its own sign.
void check_applies_cycles(Pack const& pack, Report& report);

/// Alarms that become less true when a danger sign (one that some alarm uses as true) is added,
/// unless they say `on purpose`.
void check_danger_signs(Pack const& pack, Report& report);

}  // namespace flinch
