#include "flinch/explain/condition.hpp"

#include <fmt/format.h>

#include <cmath>

#include "flinch/explain/reasons.hpp"

namespace flinch {
namespace {

// Under a year as a pack says it, in whole months or else in weeks.
std::string time_in_years_text(double years) {
  auto const months = years * 12;
  if (std::abs(months - std::round(months)) < 1e-6) return fmt::format("{:.0f} months", months);
  constexpr double weeks_in_year = 365.25 / 7;
  return fmt::format("{:.3g} weeks", years * weeks_in_year);
}

std::string amount_text(Sign const& sign, double value) {
  if (sign.unit.name == "years" && value > 0 && value < 1) return time_in_years_text(value);
  std::string_view unit = sign.unit.name;
  if (value == 1 && sign.unit.dimension == Dimension::time && unit.ends_with('s'))
    unit.remove_suffix(1);  // 1 hour
  return unit.empty() ? fmt::format("{:.4g}", value) : fmt::format("{:.4g} {}", value, unit);
}

std::string range_text(Sign const& sign, Test const& test) {
  auto const low = amount_text(sign, test.low);
  auto const high = amount_text(sign, test.high);
  if (std::isfinite(test.low) && std::isfinite(test.high))
    return fmt::format("{} {} to {}{}", sign.label, low, test.high_included ? "" : "under ", high);
  if (std::isfinite(test.low))
    return test.low_included ? fmt::format("{} {} or more", sign.label, low)
                             : fmt::format("{} over {}", sign.label, low);
  return test.high_included ? fmt::format("{} {} or less", sign.label, high)
                            : fmt::format("{} under {}", sign.label, high);
}

}  // namespace

std::string test_text(Pack const& pack, Test const& test) {
  auto const& sign = pack[test.sign];
  switch (test.kind) {
    case Test::Kind::holds:
      return sign.label;
    case Test::Kind::at_site:
      return fmt::format("{} at {}", sign.label, site_text(pack, test.mark));
    case Test::Kind::is_value: {
      std::string values;
      for (auto const value : test.values)
        values += (values.empty() ? "" : " or ") + sign.values[value].label;
      return fmt::format("{}: {}", sign.label, values);
    }
    case Test::Kind::at_least:
      return fmt::format("{}: at least {}", sign.label, sign.values[test.values.front()].label);
    case Test::Kind::in_range:
      return range_text(sign, test);
    case Test::Kind::in_group:
      return fmt::format("breed: {}", pack.groups[index(test.group)].title);
  }
  return sign.label;
}

std::string as_written(Pack const& pack, Condition const& condition) {
  if (condition.kind == Condition::Kind::meaning) return pack[condition.meaning].name;
  auto const& test = condition.test;
  auto const& sign = pack[test.sign];
  auto const value = [&](std::uint32_t index) { return sign.values[index].name; };
  switch (test.kind) {
    case Test::Kind::holds:
      break;
    case Test::Kind::at_site: {
      auto const* const side = test.mark.side == Side::left    ? "left "
                               : test.mark.side == Side::right ? "right "
                                                               : "";
      return fmt::format("{} at {}{}", sign.name, side, pack[test.mark.site].name);
    }
    case Test::Kind::is_value: {
      std::string values;
      for (auto const index : test.values) values += (values.empty() ? "" : " or ") + value(index);
      return fmt::format("{} is {}", sign.name, values);
    }
    case Test::Kind::at_least:
      return fmt::format("{} at least {}", sign.name, value(test.values.front()));
    case Test::Kind::in_range: {
      auto const low = amount_text(sign, test.low);
      auto const high = amount_text(sign, test.high);
      if (std::isfinite(test.low) && std::isfinite(test.high))
        return fmt::format("{} between {} and {}", sign.name, low, high);
      return std::isfinite(test.low)
                 ? fmt::format("{} {} {}", sign.name, test.low_included ? ">=" : ">", low)
                 : fmt::format("{} {} {}", sign.name, test.high_included ? "<=" : "<", high);
    }
    case Test::Kind::in_group:
      return fmt::format("breed in {}", pack.groups[index(test.group)].key);
  }
  return sign.name;
}

std::string node_text(Pack const& pack, Condition const& condition) {
  switch (condition.kind) {
    case Condition::Kind::test:
      return test_text(pack, condition.test);
    case Condition::Kind::meaning:
      return pack[condition.meaning].title;
    case Condition::Kind::negation:
      return "not";
    case Condition::Kind::unless:
      return "unless it is known that";
    case Condition::Kind::all:
      return "all of";
    case Condition::Kind::any:
      return "any of";
    case Condition::Kind::count:
      return fmt::format("at least {} of", condition.needed);
  }
  return {};
}

std::string condition_text(Pack const& pack, Condition const& condition) {
  auto const parts = [&](std::string_view between) {
    std::string out;
    for (auto const& one : condition.parts) {
      bool const is_plain = one.parts.empty() || one.kind == Condition::Kind::negation;
      auto const text = condition_text(pack, one);
      out += fmt::format("{}{}", out.empty() ? "" : between, is_plain ? text : "(" + text + ")");
    }
    return out;
  };
  switch (condition.kind) {
    case Condition::Kind::negation:
      return "not (" + condition_text(pack, condition.parts.front()) + ")";
    case Condition::Kind::all:
      return parts(" and ");
    case Condition::Kind::any:
      return parts(" or ");
    case Condition::Kind::count:
      return fmt::format("{}: {}", node_text(pack, condition), parts("; "));
    case Condition::Kind::unless:
      return fmt::format("{} {}", node_text(pack, condition),
                         condition_text(pack, condition.parts.front()));
    case Condition::Kind::test:
    case Condition::Kind::meaning:
      break;
  }
  return node_text(pack, condition);
}

}  // namespace flinch
