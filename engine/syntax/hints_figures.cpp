// Figures, doses and their units, written as elsewhere.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "syntax/layout.hpp"
#include "syntax/surroundings.hpp"
#include "syntax/words.hpp"
#include "syntax/written_elsewhere.hpp"

namespace flinch::syntax::hints {
namespace {

constexpr std::array<std::string_view, 4> dashes = {"-", "–", "—", "−"};

// `1,000`, `1.000,5` and `1,000.5`: a mark between thousands, or the decimal mark. Which it is
// nobody but the writer can tell, and they lie a thousandfold apart.
std::optional<std::string> readings_of(std::string_view whole, std::string_view part) {
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

Hint shares() { return {"the shares of the bands stand side by side without commas: `55 35 10`"}; }

// `0.7` for 70%.
Hint part_of_one(Surroundings const& a, std::string_view part) {
  auto const begin = static_cast<std::uint32_t>(part.data() - a.misfit.text.data());
  auto const written = fmt::format("{:.4g}%", 100 * value(part));
  return {fmt::format("a frequency is written in per cent, or per 1000: `{}`", written),
          Span{begin, begin + static_cast<std::uint32_t>(part.size())}, written};
}

// `every 4.8 hours`; nothing where the hours would have to be rounded.
std::optional<std::string> often(double times) {
  constexpr std::array<std::string_view, 4> words = {"once", "twice", "three times", "four times"};
  for (std::size_t i = 0; i < words.size(); ++i)
    if (times == static_cast<double>(i + 1)) return fmt::format("{} a day", words.at(i));
  constexpr double hours_a_day = 24;
  auto const tenths = 10 * hours_a_day / times;
  if (std::abs(tenths - std::round(tenths)) > 1e-9) return std::nullopt;
  return fmt::format("every {:.3g} hour{}", tenths / 10, times == hours_a_day ? "" : "s");
}

// Of a dose all that is written as elsewhere is told at once: `5 mg/kg PO SID`.
std::string further_writings(Surroundings const& a, std::string_view behind) {
  std::string out;
  if (a.misfit.holds != Holds::dose) return out;
  constexpr std::size_t most = 4;
  std::size_t told = 0;
  for (auto left = after_blanks(behind); !left.empty() && told < most;) {
    auto const size = std::min(left.find_first_of(" \t\r\n,"), left.size());
    auto const word = left.substr(0, size);
    if (auto const said = said_here(word); said && *said != word && ++told <= most)
      out += fmt::format(", `{}` is `{}`", word, *said);
    left = after_blanks(left.substr(std::max<std::size_t>(1, size)));
  }
  return out;
}

// `35% of 70`, and no more.
std::optional<Hint> sample_source(Surroundings const& a) {
  if (a.misfit.holds == Holds::in_cause && a.expects_end() && a.last == '%') {
    if (a.token == "from")
      return Hint{
          "a figure that was counted says of how many, `of 20 from smith2020`; one that was worked "
          "out says `derived from smith2020`"};
    if (a.rest.front() == '(')
      return Hint{"how many were counted, and where, is written `of 20 from smith2020`"};
  }
  bool const is_figure = a.misfit.holds == Holds::in_cause || a.misfit.holds == Holds::frequency;
  if (!is_figure || a.misfit.expected != "`from`") return std::nullopt;
  auto const size = a.number_before();
  if (size.empty()) return Hint{"a source stands behind it: `derived from smith2020`"};
  return Hint{fmt::format("a count says in which source it stands: `of {} from smith2020`", size)};
}

std::uint32_t before_unit(Surroundings const& a) {
  auto end = a.before_word;
  while (end > a.misfit.stretch.begin && is_blank(a.misfit.text[end - 1])) --end;
  return end;
}

}  // namespace

std::optional<Hint> at_the_end(Surroundings const& a) {
  if (a.misfit.expected == "`from`" && a.misfit.holds != Holds::answer) return sample_source(a);
  if (a.expects("`%`") && is_digit(a.last))
    return Hint{"a frequency says of how many: `20%`, or `20 per 1000`"};
  if (a.misfit.expected == "`cite`")
    return Hint{"behind the reason stands its source: `cite SOURCE`"};
  if (a.misfit.holds == Holds::answer && a.misfit.expected == "`from`")
    return Hint{"a number has its ends: `answer number in mg from 0 to 500`"};
  return std::nullopt;
}

// `0,5`, `.5`, `1/2`.
std::optional<Hint> point(Surroundings const& a) {
  if (a.rest.front() == '.' && a.rest.size() > 1 && is_digit(a.rest[1]) && !is_digit(a.last)) {
    auto const digits = number_beginning(a.rest.substr(1));
    return a.over(digits.size() + 1, "a number begins with a digit", fmt::format("0.{}", digits));
  }
  bool const at_comma = a.rest.front() == ',' && a.is_close && is_digit(a.last) &&
                        a.rest.size() > 1 && is_digit(a.rest[1]);
  bool const behind_comma = is_digit(a.rest.front()) && a.last == ',' && a.is_close &&
                            a.misfit.at >= a.misfit.stretch.begin + 2 &&
                            is_digit(a.misfit.text[a.misfit.at - 2]);
  if (at_comma || behind_comma) {
    auto const comma = at_comma ? a.misfit.at : a.misfit.at - 1;
    auto const whole = a.number_ending(comma);
    auto const part =
        number_beginning(a.misfit.text.substr(comma + 1, a.misfit.stretch.end - comma - 1));
    auto const end = comma + 1 + static_cast<std::uint32_t>(part.size());
    if (end < a.misfit.stretch.end && a.misfit.text[end] == ',') return shares();
    Span const both{comma - static_cast<std::uint32_t>(whole.size()), end};
    auto const behind = after_blanks(a.misfit.text.substr(end, a.misfit.stretch.end - end));
    bool const has_scale = behind.starts_with('%') || behind.starts_with("per");
    if (a.expects("shares") && !has_scale)
      return Hint{fmt::format("the shares of the bands stand side by side without commas: `{0} "
                              "{1}`; the decimal mark of one figure is a point: `{0}.{1}%`",
                              whole, part),
                  both};
    if (auto const readings = readings_of(whole, part)) return Hint{*readings, both};
    auto const written = fmt::format("{}.{}", whole, part);
    return Hint{fmt::format("the decimal mark is a point: `{}`", written), both, written};
  }
  if (a.rest.front() == ',' && is_digit(a.last) && a.expects("shares")) {
    auto const before = a.number_before();
    // `in sprain 0.7, fracture 0.4`: a part of one, where the next cause follows.
    auto const next = after_blanks(a.rest.substr(1));
    bool const is_one_share = !next.empty() && !is_digit(next.front());
    bool const has_point = before.find('.') != std::string_view::npos;
    if (is_one_share && has_point && value(before) < 1) return part_of_one(a, before);
    // `in sprain 1, fracture 2`: 1 % was meant, or a part of one; whoever writes knows.
    if (is_one_share && value(before) > 0 && value(before) <= 100)
      return Hint{fmt::format("a frequency is written in per cent, or per 1000: `{}%`", before)};
    return shares();
  }
  if (a.rest.front() == '/' && is_digit(a.last) && a.rest.size() > 1 && is_digit(a.rest[1]) &&
      !a.expects_frequency()) {
    auto const above = a.number_ending(a.misfit.at);
    auto const below = number_beginning(a.rest.substr(1));
    if (value(below) > 0)
      return Hint{
          fmt::format("a fraction is written with a point: `{:.4g}`", value(above) / value(below)),
          Span{a.misfit.at - static_cast<std::uint32_t>(above.size()),
               a.misfit.at + 1 + static_cast<std::uint32_t>(below.size())},
          fmt::format("{:.4g}", value(above) / value(below))};
  }
  return std::nullopt;
}

// `40-50%`: the second is read as a share below 0.
static std::optional<Hint> range_of_shares(Surroundings const& a) {
  if (a.misfit.holds != Holds::in_cause || !a.expects_end() || a.rest.front() != '%')
    return std::nullopt;
  auto const high = a.number_before();
  if (high.empty()) return std::nullopt;
  auto const begin = static_cast<std::uint32_t>(high.data() - a.misfit.text.data());
  if (begin < 2 || a.misfit.text[begin - 1] != '-') return std::nullopt;
  auto const low = a.number_ending(begin - 1);
  if (low.empty()) return std::nullopt;
  auto const middle = fmt::format("{:.4g}", (value(low) + value(high)) / 2);
  return Hint{
      fmt::format("one figure is wanted, not a range: your best estimate, such as `{}%`", middle),
      Span{static_cast<std::uint32_t>(low.data() - a.misfit.text.data()), a.misfit.at}, middle};
}

namespace {

// `hold 1 to 98%`, `overlap breathing shares 50: tail`.
std::optional<Hint> missing_scale(Surroundings const& a) {
  auto const before = a.number_before();
  if (before.empty()) return std::nullopt;
  if (a.misfit.form.starts_with("hold ") && a.token == "to") {
    auto const high = number_beginning(after_blanks(a.rest.substr(2)));
    return Hint{fmt::format("each of the two has its scale: `hold {}% to {}%`", before,
                            high.empty() ? "99.5" : high)};
  }
  if (a.misfit.form.starts_with("overlap ") && a.rest.front() == ':')
    return Hint{fmt::format("the scale is missing before the colon: `shares {}%:`", before)};
  return std::nullopt;
}

}  // namespace

// One figure is wanted: no range, no bound, no word.
std::optional<Hint> frequency(Surroundings const& a) {
  if (auto out = range_of_shares(a)) return out;
  if (auto out = sample_source(a)) return out;
  if (!a.expects_frequency()) return std::nullopt;
  if (auto out = missing_scale(a)) return out;
  auto const before = a.number_before();
  auto const dash = length_of_any(a.rest, dashes);
  auto const to = a.token == "to" ? std::size_t{2} : 0;
  if (!before.empty() && (dash != 0 || to != 0)) {
    auto const next = number_beginning(after_blanks(a.rest.substr(dash + to)));
    if (next.empty()) return std::nullopt;
    auto const scale = after_blanks(a.misfit.text.substr(
        static_cast<std::size_t>(next.data() + next.size() - a.misfit.text.data())));
    auto const end = static_cast<std::uint32_t>(next.data() + next.size() - a.misfit.text.data());
    auto const middle = fmt::format("{:.4g}", (value(before) + value(next)) / 2);
    constexpr std::string_view start = "one figure is wanted, not a range: your best estimate";
    auto const scaled = scale.starts_with('%') ? "%" : scale.starts_with("per") ? " per 1000" : "";
    if (std::string_view(scaled).empty())
      return Hint{
          fmt::format("{0} with its scale, such as `{1}%` or `{1} per 1000`", start, middle)};
    return Hint{fmt::format("{}, such as `{}{}`", start, middle, scaled),
                Span{static_cast<std::uint32_t>(before.data() - a.misfit.text.data()), end},
                middle};
  }
  if (a.rest.starts_with("‰")) return a.over(3, "thousandths are `per 1000`", " per 1000");
  auto const word = lowered(a.token);
  if (word == "percent" || word == "pct")
    return a.over(a.token.size(), "per cent is written `%`", "%");
  if (word == "per" && !before.empty()) {
    auto const next = after_blanks(a.rest.substr(3));
    if (next.starts_with("cent"))
      return Hint{"per cent is written `%`",
                  a.span(static_cast<std::size_t>(next.data() + 4 - a.rest.data())), "%"};
  }
  bool const is_ratio =
      a.rest.front() == ':' || a.rest.front() == '/' || word == "in" || word == "of";
  if (!before.empty() && is_ratio) {
    auto const below =
        number_beginning(after_blanks(a.rest.substr(std::max<std::size_t>(1, word.size()))));
    // The scale ends below 1000, and no number has an exponent.
    auto const shares_1000 = value(below) > 0 ? 1000 * value(before) / value(below) : 0;
    if (!below.empty() && (shares_1000 >= 1000 || shares_1000 < 0.001))
      return Hint{
          "a frequency lies between none and all, and says of how many: `20%`, or `20 per 1000`"};
    if (!below.empty()) {
      auto const per = fmt::format("{:.4g} per 1000", shares_1000);
      return Hint{
          fmt::format("a ratio is written `{}`", per),
          Span{static_cast<std::uint32_t>(before.data() - a.misfit.text.data()),
               static_cast<std::uint32_t>(below.data() + below.size() - a.misfit.text.data())},
          per};
    }
  }
  constexpr std::array<std::string_view, 10> bounds = {"<", ">", "~",     "≈",     "±",
                                                       "≤", "≥", "about", "under", "over"};
  if (length_of_any(a.rest, bounds) != 0)
    return Hint{"one figure is wanted, without a sign: your best estimate, such as `3%`"};
  constexpr std::array<std::string_view, 14> words = {
      "common",   "rare", "always", "never",   "often",   "sometimes", "rarely",
      "frequent", "most", "few",    "unknown", "usually", "high",      "low"};
  if (std::find(words.begin(), words.end(), word) != words.end())
    return Hint{
        "a frequency is a figure, even if it is only judged: of 100 such patients, how "
        "many have it? `12%`"};
  if (a.rest.front() == ',' && is_name(a.word_before))
    return Hint{fmt::format("each cause has its own figure: `{} 80%`", a.word_before)};
  if (a.rest.front() == ':' || a.rest.front() == '=')
    return a.over(1, fmt::format("no `{}` here: the figure follows the name", a.rest.front()), "");
  return std::nullopt;
}

std::optional<Hint> elsewhere(Surroundings const& a) {
  if (a.misfit.content == Content::condition) return std::nullopt;
  bool const is_dose = a.expects_end() || a.expects("amount") || a.expects("interval") ||
                       a.expects("once a day") || a.expects("a way such as");
  if (!is_dose) return std::nullopt;
  // `3 times daily`, `3x daily`.
  if (is_digit(a.rest.front())) {
    auto const count = number_beginning(a.rest);
    auto next = after_blanks(a.rest.substr(count.size()));
    bool const is_times =
        next.starts_with("times") || next.starts_with("x ") || next.starts_with("× ");
    auto const times = value(count);
    if (is_times && times >= 1 && times <= 24) {
      next = after_blanks(next.substr(std::min(next.find(' '), next.size())));
      auto length = static_cast<std::size_t>(next.data() - a.rest.data());
      for (auto const* day : {"daily", "a day", "per day", "/day", "day"})
        if (next.starts_with(day)) {
          length += std::string_view(day).size();
          break;
        }
      auto const said = often(times);
      if (!said)
        return a.over(length,
                      "how often is told by the hours from one dose to the next, as in `every 8 "
                      "hours`",
                      std::nullopt);
      return a.over(length, fmt::format("how often is written in words: `{}`", *said), *said);
    }
    return std::nullopt;
  }
  auto const word = lowered(a.token);
  bool const is_no_interval = word.size() > 2 && word.front() == 'q' &&
                              (word.ends_with("h") || word.ends_with("d")) &&
                              word.find_first_not_of('0', 1) == word.size() - 1;
  if (is_no_interval)
    return Hint{"an interval is longer than 0: `every 8 hours`; what is given once has none"};
  if (auto const said = said_here(word))
    return a.over(word.size(), fmt::format("this is written `{}`", *said), *said);
  // `twice daily` breaks off behind its first word.
  if (a.expects("once a day"))
    for (auto const* often : {"once", "twice", "three times", "four times"})
      if (a.rest.starts_with(often)) {
        auto const next = after_blanks(a.rest.substr(std::string_view(often).size()));
        for (auto const* day : {"daily", "per day", "each day", "every day"})
          if (next.starts_with(day)) {
            auto const said = fmt::format("{} a day", often);
            return a.over(static_cast<std::size_t>(next.data() - a.rest.data()) +
                              std::string_view(day).size(),
                          fmt::format("this is written `{}`", said), said);
          }
      }
  if (a.last != '\0' && a.word_before == "every" && (word == "day" || word == "hour"))
    return Hint{"an interval has its number: `every 24 hours`, `once a day`"};
  return std::nullopt;
}

// A slash after a unit.
std::optional<Hint> per(Surroundings const& a) {
  if (a.rest.front() != '/' || (a.last != '\0' && !is_word_part(a.last))) return std::nullopt;
  constexpr std::array<std::pair<std::string_view, std::string_view>, 14> rates = {{
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
      {"/dl", " per dL"},
      {"/dL", " per dL"},
      {"/l", " per L"},
      {"/L", " per L"},
  }};
  std::optional<std::string> instead;
  std::size_t length = 1;
  for (auto const& [slash, words] : rates)
    if (a.rest.starts_with(slash)) {
      bool const is_apart = !a.is_close;
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
                          further_writings(a, a.rest.substr(length))),
              a.span(length), std::move(instead)};
}

std::optional<Hint> range(Surroundings const& a) {
  auto const dash = length_of_any(a.rest, dashes);
  if (dash == 0) return std::nullopt;
  bool const has_number = is_digit(a.last) || a.last == '%';
  bool const has_unit = is_word_part(a.last) && a.before_word > a.misfit.stretch.begin &&
                        !a.number_ending(before_unit(a)).empty();
  auto const next = after_blanks(a.rest.substr(dash));
  if ((has_number || has_unit) && !next.empty() && is_digit(next.front()))
    return a.over(dash, "a range is written with `to`, as in `0.6 to 1 mg per kg`", " to ");
  return std::nullopt;
}

// `°C`, `µg`.
std::optional<Hint> unit_mark(Surroundings const& a) {
  for (auto const* degree : {"°", "º", "˚"})
    if (a.rest.starts_with(degree)) {
      auto const next = after_blanks(a.rest.substr(std::string_view(degree).size()));
      char const unit = next.empty() ? '\0' : lowered(next.substr(0, 1)).front();
      if (unit != 'c' && unit != 'f')
        return Hint{"degrees are written `C` or `F`, without the ring"};
      std::string const here(1, unit == 'c' ? 'C' : 'F');
      return a.over(static_cast<std::size_t>(next.data() - a.rest.data()) + 1,
                    fmt::format("degrees are written without the ring: `{}`", here),
                    a.is_close ? " " + here : here);
    }
  for (auto const* micro : {"µ", "μ"})
    if (a.rest.starts_with(micro)) {
      auto const unit = word_at(a.rest, static_cast<std::uint32_t>(std::string_view(micro).size()));
      auto const here = fmt::format("u{}", unit);
      return a.over(std::string_view(micro).size() + unit.size(),
                    fmt::format("this unit is written `{}`", here), a.is_close ? " " + here : here);
    }
  return std::nullopt;
}

}  // namespace flinch::syntax::hints
