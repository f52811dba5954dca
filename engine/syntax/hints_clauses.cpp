// Clauses whose parts have an order or a kind of their own, and kinds of answers.
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

Hint number_form() {
  return {
      "a number is asked for as in `answer number in C from 30 to 44`; without a unit as in "
      "`answer number from 0 to 10`"};
}

// `answer step`, `answer site`, `answer amount`.
std::optional<Hint> kind_of_answer(std::string_view word) {
  for (auto const* number : {"amount", "numbers", "measure", "measurement", "value", "count"})
    if (word == number) return number_form();
  for (auto const* place : {"site", "place", "places", "location"})
    if (word == place) return Hint{"places are asked for as in `answer sites in elbow, stifle`"};
  for (auto const* step : {"step", "stages", "levels", "grades", "ordered"})
    if (word == step)
      return Hint{"words in an order are asked for as in `answer steps mild, severe`"};
  for (auto const* choice : {"one", "choice", "choices", "any", "either"})
    if (word == choice) return Hint{"words to choose from are `answer one of clear, cloudy`"};
  return std::nullopt;
}

// `offered NAME 20 mg 4 mL`: an amount and its unit stand before.
bool follows_amount(Surroundings const& a) {
  auto end = a.before_word;
  while (end > a.misfit.stretch.begin && is_blank(a.misfit.text[end - 1])) --end;
  return !a.number_ending(end).empty();
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

// `alone see now if 5`, `for vet "..."`, `also said "not eating" nothing`.
std::optional<Hint> word_left_out(Surroundings const& a) {
  if (a.misfit.holds == Holds::floor && a.expects("or a comparison") && is_digit(a.rest.front()))
    return Hint{fmt::format("a number is compared: `if >= {}`", number_beginning(a.rest))};
  if (!a.expects_end()) return std::nullopt;
  if (a.misfit.form.starts_with("for ") && a.rest.front() == '"') {
    constexpr std::array<std::string_view, 8> people = {
        "vet", "vets", "clinic", "clinicians", "doctor", "nurse", "veterinarian", "surgeon"};
    constexpr auto note = "behind `for` stand names of causes; words for a vet stand in `{}`";
    bool const is_person = std::find(people.begin(), people.end(), a.word_before) != people.end();
    Hint out{fmt::format(note, "for clinician \"...\"")};
    if (is_person) {
      out.over =
          Span{a.before_word, a.before_word + static_cast<std::uint32_t>(a.word_before.size())};
      out.instead = "clinician";
    }
    return out;
  }
  if (a.misfit.form.starts_with("also said ") && a.last == '"' && a.is_same_line &&
      is_name(a.token))
    return a.over(a.token.size(),
                  fmt::format("which answer the words tell stands behind `is`: `is {}`", a.token),
                  fmt::format("is {}", a.token));
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
  if (starts.starts_with("sites") && a.expects_end() && is_name(a.token))
    return Hint{fmt::format("the sites stand behind `in`: `sites in {}`", listed_here(a))};
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
  if (auto out = word_left_out(a)) return out;
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
    if (starts.starts_with("number")) return number_form();
    if ((starts.starts_with("one of") || starts.starts_with("steps")) && a.rest.front() == '"')
      return Hint{"each answer has a name, and its words may follow: `usual \"as usual\"`"};
  }
  if (a.misfit.holds == Holds::dose) {
    if (a.token == "single" || a.token == "stat")
      return Hint{"what is given once has no interval: leave it out"};
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
  if (a.misfit.holds == Holds::promises && is_digit(a.rest.front()) && a.expects_end() &&
      follows_amount(a))
    return Hint{"what is drawn up or counted stands behind `in`: `offered NAME 20 mg in 4 mL`"};
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
  if (auto out = kind_of_answer(word)) return out;
  if (is_name(a.token) && after_blanks(a.rest.substr(a.token.size())).starts_with(','))
    return Hint{fmt::format(
        "words to choose from are `answer one of {0}`; words in an order `answer steps {0}`",
        listed_here(a))};
  return std::nullopt;
}

}  // namespace flinch::syntax::hints
