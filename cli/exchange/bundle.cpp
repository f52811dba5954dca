#include <array>

#include "exchange/resources.hpp"

namespace flinch::cli {

std::string instant(std::time_t time) {
  std::tm utc{};
  gmtime_r(&time, &utc);
  std::array<char, 40> text{};
  auto const length = std::strftime(text.data(), text.size(), "%Y-%m-%dT%H:%M:%SZ", &utc);
  return {text.data(), length};
}

Json reference(std::string const& id) { return {{"reference", "urn:uuid:" + id}}; }

Json resource(char const* type, std::string const& id) {
  return {{"resourceType", type}, {"id", id}, {"language", "en"}};
}

void add_note(Json& notes, std::string const& text) {
  if (!text.empty()) notes.push_back({{"text", text}});
}

Json questionnaire_response(Shared const& shared) {
  auto const& pack = shared.pack();
  auto out = resource("QuestionnaireResponse", shared.ids.response);
  out["questionnaire"] = address(pack, Vocabulary::form) + '|' + pack.version;
  out["status"] = "completed";
  out["subject"] = reference(shared.ids.patient);
  out["authored"] = instant(shared.now);
  out["author"] = reference(shared.ids.program);
  if (auto items = response_items(pack, shared.patient, shared.names); !items.empty())
    out["item"] = std::move(items);
  return out;
}

Json bundle(Shared const& shared) {
  std::vector<Json> pieces = {device(shared), patient(shared), questionnaire_response(shared),
                              risk_assessment(shared)};
  if (shared.told.urgency.tier) pieces.push_back(service_request(shared));
  pieces.push_back(care_plan(shared));
  std::vector<std::string> targets;
  for (std::size_t i = 1; i < pieces.size(); ++i) targets.push_back(pieces[i]["id"]);
  pieces.push_back(provenance(shared, targets));

  Json out = {{"resourceType", "Bundle"},
              {"id", shared.ids.bundle},
              {"language", "en"},
              {"identifier", {{"system", fhir::uri}, {"value", "urn:uuid:" + shared.ids.bundle}}},
              {"type", "collection"},
              {"timestamp", instant(shared.now)}};
  out["entry"] = Json::array();
  for (auto& piece : pieces) {
    auto const id = piece["id"].get<std::string>();
    out["entry"].push_back({{"fullUrl", "urn:uuid:" + id}, {"resource", std::move(piece)}});
  }
  return out;
}

}  // namespace flinch::cli
