#pragma once
// The practice's own file, and the time.
#include <ctime>
#include <optional>
#include <ostream>
#include <string>

#include "flinch/telling/practice.hpp"

namespace flinch::cli {

/// Now, and the practice in this file; with no file named, the one in the user's configuration
/// folder ($XDG_CONFIG_HOME/flinch/practice.yaml, or ~/.config/flinch/practice.yaml), if there is
/// one. What is wrong with it is told on `err`, and then there is nothing.
[[nodiscard]] std::optional<Setting> open_setting(std::string const& path, std::ostream& err);

/// Moves it to this time, in local time: a practice may close, or its vets stop coming out, while a
/// desk works on a case.
void set_clock(Setting& setting, std::time_t now);

}  // namespace flinch::cli
