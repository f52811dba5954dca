// Conditions, and clauses whose parts have an order or a kind of their own.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "flinch/syntax/fixed_words.hpp"
#include "flinch/text/display.hpp"
#include "syntax/layout.hpp"
#include "syntax/surroundings.hpp"
#include "syntax/words.hpp"
#include "syntax/written_elsewhere.hpp"

namespace flinch::syntax::hints {
namespace {

// The list that stands here, where it is short.
std::string_view listed_here(Surroundings const& a) {
  constexpr std::size_t longest = 60;
  auto const line = a.rest.substr(0, std::min(a.rest.find_first_of("\r\n"), a.rest.size()));
  return line.size() <= longest ? line : std::string_view("A, B");
}

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

std::string promises_there_are() {
  std::string out;
  for (auto const& row : promise_words) {
    out += &row == &promise_words.front() ? "" : &row == &promise_words.back() ? " or " : ", ";
    out += fmt::format("`{}{}`", row.words, row.takes_rank ? " 3" : "");
  }
  return out;
}

// `called neutered "wether"`, behind a comma or not.
std::optional<Hint> neutered_of_no_sex(Surroundings const& a) {
  constexpr std::string_view neutered = "neutered";
  auto const part = a.rest.starts_with(',') ? after_blanks(a.rest.substr(1)) : a.rest;
  auto const behind =
      part.starts_with(neutered) ? after_blanks(part.substr(neutered.size())) : std::string_view();
  if (!behind.starts_with('"')) return std::nullopt;
  auto const end = behind.find('"', 1);
  auto const word = end == std::string_view::npos ? "\"WORD\"" : behind.substr(0, end + 1);
  return Hint{
      fmt::format("the sex is said with it: `neutered male {0}` or `neutered female {0}`", word)};
}

// `sex castrated male`.
std::optional<Hint> neutered_beside(Surroundings const& a) {
  constexpr std::array<std::string_view, 6> words = {"castrated", "spayed",  "neutered",
                                                     "gelded",    "desexed", "entire"};
  if (std::find(words.begin(), words.end(), a.word_before) == words.end()) return std::nullopt;
  return Hint{
      fmt::format("one word tells the sex, and `neutered` stands beside it: `sex {}, "
                  "neutered {}`",
                  shown(a.token), a.word_before == "entire" ? "no" : "yes")};
}

// `alone see now because "..." unless mild`.
std::optional<Hint> floor_order(Surroundings const& a) {
  constexpr std::array<std::string_view, 4> parts = {"if", "unless", "because", "cite"};
  if (std::find(parts.begin(), parts.end(), a.token) == parts.end()) return std::nullopt;
  return Hint{
      fmt::format("its parts stand in one order: tier, `if`, `unless`, `because`, `cite`, as in "
                  "`{}`",
                  a.misfit.form)};
}

// `unless it is known that stiff`, `unless known stiff`.
std::optional<Hint> known_is_meant(Surroundings const& a) {
  bool const may_hold_unless =
      a.misfit.holds == Holds::floor || a.misfit.form.starts_with("unless");
  if (!may_hold_unless || a.word_before != "known" || !is_name(a.token)) return std::nullopt;
  constexpr std::string_view start = "it is known";
  auto begin = a.before_word;
  auto const written = a.misfit.text.substr(0, begin + std::string_view("known").size());
  if (written.ends_with(start)) begin = static_cast<std::uint32_t>(written.size() - start.size());
  bool const has_that = a.token == "that";
  auto const end =
      has_that ? a.misfit.at + static_cast<std::uint32_t>(a.token.size()) : a.before_word + 5;
  auto const sign = has_that ? word_at(after_blanks(a.rest.substr(a.token.size())), 0) : a.token;
  return Hint{fmt::format("`unless` means what is known, without further words: `unless {}`",
                          is_name(sign) ? shown(sign) : "SIGN"),
              Span{begin, end}, ""};
}

// `seen by owner`, `seen at stable`.
std::optional<Hint> who_and_where(Surroundings const& a) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 14> words = {
      {{"owner", "anyone"},
       {"keeper", "anyone"},
       {"caller", "anyone"},
       {"everyone", "anyone"},
       {"hand", "hands"},
       {"touch", "hands"},
       {"vet", "clinic"},
       {"nurse", "clinic"},
       {"veterinarian", "clinic"},
       {"practice", "clinic"},
       {"surgery", "clinic"},
       {"hospital", "clinic"},
       {"stable", "home"},
       {"farm", "home"}}};
  bool const is_by = a.misfit.holds == Holds::seen_by;
  if (!is_by && a.misfit.holds != Holds::seen_at) return std::nullopt;
  for (auto const& [word, here] : words)
    if (a.token == word && (here == "clinic" || is_by == (here != "home")))
      return a.over(word.size(),
                    fmt::format("this is written `seen {} {}`", is_by ? "by" : "at", here),
                    std::string(here));
  return std::nullopt;
}

// What is told of a patient, or of a sign with a value, in an example.
std::optional<Hint> told_in_example(Surroundings const& a) {
  if (a.misfit.holds == Holds::patient_facts && a.expects("a value or an amount") &&
      a.rest.front() == ',')
    return Hint{fmt::format("each fact has its name before it, as in `sex {}`, `age 2 years`",
                            shown(a.word_before))};
  bool const is_side = a.token == "left" || a.token == "right" || a.token == "at";
  if (a.misfit.holds == Holds::settings && is_side)
    return Hint{fmt::format("places are told by `found`: `found {} at SITE`", a.word_before)};
  bool const has_value = a.misfit.holds == Holds::yes_or_no && a.expects_end() && a.is_same_line &&
                         is_name(a.word_before);
  if (has_value && is_digit(a.rest.front()))
    return Hint{fmt::format("an amount is told by `with`: `with {} {}`", a.word_before,
                            number_beginning(a.rest))};
  return std::nullopt;
}

// What is written into an answer too much or too little.
std::optional<Hint> answers(Surroundings const& a) {
  auto const starts = after_blanks(a.misfit.text.substr(a.misfit.stretch.begin));
  bool const is_colon = a.rest.starts_with(':');
  if (is_colon && (starts.starts_with("one of") || starts.starts_with("steps")))
    return a.over(1, "no colon here: the answers follow at once, as in `one of clear, cloudy`", "");
  if (starts.starts_with("one of:"))
    return Hint{"no colon here: the answers follow at once, as in `one of clear, cloudy`"};
  if (starts.starts_with("yes or no") && a.expects_end() &&
      (a.token == "or" || a.rest.front() == ','))
    return Hint{"leave this out: `unknown` may be answered to every sign",
                Span{a.misfit.at, a.misfit.at + static_cast<std::uint32_t>(a.rest.size())}, ""};
  if (starts.starts_with("number") && a.token == "per")
    return Hint{
        "of what the number counts stands in `ask`, and here its unit alone: `answer number in per "
        "minute from 5 to 150`; behind a mass or an amount of substance stand `per L` and `per dL` "
        "alone"};
  bool const has_list = starts.starts_with("one of") || starts.starts_with("steps");
  if (has_list && a.expects_end() && is_name(a.token) && a.is_same_line && !a.word_before.empty())
    return Hint{
        fmt::format("a comma is missing between the answers: `{}, {}`", a.word_before, a.token)};
  return std::nullopt;
}

}  // namespace

// The clauses whose parts have an order or a kind of their own.
std::optional<Hint> clause(Surroundings const& a) {
  bool const compares = a.token == "over" || a.token == "under" || a.token == "between";
  if (a.misfit.content == Content::condition && a.word_before == "is" && compares)
    return Hint{fmt::format("`is` names a value; a number is compared by `{}` alone", a.token),
                Span{a.before_word, a.before_word + 2}, ""};
  auto const starts = after_blanks(a.misfit.text.substr(a.misfit.stretch.begin));
  if (a.misfit.expected == "`:`" && a.misfit.holds == Holds::meaning)
    return Hint{fmt::format("a colon stands before the condition: `{}`", a.misfit.form)};
  if (auto out = who_and_where(a)) return out;
  if (auto out = told_in_example(a)) return out;
  if (a.misfit.form.starts_with("base ") &&
      (a.token == "if" || a.token == "in" || a.token == "when") && a.expects_end())
    return Hint{"a cause has no condition: how often it is with one is said by a `rule`"};
  if (a.misfit.form.starts_with("for ") && a.word_before == "breed" && a.expects_end())
    return Hint{
        fmt::format("`for` names causes; for whom it is stands in `fit if`: `fit if breed is {}`",
                    shown(a.token)),
        Span{a.before_word, a.misfit.at + static_cast<std::uint32_t>(a.token.size())}};
  if (a.misfit.form.starts_with("harm ") && a.rest.front() == '%')
    return a.over(1, "how many false alarms one missed case weighs: a plain number, `harm 19`", "");
  if (a.misfit.holds == Holds::answer) {
    if (auto out = answers(a)) return out;
    if (starts.starts_with("number"))
      return Hint{
          "a number is asked for as in `answer number in C from 30 to 44`; without a unit "
          "as in `answer number from 0 to 10`"};
    if ((starts.starts_with("one of") || starts.starts_with("steps")) && a.rest.front() == '"')
      return Hint{"each answer has a name, and its words may follow: `usual \"as usual\"`"};
  }
  if (a.misfit.holds == Holds::dose) {
    constexpr std::array<std::string_view, 11> parts = {
        "by", "into", "onto", "under", "on", "every", "once", "twice", "three", "four", "for"};
    if (std::find(parts.begin(), parts.end(), a.token) != parts.end() && a.expects_end())
      return Hint{
          fmt::format("the parts of a dose stand in one order, amount, way, how often, how "
                      "long: `{}`",
                      a.misfit.form)};
    if (a.token == "per") {
      auto const next = word_at(after_blanks(a.rest.substr(3)), 0);
      if (next == "day") return Hint{"a dose is what is given at once: `10 mg every 8 hours`"};
      if (next != "kg") return Hint{"a dose by weight is written `per kg`; any other has no `per`"};
    }
  }
  if (a.misfit.form.starts_with("site ") && a.word_before == "paired" && a.token == "in")
    return Hint{fmt::format("`paired` stands last: `{}`", a.misfit.form)};
  if (a.expects("a value or an amount") && !is_name(a.token))
    if (auto const small = as_name(a.token))
      return a.over(a.token.size(), fmt::format("a name is written in small letters: `{}`", *small),
                    small);
  bool const wants_value = a.expects("name of a value") || a.expects("name of a step");
  if (wants_value && a.rest.front() == '"')
    return Hint{"a step or choice is told by its name, without quotes, and not by its text"};
  if (a.misfit.holds == Holds::over && a.token == "than")
    return Hint{"a band is written `under 3 years`, `3 to 5 years` or `over 5 years`"};
  if (a.misfit.holds == Holds::patient_facts && a.expects_end() && is_name(a.token))
    if (auto out = neutered_beside(a)) return out;
  if (a.misfit.holds == Holds::floor && (a.token == "than" || a.word_before == "than"))
    return Hint{"from a step on is written `if at least STEP`, from a number on `if >= 5`"};
  if (a.misfit.holds == Holds::promises && is_digit(a.rest.front()) && a.expects_end())
    return Hint{"an amount is promised behind `offered NAME` or `ask first NAME` alone"};
  if (a.misfit.holds == Holds::promises && a.rest.front() == ',' && a.expects_end()) {
    auto const next = after_blanks(a.rest.substr(1));
    if (word_at(next, 0) == "no")
      return Hint{fmt::format("what must not be is promised by `not`: `not {}`",
                              word_at(after_blanks(next.substr(2)), 0))};
  }
  if (a.misfit.holds == Holds::promises && a.token == "no")
    return Hint{fmt::format("what must not be is promised by `not`: `not {}`",
                            word_at(after_blanks(a.rest.substr(2)), 0))};
  if (a.misfit.holds == Holds::promises && a.rest.front() == ',' && a.expects_end())
    return Hint{fmt::format("behind a comma stands another promise: {}", promises_there_are())};
  if (a.misfit.holds == Holds::never_neutered)
    return Hint{
        "of all it is `never neutered`, of one sex `never neutered male` or `never neutered "
        "female`"};
  if (a.misfit.holds == Holds::called)
    if (auto out = neutered_of_no_sex(a)) return out;
  if (a.misfit.holds == Holds::floor)
    if (auto out = floor_order(a)) return out;
  if (auto out = known_is_meant(a)) return out;
  if (a.misfit.expected == "`because`" && is_name(a.token))
    return Hint{fmt::format("from which answer on stands behind `if`: `if {}`", a.token)};
  if (a.misfit.holds == Holds::yes_or_no && a.token == "at")
    return Hint{fmt::format("places are told by `found`: `found {} at SITE`", a.word_before)};
  bool const is_side = a.token == "left" || a.token == "right";
  bool const is_second_sign =
      a.misfit.holds == Holds::finding && (a.rest.front() == ',' || a.token == "at");
  if (is_second_sign && a.expects_end())
    return Hint{"one sign stands in each `found` or `clear`, and its places behind `at`"};
  if (is_side && a.misfit.holds == Holds::finding && !a.expects_end())
    return Hint{
        fmt::format("the sign stands first, and its place behind `at`: `found SIGN at {} "
                    "SITE`",
                    a.token)};
  if (a.expects_name() && a.rest.front() == '"' && !a.misfit.form.empty())
    return Hint{fmt::format("a name stands here, without quotes, as in `{}`", a.misfit.form)};
  if (a.expects("amount") && holds_letter(a.token) && !a.misfit.form.empty()) {
    constexpr std::array<std::string_view, 12> counts = {
        "a", "an", "one", "two", "three", "four", "five", "six", "half", "ten", "some", "few"};
    if (std::find(counts.begin(), counts.end(), lowered(a.token)) != counts.end())
      return Hint{fmt::format("numbers are written in digits, as in `{}`", a.misfit.form)};
  }
  return std::nullopt;
}

std::optional<Hint> yes_or_no(Surroundings const& a) {
  if (!a.misfit.expected.starts_with("`yes or no`")) return std::nullopt;
  auto const word = lowered(a.token);
  bool const is_two = word == "yes" || word == "no" || word == "y" || word == "yesno" ||
                      word == "bool" || word == "boolean" || word == "true";
  if (is_two) return a.over(a.rest.size(), "it is written `answer yes or no`", "yes or no");
  if (is_digit(a.rest.front()))
    return Hint{
        "a number is asked for by its ends, `answer number from 1 to 5`, or with its unit, "
        "`answer number in mg from 1 to 5`"};
  if (word == "scale" || word == "score" || word == "numeric" || word == "range")
    return Hint{
        "a number is asked for by `answer number in UNIT from A to B`, ordered words by "
        "`answer steps mild, severe`"};
  if (word == "text" || word == "free")
    return Hint{
        "free text can carry no figures: give the words to choose from, as in `answer "
        "one of clear, cloudy`"};
  if (is_name(a.token) && after_blanks(a.rest.substr(a.token.size())).starts_with(','))
    return Hint{fmt::format(
        "words to choose from are `answer one of {0}`; words in an order `answer steps {0}`",
        listed_here(a))};
  return std::nullopt;
}

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
