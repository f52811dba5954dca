#include "look/page.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <vector>

#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

std::string_view environment(char const* name) {
  char const* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

bool locale_is_utf8() {
  for (char const* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
    std::string value(environment(name));
    if (value.empty()) continue;
    std::transform(value.begin(), value.end(), value.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return value.find("utf-8") != std::string::npos || value.find("utf8") != std::string::npos;
  }
  return false;
}

constexpr std::size_t narrowest = 40;
constexpr std::size_t widest = 100;  // longer lines are hard to read

// Lines of at most `width` columns; the first begins with `line`, the others with `hanging`.
std::vector<std::string> wrapped(std::string_view text, std::size_t width_of_line, std::string line,
                                 std::string const& hanging) {
  std::vector<std::string> out;
  auto const clean = inert(text);
  std::string_view rest = clean;
  auto used = display_width(line);
  bool is_first = true;
  while (!rest.empty()) {
    auto const start = std::min(rest.find_first_not_of(' '), rest.size());
    rest.remove_prefix(start);
    auto const word = rest.substr(0, rest.find(' '));
    if (word.empty()) break;
    auto const width = display_width(word);
    if (!is_first && used + 1 + width > width_of_line) {
      out.push_back(std::move(line));
      line = hanging;
      used = hanging.size();
      is_first = true;
    }
    if (!is_first) line += ' ';
    line += word;
    used += width + (is_first ? 0 : 1);
    is_first = false;
    rest.remove_prefix(word.size());
  }
  out.push_back(std::move(line));
  return out;
}

}  // namespace

Look look_of_stdout() {
  Look look;
  bool const is_terminal = isatty(STDOUT_FILENO) == 1;
  winsize size{};
  if (is_terminal && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0)
    look.width = std::clamp<std::size_t>(size.ws_col, narrowest, widest);
  bool const is_dumb = environment("TERM") == "dumb" || environment("TERM").empty();
  look.has_weight = is_terminal && !is_dumb;
  look.has_colour = look.has_weight && environment("NO_COLOR").empty();
  look.has_unicode = locale_is_utf8();
  look.out_is_terminal = is_terminal;
  look.err_is_terminal = isatty(STDERR_FILENO) == 1 && !is_dumb;
  return look;
}

void Page::heading(std::string_view text) {
  for (auto const& line : wrapped(text, look_.width, "", "")) text_ += bold(line) + '\n';
}

void Page::line(std::string_view text) {
  text_ += text;
  text_ += '\n';
}

void Page::blank() { text_ += '\n'; }

void Page::paragraph(std::string_view text, std::size_t indent, std::string_view bullet) {
  std::string const before(indent, ' ');
  auto const hanging = std::string(indent + display_width(bullet), ' ');
  for (auto const& line : wrapped(text, look_.width, before + std::string(bullet), hanging))
    text_ += line + '\n';
}

std::string Page::bold(std::string_view text) const {
  return look_.has_weight ? "\x1b[1m" + std::string(text) + "\x1b[0m" : std::string(text);
}

std::string Page::strong(std::string_view text) const {
  if (!look_.has_weight) return std::string(text);
  // Hue 30 of the 256-colour cube: a deep teal, readable on light and dark grounds when reversed.
  return (look_.has_colour ? "\x1b[1;7;38;5;30m" : "\x1b[1;7m") + std::string(text) + "\x1b[0m";
}

std::string Page::marks(std::size_t filled, std::size_t all) const {
  std::string out;
  for (std::size_t i = 0; i < all; ++i)
    out += i < filled ? (look_.has_unicode ? "\u25A0" : "#") : (look_.has_unicode ? "\u25A1" : ".");
  return out;
}

std::string Page::bar(double share, std::size_t width) const {
  constexpr double worth_a_mark = 0.01;  // what is possible at all shows at least one mark
  auto filled = static_cast<std::size_t>(
      std::lround(std::clamp(share, 0.0, 1.0) * static_cast<double>(width)));
  if (filled == 0 && share >= worth_a_mark) filled = 1;
  std::string out;
  for (std::size_t i = 0; i < width; ++i)
    out += i < filled ? (look_.has_unicode ? "\u2588" : "=") : (look_.has_unicode ? "\u2591" : ".");
  return out;
}

std::string fitted(std::string_view text, std::size_t columns) {
  auto out = inert(text);
  while (display_width(out) > columns) {
    auto const end = whole_character(out, out.size() - 1);
    out.resize(end);
  }
  out += std::string(columns - display_width(out), ' ');
  return out;
}

}  // namespace flinch::cli
