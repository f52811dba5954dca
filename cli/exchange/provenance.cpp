#include <fmt/format.h>

#include "exchange/resources.hpp"

namespace flinch::cli {

Json device(Shared const& shared) {
  auto out = resource("Device", shared.ids.program);
  out["deviceName"] = Json::array({{{"name", "Flinch"}, {"type", "model-name"}}});
  out["type"] = {{"text", "Program that weighs signs by rules; it does not diagnose"}};
  out["version"] = Json::array({{{"value", FLINCH_VERSION}}});
  return out;
}

Json provenance(Shared const& shared, std::vector<std::string> const& targets) {
  auto const& pack = shared.pack();
  auto out = resource("Provenance", shared.ids.provenance);
  out["target"] = Json::array();
  for (auto const& id : targets) out["target"].push_back(reference(id));
  out["recorded"] = instant(shared.now);
  out["activity"] = {{"coding", Json::array({coding(fhir::data_operation, "CREATE", "create")})}};
  auto who = reference(shared.ids.program);
  who["display"] = fmt::format("flinch {}", FLINCH_VERSION);
  out["agent"] = Json::array({{{"who", std::move(who)}}});
  Json const of_the_pack = {
      {"identifier", {{"system", address(pack, Vocabulary::form)}, {"value", pack.version}}},
      {"display", fmt::format("Rules: {} {}, {}", pack.name, pack.version, pack.title)}};
  out["entity"] = Json::array({{{"role", "source"}, {"what", of_the_pack}}});
  return out;
}

}  // namespace flinch::cli
