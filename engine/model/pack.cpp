#include "flinch/model/pack.hpp"

#include <algorithm>

namespace flinch {

std::optional<double> Tier::threshold() const {
  if (!harm) return std::nullopt;
  return 1 / (1 + *harm);
}

std::optional<SignId> Pack::pain_sign() const {
  auto const found =
      std::find_if(signs.begin(), signs.end(), [](Sign const& sign) { return sign.tells_pain; });
  if (found == signs.end()) return std::nullopt;
  return SignId{static_cast<std::uint32_t>(found - signs.begin())};
}

// `unless` stands behind what sets the alarm off, and nowhere else.
Condition const* Alarm::unless() const {
  bool const has_it =
      !condition.parts.empty() && condition.parts.back().kind == Condition::Kind::unless;
  return has_it ? &condition.parts.back().parts.front() : nullptr;
}

Condition const& Alarm::trigger() const {
  return unless() == nullptr ? condition : condition.parts.front();
}

bool Pack::doses_by_weight() const {
  return std::any_of(care.begin(), care.end(), [](Care const& one) {
    return !one.levels.empty() ||
           (one.give && (one.give->per != syntax::PerWeight::no || one.give->amount.unit == "%"));
  });
}

std::string_view Pack::patient_key() const {
  return species.empty() ? std::string_view("patient") : std::string_view(species);
}

std::optional<SignId> Pack::find_sign(std::string_view wanted) const {
  auto const found = sign_index.find(std::string(wanted));
  if (found == sign_index.end()) return std::nullopt;
  return found->second;
}

std::optional<SiteId> Pack::find_site(std::string_view wanted) const {
  auto const found = site_index.find(std::string(wanted));
  if (found == site_index.end()) return std::nullopt;
  return found->second;
}

bool Pack::covers(SiteId outer, SiteId inner) const {
  for (std::optional<SiteId> site = inner; site; site = (*this)[*site].inside)
    if (*site == outer) return true;
  return false;
}

}  // namespace flinch
