#include "casefile/case_examples.hpp"

#include <algorithm>

namespace flinch {

std::string site_example(Pack const& pack) {
  auto const paired = std::find_if(pack.sites.begin(), pack.sites.end(),
                                   [](Site const& site) { return site.paired; });
  if (paired != pack.sites.end()) return "left " + paired->name;
  return pack.sites.empty() ? "SITE" : pack.sites.front().name;
}

std::string sign_example(Pack const& pack) {
  auto const sign = std::find_if(pack.signs.begin(), pack.signs.end(), [](Sign const& one) {
    return !one.of_the_patient && traits(one).is_plain;
  });
  return sign == pack.signs.end() ? "SIGN" : sign->name;
}

}  // namespace flinch
