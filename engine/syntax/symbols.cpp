#include "flinch/syntax/symbols.hpp"

#include <algorithm>

#include "syntax/words.hpp"

namespace flinch::syntax {
namespace {

template <class Fits>
std::size_t run(std::string_view text, std::size_t at, Fits const& fits) {
  while (at < text.size() && fits(text[at])) ++at;
  return at;
}

std::size_t text_end(std::string_view text, std::size_t at) {
  for (++at; at < text.size() && text[at] != '"'; ++at)
    if (text[at] == '\\') ++at;
  return std::min(at + 1, text.size());
}

}  // namespace

std::size_t symbol_end(std::string_view text, std::size_t at) {
  auto const has_digit = [&](std::size_t there) {
    return there < text.size() && is_digit(text[there]);
  };
  char const c = text[at];
  if (c == '"') return text_end(text, at);
  if (is_digit(c) || (c == '-' && has_digit(at + 1))) {
    at = run(text, at + 1, is_digit);
    bool const has_fraction = at < text.size() && text[at] == '.' && has_digit(at + 1);
    return has_fraction ? run(text, at + 1, is_digit) : at;
  }
  if (is_word_part(c)) return run(text, at, is_word_part);
  if (c == '^') return run(text, at + 1, [](char part) { return is_digit(part) || part == '.'; });
  bool const is_two = (c == '<' || c == '>') && at + 1 < text.size() && text[at + 1] == '=';
  return at + (is_two ? 2 : 1);
}

bool is_closed_text(std::string_view text, std::size_t at, std::size_t end) {
  if (end < at + 2 || text[end - 1] != '"') return false;
  for (++at; at + 1 < end; ++at)
    if (text[at] == '\\') ++at;
  return at + 1 == end;
}

}  // namespace flinch::syntax
