#include "care/care_json.hpp"

#include <array>

#include "care/taken_json.hpp"
#include "care/telling_json.hpp"
#include "look/schema.hpp"

namespace flinch::cli {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::array advice_names = {"offered", "ask_vet", "ask_first", "withheld"};
constexpr std::array truth_names = {"no", "unknown", "yes"};
constexpr std::array refusal_names = {"weight_unknown", "weight_out_of_range", "weight_doubted",
                                      "too_small_to_measure"};
constexpr std::array gate_names = {"never",
                                   "ask_vet",
                                   "stop",
                                   "leave_now",
                                   "seen_first",
                                   "by_mouth_now",
                                   "by_mouth_surgery",
                                   "by_mouth_nothing_told",
                                   "by_mouth_may_rise",
                                   "dose"};
constexpr std::array form_names = {"tablet", "capsule", "liquid", "spoon"};
constexpr std::array reader_names = {"keeper", "nurse", "handler", "clinician"};

template <class Names, class Value>
Json name(Names const& names, Value value) {
  return names.at(static_cast<std::size_t>(value));
}

template <class T>
Json maybe(std::optional<T> const& value) {
  return value ? Json(*value) : Json(nullptr);
}

class CareJson {
 public:
  CareJson(Tables const& tables, Case const& patient, Assessment const& result, Telling const& told)
      : pack_(tables.pack()), patient_(patient), result_(result), told_(told), plan_(told.plan) {}

  Json write() {
    Json out;
    out["schema"] = schema_json(care_schema);
    out["case"] = patient_.name;
    out["pack"] = {{"name", pack_.name}, {"version", pack_.version}};
    out["caution"] = caution;
    out["audience"] = name(reader_names, plan_.reader);
    out["tier"] = tier(plan_.tier);
    out["telling"] = telling_json(pack_, told_);
    out["contradictions"] = contradictions_json(pack_, result_.judgement);
    out["by_mouth"] = plan_.mouth ? gate(*plan_.mouth) : Json(nullptr);
    out["taken"] = taken_json(pack_, result_);
    out["taken_questions"] = taken_questions();
    out["measures"] = measures(plan_.measures);
    out["avoid"] = measures(plan_.avoid);
    out["watch"] = measures(plan_.watch);
    out["questions"] = questions();
    out["for_examination"] = names(plan_.for_examination);
    out["vet_may_ask_for"] = names(plan_.vet_may_ask_for);
    out["look_again_seconds"] = plan_.look_again_s;
    return out;
  }

 private:
  [[nodiscard]] Json tier(std::optional<TierId> id) const {
    return id ? Json(pack_[*id].name) : Json(nullptr);
  }
  [[nodiscard]] Json gate(ClosedGate const& closed) const {
    auto signs = Json::array();
    for (auto const sign : closed.signs) signs.push_back(pack_[sign].name);
    return {{"kind", name(gate_names, closed.kind)},
            {"truth", name(truth_names, closed.truth)},
            {"text", gate_words(pack_, result_, closed)},
            {"signs", std::move(signs)}};
  }
  [[nodiscard]] Json taken_questions() const {
    auto out = Json::array();
    for (auto const sign : plan_.taken_questions)
      out.push_back({{"sign", pack_[sign].name}, {"ask", question_words(pack_, sign)}});
    return out;
  }
  [[nodiscard]] Json measures(std::vector<PlannedMeasure> const& list) const {
    auto out = Json::array();
    for (auto const& measure : list) out.push_back(one(measure));
    return out;
  }
  [[nodiscard]] Json one(PlannedMeasure const& measure) const {
    auto const& care = pack_.care[measure.care];
    auto gates = Json::array();
    for (auto const& closed : measure.gates) gates.push_back(gate(closed));
    auto stop = Json::array();
    for (auto const& when : care.stop_if) stop.push_back(when.reason);
    Json out = {{"name", care.name},
                {"title", care.title},
                {"advice", name(advice_names, measure.advice)},
                {"fits", name(truth_names, measure.fits)},
                {"for", told_for(care)},
                {"gates", std::move(gates)},
                {"dose", dose(measure)},
                {"weight_loss", slimming(measure)},
                {"how", how_words(care, measure, told_.seen_at)},
                {"avoid", care.avoid},
                {"watch", care.watch},
                {"stop", std::move(stop)},
                {"by_mouth", care.by_mouth},
                {"fasting", care.is_fasting},
                {"for_clinician", care.for_clinician},
                {"problem", care.problem},
                {"grade", std::string(1, care.grade)},
                {"because", care.because},
                {"cites", cites(care)}};
    return out;
  }
  // For which causes, and how likely one of them has to be; null where it is for none.
  [[nodiscard]] Json told_for(Care const& care) const {
    if (care.causes.empty()) return nullptr;
    auto causes = Json::array();
    for (auto const cause : care.causes) causes.push_back(pack_[cause].name);
    return {{"causes", std::move(causes)}, {"at_least", likely_enough_for_care}};
  }
  // A dose is told only where the measure may be given: what is withheld has none to copy.
  [[nodiscard]] Json dose(PlannedMeasure const& measure) const {
    if (!measure.dose) return nullptr;
    if (auto const* refusal = std::get_if<DoseRefusal>(&*measure.dose))
      return {{"refused", name(refusal_names, *refusal)},
              {"text", refusal_text(pack_, result_, *refusal)}};
    bool const is_told = measure.advice == Advice::offered ||
                         (plan_.reader != Reader::keeper && measure.advice != Advice::withheld);
    if (!is_told) return nullptr;
    auto const& given = std::get<GivenDose>(*measure.dose);
    auto portions = Json::array();
    for (auto const& portion : given.portions)
      portions.push_back({{"form", name(form_names, portion.form.kind)},
                          {"strength", portion.form.strength.value},
                          {"strength_unit", portion.form.strength.unit},
                          {"least_count", portion.least_count},
                          {"count", portion.count},
                          {"least_amount", portion.least_amount},
                          {"amount", portion.amount}});
    return {{"text", dose_words(pack_.care[measure.care], given)},
            {"unit", given.unit},
            {"low", given.low},
            {"high", given.high},
            {"amount", given.amount},
            {"per_kg", maybe(given.per_kg)},
            {"capped", given.is_capped},
            {"portions", std::move(portions)}};
  }
  [[nodiscard]] static Json slimming(PlannedMeasure const& measure) {
    if (!measure.weight_loss) return nullptr;
    auto const& plan = *measure.weight_loss;
    auto benefits = Json::array();
    for (auto const& benefit : plan.benefits)
      benefits.push_back({{"from_kg", benefit.from_kg}, {"text", benefit.text}});
    return {{"aim_kg", plan.aim_kg},
            {"kcal_a_day", maybe(plan.kcal_a_day)},
            {"slowest_kg_a_week", plan.slowest_kg_a_week},
            {"fastest_kg_a_week", plan.fastest_kg_a_week},
            {"benefits", std::move(benefits)}};
  }
  [[nodiscard]] Json questions() const {
    auto out = Json::array();
    for (auto const& question : plan_.questions) {
      auto waiting = Json::array();
      for (auto const care : question.waiting) waiting.push_back(pack_.care[care].name);
      out.push_back({{"sign", pack_[question.sign].name},
                     {"ask", question_words(pack_, question.sign)},
                     {"waiting", std::move(waiting)}});
    }
    return out;
  }
  [[nodiscard]] Json names(std::vector<std::size_t> const& measures) const {
    auto out = Json::array();
    for (auto const care : measures) out.push_back(pack_.care[care].name);
    return out;
  }
  [[nodiscard]] Json cites(Care const& care) const {
    auto out = Json::array();
    for (auto const source : care.cites) out.push_back(pack_[source].text);
    return out;
  }

  Pack const& pack_;
  Case const& patient_;
  Assessment const& result_;
  Telling const& told_;
  CarePlan const& plan_;
};

}  // namespace

nlohmann::ordered_json care_json(Tables const& tables, Case const& patient,
                                 Assessment const& result, Telling const& told) {
  return CareJson(tables, patient, result, told).write();
}

}  // namespace flinch::cli
