#include "syntax/hints.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <utility>

#include "syntax/layout.hpp"
#include "syntax/words.hpp"
#include "syntax/written_elsewhere.hpp"

namespace flinch::syntax {
namespace {

constexpr std::array<std::string_view, 4> dashes = {"-", "–", "—", "−"};

template <std::size_t n>
std::size_t length_of_any(std::string_view text, std::array<std::string_view, n> const& of) {
  for (auto const one : of)
    if (text.starts_with(one)) return one.size();
  return 0;
}

bool holds_letter(std::string_view text) {
  return std::any_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
           static_cast<unsigned char>(c) >= 0x80;
  });
}

// One misfit with what stands around it.
class Surroundings {
 public:
  explicit Surroundings(Misfit const& misfit)
      : m_(misfit), rest_(misfit.text.substr(misfit.at, misfit.stretch.end - misfit.at)) {
    while (!rest_.empty() && is_blank(rest_.back())) rest_.remove_suffix(1);
    auto back = m_.at;
    while (back > m_.stretch.begin && is_blank(m_.text[back - 1])) --back;
    is_close_ = back == m_.at;
    is_same_line_ = m_.text.substr(back, m_.at - back).find('\n') == std::string_view::npos;
    last_ = back == m_.stretch.begin ? '\0' : m_.text[back - 1];
    auto word = back;
    while (word > m_.stretch.begin && is_word_part(m_.text[word - 1])) --word;
    word_before_ = m_.text.substr(word, back - word);
    before_word_ = word;
    token_ = word_at(m_.text, m_.at).substr(0, m_.stretch.end - m_.at);
  }

  [[nodiscard]] std::optional<Hint> hint() const {
    if (rest_.empty()) return at_the_end();
    using Look = std::optional<Hint> (Surroundings::*)() const;
    for (Look const look :
         {&Surroundings::quote, &Surroundings::unseen, &Surroundings::comment, &Surroundings::point,
          &Surroundings::frequency, &Surroundings::yes_or_no, &Surroundings::language_word,
          &Surroundings::elsewhere, &Surroundings::per, &Surroundings::clause, &Surroundings::range,
          &Surroundings::name, &Surroundings::comparison, &Surroundings::unit_mark,
          &Surroundings::mark, &Surroundings::list, &Surroundings::in_condition,
          &Surroundings::two_words})
      if (auto out = (this->*look)()) return out;
    return std::nullopt;
  }

 private:
  [[nodiscard]] bool expects(std::string_view words) const {
    return m_.expected.find(words) != std::string_view::npos;
  }
  [[nodiscard]] bool expects_end() const { return m_.expected == "the end of the clause"; }
  [[nodiscard]] bool expects_name() const {
    constexpr std::array<std::string_view, 9> kinds = {"a name",      "the name of", "names",
                                                       "a condition", "a sign",      "sites",
                                                       "a finding",   "a cause",     "causes"};
    return length_of_any(m_.expected, kinds) != 0;
  }
  [[nodiscard]] bool expects_frequency() const {
    return m_.expected.starts_with("`%`") || m_.expected.starts_with("a frequency");
  }
  [[nodiscard]] Span span(std::size_t length) const {
    return {m_.at, m_.at + static_cast<std::uint32_t>(std::min(length, rest_.size()))};
  }
  [[nodiscard]] Hint over(std::size_t length, std::string note,
                          std::optional<std::string> instead) const {
    return {std::move(note), span(length), std::move(instead)};
  }

  // The digits that end at `end`, with a point in them or not.
  [[nodiscard]] std::string_view number_ending(std::uint32_t end) const {
    auto begin = end;
    while (begin > m_.stretch.begin && (is_digit(m_.text[begin - 1]) || m_.text[begin - 1] == '.'))
      --begin;
    return m_.text.substr(begin, end - begin);
  }
  [[nodiscard]] static std::string_view number_beginning(std::string_view text) {
    std::size_t end = 0;
    while (end < text.size() && (is_digit(text[end]) || text[end] == '.')) ++end;
    return text.substr(0, end);
  }
  [[nodiscard]] static double value(std::string_view digits) {
    double out = 0;
    std::from_chars(digits.data(), digits.data() + digits.size(), out);
    return out;
  }
  [[nodiscard]] static std::string_view after_blanks(std::string_view text) {
    auto const first = std::min(text.find_first_not_of(" \t\r\n"), text.size());
    return text.substr(first);
  }
  [[nodiscard]] std::string_view number_before() const {
    auto end = m_.at;
    while (end > m_.stretch.begin && is_blank(m_.text[end - 1])) --end;
    return number_ending(end);
  }

  [[nodiscard]] std::optional<Hint> at_the_end() const {
    if (expects("`%`") && is_digit(last_))
      return Hint{"a frequency says of how many: `20%`, or `20 per 1000`"};
    if (m_.expected == "`cite`") return Hint{"behind the reason stands its source: `cite SOURCE`"};
    return std::nullopt;
  }

  [[nodiscard]] std::optional<Hint> quote() const {
    if (curly_quote(rest_) != 0)
      return Hint{
          "this is a curly quote, as word processors make them; a text stands between straight "
          "ones: `\"`"};
    if (rest_.front() == '\'' || rest_.front() == '`')
      return Hint{"a text stands between double quotes: `\"`"};
    bool const follows_text =
        m_.at > m_.stretch.begin && m_.text[m_.at - 1] == '"' && letter_or_digit(rest_) != 0;
    if (follows_text) return Hint{"a quote inside a text is written `\\\"`"};
    if (expects("text") && letter_or_digit(rest_) != 0 && !expects("name"))
      return Hint{"a text stands between double quotes: `\"`"};
    return std::nullopt;
  }

  [[nodiscard]] std::optional<Hint> unseen() const {
    auto const code = unseen_character(rest_);
    if (!code) return std::nullopt;
    return Hint{
        fmt::format("{} cannot be seen, or looks like a blank; it comes along from a web "
                    "page or a word processor: put a plain blank in its place, or nothing",
                    *code)};
  }

  [[nodiscard]] std::optional<Hint> comment() const {
    constexpr std::array<std::string_view, 4> marks = {"//", "/*", "--", "<!--"};
    if (length_of_any(rest_, marks) == 0) return std::nullopt;
    return Hint{"a comment begins with `#`, and ends with its line"};
  }

  // `0,5`, `.5`, `1/2`.
  [[nodiscard]] std::optional<Hint> point() const {
    if (rest_.front() == '.' && rest_.size() > 1 && is_digit(rest_[1]) && !is_digit(last_)) {
      auto const digits = number_beginning(rest_.substr(1));
      return over(digits.size() + 1, "a number begins with a digit", fmt::format("0.{}", digits));
    }
    bool const at_comma = rest_.front() == ',' && is_close_ && is_digit(last_) &&
                          rest_.size() > 1 && is_digit(rest_[1]);
    bool const behind_comma = is_digit(rest_.front()) && last_ == ',' && is_close_ &&
                              m_.at >= m_.stretch.begin + 2 && is_digit(m_.text[m_.at - 2]);
    if (at_comma || behind_comma) {
      auto const comma = at_comma ? m_.at : m_.at - 1;
      auto const whole = number_ending(comma);
      auto const part = number_beginning(m_.text.substr(comma + 1, m_.stretch.end - comma - 1));
      auto const end = comma + 1 + static_cast<std::uint32_t>(part.size());
      if (end < m_.stretch.end && m_.text[end] == ',') return shares();
      Span const both{comma - static_cast<std::uint32_t>(whole.size()), end};
      auto const behind = after_blanks(m_.text.substr(end, m_.stretch.end - end));
      bool const has_scale = behind.starts_with('%') || behind.starts_with("per");
      if (expects("shares") && !has_scale)
        return Hint{fmt::format("the shares of the bands stand side by side without commas: `{0} "
                                "{1}`; the decimal mark of one figure is a point: `{0}.{1}%`",
                                whole, part),
                    both};
      if (auto const readings = readings_of(whole, part)) return Hint{*readings, both};
      auto const written = fmt::format("{}.{}", whole, part);
      return Hint{fmt::format("the decimal mark is a point: `{}`", written), both, written};
    }
    if (rest_.front() == ',' && is_digit(last_) && expects("shares")) return shares();
    if (rest_.front() == '/' && is_digit(last_) && rest_.size() > 1 && is_digit(rest_[1]) &&
        !expects_frequency()) {
      auto const above = number_ending(m_.at);
      auto const below = number_beginning(rest_.substr(1));
      if (value(below) > 0)
        return Hint{fmt::format("a fraction is written with a point: `{:.4g}`",
                                value(above) / value(below)),
                    Span{m_.at - static_cast<std::uint32_t>(above.size()),
                         m_.at + 1 + static_cast<std::uint32_t>(below.size())},
                    fmt::format("{:.4g}", value(above) / value(below))};
    }
    return std::nullopt;
  }
  // `1,000`, `1.000,5` and `1,000.5`: a mark between thousands, or the decimal mark. Which it is
  // nobody but the writer can tell, and they lie a thousandfold apart.
  [[nodiscard]] static std::optional<std::string> readings_of(std::string_view whole,
                                                              std::string_view part) {
    auto const without_points = [](std::string_view digits) {
      std::string out(digits);
      std::erase(out, '.');
      return out;
    };
    constexpr std::size_t digits_of_a_thousand = 3;
    bool const has_point =
        whole.find('.') != std::string_view::npos || part.find('.') != std::string_view::npos;
    if (!has_point && (part.size() != digits_of_a_thousand || whole == "0")) return std::nullopt;
    auto large = fmt::format("{}{}", whole, part);
    auto small = fmt::format("{}.{}", whole, without_points(part));
    if (whole.find('.') != std::string_view::npos) {
      large = fmt::format("{}.{}", without_points(whole), without_points(part));
      small = fmt::format("{}.{}{}", whole.substr(0, whole.find('.')),
                          without_points(whole.substr(whole.find('.') + 1)), without_points(part));
    }
    return fmt::format(
        "a number has no comma, and one point at most, which is the decimal mark: is it `{}` or "
        "`{}`?",
        large, small);
  }
  [[nodiscard]] static Hint shares() {
    return {"the shares of the bands stand side by side without commas: `55 35 10`"};
  }

  // One figure is wanted: no range, no bound, no word.
  [[nodiscard]] std::optional<Hint> frequency() const {
    if (!expects_frequency()) return std::nullopt;
    auto const before = number_before();
    auto const dash = length_of_any(rest_, dashes);
    auto const to = token_ == "to" ? std::size_t{2} : 0;
    if (!before.empty() && (dash != 0 || to != 0)) {
      auto const next = number_beginning(after_blanks(rest_.substr(dash + to)));
      if (next.empty()) return std::nullopt;
      auto const scale = after_blanks(
          m_.text.substr(static_cast<std::size_t>(next.data() + next.size() - m_.text.data())));
      auto const end = static_cast<std::uint32_t>(next.data() + next.size() - m_.text.data());
      auto const middle = fmt::format("{:.4g}", (value(before) + value(next)) / 2);
      constexpr std::string_view start = "one figure is wanted, not a range: your best estimate";
      auto const scaled = scale.starts_with('%')     ? "%"
                          : scale.starts_with("per") ? " per 1000"
                                                     : "";
      if (std::string_view(scaled).empty())
        return Hint{
            fmt::format("{0} with its scale, such as `{1}%` or `{1} per 1000`", start, middle)};
      return Hint{fmt::format("{}, such as `{}{}`", start, middle, scaled),
                  Span{static_cast<std::uint32_t>(before.data() - m_.text.data()), end}, middle};
    }
    if (rest_.starts_with("‰")) return over(3, "thousandths are `per 1000`", " per 1000");
    auto const word = lowered(token_);
    if (word == "percent" || word == "pct")
      return over(token_.size(), "per cent is written `%`", "%");
    if (word == "per" && !before.empty()) {
      auto const next = after_blanks(rest_.substr(3));
      if (next.starts_with("cent"))
        return Hint{"per cent is written `%`",
                    span(static_cast<std::size_t>(next.data() + 4 - rest_.data())), "%"};
    }
    bool const is_ratio =
        rest_.front() == ':' || rest_.front() == '/' || word == "in" || word == "of";
    if (!before.empty() && is_ratio) {
      auto const below =
          number_beginning(after_blanks(rest_.substr(std::max<std::size_t>(1, word.size()))));
      // The scale ends below 1000, and no number has an exponent.
      auto const shares_1000 = value(below) > 0 ? 1000 * value(before) / value(below) : 0;
      if (!below.empty() && (shares_1000 >= 1000 || shares_1000 < 0.001))
        return Hint{
            "a frequency lies between none and all, and says of how many: `20%`, or `20 per 1000`"};
      if (!below.empty()) {
        auto const per = fmt::format("{:.4g} per 1000", shares_1000);
        return Hint{fmt::format("a ratio is written `{}`", per),
                    Span{static_cast<std::uint32_t>(before.data() - m_.text.data()),
                         static_cast<std::uint32_t>(below.data() + below.size() - m_.text.data())},
                    per};
      }
    }
    constexpr std::array<std::string_view, 10> bounds = {"<", ">", "~",     "≈",     "±",
                                                         "≤", "≥", "about", "under", "over"};
    if (length_of_any(rest_, bounds) != 0)
      return Hint{"one figure is wanted, without a sign: your best estimate, such as `3%`"};
    constexpr std::array<std::string_view, 14> words = {
        "common",   "rare", "always", "never",   "often",   "sometimes", "rarely",
        "frequent", "most", "few",    "unknown", "usually", "high",      "low"};
    if (std::find(words.begin(), words.end(), word) != words.end())
      return Hint{
          "a frequency is a figure, even if it is only judged: of 100 such patients, how "
          "many have it? `12%`"};
    if (rest_.front() == ',' && is_name(word_before_))
      return Hint{fmt::format("each cause has its own figure: `{} 80%`", word_before_)};
    if (rest_.front() == ':' || rest_.front() == '=')
      return over(1, fmt::format("no `{}` here: the figure follows the name", rest_.front()), "");
    return std::nullopt;
  }

  // The clauses whose parts have an order or a kind of their own.
  [[nodiscard]] std::optional<Hint> clause() const {
    auto const starts = after_blanks(m_.text.substr(m_.stretch.begin));
    if (m_.expected == "`:`" && m_.form.starts_with("means"))
      return Hint{fmt::format("a colon stands before the condition: `{}`", m_.form)};
    if (m_.form.starts_with("answer")) {
      if (starts.starts_with("number"))
        return Hint{
            "a number is asked for as in `answer number in C from 30 to 44`; without a unit "
            "as in `answer number from 0 to 10`"};
      if ((starts.starts_with("one of") || starts.starts_with("steps")) && rest_.front() == '"')
        return Hint{"each answer has a name, and its words may follow: `usual \"as usual\"`"};
    }
    if (m_.form.starts_with("give")) {
      constexpr std::array<std::string_view, 11> parts = {
          "by", "into", "onto", "under", "on", "every", "once", "twice", "three", "four", "for"};
      if (std::find(parts.begin(), parts.end(), token_) != parts.end() && expects_end())
        return Hint{
            fmt::format("the parts of a dose stand in one order, amount, way, how often, how "
                        "long: `{}`",
                        m_.form)};
      if (token_ == "per") {
        auto const next = word_at(after_blanks(rest_.substr(3)), 0);
        if (next == "day") return Hint{"a dose is what is given at once: `10 mg every 8 hours`"};
        if (next != "kg")
          return Hint{"a dose by weight is written `per kg`; any other has no `per`"};
      }
    }
    if (m_.form.starts_with("expect") && rest_.front() == ',' && expects_end())
      return Hint{
          "behind a comma stands another promise: `first`, `not first`, `among 3`, `tier`, "
          "`tier at least`, `ceiling`, `alarm`, `not alarm`, `offered`, `not offered`, "
          "`withheld`, `ask first` or `nothing told`"};
    if (m_.expected == "`because`" && is_name(token_))
      return Hint{fmt::format("from which answer on stands behind `if`: `if {}`", token_)};
    bool const is_yes = m_.form.starts_with("yes limps") || m_.form.starts_with("no vomits");
    if (is_yes && token_ == "at")
      return Hint{fmt::format("places are told by `found`: `found {} at SITE`", word_before_)};
    bool const is_side = token_ == "left" || token_ == "right";
    if (is_side && m_.form.starts_with("found") && !expects_end())
      return Hint{
          fmt::format("the sign stands first, and its place behind `at`: `found SIGN at {} "
                      "SITE`",
                      token_)};
    if (expects_name() && rest_.front() == '"' && !m_.form.empty())
      return Hint{fmt::format("a name stands here, without quotes, as in `{}`", m_.form)};
    if (expects("amount") && holds_letter(token_) && !m_.form.empty()) {
      constexpr std::array<std::string_view, 12> counts = {
          "a", "an", "one", "two", "three", "four", "five", "six", "half", "ten", "some", "few"};
      if (std::find(counts.begin(), counts.end(), lowered(token_)) != counts.end())
        return Hint{fmt::format("numbers are written in digits, as in `{}`", m_.form)};
    }
    return std::nullopt;
  }

  [[nodiscard]] std::optional<Hint> yes_or_no() const {
    if (!m_.expected.starts_with("`yes or no`")) return std::nullopt;
    auto const word = lowered(token_);
    bool const is_two = word == "yes" || word == "no" || word == "y" || word == "yesno" ||
                        word == "bool" || word == "boolean" || word == "true";
    if (is_two) return over(rest_.size(), "it is written `answer yes or no`", "yes or no");
    if (word == "scale" || word == "score" || word == "numeric" || word == "range")
      return Hint{
          "a number is asked for by `answer number in UNIT from A to B`, ordered words by "
          "`answer steps mild, severe`"};
    if (word == "text" || word == "free")
      return Hint{
          "free text can carry no figures: give the words to choose from, as in `answer "
          "one of clear, cloudy`"};
    if (is_name(token_) && after_blanks(rest_.substr(token_.size())).starts_with(','))
      return Hint{fmt::format(
          "words to choose from are `answer one of {0}`; words in an order `answer steps {0}`",
          listed_here())};
    return std::nullopt;
  }

  // The list that stands here, where it is short.
  [[nodiscard]] std::string_view listed_here() const {
    constexpr std::size_t longest = 60;
    auto const line = rest_.substr(0, std::min(rest_.find_first_of("\r\n"), rest_.size()));
    return line.size() <= longest ? line : std::string_view("A, B");
  }

  // AND, Not.
  [[nodiscard]] std::optional<Hint> language_word() const {
    auto const word = lowered(token_);
    if (word == token_ || !is_reserved(word)) return std::nullopt;
    return over(token_.size(),
                fmt::format("the words of the language are written in small letters: `{}`", word),
                word);
  }

  [[nodiscard]] std::optional<Hint> elsewhere() const {
    if (m_.content == Content::condition) return std::nullopt;
    bool const is_dose = expects_end() || expects("amount") || expects("interval") ||
                         expects("once a day") || expects("a way such as");
    if (!is_dose) return std::nullopt;
    // `3 times daily`, `3x daily`.
    if (is_digit(rest_.front())) {
      auto const count = number_beginning(rest_);
      auto next = after_blanks(rest_.substr(count.size()));
      bool const is_times =
          next.starts_with("times") || next.starts_with("x ") || next.starts_with("× ");
      auto const times = value(count);
      if (is_times && times >= 1 && times <= 24) {
        next = after_blanks(next.substr(std::min(next.find(' '), next.size())));
        auto length = static_cast<std::size_t>(next.data() - rest_.data());
        for (auto const* day : {"daily", "a day", "per day", "/day", "day"})
          if (next.starts_with(day)) {
            length += std::string_view(day).size();
            break;
          }
        auto const said = often(times);
        if (!said)
          return over(length,
                      "how often is told by the hours from one dose to the next, as in `every 8 "
                      "hours`",
                      std::nullopt);
        return over(length, fmt::format("how often is written in words: `{}`", *said), *said);
      }
      return std::nullopt;
    }
    auto const word = lowered(word_with_digits());
    if (auto const said = said_here(word))
      return over(word.size(), fmt::format("this is written `{}`", *said), *said);
    // `twice daily` breaks off behind its first word.
    if (expects("once a day"))
      for (auto const* often : {"once", "twice", "three times", "four times"})
        if (rest_.starts_with(often)) {
          auto const next = after_blanks(rest_.substr(std::string_view(often).size()));
          for (auto const* day : {"daily", "per day", "each day", "every day"})
            if (next.starts_with(day)) {
              auto const said = fmt::format("{} a day", often);
              return over(static_cast<std::size_t>(next.data() - rest_.data()) +
                              std::string_view(day).size(),
                          fmt::format("this is written `{}`", said), said);
            }
        }
    if (last_ != '\0' && word_before_ == "every" && (word == "day" || word == "hour"))
      return Hint{"an interval has its number: `every 24 hours`, `once a day`"};
    return std::nullopt;
  }
  // `every 4.8 hours`; nothing where the hours would have to be rounded.
  [[nodiscard]] static std::optional<std::string> often(double times) {
    constexpr std::array<std::string_view, 4> words = {"once", "twice", "three times",
                                                       "four times"};
    for (std::size_t i = 0; i < words.size(); ++i)
      if (times == static_cast<double>(i + 1)) return fmt::format("{} a day", words.at(i));
    constexpr double hours_a_day = 24;
    auto const tenths = 10 * hours_a_day / times;
    if (std::abs(tenths - std::round(tenths)) > 1e-9) return std::nullopt;
    return fmt::format("every {:.3g} hour{}", tenths / 10, times == hours_a_day ? "" : "s");
  }
  [[nodiscard]] std::string_view word_with_digits() const { return token_; }

  // A slash after a unit.
  [[nodiscard]] std::optional<Hint> per() const {
    if (rest_.front() != '/' || (last_ != '\0' && !is_word_part(last_))) return std::nullopt;
    constexpr std::array<std::pair<std::string_view, std::string_view>, 10> rates = {{
        {"/minute", "per minute"},
        {"/min", "per minute"},
        {"/hour", "per hour"},
        {"/hr", "per hour"},
        {"/h", "per hour"},
        {"/day", "per day"},
        {"/d ", "per day "},
        {"/kg", " per kg"},
        {"/ml", " per mL"},
        {"/mL", " per mL"},
    }};
    std::optional<std::string> instead;
    std::size_t length = 1;
    for (auto const& [slash, words] : rates)
      if (rest_.starts_with(slash)) {
        bool const is_apart = !is_close_;
        auto written = std::string(words);
        if (!is_apart && written.front() != ' ') written = ' ' + written;
        if (is_apart && written.front() == ' ') written.erase(0, 1);
        instead = written;
        length = slash.size();
        break;
      }
    if (!instead) return Hint{"a slash is written `per`, as in `10 mg per kg` or `5 mmol per L`"};
    auto const first = instead->find_first_not_of(' ');
    return Hint{fmt::format("a slash is written `per`: `{}`{}", instead->substr(first),
                            further_writings(rest_.substr(length))),
                span(length), std::move(instead)};
  }
  // Of a dose all that is written as elsewhere is told at once: `5 mg/kg PO SID`.
  [[nodiscard]] std::string further_writings(std::string_view behind) const {
    std::string out;
    if (!m_.form.starts_with("give")) return out;
    for (auto left = after_blanks(behind); !left.empty();) {
      auto const size = std::min(left.find_first_of(" \t\r\n,"), left.size());
      auto const word = left.substr(0, size);
      if (auto const said = said_here(word); said && *said != word)
        out += fmt::format(", `{}` is `{}`", word, *said);
      left = after_blanks(left.substr(std::max<std::size_t>(1, size)));
    }
    return out;
  }

  [[nodiscard]] std::optional<Hint> range() const {
    auto const dash = length_of_any(rest_, dashes);
    if (dash == 0) return std::nullopt;
    bool const has_number = is_digit(last_) || last_ == '%';
    bool const has_unit = is_word_part(last_) && before_word_ > m_.stretch.begin &&
                          !number_ending(before_unit()).empty();
    auto const next = after_blanks(rest_.substr(dash));
    if ((has_number || has_unit) && !next.empty() && is_digit(next.front()))
      return over(dash, "a range is written with `to`, as in `0.6 to 1 mg per kg`", " to ");
    return std::nullopt;
  }
  [[nodiscard]] std::uint32_t before_unit() const {
    auto end = before_word_;
    while (end > m_.stretch.begin && is_blank(m_.text[end - 1])) --end;
    return end;
  }

  // Capitals, hyphens, foreign letters, words of the language.
  [[nodiscard]] std::optional<Hint> name() const {
    if (is_name(token_) && letter_or_digit(rest_.substr(token_.size())) == 0 &&
        !rest_.substr(token_.size()).starts_with('-'))
      return std::nullopt;
    auto const run = name_like(m_.text, m_.stretch, m_.at);
    auto const written = m_.text.substr(run.begin, run.end - run.begin);
    if (!holds_letter(written)) return std::nullopt;
    bool const is_inside = run.begin < m_.at && run.end > m_.at && !is_digit(written.front());
    if (is_name(written)) return std::nullopt;
    if (!expects_name() && !is_inside && !(expects_end() && is_name_before_capital()))
      return std::nullopt;
    if (is_reserved(written)) {
      bool const is_side = written == "left" || written == "right";
      if (is_side && word_before_ == "is") return std::nullopt;  // `at` was meant
      if (written == "not" || !expects_name() || m_.expected == "a condition" ||
          m_.expected == "a sign")
        return std::nullopt;
      return Hint{fmt::format("`{}` is a word of the language and cannot be a name", written)};
    }
    Hint out{"a name is one word of small letters a to z, digits and `_`, and begins with a letter",
             run, as_name(written), expects_name() ? nullptr : "a name"};
    if (out.instead) out.note += fmt::format(": `{}`", *out.instead);
    return out;
  }
  // A second word with a capital behind a name: `sign tail Bob`.
  [[nodiscard]] bool is_name_before_capital() const {
    return is_name(word_before_) && before_word_ <= m_.stretch.begin + 1;
  }

  [[nodiscard]] std::optional<Hint> comparison() const {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 6> marks = {
        {{"≥", ">="}, {"≤", "<="}, {"=>", ">="}, {"=<", "<="}, {"⩾", ">="}, {"⩽", "<="}}};
    for (auto const& [mark, here] : marks)
      if (rest_.starts_with(mark))
        return over(mark.size(), fmt::format("this comparison is written `{}`", here),
                    std::string(here));
    if (m_.content != Content::condition) return std::nullopt;
    constexpr std::array<std::string_view, 5> not_equal = {"!=", "<>", "≠", "!", "~"};
    if (length_of_any(rest_, not_equal) != 0)
      return Hint{"`not` stands before the sign: `not coughs`, `not urine is red`"};
    if (rest_.front() == '=')
      return Hint{
          "there is no `=`: a sign answered yes or no stands alone, a value is named by "
          "`is`, a number is compared by `over`, `under`, `>=` or `<=`"};
    constexpr std::array<std::pair<std::string_view, std::string_view>, 4> joints = {
        {{"&&", "and"}, {"&", "and"}, {"||", "or"}, {"|", "or"}}};
    for (auto const& [mark, here] : joints)
      if (rest_.starts_with(mark))
        return over(mark.size(), fmt::format("conditions are joined by `{}`", here),
                    std::string(here));
    if (rest_.front() == ',' || rest_.front() == '+')
      return Hint{
          "conditions are joined by `and` or `or`; a count of them is `at least 2 of (a, b, "
          "c)`"};
    return std::nullopt;
  }

  // `°C`, `µg`.
  [[nodiscard]] std::optional<Hint> unit_mark() const {
    for (auto const* degree : {"°", "º", "˚"})
      if (rest_.starts_with(degree)) {
        auto const next = after_blanks(rest_.substr(std::string_view(degree).size()));
        char const unit = next.empty() ? '\0' : lowered(next.substr(0, 1)).front();
        if (unit != 'c' && unit != 'f')
          return Hint{"degrees are written `C` or `F`, without the ring"};
        std::string const here(1, unit == 'c' ? 'C' : 'F');
        return over(static_cast<std::size_t>(next.data() - rest_.data()) + 1,
                    fmt::format("degrees are written without the ring: `{}`", here),
                    is_close_ ? " " + here : here);
      }
    for (auto const* micro : {"µ", "μ"})
      if (rest_.starts_with(micro)) {
        auto const unit =
            word_at(rest_, static_cast<std::uint32_t>(std::string_view(micro).size()));
        auto const here = fmt::format("u{}", unit);
        return over(std::string_view(micro).size() + unit.size(),
                    fmt::format("this unit is written `{}`", here), is_close_ ? " " + here : here);
      }
    return std::nullopt;
  }

  // Marks that other ways of writing have.
  [[nodiscard]] std::optional<Hint> mark() const {
    if (m_.expected == "a statement") return std::nullopt;
    switch (rest_.front()) {
      case ';':
        return over(1, "no semicolon: a clause ends with its line", "");
      case ':':
        return over(1, "no colon here", "");
      case '=':
        return over(1, "no `=` here: the words of a clause follow one another", "");
      case '[':
      case '{':
        return Hint{"only round parentheses group: `(`"};
      case '.':
        if (expects_end()) return over(1, "no full stop: a clause ends with its line", "");
        break;
      case '*':
      case '-':
        return Hint{fmt::format("no `{}`: a clause begins with its own word", rest_.front())};
      default:
        break;
    }
    for (auto const* times : {"×"})
      if (rest_.starts_with(times)) return Hint{"an amount is one number and its unit: `10 mg`"};
    return std::nullopt;
  }

  // What joins the parts of a list.
  [[nodiscard]] std::optional<Hint> list() const {
    if (m_.content == Content::condition) return std::nullopt;
    bool const follows_name = is_word_part(last_) || last_ == '%' || last_ == '"';
    bool const is_joint =
        token_ == "and" || token_ == "or" || rest_.front() == '&' || rest_.front() == '+';
    if (expects_end() && is_joint && follows_name)
      return over(std::max<std::size_t>(1, token_.size()),
                  "the parts of a list stand behind commas", ",");
    if (expects_end() && last_ == '%' && is_digit(rest_.front()))
      return Hint{"the shares of the bands stand side by side without `%`: `55 35 10`"};
    if (expects_end() && last_ == '%' && is_name(token_))
      return Hint{"a comma is missing before this: `in gdv 85%, pyometra 40%`"};
    if (expects_end() && last_ == '"' && rest_.front() == '"')
      return Hint{"a comma is missing before this text"};
    if (expects("male") && rest_.front() == '"')
      return Hint{
          "several words for the same are joined by `or`: `young \"chick\" or "
          "\"fledgling\"`"};
    if (expects("a cause and its frequency") && is_digit(rest_.front()))
      return Hint{"the cause stands before its figure: `in gdv 85%`"};
    return std::nullopt;
  }

  [[nodiscard]] std::optional<Hint> in_condition() const {
    if (m_.content != Content::condition) {
      if (expects_end() && (token_ == "left" || token_ == "right"))
        return Hint{fmt::format("a place stands behind `at`, its side first: `at {} {}`", token_,
                                site_beside())};
      return std::nullopt;
    }
    auto const word = lowered(token_);
    if (word_before_ == "is" && (word == "left" || word == "right")) return place_behind_is();
    if (word == "old" && is_time(word_before_))
      return over(token_.size(), "no `old`: an age is compared as in `age under 3 months`", "");
    if (word == "then")
      return over(token_.size(), "no `then`: what follows stands in clauses of its own", "");
    if (word == "if" || word == "when")
      return over(token_.size(),
                  fmt::format("no `{}` here: conditions are joined by `and`, `or`", word), "");
    if (word == "not" && (expects("value") || word_before_ == "is"))
      return Hint{"`not` stands before the sign: `not urine is red`"};
    if (word == "but" || word == "plus" || word == "with")
      return over(token_.size(), "conditions are joined by `and` and `or`", "and");
    if (word == "without" || word == "except" || word == "unless" || word == "no")
      return over(token_.size(), "what must not be is written `and not`", "and not");
    if (rest_.front() == ':' && word_before_.empty())
      return over(1, "no colon here: the condition follows at once", "");
    for (auto const& [said, here] : comparing_words)
      if (word == said)
        return Hint{fmt::format("numbers are compared by `over`, `under`, `>=`, `<=`: `{}`", here)};
    if (word == "than") return Hint{"a step or a value is named by its one word, without `than`"};
    if (word_before_ == "no" || word_before_ == "without")
      return Hint{fmt::format("what must not be is written `not {}`", token_)};
    if (m_.expected == "a condition" && is_digit(rest_.front()))
      return Hint{"a count of signs is `at least 2 of (a, b, c)`"};
    if (word == "of" && (word_before_ == "any" || word_before_ == "one" || word_before_ == "all"))
      return Hint{fmt::format("this is written with `{0}`: `a {0} b`",
                              word_before_ == "all" ? "and" : "or")};
    if (expects_end() && is_digit(rest_.front()) && is_name(word_before_))
      return Hint{
          fmt::format("a number is compared: `{} over 40 C`, or `under`, `>=`, `<=`, "
                      "`between 39 and 40 C`",
                      word_before_)};
    if (expects("name of a step") && is_digit(rest_.front()))
      return Hint{"`at least` is for steps; a number is compared by `>=`, as in `>= 39.5 C`"};
    if (expects("name of a value") && is_digit(rest_.front()))
      return Hint{"`is` names a word; a number is compared by `over`, `under`, `>=` or `<=`"};
    if (expects("a condition") && rest_.front() == '"')
      return Hint{"a condition comes first, and its words behind it: `if SIGN \"...\"`"};
    if (expects_end() && rest_.front() == '"')
      return Hint{"a condition has no text behind it in this clause"};
    if (is_same_line_ && expects_end() && is_name(word_before_) && !token_.empty() &&
        !is_reserved(token_))
      return Hint{
          fmt::format("a value is named by `is`: `{0} is {1}`; conditions are joined by "
                      "`and` and `or`; a name is one word: `{0}_{1}`",
                      word_before_, token_)};
    return std::nullopt;
  }
  // `lame is left foreleg`.
  [[nodiscard]] Hint place_behind_is() const {
    auto end = before_word_;
    while (end > m_.stretch.begin && is_blank(m_.text[end - 1])) --end;
    auto begin = end;
    while (begin > m_.stretch.begin && is_word_part(m_.text[begin - 1])) --begin;
    auto const site = word_at(after_blanks(rest_.substr(token_.size())), 0);
    return {
        fmt::format("`is` names a value; a place stands behind `at`, its side first: `{} at {} {}`",
                    m_.text.substr(begin, end - begin), token_, is_name(site) ? site : "SITE"),
        Span{before_word_, before_word_ + 2}, "at"};
  }
  [[nodiscard]] static bool is_time(std::string_view word) {
    constexpr std::array<std::string_view, 12> times = {"year", "years", "month", "months",
                                                        "week", "weeks", "day",   "days",
                                                        "hour", "hours", "yr",    "mo"};
    return std::find(times.begin(), times.end(), word) != times.end();
  }
  // The word behind a side, or else the one before it.
  [[nodiscard]] std::string_view site_beside() const {
    auto const next = after_blanks(rest_.substr(token_.size()));
    auto const word = word_at(next, 0);
    return is_name(word) ? word : word_before_;
  }
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 8> comparing_words = {
      {{"greater", "> 39.5 C"},
       {"more", "> 39.5 C"},
       {"above", "> 39.5 C"},
       {"higher", "> 39.5 C"},
       {"less", "< 39.5 C"},
       {"below", "< 39.5 C"},
       {"lower", "< 39.5 C"},
       {"equals", ">= 39.5 C"}}};

  // `sign tail bob`, `cite smith 2003`.
  [[nodiscard]] std::optional<Hint> two_words() const {
    bool const could_go_on = expects_end() || m_.expected == "`:`" || m_.expected == "`,`" ||
                             m_.expected == "`shares`" || expects_frequency();
    // Where names stand: elsewhere two words beside each other are no slip of this kind.
    constexpr std::array<std::string_view, 26> named = {
        "part of", "affects", "cite",    "yes ",    "no ",      "unknown ", "for ",
        "slims",   "taken",   "since",   "gives",   "in ",      "sign ",    "cause ",
        "rule ",   "alarm ",  "care ",   "site ",   "example ", "pack ",    "species",
        "source ", "tier ",   "breeds ", "family ", "overlap "};
    if (length_of_any(m_.form, named) == 0) return std::nullopt;
    if (!is_same_line_ || !could_go_on || !is_name(word_before_) || !is_all_name_parts(token_))
      return std::nullopt;
    auto const joined = fmt::format("{}_{}", word_before_, token_);
    Span const both{before_word_, m_.at + static_cast<std::uint32_t>(token_.size())};
    return Hint{
        fmt::format("a name is one word, its parts joined by `_`: `{}`; several names stand "
                    "behind commas",
                    joined),
        both, joined};
  }
  [[nodiscard]] static bool is_all_name_parts(std::string_view word) {
    return !word.empty() && !is_reserved(word) &&
           std::all_of(word.begin(), word.end(), is_name_part);
  }

  Misfit const& m_;
  std::string_view rest_;
  std::string_view token_;        // the word that stands there
  std::string_view word_before_;  // the word behind which it stands
  std::uint32_t before_word_ = 0;
  char last_ = '\0';           // the last character before it that is no blank
  bool is_close_ = false;      // no blank between
  bool is_same_line_ = false;  // no line break between
};

}  // namespace

std::optional<Hint> writing_hint(Misfit const& misfit) { return Surroundings(misfit).hint(); }

}  // namespace flinch::syntax
