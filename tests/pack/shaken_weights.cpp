#include "pack/shaken_weights.hpp"

#include <algorithm>
#include <cmath>

namespace flinch::test {
namespace {

struct Outcome {
  std::size_t first = 0;  ///< index of the cause that comes first among the listed
  std::optional<TierId> tier;
};

Outcome rank(Tables const& tables, Assessment const& result, std::vector<double> const& evidence) {
  auto const& pack = tables.pack();
  std::vector<double> mass(pack.causes.size());
  double sum = tables.prior(pack.causes.size());
  for (std::size_t i = 0; i < mass.size(); ++i)
    sum += mass[i] = tables.prior(i) * std::exp(evidence[i]);
  Outcome out;
  out.first = static_cast<std::size_t>(std::max_element(mass.begin(), mass.end()) - mass.begin());
  out.tier = result.judgement.alarm_tier;
  if (result.judgement.nothing_told) return out;
  for (std::uint32_t tier = 0; tier < pack.tiers.size(); ++tier) {
    double chance = 0;
    for (std::size_t i = 0; i < mass.size(); ++i)
      if (index(pack.causes[i].see) <= tier) chance += mass[i] / sum;
    auto const threshold = pack.tiers[tier].threshold();
    if (threshold && chance < *threshold) continue;
    if (!out.tier || TierId{tier} < *out.tier) out.tier = TierId{tier};
    break;
  }
  return out;
}

}  // namespace

Firmness shake(Tables const& tables, Assessment const& result, int shakes, Chance& chance) {
  auto const causes = tables.pack().causes.size();
  auto const evidence = [&](auto const& factor) {
    std::vector<double> out(causes);
    for (auto const& c : result.contributions) out[index(c.cause)] += c.counted() * factor();
    return out;
  };
  auto const as_it_is = rank(tables, result, evidence([] { return 1.0; }));
  int first = 0;
  int tier = 0;
  for (int i = 0; i < shakes; ++i) {
    auto const shaken =
        rank(tables, result, evidence([&] { return std::exp2(2 * chance.next() - 1); }));
    first += shaken.first == as_it_is.first ? 1 : 0;
    tier += shaken.tier == as_it_is.tier ? 1 : 0;
  }
  return {static_cast<double>(first) / shakes, static_cast<double>(tier) / shakes};
}

}  // namespace flinch::test
