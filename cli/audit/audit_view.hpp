#pragma once
// An audit as it is shown: text, JSON, a page. One entry for each pack that was audited.
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "flinch/audit/audit.hpp"
#include "look/page.hpp"

namespace flinch::cli {

struct PackAudit {
  std::string location;  ///< as given by the caller; empty for the shipped pack
  std::shared_ptr<Pack const> pack;
  Audit audit;
};

[[nodiscard]] std::string audit_text(std::vector<PackAudit> const& audits, std::size_t worst,
                                     Look const& look);
/// The closed cases of one month, such as "2026-10".
struct MonthAudit {
  std::string month;
  Audit audit;
};
/// A line a month, with the shares that tell whether a pack gets better.
[[nodiscard]] std::string audit_months_text(Pack const& pack, std::vector<MonthAudit> const& months,
                                            Look const& look);
[[nodiscard]] nlohmann::ordered_json audit_json(std::vector<PackAudit> const& audits,
                                                std::size_t worst);
/// A page that stands alone: its pictures inline, no script, nothing fetched.
[[nodiscard]] std::string audit_html(std::vector<PackAudit> const& audits, std::size_t worst);

/// Shown wherever a cause is named.
inline constexpr char const* audit_caution =
    "Flinch supports people who decide; it does not diagnose. A licensed veterinarian and local "
    "rules decide. These figures describe these cases, not the next one.";

/// "12 of 84, 14.3% (8.4% to 23.3%)"; "none counted" when there were none.
[[nodiscard]] std::string in_words(Proportion const& proportion);
/// Three decimals, or "not defined".
[[nodiscard]] std::string in_words(std::optional<double> const& value);
/// "canine_pain 1.2", and where it lies when that was given: two versions may have one number.
[[nodiscard]] std::string pack_label(Pack const& pack, std::string const& location);
/// What went wrong with one case, without the reasons: "needed now, given visit; cause placed 4th".
[[nodiscard]] std::string miss_summary(Pack const& pack, Miss const& miss);

}  // namespace flinch::cli
