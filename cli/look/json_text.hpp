#pragma once
// JSON as it is written out by every command.
#include <nlohmann/json.hpp>
#include <string>

namespace flinch::cli {

/// Indented, with a line break at the end. Bytes that are not UTF-8 (a file's name may hold such)
/// become U+FFFD: output for programs must never fail on input from outside.
[[nodiscard]] inline std::string json_text(nlohmann::ordered_json const& json) {
  return json.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + '\n';
}

}  // namespace flinch::cli
