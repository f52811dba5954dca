#include "flinch/assess/localisation.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace flinch {

Localisation localise(Tables const& tables, Assessment const& result) {
  auto const& pack = tables.pack();
  std::map<SiteMark, std::vector<SignId>> places;
  for (auto const& known : result.knowledge.known)
    if (auto const* findings = std::get_if<Findings>(&known.answer))
      for (auto const& mark : findings->found)
        if (auto& signs = places[mark]; signs.empty() || signs.back() != known.sign)
          signs.push_back(known.sign);

  Localisation out;
  for (auto const& [mark, signs] : places) {
    // "Front leg" says nothing beside "left elbow", unless it carries a sign that the elbow does
    // not.
    bool const is_repeated =
        std::any_of(places.begin(), places.end(), [&, m = mark, s = &signs](auto const& other) {
          return other.first.site != m.site && tables.covers(m.site, other.first.site) &&
                 (m.side == Side::any || m.side == other.first.side) &&
                 std::includes(other.second.begin(), other.second.end(), s->begin(), s->end());
        });
    if (!is_repeated) out.found.push_back({mark, signs});
  }
  std::stable_sort(out.found.begin(), out.found.end(),
                   [](auto const& a, auto const& b) { return a.signs.size() > b.signs.size(); });

  auto const region_of = [&](SiteId site) {
    while (pack[site].inside) site = *pack[site].inside;
    return site;
  };
  std::set<SiteId> found_regions;
  for (auto const& [mark, signs] : places) found_regions.insert(region_of(mark.site));
  auto const is_found = [&](SiteId region) { return found_regions.count(region) != 0; };
  std::map<SiteId, double> regions;
  for (auto const& ranked : result.ranking) {
    if (!ranked.cause) continue;
    std::set<SiteId> affected;
    for (auto const site : pack[*ranked.cause].affects) affected.insert(region_of(site));
    // A cause that may sit in several places is where something was found, if anything was.
    bool const is_found_in_one = std::any_of(affected.begin(), affected.end(), is_found);
    for (auto const region : affected)
      if (!is_found_in_one || is_found(region)) regions[region] += ranked.posterior;
  }
  for (auto const& [region, probability] : regions) out.regions.push_back({region, probability});
  std::stable_sort(out.regions.begin(), out.regions.end(),
                   [](auto const& a, auto const& b) { return a.probability > b.probability; });
  return out;
}

}  // namespace flinch
