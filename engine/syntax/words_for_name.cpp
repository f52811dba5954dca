#include "syntax/words_for_name.hpp"

#include <array>
#include <string_view>
#include <utility>

#include "flinch/syntax/fixed_words.hpp"
#include "syntax/layout.hpp"
#include "syntax/words.hpp"

namespace flinch::syntax {
namespace {

std::string_view keyword_of(NameKind kind) {
  constexpr std::array<std::pair<NameKind, std::string_view>, 7> keywords = {
      {{NameKind::tier, "tier"},
       {NameKind::site, "site"},
       {NameKind::sign, "sign"},
       {NameKind::cause, "cause"},
       {NameKind::rule, "rule"},
       {NameKind::alarm, "alarm"},
       {NameKind::care, "care"}}};
  for (auto const& [of, word] : keywords)
    if (of == kind) return word;
  return {};
}

std::string_view without_blanks_behind(std::string_view text) {
  while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
  return text;
}

// Whether the words end with this one, as a word of its own.
bool ends_with_word(std::string_view text, std::string_view word) {
  return text.ends_with(word) &&
         (text.size() == word.size() || is_blank(text[text.size() - word.size() - 1]));
}

std::string_view word_at_the_end(std::string_view text) {
  auto begin = text.size();
  while (begin > 0 && is_word_part(text[begin - 1])) --begin;
  return text.substr(begin);
}

// What a promise names is told by its own words, a rank behind them or not.
std::string_view kind_of_promise(std::string_view before) {
  auto const rank = word_at_the_end(before);
  if (!rank.empty() && is_digit(rank.front()))
    before = without_blanks_behind(before.substr(0, before.size() - rank.size()));
  std::string_view out;
  for (auto const& row : promise_words)
    if (row.refers && ends_with_word(before, row.words)) out = keyword_of(*row.refers);
  return out;
}

std::string_view kind_wanted(Stretch const& stretch, std::string_view before) {
  if (stretch.refers) return keyword_of(*stretch.refers);
  if (stretch.holds == Holds::promises) return kind_of_promise(before);
  if (ends_with_word(before, "see") || (stretch.holds == Holds::floor && before.empty()))
    return "tier";
  if (stretch.holds == Holds::in_cause) return "cause";
  bool const is_finding = stretch.holds == Holds::finding;
  bool const has_place = ends_with_word(before, "at") || ends_with_word(before, "left") ||
                         ends_with_word(before, "right") ||
                         (is_finding && before.find(" at ") != std::string_view::npos);
  bool const has_signs = stretch.content == Content::condition || is_finding ||
                         stretch.holds == Holds::over || stretch.holds == Holds::floor ||
                         stretch.holds == Holds::settings;
  if (has_signs) return has_place ? "site" : "sign";
  return {};
}

bool parts_names(std::string_view word) {
  return word == "and" || word == "or" || word == "not" || word == "left" || word == "right";
}

// The words on the line around a place, up to the marks and words that stand between names.
Span words_around(std::string_view text, Span within, std::uint32_t at) {
  auto const goes_on = [](char c) { return is_word_part(c) || c == ' ' || c == '-'; };
  auto begin = at;
  while (begin > within.begin && goes_on(text[begin - 1])) --begin;
  auto end = at;
  while (end < within.end && goes_on(text[end])) ++end;
  Span out{begin, end};
  for (auto p = begin; p < end;) {
    auto const word = word_at(text, p);
    auto const next = p + static_cast<std::uint32_t>(word.empty() ? 1 : word.size());
    if (parts_names(word)) {
      if (p >= at) {
        out.end = p;
        break;
      }
      out.begin = next;
    }
    p = next;
  }
  while (out.begin < out.end && text[out.begin] == ' ') ++out.begin;
  while (out.end > out.begin && text[out.end - 1] == ' ') --out.end;
  return out;
}

}  // namespace

std::optional<WordsForName> words_for_name(Stretch const& stretch, Place error_at) {
  auto const text = stretch.file_text;
  auto const at = error_at.span.begin;
  auto const before_of = [&](std::uint32_t begin) {
    return without_blanks_behind(text.substr(stretch.span.begin, begin - stretch.span.begin));
  };
  if (text[at] == '"') {
    auto const end = text.find('"', at + 1);
    auto const kind = kind_wanted(stretch, before_of(at));
    if (end == std::string_view::npos || end >= stretch.span.end || kind.empty())
      return std::nullopt;
    return WordsForName{error_at,
                        {stretch.file, {at, static_cast<std::uint32_t>(end) + 1}},
                        std::string(text.substr(at + 1, end - at - 1)),
                        kind};
  }
  auto words = words_around(text, stretch.span, at);
  // `lame at inner side`: the sign and its place are words of their own.
  auto const written = text.substr(words.begin, words.end - words.begin);
  if (auto const place = written.find(" at ");
      place != std::string_view::npos && words.begin + place < at)
    words.begin += static_cast<std::uint32_t>(place) + 4;
  auto const run = text.substr(words.begin, words.end - words.begin);
  auto const kind = kind_wanted(stretch, before_of(words.begin));
  if (kind.empty() || run.find(' ') == std::string_view::npos) return std::nullopt;
  return WordsForName{error_at, {stretch.file, words}, std::string(run), kind};
}

}  // namespace flinch::syntax
