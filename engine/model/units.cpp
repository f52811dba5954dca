#include "flinch/model/units.hpp"

#include <algorithm>
#include <array>

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
