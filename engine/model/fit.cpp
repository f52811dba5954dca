#include "model/fit.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace flinch {

std::optional<double> fitting_amount(Sign const& sign, double value, std::string_view unit_name,
                                     Place at, Report& report) {
  auto const unit = find_unit(unit_name);
  if (unit && unit->dimension == sign.unit.dimension) return convert(value, *unit, sign.unit);
  auto const fitting = sign.unit.dimension == Dimension::none
                           ? std::string("it is a plain number")
                           : "these fit: " + units_that_fit(sign.unit.dimension);
  report.error(Code::unit_misfit, at,
               unit_name.empty()
                   ? fmt::format("`{}` needs a unit; {}", sign.name, fitting)
                   : fmt::format("unit `{}` does not fit `{}`; {}", unit_name, sign.name, fitting));
  return std::nullopt;
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

}  // namespace flinch
