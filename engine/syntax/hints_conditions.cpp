// Conditions: what is compared, joined or tested in other ways.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "syntax/layout.hpp"
#include "syntax/surroundings.hpp"
#include "syntax/words.hpp"
#include "syntax/written_elsewhere.hpp"

namespace flinch::syntax::hints {
namespace {

// `lame is left foreleg`.
Hint place_behind_is(Surroundings const& a) {
  auto end = a.before_word;
  while (end > a.misfit.stretch.begin && is_blank(a.misfit.text[end - 1])) --end;
  auto begin = end;
  while (begin > a.misfit.stretch.begin && is_word_part(a.misfit.text[begin - 1])) --begin;
  auto const site = word_at(after_blanks(a.rest.substr(a.token.size())), 0);
  return {
      fmt::format("`is` names a value; a place stands behind `at`, its side first: `{} at {} {}`",
                  a.misfit.text.substr(begin, end - begin), a.token, is_name(site) ? site : "SITE"),
      Span{a.before_word, a.before_word + 2}, "at"};
}

bool is_time(std::string_view word) {
  constexpr std::array<std::string_view, 12> times = {"year", "years", "month", "months",
                                                      "week", "weeks", "day",   "days",
                                                      "hour", "hours", "yr",    "mo"};
  return std::find(times.begin(), times.end(), word) != times.end();
}

// The word behind a side, or else the one before it.
std::string_view site_beside(Surroundings const& a) {
  auto const next = after_blanks(a.rest.substr(a.token.size()));
  auto const word = word_at(next, 0);
  return is_name(word) ? word : a.word_before;
}

constexpr std::array<std::pair<std::string_view, std::string_view>, 8> comparing_words = {
    {{"greater", "> 39.5 C"},
     {"more", "> 39.5 C"},
     {"above", "> 39.5 C"},
     {"higher", "> 39.5 C"},
     {"less", "< 39.5 C"},
     {"below", "< 39.5 C"},
     {"lower", "< 39.5 C"},
     {"equals", ">= 39.5 C"}}};

// `eats less`: with no number behind it, a word that compares may be the name of a step.
std::optional<Hint> step_beside(Surroundings const& a) {
  auto const behind = after_blanks(a.rest.substr(a.token.size()));
  auto const next = word_at(behind, 0);
  bool const ends = behind.empty() || behind.front() == ')' || next == "and" || next == "or";
  bool const compares = std::any_of(comparing_words.begin(), comparing_words.end(),
                                    [&](auto const& row) { return row.first == a.token; });
  if (!ends || !compares || !a.expects_end() || !is_name(a.word_before)) return std::nullopt;
  return Hint{
      fmt::format("a step is named by `is`, from it on by `at least`: `{0} is {1}`, "
                  "`{0} at least {1}`; numbers are compared by `over`, `under`, `>=`, `<=`",
                  a.word_before, a.token)};
}

// `age at most 3`, `breaths at least 90`.
std::optional<Hint> bound_in_words(Surroundings const& a) {
  bool const is_most = a.expects_end() && a.word_before == "most";
  bool const is_least = a.expects("name of a step") && a.word_before == "least";
  if (!is_most && !is_least) return std::nullopt;
  auto const before =
      a.misfit.text.substr(a.misfit.stretch.begin, a.before_word - a.misfit.stretch.begin);
  auto const at = before.rfind("at");
  if (at == std::string_view::npos || !after_blanks(before.substr(at + 2)).empty())
    return std::nullopt;
  auto sign = before.substr(0, at);
  while (!sign.empty() && is_blank(sign.back())) sign.remove_suffix(1);
  sign = sign.substr(std::min(sign.find_last_of(" \t\r\n(") + 1, sign.size()));
  auto const begin = a.misfit.stretch.begin + static_cast<std::uint32_t>(at);
  auto const* const mark = is_most ? "<=" : ">=";
  if (!is_digit(a.rest.front()))
    return is_most && is_name(a.token)
               ? std::optional(Hint{
                     fmt::format("up to a step is written `not {} at least STEP`: name the step "
                                 "that follows `{}`",
                                 sign, a.token),
                     Span{begin, a.misfit.at + static_cast<std::uint32_t>(a.token.size())},
                     {},
                     "a test of a step"})
               : std::nullopt;
  auto const number = number_beginning(a.rest);
  auto const unit = word_at(after_blanks(a.rest.substr(number.size())), 0);
  bool const has_unit = !unit.empty() && unit != "and" && unit != "or";
  auto const fitting = has_unit           ? " " + std::string(unit)
                       : sign == "age"    ? " years"
                       : sign == "weight" ? " kg"
                                          : "";
  return Hint{fmt::format("a number is compared by `{0}`, with its unit where it has one: `{1} {0} "
                          "{2}{3}`",
                          mark, sign, number, fitting),
              Span{begin, a.before_word + static_cast<std::uint32_t>(a.word_before.size())}, mark,
              "a comparison"};
}

// `down >= lies_more`, `lame > mild`.
std::optional<Hint> compared_step(Surroundings const& a) {
  constexpr std::array<std::string_view, 4> signs = {">=", "<=", ">", "<"};
  if (a.misfit.content != Content::condition || !is_name(a.token)) return std::nullopt;
  auto before = a.misfit.text.substr(a.misfit.stretch.begin, a.misfit.at - a.misfit.stretch.begin);
  while (!before.empty() && is_blank(before.back())) before.remove_suffix(1);
  for (auto const sign : signs) {
    if (!before.ends_with(sign)) continue;
    auto const begin =
        a.misfit.stretch.begin + static_cast<std::uint32_t>(before.size() - sign.size());
    auto const end = a.misfit.at + static_cast<std::uint32_t>(a.token.size());
    if (sign == ">=")
      return Hint{fmt::format("numbers are compared by signs; from a step on is written "
                              "`at least {}`",
                              a.token),
                  Span{begin, end}, fmt::format("at least {}", a.token)};
    if (sign == ">")
      return Hint{fmt::format("numbers are compared by signs; from a step on is written "
                              "`at least STEP`: name the step that follows `{}`",
                              a.token),
                  Span{begin, end}};
    if (sign == "<=")
      return Hint{fmt::format("numbers are compared by signs; up to a step is written `not SIGN at "
                              "least STEP`: name the step that follows `{}`",
                              a.token),
                  Span{begin, end}};
    return Hint{fmt::format("numbers are compared by signs; below a step is written `not SIGN at "
                            "least {}`",
                            a.token),
                Span{begin, end}};
  }
  return std::nullopt;
}

}  // namespace

std::optional<Hint> comparison(Surroundings const& a) {
  if (auto out = compared_step(a)) return out;
  constexpr std::array<std::pair<std::string_view, std::string_view>, 6> marks = {
      {{"≥", ">="}, {"≤", "<="}, {"=>", ">="}, {"=<", "<="}, {"⩾", ">="}, {"⩽", "<="}}};
  for (auto const& [mark, here] : marks)
    if (a.rest.starts_with(mark))
      return a.over(mark.size(), fmt::format("this comparison is written `{}`", here),
                    std::string(here));
  if (a.misfit.content != Content::condition) return std::nullopt;
  constexpr std::array<std::string_view, 5> not_equal = {"!=", "<>", "≠", "!", "~"};
  if (length_of_any(a.rest, not_equal) != 0)
    return Hint{"`not` stands before the sign: `not coughs`, `not urine is red`"};
  if (a.rest.front() == '=')
    return Hint{
        "there is no `=`: a sign answered yes or no stands alone, a value is named by "
        "`is`, a number is compared by `over`, `under`, `>=` or `<=`"};
  constexpr std::array<std::pair<std::string_view, std::string_view>, 4> joints = {
      {{"&&", "and"}, {"&", "and"}, {"||", "or"}, {"|", "or"}}};
  for (auto const& [mark, here] : joints)
    if (a.rest.starts_with(mark))
      return a.over(mark.size(), fmt::format("conditions are joined by `{}`", here),
                    std::string(here));
  if (a.rest.front() == ',' || a.rest.front() == '+')
    return Hint{
        "conditions are joined by `and` or `or`; a count of them is `at least 2 of (a, b, "
        "c)`"};
  return std::nullopt;
}

std::optional<Hint> in_condition(Surroundings const& a) {
  if (a.misfit.content != Content::condition) {
    if (a.expects_end() && (a.token == "left" || a.token == "right"))
      return Hint{fmt::format("a place stands behind `at`, its side first: `at {} {}`", a.token,
                              site_beside(a))};
    return std::nullopt;
  }
  auto const word = lowered(a.token);
  if (a.word_before == "is" && (word == "left" || word == "right")) return place_behind_is(a);
  if (word == "old" && is_time(a.word_before))
    return a.over(a.token.size(), "no `old`: an age is compared as in `age under 3 months`", "");
  if (word == "then")
    return a.over(a.token.size(), "no `then`: what follows stands in clauses of its own", "");
  if (word == "if" || word == "when")
    return a.over(a.token.size(),
                  fmt::format("no `{}` here: conditions are joined by `and`, `or`", word), "");
  if (word == "not" && (a.expects("value") || a.word_before == "is"))
    return Hint{"`not` stands before the sign: `not urine is red`"};
  if (word == "but" || word == "plus" || word == "with")
    return a.over(a.token.size(), "conditions are joined by `and` and `or`", "and");
  if (word == "unless")
    return Hint{
        "`unless` belongs to alarms and floors; elsewhere what must not be is written `and not`"};
  if (word == "without" || word == "except" || word == "no")
    return a.over(a.token.size(), "what must not be is written `and not`", "and not");
  if (a.rest.front() == ':' && a.word_before.empty())
    return a.over(1, "no colon here: the condition follows at once", "");
  if (auto out = bound_in_words(a)) return out;
  if (auto out = step_beside(a)) return out;
  for (auto const& [said, here] : comparing_words)
    if (word == said)
      return Hint{fmt::format("numbers are compared by `over`, `under`, `>=`, `<=`: `{}`", here)};
  if (word == "than") return Hint{"a step or a value is named by its one word, without `than`"};
  if (a.word_before == "no" || a.word_before == "without")
    return Hint{fmt::format("what must not be is written `not {}`", a.token)};
  if (a.misfit.expected == "a condition" && is_digit(a.rest.front()))
    return Hint{"a count of signs is `at least 2 of (a, b, c)`"};
  if (word == "of" && (a.word_before == "any" || a.word_before == "one" || a.word_before == "all"))
    return Hint{fmt::format("this is written with `{0}`: `a {0} b`",
                            a.word_before == "all" ? "and" : "or")};
  if (a.expects_end() && is_digit(a.rest.front()) && is_name(a.word_before))
    return Hint{
        fmt::format("a number is compared: `{} over 40 C`, or `under`, `>=`, `<=`, "
                    "`between 39 and 40 C`",
                    a.word_before)};
  if (a.expects("name of a step") && is_digit(a.rest.front()))
    return Hint{"`at least` is for steps; a number is compared by `>=`, as in `>= 39.5 C`"};
  if (a.expects("name of a value") && is_digit(a.rest.front()))
    return Hint{"`is` names a word; a number is compared by `over`, `under`, `>=` or `<=`"};
  if (a.expects("a condition") && a.rest.front() == '"')
    return Hint{"a condition comes first, and its words behind it: `if SIGN \"...\"`"};
  if (a.expects_end() && a.rest.front() == '"')
    return Hint{"a condition has no text behind it in this clause"};
  auto const written = a.misfit.text.substr(0, a.before_word);
  auto const of_side = written.substr(0, written.find_last_not_of(" \t") + 1);
  if (a.expects_end() && is_name(a.word_before) && is_name(a.token) &&
      (of_side.ends_with(" left") || of_side.ends_with(" right") || of_side.ends_with(" at")))
    return Hint{fmt::format("a place is one name, as its `site` defines it: `{}_{}`, or the pack's "
                            "own word for it",
                            a.word_before, a.token),
                Span{a.before_word, a.misfit.at + static_cast<std::uint32_t>(a.token.size())}};
  if (a.is_same_line && a.expects_end() && is_name(a.word_before) && !a.token.empty() &&
      !is_reserved(a.token))
    return Hint{
        fmt::format("a value is named by `is`: `{0} is {1}`; conditions are joined by "
                    "`and` and `or`; a name is one word: `{0}_{1}`",
                    a.word_before, a.token)};
  return std::nullopt;
}

}  // namespace flinch::syntax::hints
