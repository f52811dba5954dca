#include "exchange/response.hpp"

#include <algorithm>

namespace flinch::cli {
namespace {

Json item(std::string_view link, std::string_view text, Json answers) {
  Json out = {{"linkId", link}};
  if (!text.empty()) out["text"] = text;
  out["answer"] = std::move(answers);
  return out;
}

Json coded(Json coding) { return Json::array({{{"valueCoding", std::move(coding)}}}); }

Json group(std::string_view link, Json items) {
  return {{"linkId", link}, {"item", std::move(items)}};
}

class ResponseWriter {
 public:
  ResponseWriter(Pack const& pack, Case const& patient, Names names)
      : pack_(pack), patient_(patient), names_(names) {}

  Json write() {
    auto answered = patient_.answers;
    std::stable_sort(answered.begin(), answered.end(),
                     [](auto const& a, auto const& b) { return a.first < b.first; });
    auto patient = Json::array();
    auto signs = Json::array();
    for (auto const& [sign, answer] : answered)
      add(sign, answer, pack_[sign].of_the_patient ? patient : signs);
    for (auto const sign : patient_.cannot_tell)
      (pack_[sign].of_the_patient ? patient : signs)
          .push_back(item(pack_[sign].name, pack_[sign].label, not_known(pack_[sign])));
    auto out = Json::array();
    if (!patient.empty()) out.push_back(group(link::patient, std::move(patient)));
    came_for(out);
    if (!signs.empty()) out.push_back(group(link::signs, std::move(signs)));
    outcome(out);
    words(out);
    return out;
  }

 private:
  void add(SignId id, Answer const& answer, Json& items) const {
    auto const& sign = pack_[id];
    auto const put = [&](Json answers) {
      items.push_back(item(sign.name, sign.label, std::move(answers)));
    };
    if (auto const* yes = std::get_if<bool>(&answer))
      return put(coded(*yes ? yes_coding() : no_coding()));
    if (auto const* choice = std::get_if<Choice>(&answer))
      return put(coded(choice_coding(pack_, sign, *choice)));
    if (auto const* number = std::get_if<double>(&answer))
      return put(sign.unit.dimension == Dimension::none
                     ? Json::array({{{"valueDecimal", *number}}})
                     : Json::array({{{"valueQuantity", quantity(*number, sign.unit)}}}));
    auto const& findings = std::get<Findings>(answer);
    if (!findings.found.empty())
      put(sites(findings.found));
    else if (findings.found_somewhere)
      put(coded(yes_coding()));
    else if (findings.clear_everywhere && findings.clear.empty())
      put(coded(no_coding()));
    if (!findings.clear.empty())
      items.push_back(item(sign.name + std::string(link::clear), sign.label + ": clear",
                           sites(findings.clear)));
  }

  [[nodiscard]] Json sites(std::vector<SiteMark> const& marks) const {
    auto out = Json::array();
    for (auto const& mark : marks) out.push_back({{"valueCoding", site_coding(pack_, mark)}});
    return out;
  }

  // A number has no code for it: there is no value, and the standard's extension says why.
  static Json not_known(Sign const& sign) {
    if (!traits(sign).is_number) return coded(cannot_tell_coding());
    Json const why = {{"url", fhir::absent_reason}, {"valueCode", fhir::asked_unknown}};
    return Json::array({{{"extension", Json::array({why})}}});
  }

  void came_for(Json& out) const {
    if (patient_.came_for.empty()) return;
    auto answers = Json::array();
    for (auto const sign : patient_.came_for)
      answers.push_back({{"valueCoding", sign_coding(pack_, sign)}});
    out.push_back(item(link::came_for, "What it came for", std::move(answers)));
  }

  void outcome(Json& out) const {
    if (!patient_.outcome) return;
    auto items = Json::array();
    if (patient_.outcome->is_cause_known)
      items.push_back(item(link::outcome_cause, "What it turned out to have",
                           coded(cause_coding(pack_, patient_.outcome->cause))));
    if (patient_.outcome->needed)
      items.push_back(item(link::outcome_needed, "How soon it had to be seen",
                           coded(tier_coding(pack_, *patient_.outcome->needed))));
    if (!items.empty()) out.push_back(group(link::outcome, std::move(items)));
  }

  void words(Json& out) const {
    if (names_ == Names::withheld) return;
    auto items = Json::array();
    for (auto const& one : words_items())
      if (auto const& text = patient_.*(one.member); !text.empty())
        items.push_back(item(one.link, one.text, Json::array({{{"valueString", text}}})));
    if (!items.empty()) out.push_back(group(link::words, std::move(items)));
  }

  Pack const& pack_;
  Case const& patient_;
  Names names_;
};

}  // namespace

Json response_items(Pack const& pack, Case const& patient, Names names) {
  return ResponseWriter(pack, patient, names).write();
}

}  // namespace flinch::cli
