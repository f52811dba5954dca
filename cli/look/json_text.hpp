#pragma once
// JSON as it is written out by every command.
#include <nlohmann/json.hpp>
#include <string>

namespace flinch::cli {

/// Indented, with a line break at its end. Fractions have twelve digits at most: what lies beyond
/// is noise of the machine, and differs from one to the next. Bytes that are not UTF-8 (a file's
/// name may hold such) become U+FFFD: output for programs must never fail on input from outside.
[[nodiscard]] std::string json_text(nlohmann::ordered_json json);

}  // namespace flinch::cli
