#pragma once
// Whether an amount or a site fits the sign that it is said of. Rules, examples and case files ask
// the same, and are told the same.
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "flinch/model/case.hpp"
#include "flinch/model/pack.hpp"
#include "flinch/text/diagnostic.hpp"

namespace flinch {

/// The amount in the sign's own unit; a unit that is missing or does not fit is reported.
[[nodiscard]] std::optional<double> fitting_amount(Sign const& sign, double value,
                                                   std::string_view unit, Place at, Report& report);

/// Whether the sign believes this amount, `value` of `unit` as written and `converted` in its own
/// unit. What is not believed is reported, with the unit in which it would be.
[[nodiscard]] bool is_believable(Pack const& pack, SignId sign, double converted, double value,
                                 std::string_view unit, Place at, Report& report);

/// What the sign believes: "33 and 43 C", of the weight in the unit in which it is shown.
[[nodiscard]] std::string believed_text(Pack const& pack, SignId sign);

/// What to ask where `part` follows a comma as thousands do: `1,000 g` is a thousand, or one.
/// Nothing where the comma can only be the decimal mark.
[[nodiscard]] std::optional<std::string> doubt_of_comma(std::string_view whole,
                                                        std::string_view part);

/// Names the unit of one of these kinds that was probably meant, and offers the amount with it.
void suggest_unit(Diagnostic& diagnostic, double value, std::string_view unit,
                  std::span<Dimension const> kinds);

/// Whether the sign may be found there: a side only where the site has sides, and a site within the
/// sign's choice (or covering part of it). What does not fit is reported.
[[nodiscard]] bool site_fits(Pack const& pack, Sign const& sign, SiteMark const& mark, Place at,
                             Report& report);

/// Whether each site that the sign is asked of was checked and is clear, on both sides: each whole,
/// for it may be elsewhere in it than at its named parts. Such findings are a no.
[[nodiscard]] bool is_clear_all_over(Pack const& pack, Sign const& sign, Findings const& findings);

}  // namespace flinch
