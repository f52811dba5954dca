#include "flinch/model/units.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "flinch/text/nearest.hpp"

namespace flinch {
namespace {

constexpr double pound_kg = 0.45359237;  // international avoirdupois pound, exact by definition
constexpr double year_s = 365.25 * 24 * 3600;

constexpr std::array<Unit, 37> units = {{
    {"kg", Dimension::mass, 1},
    {"g", Dimension::mass, 1e-3},
    {"mg", Dimension::mass, 1e-6},
    {"ug", Dimension::mass, 1e-9},
    {"lb", Dimension::mass, pound_kg},
    {"oz", Dimension::mass, pound_kg / 16},
    {"C", Dimension::temperature, 1},
    {"F", Dimension::temperature, 5.0 / 9.0, -32},
    {"seconds", Dimension::time, 1},
    {"minutes", Dimension::time, 60},
    {"hours", Dimension::time, 3600},
    {"days", Dimension::time, 86400},
    {"weeks", Dimension::time, 7 * 86400.0},
    {"months", Dimension::time, year_s / 12},
    {"years", Dimension::time, year_s},
    {"second", Dimension::time, 1},
    {"minute", Dimension::time, 60},
    {"hour", Dimension::time, 3600},
    {"day", Dimension::time, 86400},
    {"week", Dimension::time, 7 * 86400.0},
    {"month", Dimension::time, year_s / 12},
    {"year", Dimension::time, year_s},
    {"per minute", Dimension::rate, 1},
    {"per hour", Dimension::rate, 1.0 / 60},
    {"per day", Dimension::rate, 1.0 / (24 * 60)},
    {"mL", Dimension::volume, 1},
    {"L", Dimension::volume, 1000},
    {"mm", Dimension::length, 1},
    {"cm", Dimension::length, 10},
    {"%", Dimension::share, 1},
    {"mmol per L", Dimension::substance_concentration, 1},
    {"umol per L", Dimension::substance_concentration, 1e-3},
    {"g per L", Dimension::mass_concentration, 1},
    {"g per dL", Dimension::mass_concentration, 10},
    {"mg per dL", Dimension::mass_concentration, 1e-2},
    {"ug per dL", Dimension::mass_concentration, 1e-5},
    {"", Dimension::none, 1},
}};

// Of times the plural alone.
bool is_told(Unit const& unit) {
  return !unit.name.empty() && (unit.dimension != Dimension::time || unit.name.ends_with('s'));
}

}  // namespace

std::optional<Unit> find_unit(std::string_view name) {
  auto const* found =
      std::find_if(units.begin(), units.end(), [&](Unit const& unit) { return unit.name == name; });
  if (found == units.end()) return std::nullopt;
  return *found;
}

double convert(double value, Unit const& from, Unit const& to) {
  if (from.factor == to.factor && from.offset == to.offset) return value;  // no rounding
  return (value + from.offset) * from.factor / to.factor - to.offset;
}

std::optional<std::string_view> meant_unit(std::string_view word,
                                           std::span<Dimension const> kinds) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 47> words = {{
      {"mcg", "ug"},        {"µg", "ug"},          {"gm", "g"},           {"gr", "g"},
      {"gram", "g"},        {"grams", "g"},        {"kilo", "kg"},        {"kilos", "kg"},
      {"kgs", "kg"},        {"kilogram", "kg"},    {"kilograms", "kg"},   {"milligram", "mg"},
      {"milligrams", "mg"}, {"mgs", "mg"},         {"microgram", "ug"},   {"micrograms", "ug"},
      {"lbs", "lb"},        {"pound", "lb"},       {"pounds", "lb"},      {"ounce", "oz"},
      {"ounces", "oz"},     {"cc", "mL"},          {"ccm", "mL"},         {"milliliter", "mL"},
      {"millilitre", "mL"}, {"milliliters", "mL"}, {"millilitres", "mL"}, {"mls", "mL"},
      {"liter", "L"},       {"litre", "L"},        {"celsius", "C"},      {"fahrenheit", "F"},
      {"h", "hours"},       {"hr", "hours"},       {"hrs", "hours"},      {"min", "minutes"},
      {"mins", "minutes"},  {"sec", "seconds"},    {"yr", "years"},       {"yrs", "years"},
      {"y", "years"},       {"mo", "months"},      {"wk", "weeks"},       {"bpm", "per minute"},
      {"percent", "%"},     {"d", "days"},         {"w", "weeks"},
  }};
  auto const fits = [&](Unit const& unit) {
    return std::find(kinds.begin(), kinds.end(), unit.dimension) != kinds.end();
  };
  std::string small(word);
  for (auto& c : small) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  for (auto const& [elsewhere, here] : words)
    if (small == elsewhere && fits(*find_unit(here))) return here;
  // In capitals or not; then a slip of the key, in words that are long enough to tell.
  constexpr std::size_t telling = 4;
  std::vector<std::string_view> fitting;
  for (auto const& unit : units)
    if (fits(unit) && !unit.name.empty() && unit.name != word) {
      auto name = std::string(unit.name);
      for (auto& c : name) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
      if (name == small) return unit.name;
      fitting.push_back(unit.name);
    }
  if (word.size() < telling) return std::nullopt;
  auto const near = nearest(word, fitting);
  if (!near) return std::nullopt;
  return find_unit(*near)->name;
}

std::string units_that_fit(Dimension dimension) {
  std::string out;
  for (auto const& unit : units)
    if (unit.dimension == dimension && is_told(unit))
      out += (out.empty() ? "`" : ", `") + std::string(unit.name) + "`";
  return out;
}

std::string all_units_that_fit() {
  std::string out;
  for (auto const& unit : units)
    if (is_told(unit)) out += (out.empty() ? "`" : ", `") + std::string(unit.name) + "`";
  return out;
}

std::vector<std::string_view> unit_names() {
  std::vector<std::string_view> names;
  for (auto const& unit : units)
    if (!unit.name.empty()) names.push_back(unit.name);
  return names;
}

}  // namespace flinch
