#include "model/fit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "flinch/model/shown_weight.hpp"
#include "flinch/syntax/print.hpp"

namespace flinch {

std::optional<std::string> doubt_of_comma(std::string_view whole, std::string_view part) {
  constexpr std::size_t digits_of_a_thousand = 3;
  auto const digits = std::min(part.find_first_not_of("0123456789"), part.size());
  if (digits != digits_of_a_thousand || whole == "0") return std::nullopt;
  return fmt::format(
      "a number has no comma, and the decimal mark is a point: is it `{0}{1}` or `{0}.{1}`?", whole,
      part);
}

std::optional<double> fitting_amount(Sign const& sign, double value, std::string_view unit_name,
                                     Place at, Report& report) {
  auto const unit = find_unit(unit_name);
  if (unit && unit->dimension == sign.unit.dimension) return convert(value, *unit, sign.unit);
  auto const fitting = sign.unit.dimension == Dimension::none
                           ? std::string("it is a plain number")
                           : "these fit: " + units_that_fit(sign.unit.dimension);
  // `0,5 kg` in a case file: what follows the comma is read as the unit.
  if (unit_name.size() > 1 && unit_name[0] == ',' && unit_name[1] >= '0' && unit_name[1] <= '9') {
    auto& error =
        report.error(Code::unit_misfit, at,
                     fmt::format("`{}{}` is no amount", syntax::print_number(value), unit_name));
    auto const part = unit_name.substr(1);
    auto const decimal = fmt::format("{}.{}", syntax::print_number(value), part);
    if (auto doubt = doubt_of_comma(syntax::print_number(value), part))
      error.notes.push_back({std::move(*doubt), {}});
    else
      error.did_you_mean(decimal);
    return std::nullopt;
  }
  auto& error = report.error(
      Code::unit_misfit, at,
      unit_name.empty()
          ? fmt::format("`{}` needs a unit; {}", sign.name, fitting)
          : fmt::format("unit `{}` does not fit `{}`; {}", unit_name, sign.name, fitting));
  bool const has_number =
      std::any_of(unit_name.begin(), unit_name.end(), [](char c) { return c >= '0' && c <= '9'; });
  if (has_number)
    error.notes.push_back({"one number and its unit are wanted, as in `18 months`", {}});
  suggest_unit(error, value, unit_name, std::array{sign.unit.dimension});
  return std::nullopt;
}

std::string believed_text(Pack const& pack, SignId sign) {
  bool const is_weight = sign == patient_sign::weight || sign == patient_sign::weight_confirmed;
  auto const& s = pack[sign];
  auto const unit = is_weight ? weight_unit(pack) : WeightUnit{s.unit.name, 1};
  // Ages told in months are kept in years.
  auto const told = [&](double value) {
    constexpr std::size_t longest = 8;
    auto out = syntax::print_number(value * unit.in_a_kg);
    return out.size() > longest ? fmt::format("{:.4g}", value * unit.in_a_kg) : out;
  };
  return fmt::format("{} and {}{}{}", told(s.low), told(s.high), unit.name.empty() ? "" : " ",
                     unit.name);
}

bool is_believable(Pack const& pack, SignId sign, double converted, double value,
                   std::string_view unit_name, Place at, Report& report) {
  auto const& s = pack[sign];
  constexpr double rounding = 1e-9;  // of units that are converted
  auto const slack = rounding * std::max(std::abs(s.low), std::abs(s.high));
  if (converted >= s.low - slack && converted <= s.high + slack) return true;
  auto& error = report.error(Code::answer_range, at,
                             fmt::format("{}{}{} is not believable for `{}`: it lies between {}",
                                         syntax::print_number(value), unit_name.empty() ? "" : " ",
                                         unit_name, s.name, believed_text(pack, sign)));
  std::vector<std::string> fitting;
  for (auto const* other : {"lb", "g", "kg", "C", "F", "months", "years"}) {
    auto const unit = *find_unit(other);
    if (unit.dimension != s.unit.dimension || unit_name == other) continue;
    auto const there = convert(value, unit, s.unit);
    if (there >= s.low && there <= s.high)
      fitting.push_back(fmt::format("{} {}", syntax::print_number(value), other));
  }
  if (fitting.size() == 1) error.did_you_mean(fitting.front());
  if (fitting.size() > 1)
    error.notes.push_back({fmt::format("`{}` would fit", fmt::join(fitting, "` and `")), {}});
  return false;
}

void suggest_unit(Diagnostic& diagnostic, double value, std::string_view unit,
                  std::span<Dimension const> kinds) {
  bool const is_warmth =
      std::find(kinds.begin(), kinds.end(), Dimension::temperature) != kinds.end();
  if (is_warmth && unit.starts_with("deg"))
    diagnostic.notes.push_back({"of which degrees? `C` or `F`", {}});
  else if (auto const meant = meant_unit(unit, kinds))
    diagnostic.did_you_mean(
        fmt::format("{}{}{}", syntax::print_number(value), *meant == "%" ? "" : " ", *meant));
}

bool site_fits(Pack const& pack, Sign const& sign, SiteMark const& mark, Place at, Report& report) {
  auto const& site = pack[mark.site];
  if (mark.side != Side::any && !site.paired) {
    report.error(Code::no_sides, at, fmt::format("site `{}` has no left and right", site.name));
    return false;
  }
  bool const in_choice = sign.within.empty() ||
                         std::any_of(sign.within.begin(), sign.within.end(), [&](SiteId within) {
                           return pack.covers(within, mark.site) || pack.covers(mark.site, within);
                         });
  if (!in_choice)
    report.error(Code::site_outside, at,
                 fmt::format("`{}` is not asked about at `{}`", sign.name, site.name));
  return in_choice;
}

bool is_clear_all_over(Pack const& pack, Sign const& sign, Findings const& findings) {
  if (findings.found_somewhere || findings.clear.empty()) return false;
  auto const is_clear = [&](SiteId site, Side side) {
    return std::any_of(findings.clear.begin(), findings.clear.end(), [&](SiteMark const& clear) {
      return (clear.side == Side::any || clear.side == side) && pack.covers(clear.site, site);
    });
  };
  auto asked = sign.within;
  for (std::uint32_t i = 0; i < pack.sites.size() && sign.within.empty(); ++i)
    if (!pack.sites[i].inside) asked.push_back(SiteId{i});
  return std::all_of(asked.begin(), asked.end(), [&](SiteId site) {
    return is_clear(site, Side::left) && is_clear(site, Side::right);
  });
}

}  // namespace flinch
