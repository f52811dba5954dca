#include "look/json_text.hpp"

#include <fmt/format.h>

#include <charconv>

namespace flinch::cli {
namespace {

void round_fractions(nlohmann::ordered_json& json) {
  if (json.is_number_float()) {
    auto value = json.get<double>();
    auto const digits = fmt::format("{:.12g}", value);
    std::from_chars(digits.data(), digits.data() + digits.size(), value);
    json = value;
  }
  if (json.is_structured())
    for (auto& part : json) round_fractions(part);
}

}  // namespace

std::string json_text(nlohmann::ordered_json json) {
  round_fractions(json);
  return json.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + '\n';
}

}  // namespace flinch::cli
