#include <algorithm>

#include "exchange/resources.hpp"

namespace flinch::cli {
namespace {

Json part(char const* url, Json concept_of_it) {
  return {{"url", url}, {"valueCodeableConcept", std::move(concept_of_it)}};
}

Json coded(char const* system, std::string_view code, std::string_view display) {
  return {{"coding", Json::array({coding(system, code, display)})}};
}

class PatientWriter {
 public:
  explicit PatientWriter(Shared const& shared) : shared_(shared) {}

  Json write() {
    auto out = resource("Patient", shared_.ids.patient);
    out["extension"] = Json::array({animal()});
    out["identifier"] =
        Json::array({{{"system", fhir::uri}, {"value", "urn:uuid:" + shared_.ids.patient}}});
    auto const& patient = shared_.patient;
    bool const is_named = shared_.names == Names::sent;
    if (is_named && !patient.name.empty()) out["name"] = Json::array({{{"text", patient.name}}});
    if (cannot_tell(patient_sign::sex))
      out["gender"] = "unknown";
    else if (auto const* sex = choice(patient_sign::sex))
      out["gender"] = shared_.pack()[patient_sign::sex].values[sex->index].name;
    if (is_named && !(patient.caller.empty() && patient.call_back.empty()))
      out["contact"] = contact();
    return out;
  }

 private:
  [[nodiscard]] Answer const* answer(SignId sign) const {
    auto const& answers = shared_.patient.answers;
    auto const found = std::find_if(answers.begin(), answers.end(),
                                    [&](auto const& one) { return one.first == sign; });
    return found == answers.end() ? nullptr : &found->second;
  }
  [[nodiscard]] Choice const* choice(SignId sign) const {
    auto const* known = answer(sign);
    return known == nullptr ? nullptr : std::get_if<Choice>(known);
  }
  [[nodiscard]] bool cannot_tell(SignId sign) const {
    auto const& list = shared_.patient.cannot_tell;
    return std::find(list.begin(), list.end(), sign) != list.end();
  }

  [[nodiscard]] Json animal() const {
    auto parts = Json::array({part("species", species())});
    if (auto const* breed = choice(patient_sign::breed))
      parts.push_back(part("breed", {{"text", shared_.pack().breeds.breeds[breed->index].name}}));
    if (cannot_tell(patient_sign::neutered))
      parts.push_back(part("genderStatus", coded(fhir::gender_status, "unknown", "Unknown")));
    else if (auto const* known = answer(patient_sign::neutered))
      parts.push_back(part("genderStatus", std::get<bool>(*known)
                                               ? coded(fhir::gender_status, "neutered", "Neutered")
                                               : coded(fhir::gender_status, "intact", "Intact")));
    return {{"url", fhir::animal}, {"extension", std::move(parts)}};
  }

  [[nodiscard]] Json species() const {
    auto const& name = shared_.pack().species;
    Json out;
    if (auto const code = species_code(name))
      out["coding"] = Json::array({coding(fhir::species, *code, "")});
    out["text"] = name.empty() ? "animal" : name;
    return out;
  }

  [[nodiscard]] Json contact() const {
    Json one;
    if (!shared_.patient.caller.empty()) one["name"] = {{"text", shared_.patient.caller}};
    if (!shared_.patient.call_back.empty())
      one["telecom"] = Json::array({{{"system", "phone"}, {"value", shared_.patient.call_back}}});
    return Json::array({one});
  }

  Shared const& shared_;
};

}  // namespace

Json patient(Shared const& shared) { return PatientWriter(shared).write(); }

}  // namespace flinch::cli
