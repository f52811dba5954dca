#include "care/taken_json.hpp"

#include "flinch/explain/taken.hpp"

namespace flinch::cli {
namespace {

using Json = nlohmann::ordered_json;

Json tier(Pack const& pack, std::optional<TierId> id) {
  return id ? Json(pack[*id].name) : Json(nullptr);
}

Json maybe(std::optional<double> value) { return value ? Json(*value) : Json(nullptr); }

Json one(Pack const& pack, Assessment const& result, Exposure const& exposure) {
  auto const& care = pack.care[exposure.care];
  auto levels = Json::array();
  for (auto const level : exposure.reached)
    levels.push_back({{"mg_per_kg", care.levels[level].mg_per_kg},
                      {"harm", care.levels[level].harm},
                      {"see", tier(pack, care.levels[level].see)}});
  auto cites = Json::array();
  for (auto const source : care.cites) cites.push_back(pack[source].text);
  return {{"name", care.name},
          {"title", care.title},
          {"is_this", exposure.is_this == Truth::yes ? "yes" : "unknown"},
          {"mg", maybe(exposure.mg)},
          {"hours", maybe(exposure.hours)},
          {"mg_per_kg", maybe(exposure.mg_per_kg)},
          {"tier", tier(pack, exposure.see)},
          {"text", taken_text(pack, exposure) + "; " + harm_text(pack, result, exposure)},
          {"reached", std::move(levels)},
          {"how", care.how},
          {"because", care.because},
          {"cites", std::move(cites)}};
}

}  // namespace

nlohmann::ordered_json taken_json(Pack const& pack, Assessment const& result) {
  auto out = Json::array();
  for (auto const& exposure : result.judgement.exposures)
    out.push_back(one(pack, result, exposure));
  return out;
}

}  // namespace flinch::cli
