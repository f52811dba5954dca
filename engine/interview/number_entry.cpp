// Typed numbers, ages and birth dates.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "flinch/model/body_weight.hpp"
#include "flinch/model/shown_weight.hpp"
#include "interview/entry_words.hpp"

namespace flinch {
namespace {

constexpr std::array days_before_month = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334};

bool is_leap(int year) { return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0; }

int days_of(int year, int month) {
  constexpr std::array days = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  return days[static_cast<std::size_t>(month - 1)] + (month == 2 && is_leap(year) ? 1 : 0);
}

// Days since the first of January of year 1, in the Gregorian calendar.
int day_number(Date const& date) {
  auto const past = date.year - 1;
  auto const leap_day = date.month > 2 && is_leap(date.year) ? 1 : 0;
  return past * 365 + past / 4 - past / 100 + past / 400 +
         days_before_month[static_cast<std::size_t>(date.month - 1)] + leap_day + date.day;
}

// `2019-04-12` or `2019-04` (then the middle of the month), blanks around it allowed.
std::optional<Date> written_date(std::string_view text) {
  auto const first = text.find_first_not_of(" \tborn");
  if (first == std::string_view::npos) return std::nullopt;
  text = text.substr(first, text.find_last_not_of(" \t") - first + 1);
  if (text.size() != 10 && text.size() != 7) return std::nullopt;
  Date date{0, 0, 15};
  auto const part = [&](std::size_t at, std::size_t length, int& value) {
    auto const* const last = text.data() + at + length;
    auto const read = std::from_chars(text.data() + at, last, value);
    return read.ec == std::errc{} && read.ptr == last && value > 0;
  };
  bool sound = part(0, 4, date.year) && text[4] == '-' && part(5, 2, date.month);
  if (text.size() == 10) sound = sound && text[7] == '-' && part(8, 2, date.day);
  if (!sound || date.year < 1900 || date.month > 12 || date.day > days_of(date.year, date.month))
    return std::nullopt;
  return date;
}

// To two digits.
double rounded(double value) {
  auto const scale = std::pow(10, std::floor(std::log10(value)) - 1);
  return std::round(value / scale) * scale;
}

// What to write, for this sign.
std::string examples(Pack const& pack, Sign const& sign) {
  if (sign.of_the_patient && sign.unit.dimension == Dimension::time)
    return "such as 8 months, 11.5 years, or born 2019-04-12";
  switch (sign.unit.dimension) {
    case Dimension::mass:
      return fmt::format("such as {}, {}", weight_example(pack), believed_weights(pack));
    case Dimension::temperature:
      return "such as 38.6 C or 101.5 F";
    default:
      return sign.unit.name.empty()
                 ? fmt::format("from {:g} to {:g}", sign.low, sign.high)
                 : fmt::format("from {:g} to {:g} {}", sign.low, sign.high, sign.unit.name);
  }
}

// "20 kg 44 lb" is one weight told twice, and no sum.
bool are_of_two_systems(std::vector<TypedAmount> const& amounts) {
  auto const has = [&](std::string_view one, std::string_view other) {
    return std::any_of(amounts.begin(), amounts.end(), [&](TypedAmount const& amount) {
      return amount.unit == one || amount.unit == other;
    });
  };
  return has("kg", "g") && has("lb", "oz");
}

bool is_believable(Sign const& sign, double value) {
  return value >= sign.low && value <= sign.high;
}

// The units in which a bare number may be meant.
std::vector<std::string_view> usual_units(Pack const& pack, Sign const& sign) {
  if (sign.unit.dimension == Dimension::mass && weight_unit(pack).name == "g") return {"g"};
  if (sign.unit.dimension == Dimension::mass) return {"kg", "lb"};
  if (sign.unit.dimension == Dimension::temperature) return {"C", "F"};
  return {sign.unit.name};
}

Entry bare_number(Pack const& pack, Sign const& sign, double value, std::string_view typed) {
  std::vector<double> readings;
  auto const units = usual_units(pack, sign);
  for (auto const unit : units) {
    auto const converted = convert(value, *find_unit(unit), sign.unit);
    if (is_believable(sign, converted)) readings.push_back(converted);
  }
  if (readings.size() == 1) return {Answer(readings.front()), false, {}};
  if (readings.size() > 1)
    return remark(fmt::format("{} what? Write {} {} or {} {}.", quoted(typed), quoted(typed),
                              units[0], quoted(typed), units[1]));
  // Small patients are weighed in grams. That is asked, not taken: a slip of the key looks the
  // same.
  if (sign.unit.dimension == Dimension::mass &&
      is_believable(sign, convert(value, *find_unit("g"), sign.unit)))
    return remark(
        fmt::format("{} what? Write {} g, if grams are meant.", quoted(typed), quoted(typed)));
  return remark(fmt::format("{} cannot be believed for {}; write one {}.", quoted(typed),
                            sign.label, examples(pack, sign)));
}

Entry birth_date(Pack const& pack, Sign const& sign, Date const& born, Date const& today) {
  auto const days = day_number(today) - day_number(born);
  if (days < 0) return remark("That day is still to come; write it as 2019-04-12.");
  auto const age = convert(days, *find_unit("days"), sign.unit);
  if (!is_believable(sign, age))
    return remark(
        fmt::format("That would be {:.0f} years; write the age {}.", age, examples(pack, sign)));
  return {Answer(age), false, {}};
}

}  // namespace

std::string weight_example(Pack const& pack, std::optional<std::uint32_t> breed) {
  constexpr double usual_kg = 31.5;
  auto dosed = pack.doses;
  if (breed && *breed < pack.breeds.breeds.size())
    if (auto const& grown = pack.breeds.breeds[*breed].adult_weight; grown.high_kg > 0)
      dosed = {grown.low_kg, grown.high_kg};
  if (is_believable_kg(dosed, usual_kg)) return "31.5 kg or 68 lb";
  auto const middle_kg = std::sqrt(dosed.lightest_kg * dosed.heaviest_kg);
  auto const unit = weight_unit(pack);
  if (unit.name == "g") return fmt::format("{:g} g", rounded(unit.in_a_kg * middle_kg));
  return fmt::format("{:g} kg or {:g} lb", rounded(middle_kg),
                     rounded(convert(middle_kg, *find_unit("kg"), *find_unit("lb"))));
}

std::optional<std::string> amount_as_typed(Sign const& sign, double value, std::string_view typed) {
  auto const dimension = sign.unit.dimension;
  if (dimension != Dimension::mass && dimension != Dimension::temperature) return std::nullopt;
  auto const words = entry_words(typed);
  for (std::size_t i = 0; i + 1 < words.size(); ++i) {
    auto const amounts = typed_amounts({words[i], words[i + 1]}, UpperLimit::tells_nothing);
    if (!amounts || amounts->size() != 1 || amounts->front().unit.empty()) continue;
    auto const unit = find_unit(amounts->front().unit);
    if (unit->dimension != dimension) continue;
    if (unit->name == sign.unit.name) return std::nullopt;
    return fmt::format("{:.4g} {}", convert(value, sign.unit, *unit), unit->name);
  }
  return std::nullopt;
}

Entry read_number(Pack const& pack, SignId id, std::string_view typed, Date today) {
  auto const& sign = pack[id];
  if (sign.unit.dimension == Dimension::mass && !sign.of_the_patient)
    return read_substance(sign, typed);
  bool const is_age = sign.of_the_patient && sign.unit.dimension == Dimension::time;
  if (is_age)
    if (auto const born = written_date(typed)) return birth_date(pack, sign, *born, today);
  bool const has_minus = typed.find_first_not_of(" \t") != std::string_view::npos &&
                         typed[typed.find_first_not_of(" \t")] == '-';
  auto words = entry_words(typed);
  // Of an age, "8 m" can only mean months.
  if (is_age) std::replace(words.begin(), words.end(), std::string("m"), std::string("months"));
  auto amounts = has_minus ? std::nullopt : typed_amounts(words, UpperLimit::tells_nothing);
  // "8 and 3 months": years and months.
  if (is_age && amounts && amounts->size() == 2 && amounts->front().unit.empty() &&
      amounts->back().unit == "months")
    amounts->front().unit = "years";
  if (!amounts)
    return remark(fmt::format("Not understood: \"{}\". Write one {}; or ?.", quoted(typed),
                              examples(pack, sign)));
  if (amounts->size() == 1 && amounts->front().unit.empty())
    return bare_number(pack, sign, amounts->front().value, typed);
  if (are_of_two_systems(*amounts))
    return remark(fmt::format("\"{}\" are two weights, or one told twice; write one {}.",
                              quoted(typed), examples(pack, sign)));
  double sum = 0;
  for (auto const& amount : *amounts) {
    auto const unit = find_unit(amount.unit);
    if (amount.unit.empty() || unit->dimension != sign.unit.dimension)
      return remark(fmt::format("\"{}\" is no {}; write one {}.", quoted(typed), sign.label,
                                examples(pack, sign)));
    // Only temperatures have an offset, and no one gives them in two parts.
    sum += convert(amount.value, *unit, sign.unit);
  }
  if (!is_believable(sign, sum))
    return remark(fmt::format("{} cannot be believed for {}; write one {}.", quoted(typed),
                              sign.label, examples(pack, sign)));
  return {Answer(sum), false, {}};
}

}  // namespace flinch
