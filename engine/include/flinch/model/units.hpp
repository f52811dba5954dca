#pragma once
// Units of measure that rules, cases and doses may use, and their conversion.
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace flinch {

enum class Dimension : std::uint8_t {
  none,
  mass,
  temperature,
  time,
  rate,
  volume,
  length,
  share,
  substance_concentration,  ///< moles per volume
  mass_concentration
};

/// A unit with its conversion to the base of its dimension: base = (value + offset) * factor.
/// Bases: kilogram, degree Celsius, second, per minute, millilitre, millimetre, per cent, millimole
/// per litre, gram per litre.
struct Unit {
  std::string_view name;  ///< as written, `years`
  Dimension dimension = Dimension::none;
  double factor = 1;
  double offset = 0;
};

/// The unit written so; empty text is the unit of plain counts. Nothing when there is no such unit.
/// Factors: lb and oz by the international avoirdupois pound (0.45359237 kg exactly); F by its
/// definition; a month is a twelfth of a year of 365.25 days.
[[nodiscard]] std::optional<Unit> find_unit(std::string_view name);

/// `value` in unit `from` expressed in unit `to`, which must be of the same dimension.
[[nodiscard]] double convert(double value, Unit const& from, Unit const& to);

/// The names of the units of a dimension, plural forms, for messages: "`kg`, `g`, `lb`".
[[nodiscard]] std::string units_that_fit(Dimension dimension);

/// The unit of one of these kinds that a word from elsewhere stands for: `mcg` is `ug`, `ml` is
/// `mL`, `hrs` is `hours`. Nothing where it is none, or a unit already.
[[nodiscard]] std::optional<std::string_view> meant_unit(std::string_view word,
                                                         std::span<Dimension const> kinds);
/// Those of all dimensions.
[[nodiscard]] std::string all_units_that_fit();

/// All unit names.
[[nodiscard]] std::vector<std::string_view> unit_names();

}  // namespace flinch
