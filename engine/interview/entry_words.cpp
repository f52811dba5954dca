#include "interview/entry_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <utility>

#include "flinch/text/display.hpp"

namespace flinch {
namespace {

constexpr std::size_t longest_entry = 400;
constexpr std::string_view stone = "stone";  // of 14 pounds

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (static_cast<unsigned char>(c) >= 0x80U);
}

// Characters of several bytes that keyboards and telephones put in by themselves.
constexpr std::array<std::pair<std::string_view, std::string_view>, 8> replacements = {{
    {"\u2019", ""},       // typographic apostrophe
    {"\u2018", ""},       // and its opening form
    {"\u00B0", " "},      // degree sign
    {"\u00BD", " 1/2 "},  // the fractions of Latin-1
    {"\u00BC", " 1/4 "},
    {"\u00BE", " 3/4 "},
    {"\u00A0", " "},    // no-break space
    {"\u00D7", " x "},  // multiplication sign
}};

std::string folded(std::string_view typed) {
  std::string out;
  while (!typed.empty()) {
    auto const* const replaced =
        std::find_if(replacements.begin(), replacements.end(),
                     [&](auto const& r) { return typed.starts_with(r.first); });
    if (replaced != replacements.end()) {
      out += replaced->second;
      typed.remove_prefix(replaced->first.size());
      continue;
    }
    auto const c = typed.front();
    if (c >= 'A' && c <= 'Z')
      out += static_cast<char>(c - 'A' + 'a');
    else if (c == '-' || c == '_' || c == '\t' || c == '(' || c == ')' || c == '!')
      out += ' ';
    else if (c != '\'' && c != '"')
      out += c;
    typed.remove_prefix(1);
  }
  return out;
}

constexpr std::array<std::string_view, 21> small_numbers = {
    "zero",     "one",     "two",     "three",     "four",     "five",     "six",
    "seven",    "eight",   "nine",    "ten",       "eleven",   "twelve",   "thirteen",
    "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty"};

std::optional<double> number_of(std::string const& word) {
  if (word.empty()) return std::nullopt;
  if (is_digit(word.front())) {
    double value = 0;
    auto const* const last = word.data() + word.size();
    auto const read = std::from_chars(word.data(), last, value, std::chars_format::fixed);
    if (read.ec != std::errc{} || read.ptr != last) return std::nullopt;
    return value;
  }
  auto const* const found = std::find(small_numbers.begin(), small_numbers.end(), word);
  if (found != small_numbers.end()) return static_cast<double>(found - small_numbers.begin());
  return std::nullopt;
}

// The unit that a word means; the second word of a pair ("per minute") is looked at by the caller.
std::optional<std::string_view> unit_of(std::string const& word) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 65> words = {{
      {"kg", "kg"},
      {"kgs", "kg"},
      {"kilo", "kg"},
      {"kilos", "kg"},
      {"kilogram", "kg"},
      {"kilograms", "kg"},
      {"kilogramme", "kg"},
      {"kilogrammes", "kg"},
      {"mg", "mg"},
      {"mgs", "mg"},
      {"milligram", "mg"},
      {"milligrams", "mg"},
      {"g", "g"},
      {"gram", "g"},
      {"grams", "g"},
      {"lb", "lb"},
      {"lbs", "lb"},
      {"pound", "lb"},
      {"pounds", "lb"},
      {"oz", "oz"},
      {"st", stone},
      {"stone", stone},
      {"ounce", "oz"},
      {"ounces", "oz"},
      {"c", "C"},
      {"celsius", "C"},
      {"centigrade", "C"},
      {"f", "F"},
      {"fahrenheit", "F"},
      {"s", "seconds"},
      {"sec", "seconds"},
      {"secs", "seconds"},
      {"second", "seconds"},
      {"seconds", "seconds"},
      {"min", "minutes"},
      {"mins", "minutes"},
      {"minute", "minutes"},
      {"minutes", "minutes"},
      {"h", "hours"},
      {"hr", "hours"},
      {"hrs", "hours"},
      {"hour", "hours"},
      {"hours", "hours"},
      {"d", "days"},
      {"day", "days"},
      {"days", "days"},
      {"w", "weeks"},
      {"wk", "weeks"},
      {"wks", "weeks"},
      {"week", "weeks"},
      {"weeks", "weeks"},
      {"mo", "months"},
      {"mos", "months"},
      {"mth", "months"},
      {"mths", "months"},
      {"month", "months"},
      {"months", "months"},
      {"y", "years"},
      {"yo", "years"},
      {"yr", "years"},
      {"yrs", "years"},
      {"year", "years"},
      {"years", "years"},
      {"bpm", "per minute"},
      {"%", "%"},
  }};
  auto const* const found =
      std::find_if(words.begin(), words.end(), [&](auto const& w) { return w.first == word; });
  if (found == words.end()) return std::nullopt;
  return found->second;
}

constexpr double pounds_in_a_stone = 14;

class AmountReader {
 public:
  AmountReader(std::vector<std::string> const& words, UpperLimit limit)
      : words_(words), limit_(limit) {}

  std::optional<std::vector<TypedAmount>> read() {
    skip_lead();
    std::vector<TypedAmount> out;
    bool is_in_stone = false;
    while (at_ < words_.size()) {
      if (!out.empty() && (is("and") || is(","))) ++at_;
      auto const value = mixed_number();
      if (!value) return std::nullopt;
      skip_ish();
      auto const of = unit();
      bool const follows_stone = !out.empty() && of.empty() && is_in_stone;
      is_in_stone = of == stone;
      out.push_back(is_in_stone ? TypedAmount{*value * pounds_in_a_stone, "lb"}
                                : TypedAmount{*value, follows_stone ? "lb" : of});
      // "a year and a half": half of the unit before.
      if (is("and", 0) && is("a", 1) && is("half", 2) && !out.back().unit.empty()) {
        out.push_back({0.5, out.back().unit});
        at_ += 3;
      }
      if (is("old")) ++at_;
      skip_ish();
    }
    if (out.empty()) return std::nullopt;
    return out;
  }

 private:
  // "Now 12", "about", "a bit over".
  void skip_lead() {
    if ((is("he") || is("she") || is("it")) && is("is", 1)) at_ += 2;
    if (is("hes") || is("shes") || is("its")) ++at_;
    if (is("just") && is("turned", 1)) at_ += 2;
    if (is("coming") && is("up", 1)) at_ += 2;
    while (is_roughly() || is("now")) ++at_;
    if (is("a") && is("bit", 1) && is("over", 2)) at_ += 3;
    if ((is("just") || is("bit")) && is("over", 1)) at_ += 2;
    if (limit_ == UpperLimit::stands) skip_limit();
  }
  // "No more than": the most that it may be stands for it.
  void skip_limit() {
    if ((is("no") || is("not")) && is("more", 1) && is("than", 2)) at_ += 3;
    if (is("less") && is("than", 1)) at_ += 2;
    if (is("up") && is("to", 1)) at_ += 2;
    if (is("at") && is("most", 1)) at_ += 2;
    if (is("under")) ++at_;
  }
  // "About", "ish": what is not known to the digit is an answer all the same.
  [[nodiscard]] bool is_roughly() const {
    return is("about") || is("around") || is("nearly") || is("roughly") || is("approx") ||
           is("maybe") || is("almost");
  }
  void skip_ish() {
    if (is("ish")) ++at_;
    if (is("or", 0) && is("so", 1)) at_ += 2;
    if (is("and", 0) && is("a", 1) && is("bit", 2)) at_ += 3;
  }
  [[nodiscard]] bool is(std::string_view word, std::size_t ahead = 0) const {
    return at_ + ahead < words_.size() && words_[at_ + ahead] == word;
  }

  // "half a", "11", "11 and a half", "11 1 / 2", "1 / 2".
  std::optional<double> mixed_number() {
    if (is("half")) {
      ++at_;
      if (is("a") || is("an")) ++at_;
      return 0.5;
    }
    if (is("quarter") && is("of", 1) && is("a", 2)) {
      at_ += 3;
      return 0.25;
    }
    if (auto const lone = fraction()) return lone;
    if (at_ >= words_.size()) return std::nullopt;
    auto value = number_of(words_[at_]);
    bool const is_one_of_a_unit =
        (is("a") || is("an")) && at_ + 1 < words_.size() && unit_of(words_[at_ + 1]);
    if (is_one_of_a_unit) value = 1;
    if (!value) return std::nullopt;
    ++at_;
    if (is("and") && is("a", 1) && is("half", 2)) {
      at_ += 3;
      return *value + 0.5;
    }
    if (auto const more = fraction()) *value += *more;
    return value;
  }

  std::optional<double> fraction() {
    if (!is("/", 1) || at_ + 2 >= words_.size()) return std::nullopt;
    auto const upper = number_of(words_[at_]);
    auto const lower = number_of(words_[at_ + 2]);
    if (!upper || !lower || *lower < 2 || *upper >= *lower) return std::nullopt;
    at_ += 3;
    return *upper / *lower;
  }

  // "mmol / l", "mg per dl".
  std::string_view in_a_volume() {
    constexpr std::array<std::array<std::string_view, 3>, 6> units = {{
        {"mmol", "l", "mmol per L"},
        {"umol", "l", "umol per L"},
        {"g", "l", "g per L"},
        {"g", "dl", "g per dL"},
        {"mg", "dl", "mg per dL"},
        {"ug", "dl", "ug per dL"},
    }};
    if (!is("per", 1) && !is("/", 1)) return {};
    for (auto const& [mass, volume, name] : units)
      if (is(mass) && is(volume, 2)) {
        at_ += 3;
        return name;
      }
    return {};
  }

  std::string_view unit() {
    if (is("degrees") || is("degree")) ++at_;
    if (is("breaths") || is("beats")) ++at_;
    bool const is_rate = is("per") || is("a") || is("/");
    if (is_rate && (is("minute", 1) || is("min", 1))) {
      at_ += 2;
      return "per minute";
    }
    if (auto const found = in_a_volume(); !found.empty()) return found;
    if (is_rate && is("hour", 1)) {
      at_ += 2;
      return "per hour";
    }
    if (is_rate && is("day", 1)) {
      at_ += 2;
      return "per day";
    }
    if (at_ >= words_.size()) return {};
    auto const found = unit_of(words_[at_]);
    if (!found) return {};
    ++at_;
    return *found;
  }

  std::vector<std::string> const& words_;
  UpperLimit limit_;
  std::size_t at_ = 0;
};

}  // namespace

std::optional<std::string> refusal(std::string_view typed) {
  if (typed.size() > longest_entry) return "That line is too long for an answer.";
  if (find_invalid_utf8(typed) != std::string_view::npos || inert(typed) != typed)
    return "That line holds bytes that are not plain text; it was not used.";
  return std::nullopt;
}

std::vector<std::string> entry_words(std::string_view typed) {
  std::vector<std::string> words;
  auto const text = folded(typed);
  for (std::size_t i = 0; i < text.size();) {
    auto const start = i;
    if (is_digit(text[i])) {
      while (i < text.size() && is_digit(text[i])) ++i;
      bool const has_point =
          i + 1 < text.size() && (text[i] == '.' || text[i] == ',') && is_digit(text[i + 1]);
      if (has_point)
        for (++i; i < text.size() && is_digit(text[i]);) ++i;
      auto word = text.substr(start, i - start);
      std::replace(word.begin(), word.end(), ',', '.');
      words.push_back(std::move(word));
    } else if (is_letter(text[i])) {
      while (i < text.size() && is_letter(text[i])) ++i;
      words.push_back(text.substr(start, i - start));
    } else {
      ++i;
      if (text[start] != ' ' && text[start] != '.') words.push_back(text.substr(start, 1));
    }
  }
  return words;
}

std::string joined(std::vector<std::string> const& words) {
  return fmt::format("{}", fmt::join(words, " "));
}

Entry remark(std::string text) { return {std::nullopt, false, std::move(text), {}}; }

std::string quoted(std::string_view typed) {
  constexpr std::size_t longest_quote = 40;
  auto out = inert(typed.substr(0, whole_character(typed, longest_quote)));
  if (typed.size() > longest_quote) out += "...";
  return out;
}

std::optional<std::vector<TypedAmount>> typed_amounts(std::vector<std::string> const& words,
                                                      UpperLimit limit) {
  return AmountReader(words, limit).read();
}

}  // namespace flinch
