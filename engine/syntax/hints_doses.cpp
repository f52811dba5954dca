// What is given, what it comes as and what was taken, written as on labels and prescriptions.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "flinch/syntax/tree.hpp"
#include "flinch/text/display.hpp"
#include "syntax/layout.hpp"
#include "syntax/surroundings.hpp"
#include "syntax/words.hpp"
#include "syntax/written_elsewhere.hpp"

namespace flinch::syntax::hints {
namespace {

// The words from the place on, up to what goes on with the dose, a number or a mark.
std::vector<std::string_view> words_of_way(std::string_view text) {
  constexpr std::array<std::string_view, 8> further = {"every", "once", "twice", "three",
                                                       "four",  "for",  "daily", "and"};
  constexpr std::size_t most = 6;
  std::vector<std::string_view> out;
  while (out.size() < most) {
    auto const word = word_at(text, 0);
    if (word.empty() || is_digit(word.front()) ||
        std::find(further.begin(), further.end(), word) != further.end())
      break;
    out.push_back(word);
    auto const behind = text.substr(word.size());
    text = after_blanks(behind);
    if (behind.substr(0, behind.size() - text.size()).find('\n') != std::string_view::npos) break;
  }
  return out;
}

std::size_t length_of(std::vector<std::string_view> const& words) {
  return static_cast<std::size_t>(words.back().data() + words.back().size() - words.front().data());
}

// `pour-on`, `spot on`: what labels call by how it is put on.
std::optional<Hint> put_on(Surroundings const& a) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 6> kinds = {
      {{"pour-on", "onto the back"},
       {"pour on", "onto the back"},
       {"pouron", "onto the back"},
       {"spot-on", "onto the skin"},
       {"spot on", "onto the skin"},
       {"spoton", "onto the skin"}}};
  auto const written = lowered(a.rest.substr(0, std::string_view("pour-on").size()));
  for (auto const& [kind, way] : kinds) {
    if (!written.starts_with(kind)) continue;
    auto const begin = a.word_before == "by" ? a.before_word : a.misfit.at;
    return Hint{fmt::format("a way names the place: `{}`, or another `onto the ...`", way),
                Span{begin, a.misfit.at + static_cast<std::uint32_t>(kind.size())},
                std::string(way), "a way such as `by mouth`, `under the skin`, `into the vein`"};
  }
  return std::nullopt;
}

// `a week` behind a count; the days from one dose to the next.
std::optional<std::string_view> days_between(std::string_view count, std::string_view unit) {
  struct Row {
    std::string_view count;
    std::string_view unit;
    std::string_view days;
  };
  constexpr std::array<Row, 9> rows = {{{"once", "week", "every 7 days"},
                                        {"twice", "week", "every 3 to 4 days"},
                                        {"three", "week", "every 2 to 3 days"},
                                        {"four", "week", "every 1 to 2 days"},
                                        {"once", "fortnight", "every 14 days"},
                                        {"twice", "fortnight", "every 7 days"},
                                        {"once", "month", "every 1 month"},
                                        {"twice", "month", "every 15 days"},
                                        {"once", "year", "every 1 year"}}};
  for (auto const& row : rows)
    if (row.count == count && row.unit == unit) return row.days;
  return std::nullopt;
}

std::string_view unit_of_adverb(std::string_view word) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 4> adverbs = {
      {{"weekly", "week"}, {"fortnightly", "fortnight"}, {"monthly", "month"}, {"yearly", "year"}}};
  for (auto const& [adverb, unit] : adverbs)
    if (word == adverb) return unit;
  return {};
}

// `once a week`, `twice weekly`, `three times per week`, `once every month`.
std::optional<Hint> counted_in_days(Surroundings const& a) {
  if (!a.expects("once a day")) return std::nullopt;
  auto const count = a.token;
  auto next = after_blanks(a.rest.substr(count.size()));
  if (next.starts_with("times")) next = after_blanks(next.substr(std::string_view("times").size()));
  auto word = word_at(next, 0);
  for (auto const* joint : {"a", "per", "each", "every", "in", "one"})
    if (word == joint) {
      next = after_blanks(next.substr(word.size()));
      word = word_at(next, 0);
    }
  auto const adverb = unit_of_adverb(word);
  if (auto const days = days_between(count, adverb.empty() ? word : adverb)) {
    auto const end = static_cast<std::size_t>(word.data() + word.size() - a.rest.data());
    return a.over(end, fmt::format("what is not given daily is told in days: `{}`", *days),
                  std::string(*days));
  }
  bool const ends = count == "once" && (word.empty() || word == "for" || word == "only");
  if (ends) return a.over(count.size(), "what is given once has no interval: leave it out", "");
  return std::nullopt;
}

// `every week`, `every other day`, `every morning`, `every two days`.
std::optional<Hint> every_in_words(Surroundings const& a) {
  if (a.word_before != "every") return std::nullopt;
  auto const word = lowered(a.token);
  auto const next = word_at(after_blanks(a.rest.substr(a.token.size())), 0);
  auto const instead = [&](std::string_view last, std::string_view said) {
    auto const end =
        a.misfit.at + static_cast<std::uint32_t>(last.data() + last.size() - a.rest.data());
    return Hint{fmt::format("this is written `{}`", said), Span{a.before_word, end},
                std::string(said), "an interval such as `every 8 hours`"};
  };
  if (auto const days = days_between("once", word)) return instead(a.token, *days);
  for (auto const* part : {"morning", "noon", "evening", "night"})
    if (word == part && next != "and") return instead(a.token, "once a day");
  constexpr std::array<std::pair<std::string_view, int>, 8> turns = {{{"other", 2},
                                                                      {"second", 2},
                                                                      {"alternate", 2},
                                                                      {"third", 3},
                                                                      {"fourth", 4},
                                                                      {"fifth", 5},
                                                                      {"sixth", 6},
                                                                      {"seventh", 7}}};
  for (auto const& [turn, count] : turns) {
    if (word != turn) continue;
    if (next == "day" || next == "days") return instead(next, fmt::format("every {} days", count));
    if (next == "week" || next == "weeks")
      return instead(next, fmt::format("every {} days", 7 * count));
    if (next == "month" || next == "hour")
      return instead(next, fmt::format("every {} {}s", count, next));
  }
  constexpr std::array<std::pair<std::string_view, int>, 11> numbers = {{{"two", 2},
                                                                         {"three", 3},
                                                                         {"four", 4},
                                                                         {"five", 5},
                                                                         {"six", 6},
                                                                         {"seven", 7},
                                                                         {"eight", 8},
                                                                         {"ten", 10},
                                                                         {"twelve", 12},
                                                                         {"fourteen", 14},
                                                                         {"twentyfour", 24}}};
  for (auto const& [number, count] : numbers)
    if (word == number && is_name(next))
      return instead(next, fmt::format("every {} {}", count, next));
  return std::nullopt;
}

// In mg per mL; a share on a label of a liquid is g in 100 mL.
std::string per_volume(double percent) {
  constexpr double mg_per_ml_of_percent = 10;
  return fmt::format("{:.6g} mg per mL", percent * mg_per_ml_of_percent);
}

std::string share_in_words(double percent) {
  return fmt::format("{0:g} % is {0:g} g in 100 mL, {1:.6g} mg in 1 mL: `liquid {2}`", percent,
                     10 * percent, per_volume(percent));
}

// What a form is called elsewhere, and here; empty where it has none.
std::optional<std::string_view> form_here(std::string_view word) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 46> forms = {{
      {"drench", "liquid"},    {"solution", "liquid"},  {"suspension", "liquid"},
      {"syrup", "liquid"},     {"drop", "liquid"},      {"drops", "liquid"},
      {"injection", "liquid"}, {"ampoule", "liquid"},   {"vial", "liquid"},
      {"oil", "liquid"},       {"elixir", "liquid"},    {"emulsion", "liquid"},
      {"fluid", "liquid"},     {"liquids", "liquid"},   {"mixture", "liquid"},
      {"tincture", "liquid"},  {"pour", "liquid"},      {"spot", "liquid"},
      {"tablets", "tablet"},   {"tab", "tablet"},       {"tabs", "tablet"},
      {"pill", "tablet"},      {"pills", "tablet"},     {"bolus", "tablet"},
      {"caplet", "tablet"},    {"chew", "tablet"},      {"capsules", "capsule"},
      {"caps", "capsule"},     {"cap", "capsule"},      {"spoons", "spoon"},
      {"teaspoon", "spoon"},   {"tablespoon", "spoon"}, {"scoop", "spoon"},
      {"cream", ""},           {"ointment", ""},        {"gel", ""},
      {"paste", ""},           {"powder", ""},          {"granules", ""},
      {"patch", ""},           {"spray", ""},           {"sachet", ""},
      {"suppository", ""},     {"pellet", ""},          {"pellets", ""},
      {"lotion", ""},
  }};
  for (auto const& [elsewhere, here] : forms)
    if (word == elsewhere) return here;
  return std::nullopt;
}

std::optional<Hint> form_called_otherwise(Surroundings const& a) {
  auto const word = lowered(a.token);
  auto const here = form_here(word);
  if (!here) return std::nullopt;
  if (here->empty())
    return Hint{
        fmt::format("a {} has no `form`: leave the clause out, and say in `how` how much of it "
                    "that is",
                    word)};
  auto const behind = after_blanks(a.rest.substr(a.token.size()));
  auto const strength = number_beginning(behind);
  auto const sign = after_blanks(behind.substr(strength.size()));
  if (*here == "liquid" && !strength.empty() && sign.starts_with('%')) {
    auto const end = static_cast<std::size_t>(sign.data() + 1 - a.rest.data());
    return a.over(end,
                  fmt::format("this is a `liquid`, with its strength per volume: {}",
                              share_in_words(value(strength))),
                  fmt::format("liquid {}", per_volume(value(strength))));
  }
  return a.over(a.token.size(), fmt::format("this is a `{}`", *here), std::string(*here));
}

// Behind the strength of a form.
std::optional<Hint> strength(Surroundings const& a) {
  if (a.last == '%' && a.expects_end()) {
    auto const before =
        a.number_ending(static_cast<std::uint32_t>(a.misfit.text.rfind('%', a.misfit.at)));
    auto const begin = static_cast<std::uint32_t>(before.data() - a.misfit.text.data());
    return Hint{share_in_words(value(before)),
                Span{begin, a.misfit.at + static_cast<std::uint32_t>(a.rest.size())},
                per_volume(value(before))};
  }
  if (a.token == "in" && a.expects_end()) {
    auto const next = after_blanks(a.rest.substr(a.token.size()));
    auto const volume = number_beginning(next);
    if (value(volume) == 1)
      return a.over(static_cast<std::size_t>(volume.data() + volume.size() - a.rest.data()),
                    "the strength of a liquid is written with `per`: `liquid 30 mg per mL`", "per");
    auto const starts = after_blanks(a.misfit.text.substr(a.misfit.stretch.begin));
    if (!starts.starts_with("liquid"))
      return Hint{"how far it can be split is one of `whole`, `in halves`, `in quarters`"};
    return Hint{"the strength of a liquid is told for 1 mL: `liquid 30 mg per mL`"};
  }
  if (a.expects("a unit") && is_digit(a.rest.front()))
    return Hint{"the strength of a liquid is told for 1 mL, without a number there: `per mL`"};
  for (auto const* half : {"half", "halves", "halved", "halvable"})
    if (a.token == half) return a.over(a.token.size(), "this is written `in halves`", "in halves");
  for (auto const* quarter : {"quarter", "quarters", "quartered"})
    if (a.token == quarter)
      return a.over(a.token.size(), "this is written `in quarters`", "in quarters");
  for (auto const* split : {"scored", "divisible", "splittable"})
    if (a.token == split)
      return Hint{"what it may be split into is said by `in halves` or `in quarters`"};
  if (a.rest.front() == ':')
    return Hint{"the strength of a liquid is told by what is in 1 mL: `liquid 30 mg per mL`"};
  return std::nullopt;
}

// Of `level`.
std::optional<Hint> level(Surroundings const& a) {
  bool const begins = a.expects("a level such as");
  constexpr std::array<std::string_view, 8> bounds = {"over", "above", "from", "at",
                                                      ">=",   ">",     "more", "under"};
  if (begins && length_of_any(a.rest, bounds) != 0)
    return Hint{"what is said holds from the amount on, without a word for it: `20 mg per kg`"};
  if (begins && a.rest.front() == '"')
    return Hint{fmt::format("the amount stands first, and its harm last: `{}`", a.misfit.form)};
  if (a.expects("per kg") && (a.token == "to" || a.rest.front() == '-'))
    return Hint{
        "one amount is wanted, from which on it harms; more of it has a `level` of its own"};
  if (a.expects("per kg") && a.token == "per")
    return Hint{"an amount that harms is told by weight: `per kg`"};
  if (a.expects_end() && a.token == "see")
    return Hint{fmt::format("the tier stands before the harm: `{}`", a.misfit.form)};
  if (a.expects("text") && is_name(a.token))
    return Hint{fmt::format("a tier stands behind `see`: `see {}`", shown(a.token)),
                a.span(a.token.size()), fmt::format("see {}", a.token)};
  return std::nullopt;
}

}  // namespace

// `into the breast muscle`: the last word is the place.
std::optional<Hint> place_of_two_words(Surroundings const& a) {
  if (!a.expects_end() || !is_name(a.token) || !is_name(a.word_before)) return std::nullopt;
  auto before =
      a.misfit.text.substr(a.misfit.stretch.begin, a.before_word - a.misfit.stretch.begin);
  while (!before.empty() && is_blank(before.back())) before.remove_suffix(1);
  if (!before.ends_with(" the")) return std::nullopt;
  auto const meant = meant_way(fmt::format("into the {}", a.token));
  if (!meant) return std::nullopt;
  return Hint{fmt::format("a place is one word: leave `{}` out, or say in `how` where",
                          shown(a.word_before)),
              Span{a.before_word, a.misfit.at + static_cast<std::uint32_t>(a.token.size())},
              std::string(a.token)};
}

// `for 5 to 7 days`, `until better`.
std::optional<Hint> how_long(Surroundings const& a) {
  if (a.token == "until" || a.token == "till")
    return Hint{
        "how long is told by a time, `for 5 days`; what ends it sooner stands in `stop if`, or in "
        "`how`"};
  auto const before =
      a.misfit.text.substr(a.misfit.stretch.begin, a.misfit.at - a.misfit.stretch.begin);
  bool const is_duration = before.rfind(" for ") != std::string_view::npos &&
                           after_blanks(before.substr(before.rfind(" for ") + 5)).find(' ') >=
                               after_blanks(before.substr(before.rfind(" for ") + 5)).size() - 1;
  bool const is_range = a.token == "to" || a.rest.front() == '-' || a.rest.starts_with("–");
  if (is_duration && is_range && is_digit(a.last))
    return Hint{"how long is one time, `for 7 days`; that it may be less stands in `how`"};
  return std::nullopt;
}

// `up to 5 mg`, `about 5 mg`.
std::optional<Hint> before_amount(Surroundings const& a) {
  if (!a.expects("an amount such as `10 mg per kg`")) return std::nullopt;
  constexpr std::array<std::string_view, 8> bounds = {"up",    "at",     "max",    "maximum",
                                                      "about", "approx", "around", "ca"};
  if (std::find(bounds.begin(), bounds.end(), lowered(a.token)) == bounds.end())
    return std::nullopt;
  return Hint{
      "the amount stands at once, or a range, `2 to 4 mg per kg`; the most at one time is said by "
      "`at most`"};
}

std::optional<Hint> way(Surroundings const& a) {
  if (a.misfit.form.starts_with("at most ") && a.token == "per")
    return Hint{
        "it is the most at one time, for any weight: an amount alone, as in `at most 100 mg`"};
  if (a.misfit.holds != Holds::dose) return std::nullopt;
  if (auto out = before_amount(a)) return out;
  if (auto out = how_long(a)) return out;
  if (auto out = place_of_two_words(a)) return out;
  if (a.token == "to" && is_digit(a.last)) return std::nullopt;  // a range
  bool const is_here = a.expects_end() || a.expects("a way such as") || a.expects("a name");
  if (!is_here) return std::nullopt;
  if (auto out = put_on(a)) return out;
  auto const words = words_of_way(a.rest);
  if (words.empty()) return std::nullopt;
  constexpr std::array<std::string_view, 16> joints = {
      "over", "across", "along", "upon", "to",    "in", "at",   "around",
      "down", "inside", "into",  "onto", "under", "on", "with", "through"};
  if (std::find(joints.begin(), joints.end(), words.front()) == joints.end()) return std::nullopt;
  bool const is_known =
      words.size() > 1 && words[1] == "the" && a.expects_end() &&
      (words[0] == "into" || words[0] == "onto" || words[0] == "under" || words[0] == "on");
  if (is_known) return std::nullopt;  // it stands too late, which is told elsewhere
  if (words.front() == "with" || words.front() == "at")
    if (words.back() == "food" || words.back() == "feed" || words.back() == "meals")
      return Hint{
          "how it goes with food is said in `how`; the way is `by mouth`, or `on the food` where "
          "it "
          "is mixed in"};
  std::string run;
  for (auto const word : words) (run += run.empty() ? "" : " ") += word;
  constexpr char const* a_way = "a way such as `by mouth`, `under the skin`, `into the vein`";
  if (auto const meant = meant_way(run))
    return Hint{fmt::format("this is written `{}`", *meant), a.span(length_of(words)), *meant,
                a_way};
  return Hint{
      "a way is `by mouth`, or a place behind `onto the`, `into the` or `under the`, as in `onto "
      "the "
      "skin`",
      a.span(length_of(words)),
      {},
      a_way};
}

std::optional<Hint> how_often(Surroundings const& a) {
  if (a.misfit.holds != Holds::dose) return std::nullopt;
  if (auto out = counted_in_days(a)) return out;
  return every_in_words(a);
}

std::optional<Hint> form(Surroundings const& a) {
  if (a.misfit.holds != Holds::form) return std::nullopt;
  if (a.expects("`tablet`")) return form_called_otherwise(a);
  return strength(a);
}

std::optional<Hint> taken(Surroundings const& a) {
  if (a.misfit.holds == Holds::level) return level(a);
  bool const is_taken = a.misfit.form.starts_with("taken ");
  if (!is_taken && !a.misfit.form.starts_with("since ")) return std::nullopt;
  auto const* const asks = is_taken ? "how much of it was taken" : "how long ago it was";
  constexpr std::array<std::string_view, 7> bounds = {"over", "above", "under", "at",
                                                      ">",    "from",  "more"};
  if (is_taken && a.expects_end() && length_of_any(a.rest, bounds) != 0)
    return Hint{
        "from which amount on it harms is said by `level`, on a line of its own: `level 20 mg per "
        "kg \"fits\"`"};
  if (a.expects_end())
    return Hint{fmt::format("one sign stands here, alone: the one that asks {}", asks)};
  if (a.token == "if")
    return a.over(a.token.size(),
                  fmt::format("no `if` here: the sign that asks {} follows at once", asks), "");
  if (is_digit(a.rest.front()))
    return Hint{fmt::format("the sign that asks {} stands here, by its name{}", asks,
                            is_taken ? "; from which amount on it harms is said by `level`" : "")};
  return std::nullopt;
}

}  // namespace flinch::syntax::hints
