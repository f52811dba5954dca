#include "files/clock.hpp"

#include <array>
#include <charconv>
#include <cstdlib>
#include <string_view>

namespace flinch::cli {

std::string clock_text(std::time_t time) {
  std::tm local{};
  localtime_r(&time, &local);
  std::array<char, 32> text{};
  auto const length = std::strftime(text.data(), text.size(), "%Y-%m-%d %H:%M", &local);
  return {text.data(), length};
}

std::time_t now_or_fixed() {
  if (char const* fixed = std::getenv("SOURCE_DATE_EPOCH"); fixed != nullptr) {
    std::string_view const digits = fixed;
    long long seconds = 0;
    auto const* const end = digits.data() + digits.size();
    auto const [read_to, error] = std::from_chars(digits.data(), end, seconds);
    if (error == std::errc{} && read_to == end && seconds >= 0)
      return static_cast<std::time_t>(seconds);
  }
  return std::time(nullptr);
}

}  // namespace flinch::cli
