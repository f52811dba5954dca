#include "look/named_command.hpp"

#include <algorithm>
#include <array>

#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

// Those that send somebody somewhere.
constexpr std::array<std::string_view, 6> with_a_practice = {"ask",  "assess",   "call",
                                                             "care", "handover", "report"};

bool is_plain(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
         std::string_view("-_./:=,+@%").find(c) != std::string_view::npos ||
         static_cast<unsigned char>(c) >= 0x80U;
}

// As a shell takes it for one word.
std::string word(std::string const& text) {
  auto const shown = inert(text);
  if (!shown.empty() && std::all_of(shown.begin(), shown.end(), is_plain)) return shown;
  std::string out = "'";
  for (char const c : shown) {
    if (c == '\'')
      out += "'\\''";
    else
      out += c;
  }
  return out + "'";
}

}  // namespace

std::string named_command(std::string_view command, std::vector<std::string> const& arguments,
                          GoesOnWith const& on) {
  std::string out = "flinch ";
  out += command;
  for (auto const& argument : arguments) out += " " + word(argument);
  if (!on.pack.empty()) out += " --pack " + word(on.pack);
  bool const takes_practice =
      std::find(with_a_practice.begin(), with_a_practice.end(), command) != with_a_practice.end();
  if (takes_practice && !on.practice.empty()) out += " --practice " + word(on.practice);
  return out;
}

}  // namespace flinch::cli
