#include "syntax/hints.hpp"

#include <algorithm>
#include <array>

#include "syntax/words.hpp"

namespace flinch::syntax {
namespace {

constexpr std::array<std::string_view, 8> curly_quotes = {"“", "”", "„", "‟", "«", "»", "‘", "’"};
constexpr std::array<std::string_view, 4> dashes = {"-", "–", "—", "−"};

template <std::size_t n>
bool starts_with_any(std::string_view text, std::array<std::string_view, n> const& of) {
  return std::any_of(of.begin(), of.end(),
                     [&](std::string_view one) { return text.starts_with(one); });
}

// The last character before `at` that is no blank; none at the beginning.
char before(std::string_view text, std::size_t at) {
  while (at > 0 && is_blank(text[at - 1])) --at;
  return at == 0 ? '\0' : text[at - 1];
}

}  // namespace

std::optional<std::string> writing_hint(std::string_view text, std::size_t at) {
  auto const rest = text.substr(std::min(at, text.size()));
  if (starts_with_any(rest, curly_quotes))
    return "this is a curly quote, as word processors make them; a text stands between straight "
           "ones: `\"`";
  auto const last = before(text, at);
  if (rest.starts_with('/') && is_word_part(last))
    return "a slash is written `per`, as in `10 mg per kg` or `5 mmol per L`";
  bool const follows_amount = is_digit(last) || last == '%' || is_word_part(last);
  if (starts_with_any(rest, dashes) && follows_amount)
    return "a range is written with `to`, as in `0.6 to 1 mg per kg`";
  return std::nullopt;
}

std::size_t find_curly_quote(std::string_view text) {
  auto first = std::string_view::npos;
  for (auto const quote : curly_quotes) first = std::min(first, text.find(quote));
  return first;
}

}  // namespace flinch::syntax
