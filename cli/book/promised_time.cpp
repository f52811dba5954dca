#include "book/promised_time.hpp"

namespace flinch::cli {

std::optional<std::time_t> promised_time(std::string const& words, std::time_t said) {
  std::tm day{};
  auto const ends = [](char const* end) { return end != nullptr && *end == '\0'; };
  if (ends(::strptime(words.c_str(), "%Y-%m-%d %H:%M", &day))) {
    day.tm_isdst = -1;
    return std::mktime(&day);
  }
  day = {};
  localtime_r(&said, &day);
  if (words.empty() || !ends(::strptime(words.c_str(), "%H:%M", &day))) return std::nullopt;
  day.tm_sec = 0;
  day.tm_isdst = -1;
  auto time = std::mktime(&day);
  if (time < said) {
    ++day.tm_mday;
    day.tm_isdst = -1;
    time = std::mktime(&day);
  }
  return time;
}

}  // namespace flinch::cli
