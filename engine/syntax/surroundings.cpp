#include "syntax/surroundings.hpp"

#include <algorithm>
#include <charconv>

#include "syntax/layout.hpp"
#include "syntax/words.hpp"

namespace flinch::syntax::hints {

Surroundings::Surroundings(Misfit const& of)
    : misfit(of), rest(of.text.substr(of.at, of.stretch.end - of.at)) {
  while (!rest.empty() && is_blank(rest.back())) rest.remove_suffix(1);
  auto back = of.at;
  while (back > of.stretch.begin && is_blank(of.text[back - 1])) --back;
  is_close = back == of.at;
  is_same_line = of.text.substr(back, of.at - back).find('\n') == std::string_view::npos;
  last = back == of.stretch.begin ? '\0' : of.text[back - 1];
  auto word = back;
  while (word > of.stretch.begin && is_word_part(of.text[word - 1])) --word;
  word_before = of.text.substr(word, back - word);
  before_word = word;
  token = word_at(of.text, of.at).substr(0, of.stretch.end - of.at);
}

bool Surroundings::expects(std::string_view words) const {
  return misfit.expected.find(words) != std::string_view::npos;
}
bool Surroundings::expects_end() const { return misfit.expected == "the end of the clause"; }
bool Surroundings::expects_name() const {
  constexpr std::array<std::string_view, 9> kinds = {"a name",      "the name of", "names",
                                                     "a condition", "a sign",      "sites",
                                                     "a finding",   "a cause",     "causes"};
  return length_of_any(misfit.expected, kinds) != 0;
}
bool Surroundings::expects_frequency() const {
  return misfit.expected.starts_with("`%`") || misfit.expected.starts_with("a frequency");
}

Span Surroundings::span(std::size_t length) const {
  return {misfit.at, misfit.at + static_cast<std::uint32_t>(std::min(length, rest.size()))};
}
Hint Surroundings::over(std::size_t length, std::string note,
                        std::optional<std::string> instead) const {
  return {std::move(note), span(length), std::move(instead)};
}

std::string_view Surroundings::number_ending(std::uint32_t end) const {
  auto const& text = misfit.text;
  auto begin = end;
  while (begin > misfit.stretch.begin && (is_digit(text[begin - 1]) || text[begin - 1] == '.'))
    --begin;
  return text.substr(begin, end - begin);
}
std::string_view Surroundings::number_before() const {
  auto end = misfit.at;
  while (end > misfit.stretch.begin && is_blank(misfit.text[end - 1])) --end;
  return number_ending(end);
}

bool holds_letter(std::string_view text) {
  return std::any_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           static_cast<unsigned char>(c) >= 0x80;
  });
}
std::string_view number_beginning(std::string_view text) {
  std::size_t end = 0;
  while (end < text.size() && (is_digit(text[end]) || text[end] == '.')) ++end;
  return text.substr(0, end);
}
double value(std::string_view digits) {
  double out = 0;
  std::from_chars(digits.data(), digits.data() + digits.size(), out);
  return out;
}
std::string_view after_blanks(std::string_view text) {
  auto const first = std::min(text.find_first_not_of(" \t\r\n"), text.size());
  return text.substr(first);
}

}  // namespace flinch::syntax::hints
