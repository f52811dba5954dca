#include "model/measure_text.hpp"

#include <charconv>
#include <cmath>

namespace flinch {
namespace {

std::string_view trimmed(std::string_view text) {
  auto const first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

}  // namespace

std::optional<WrittenAmount> read_amount(std::string_view text) {
  text = trimmed(text);
  double value = 0;
  auto const [end, error] =
      std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
  if (error != std::errc{} || !std::isfinite(value)) return std::nullopt;
  auto unit = trimmed(text.substr(static_cast<std::size_t>(end - text.data())));
  constexpr std::string_view degree = "\xC2\xB0";
  if (unit.substr(0, degree.size()) == degree) unit.remove_prefix(degree.size());
  return WrittenAmount{value, std::string(unit)};
}

std::optional<AmountRange> read_range(std::string_view text, Dimension dimension) {
  auto const middle = text.find(" to ");
  if (middle == std::string_view::npos) return std::nullopt;
  auto const low = read_amount(text.substr(0, middle));
  auto const high = read_amount(text.substr(middle + 4));
  if (!low || !high) return std::nullopt;
  auto const unit = find_unit(high->unit);
  if (!unit || unit->dimension != dimension || (!low->unit.empty() && low->unit != high->unit))
    return std::nullopt;
  Unit const base{"", dimension, 1, 0};
  return AmountRange{convert(low->value, *unit, base), convert(high->value, *unit, base)};
}

}  // namespace flinch
