// Names, marks and quotes, and what joins the parts of a list.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "flinch/text/display.hpp"
#include "syntax/surroundings.hpp"
#include "syntax/words.hpp"
#include "syntax/written_elsewhere.hpp"

namespace flinch::syntax::hints {
namespace {

// A second word with a capital behind a name: `sign tail Bob`.
bool is_name_before_capital(Surroundings const& a) {
  return is_name(a.word_before) && a.before_word <= a.misfit.stretch.begin + 1;
}

bool is_all_name_parts(std::string_view word) {
  return !word.empty() && !is_reserved(word) && std::all_of(word.begin(), word.end(), is_name_part);
}

// `url "https://..."`: an address, a grade and a date stand without quotes.
std::optional<Hint> without_quotes(Surroundings const& a) {
  constexpr std::array<std::string_view, 4> kinds = {"a reference", "the name of a warning",
                                                     "a date", "the mark"};
  if (a.rest.front() != '"' || length_of_any(a.misfit.expected, kinds) == 0) return std::nullopt;
  auto const end = a.rest.find('"', 1);
  if (end == std::string_view::npos) return std::nullopt;
  auto const inside = a.rest.substr(1, end - 1);
  bool const is_one = !inside.empty() && std::none_of(inside.begin(), inside.end(), [](char c) {
    return is_blank(c) || c == '\\';
  });
  if (!is_one)
    return Hint{
        fmt::format("written without quotes, and without blanks in it, as in `{}`", a.misfit.form)};
  bool const is_clause = a.misfit.expected.starts_with(kinds.front());
  auto const words = is_clause ? a.misfit.form.substr(0, a.misfit.form.find(' ') + 1) : "";
  return a.over(end + 1, fmt::format("written without quotes: `{}{}`", words, shown(inside)),
                std::string(inside));
}

}  // namespace

std::optional<Hint> quote(Surroundings const& a) {
  if (auto out = without_quotes(a)) return out;
  if (curly_quote(a.rest) != 0)
    return Hint{
        "this is a curly quote, as word processors make them; a text stands between straight "
        "ones: `\"`"};
  if (a.rest.front() == '\'' || a.rest.front() == '`')
    return Hint{"a text stands between double quotes: `\"`"};
  bool const follows_text = a.misfit.at > a.misfit.stretch.begin &&
                            a.misfit.text[a.misfit.at - 1] == '"' && letter_or_digit(a.rest) != 0;
  if (follows_text) return Hint{"a quote inside a text is written `\\\"`"};
  // `level 5 mg per kg today "vomiting"`
  if (a.misfit.form.starts_with("level ") && is_name(a.token) && a.token != "see" &&
      after_blanks(a.rest.substr(a.token.size())).starts_with('"'))
    return a.over(a.token.size(), fmt::format("a tier stands behind `see`: `see {}`", a.token),
                  fmt::format("see {}", a.token));
  if (a.expects("text") && letter_or_digit(a.rest) != 0 && !a.expects("name"))
    return Hint{"a text stands between double quotes: `\"`"};
  return std::nullopt;
}

std::optional<Hint> unseen(Surroundings const& a) {
  auto const code = unseen_character(a.rest);
  if (!code) return std::nullopt;
  return Hint{
      fmt::format("{} cannot be seen, or looks like a blank; it comes along from a web "
                  "page or a word processor: put a plain blank in its place, or nothing",
                  *code)};
}

std::optional<Hint> comment(Surroundings const& a) {
  constexpr std::array<std::string_view, 4> marks = {"//", "/*", "--", "<!--"};
  if (length_of_any(a.rest, marks) == 0) return std::nullopt;
  return Hint{"a comment begins with `#`, and ends with its line"};
}

// AND, Not.
std::optional<Hint> language_word(Surroundings const& a) {
  auto const word = lowered(a.token);
  if (word == a.token || !is_reserved(word)) return std::nullopt;
  return a.over(a.token.size(),
                fmt::format("the words of the language are written in small letters: `{}`", word),
                word);
}

// `rule rolling Rolling or kicking`: only the head of a statement has words behind a name.
std::optional<Hint> title(Surroundings const& a) {
  bool const takes_title = a.misfit.holds == Holds::names &&
                           a.misfit.form.find('"') != std::string_view::npos &&
                           a.misfit.form.find(':') == std::string_view::npos;
  if (!takes_title || !a.expects_end() || !a.is_same_line || !is_name_before_capital(a) ||
      !holds_letter(a.token))
    return std::nullopt;
  auto const line = a.rest.substr(0, std::min(a.rest.find_first_of("\r\n"), a.rest.size()));
  constexpr std::size_t longest = 60;  // that is repeated whole
  if (line.size() > longest || line.find('"') != std::string_view::npos) return std::nullopt;
  return a.over(line.size(),
                fmt::format("its words stand between quotes behind the name: `{} \"{}\"`",
                            a.word_before, line),
                fmt::format("\"{}\"", line));
}

// Capitals, hyphens, foreign letters, words of the language.
std::optional<Hint> name(Surroundings const& a) {
  if (is_name(a.token) && letter_or_digit(a.rest.substr(a.token.size())) == 0 &&
      !a.rest.substr(a.token.size()).starts_with('-'))
    return std::nullopt;
  auto const run = name_like(a.misfit.text, a.misfit.stretch, a.misfit.at);
  auto const written = a.misfit.text.substr(run.begin, run.end - run.begin);
  if (!holds_letter(written)) return std::nullopt;
  bool const is_inside =
      run.begin < a.misfit.at && run.end > a.misfit.at && !is_digit(written.front());
  if (is_name(written)) return std::nullopt;
  if (!a.expects_name() && !is_inside && !(a.expects_end() && is_name_before_capital(a)))
    return std::nullopt;
  if (is_reserved(written)) {
    bool const is_side = written == "left" || written == "right";
    if (is_side && a.word_before == "is") return std::nullopt;  // `at` was meant
    if (is_side && a.misfit.holds == Holds::names)
      return Hint{fmt::format("a side stands only behind `at`: leave `{}` out here", written)};
    if (written == "at" && a.word_before == "is")
      return Hint{"`is` names one step, `at least` that and what is worse: leave `is` out",
                  Span{a.before_word, a.before_word + 2}, ""};
    if (written == "not" || !a.expects_name() || a.misfit.expected == "a condition" ||
        a.misfit.expected == "a sign")
      return std::nullopt;
    return Hint{fmt::format("`{}` is a word of the language and cannot be a name", written)};
  }
  Hint out{"a name is one word of small letters a to z, digits and `_`, and begins with a letter",
           run, as_name(written), a.expects_name() ? nullptr : "a name"};
  if (out.instead) out.note += fmt::format(": `{}`", *out.instead);
  return out;
}

// Marks that other ways of writing have.
std::optional<Hint> mark(Surroundings const& a) {
  if (a.misfit.expected == "a statement") return std::nullopt;
  switch (a.rest.front()) {
    case ';':
      return a.over(1, "no semicolon: a clause ends with its line", "");
    case ':':
      if (is_digit(a.last) && a.rest.size() > 1 && is_digit(a.rest[1]))
        return a.over(1 + number_beginning(a.rest.substr(1)).size(),
                      "one number is wanted, and no ratio", "");
      return a.over(1, "no colon here", "");
    case '=':
      return a.over(1, "no `=` here: the words of a clause follow one another", "");
    case '[':
    case '{':
      return Hint{"only round parentheses group: `(`"};
    case '.':
      if (a.expects_end()) return a.over(1, "no full stop: a clause ends with its line", "");
      break;
    case '*':
    case '-':
      return Hint{fmt::format("no `{}`: a clause begins with its own word", a.rest.front())};
    default:
      break;
  }
  for (auto const* times : {"×"})
    if (a.rest.starts_with(times)) return Hint{"an amount is one number and its unit: `10 mg`"};
  return std::nullopt;
}

// `castrated male "gelding"`: what is said of the neutered has one word for both sexes.
std::optional<Hint> neutered(Surroundings const& a) {
  if (a.misfit.holds != Holds::called) return std::nullopt;
  auto const from = a.rest.starts_with(',') ? after_blanks(a.rest.substr(1)) : a.rest;
  auto const word = lowered(from.substr(0, std::min(from.find(' '), from.size())));
  constexpr std::array<std::string_view, 9> words = {"castrated",  "castrate", "spayed",
                                                     "gelded",     "desexed",  "sterilised",
                                                     "sterilized", "altered",  "fixed"};
  if (std::find(words.begin(), words.end(), word) == words.end()) return std::nullopt;
  auto const at = static_cast<std::uint32_t>(from.data() - a.misfit.text.data());
  return Hint{"this is written `neutered male \"...\"`, `neutered female \"...\"`",
              Span{at, at + static_cast<std::uint32_t>(word.size())}, "neutered"};
}

// What joins the parts of a list.
std::optional<Hint> list(Surroundings const& a) {
  if (a.misfit.content == Content::condition) return std::nullopt;
  bool const follows_name = is_word_part(a.last) || a.last == '%' || a.last == '"';
  bool const is_joint =
      a.token == "and" || a.token == "or" || a.rest.front() == '&' || a.rest.front() == '+';
  if (a.expects_end() && is_joint && follows_name)
    return a.over(std::max<std::size_t>(1, a.token.size()),
                  "the parts of a list stand behind commas", ",");
  if (a.expects_end() && a.last == '%' && is_digit(a.rest.front()))
    return Hint{"the shares of the bands stand side by side without `%`: `55 35 10`"};
  if (a.expects_end() && a.last == '%' && is_name(a.token))
    return Hint{"a comma is missing before this: `in sprain 85%, fracture 40%`"};
  if (a.expects_end() && a.last == '"' && a.rest.front() == '"')
    return Hint{"a comma is missing before this text"};
  if (a.expects("male") && a.rest.front() == '"')
    return Hint{
        "several words for the same are joined by `or`: `young \"chick\" or "
        "\"fledgling\"`"};
  if (a.expects("a cause and its frequency") && is_digit(a.rest.front()))
    return Hint{"the cause stands before its figure: `in sprain 85%`"};
  return std::nullopt;
}

// `sign tail bob`, `cite smith 2003`.
std::optional<Hint> two_words(Surroundings const& a) {
  bool const could_go_on = a.expects_end() || a.misfit.expected == "`:`" ||
                           a.misfit.expected == "`,`" || a.misfit.expected == "`shares`" ||
                           a.expects_frequency();
  // Elsewhere two words beside each other are no slip of this kind.
  auto const holds = a.misfit.holds;
  if (holds != Holds::names && holds != Holds::yes_or_no && holds != Holds::in_cause &&
      holds != Holds::finding)
    return std::nullopt;
  if (!a.is_same_line || !could_go_on || !is_name(a.word_before) || !is_all_name_parts(a.token))
    return std::nullopt;
  if (a.misfit.expected == "`shares`" && is_digit(a.token.front()))
    return Hint{
        fmt::format("`shares` stands between the name and the figure: `overlap {} shares "
                    "50%: a, b`",
                    a.word_before)};
  auto const joined = fmt::format("{}_{}", a.word_before, a.token);
  if (holds == Holds::yes_or_no)
    return Hint{
        fmt::format("what has a value is told by `with`: `with {} {}`; a name is one word, its "
                    "parts joined by `_`: `{}`",
                    a.word_before, a.token, joined),
        Span{a.before_word, a.misfit.at + static_cast<std::uint32_t>(a.token.size())}, joined};
  Span const both{a.before_word, a.misfit.at + static_cast<std::uint32_t>(a.token.size())};
  return Hint{fmt::format("a name is one word, its parts joined by `_`: `{}`; several names stand "
                          "behind commas",
                          joined),
              both, joined};
}

}  // namespace flinch::syntax::hints
