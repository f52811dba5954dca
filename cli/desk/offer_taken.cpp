#include "desk/offer_taken.hpp"

#include <charconv>

#include "flinch/interview/answer_entry.hpp"

namespace flinch::cli {

std::optional<std::size_t> offer_taken(std::size_t offered, std::string_view line) {
  if (offered == 1 && is_bare_yes(line)) return 0;
  auto const first = line.find_first_not_of(' ');
  if (first == std::string_view::npos || offered < 2) return std::nullopt;
  auto const text = line.substr(first, line.find_last_not_of(" .") + 1 - first);
  std::size_t number = 0;
  auto const read = std::from_chars(text.data(), text.data() + text.size(), number);
  bool const is_number = read.ec == std::errc{} && read.ptr == text.data() + text.size();
  if (!is_number || number < 1 || number > offered) return std::nullopt;
  return number - 1;
}

}  // namespace flinch::cli
