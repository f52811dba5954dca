#pragma once
// Where it hurts: what was found by site and side, and what the ranked causes affect.
#include <vector>

#include "flinch/assess/assessment.hpp"

namespace flinch {

/// A place where signs were found.
struct FoundPlace {
  SiteMark mark;
  std::vector<SignId> signs;
};

/// How probable it is that the main cause affects a region (a site that lies in no other).
struct RegionChance {
  SiteId region{};
  double probability = 0;
};

struct Localisation {
  /// The deepest sites named, most signs first; a site that only repeats one inside it is left out.
  std::vector<FoundPlace> found;
  /// Regions by probability. Causes that affect several regions count for each.
  std::vector<RegionChance> regions;
};

[[nodiscard]] Localisation localise(Tables const& tables, Assessment const& result);

}  // namespace flinch
