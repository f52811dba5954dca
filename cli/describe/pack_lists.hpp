#pragma once
// The pack as lists in Markdown, for the vet who owns the rules and for docs/pack.
#include <string>

#include "flinch/assess/tables.hpp"

namespace flinch::cli {

[[nodiscard]] std::string causes_page(Pack const& pack);
[[nodiscard]] std::string rules_page(Pack const& pack);
/// Without the floors of signs, which have a page of their own.
[[nodiscard]] std::string alarms_page(Pack const& pack);
[[nodiscard]] std::string floors_page(Pack const& pack);
/// First aid, food and water, what may be done at home, doses, what not to do, what was taken.
[[nodiscard]] std::string care_list_page(Pack const& pack);
[[nodiscard]] std::string sources_page(Pack const& pack);
/// How the figures were chosen: counts by body region, those that were counted, and the judged
/// ones that weigh most.
[[nodiscard]] std::string figures_page(Pack const& pack);
/// What no licensed vet has read as it stands now, the heaviest first, and how much that is.
[[nodiscard]] std::string unread_page(Tables const& tables);

}  // namespace flinch::cli
