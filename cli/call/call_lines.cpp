#include "call/call_lines.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t choice_columns = 34;  // of a choice, where words follow

bool continues_character(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

std::size_t width_of(ViewLine const& line) {
  std::size_t width = 0;
  for (auto const& piece : line) width += display_width(piece.text);
  return width;
}

}  // namespace

std::string capitals(std::string_view text) {
  std::string out(text);
  for (auto& c : out)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return out;
}

std::string CallLines::shown(std::string_view text) const {
  auto out = inert(text);
  std::replace(out.begin(), out.end(), '\t', ' ');
  if (letters_ == Letters::unicode) return out;
  std::erase_if(out, continues_character);
  std::replace_if(
      out.begin(), out.end(), [](char c) { return static_cast<unsigned char>(c) >= 0x80; }, '?');
  return out;
}

std::string CallLines::tail(std::string_view text, std::size_t columns) const {
  auto out = shown(text);
  while (display_width(out) > columns) {
    std::size_t next = 1;
    while (next < out.size() && continues_character(out[next])) ++next;
    out.erase(0, next);
  }
  return out;
}

std::string_view CallLines::bullet() const {
  return letters_ == Letters::unicode ? "\u2022 " : "* ";
}

Look CallLines::look() const { return {size_.columns, false, false, letters_ == Letters::unicode}; }

void CallLines::add_text(std::string text, Weight weight) {
  add(ViewLine{{std::move(text), weight}});
}

void CallLines::paragraph(std::string_view text, std::size_t indent, std::string_view bullet,
                          Weight weight, std::size_t rows_at_most) {
  Page page(look());
  page.paragraph(shown(text), indent, bullet);
  auto const wrapped = page.take();
  std::string_view rest = wrapped;
  for (std::size_t row = 0; row < rows_at_most && !rest.empty(); ++row) {
    auto const end = rest.find('\n');
    add_text(std::string(rest.substr(0, end)), weight);
    rest.remove_prefix(end + 1);
  }
}

void CallLines::choice(std::size_t number, std::string_view label, std::string_view words,
                       bool is_chosen) {
  auto text = fmt::format(" {} {} {}", number, is_chosen ? '>' : ' ', shown(label));
  if (!words.empty() && words != label)
    text = fmt::format("{}  {}", fitted(text, std::max(choice_columns, display_width(text))),
                       shown(words));
  add_text(std::move(text), is_chosen ? Weight::chosen : Weight::plain);
}

void CallLines::rule() {
  std::string out;
  for (std::size_t i = 0; i < size_.columns; ++i)
    out += letters_ == Letters::unicode ? "\u2500" : "-";
  add_text(std::move(out));
}

void CallLines::fill_to(std::size_t rows) {
  screen_.lines.resize(rows);
  if (screen_.cursor && screen_.cursor->row >= rows) screen_.cursor.reset();
}

void CallLines::cursor_behind_last_line() {
  screen_.cursor = {screen_.lines.size() - 1,
                    std::min(width_of(screen_.lines.back()), size_.columns - 1)};
}

std::vector<ViewLine> CallLines::take_from(std::size_t first) {
  auto const from = screen_.lines.begin() + static_cast<std::ptrdiff_t>(first);
  std::vector<ViewLine> out(std::make_move_iterator(from),
                            std::make_move_iterator(screen_.lines.end()));
  screen_.lines.resize(first);
  return out;
}

CallScreen CallLines::take() {
  for (auto& line : screen_.lines) {
    std::size_t used = 0;
    for (auto& piece : line) {
      auto const room = size_.columns - used;
      if (display_width(piece.text) > room) piece.text = fitted(piece.text, room);
      used += display_width(piece.text);
    }
  }
  return std::move(screen_);
}

}  // namespace flinch::cli
