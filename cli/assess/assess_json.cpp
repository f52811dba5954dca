#include "assess/assess_json.hpp"

#include <array>

#include "care/taken_json.hpp"
#include "care/telling_json.hpp"
#include "flinch/assess/localisation.hpp"
#include "flinch/assess/open_questions.hpp"
#include "flinch/assess/uncertainty.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/explain/source_subjects.hpp"
#include "flinch/telling/telling.hpp"
#include "look/schema.hpp"

namespace flinch::cli {
namespace {

using Json = nlohmann::ordered_json;

class AssessmentJson {
 public:
  AssessmentJson(Tables const& tables, Case const& patient, Assessment const& result)
      : tables_(tables),
        pack_(tables.pack()),
        patient_(patient),
        result_(result),
        uncertainty_(tables, result) {}

  Json write() {
    Json out;
    out["schema"] = schema_json(assessment_schema);
    out["case"] = patient_.name;
    out["pack"] = {{"name", pack_.name}, {"version", pack_.version}};
    out["caution"] = caution;
    out["tier"] = tier(result_.judgement.tier);
    out["alarm_tier"] = tier(result_.judgement.alarm_tier);
    out["ranking_tier"] = tier(result_.judgement.ranking_tier);
    out["ceiling"] = tier(result_.judgement.ceiling);
    out["nothing_told"] = result_.judgement.nothing_told;
    out["told_signs"] = result_.judgement.told_signs;
    out["tiers"] = tiers();
    out["alarms"] = alarms();
    out["taken"] = taken_json(pack_, result_);
    out["open_questions"] = questions();
    out["where"] = where();
    out["causes"] = causes();
    out["alike_with_first"] = alike_with_first();
    out["known"] = known();
    out["contradictions"] = contradictions_json(pack_, result_.judgement);
    return out;
  }

 private:
  [[nodiscard]] Json tier(std::optional<TierId> id) const {
    if (!id) return nullptr;
    return pack_[*id].name;
  }
  [[nodiscard]] Json tiers() const {
    auto out = Json::array();
    for (std::size_t i = 0; i < result_.judgement.tiers.size(); ++i) {
      auto const& chance = result_.judgement.tiers[i];
      Json one = {{"name", pack_.tiers[i].name},
                  {"title", pack_.tiers[i].title},
                  {"say", pack_.tiers[i].say},
                  {"within_seconds", pack_.tiers[i].within_s},
                  {"probability", chance.probability}};
      one["threshold"] = chance.threshold ? Json(*chance.threshold) : Json(nullptr);
      one["reached"] = chance.is_reached;
      TierId const id{static_cast<std::uint32_t>(i)};
      one["interval"] = interval(uncertainty_.tier_chance(id));
      one["only_just"] = uncertainty_.is_only_just(id);
      out.push_back(std::move(one));
    }
    return out;
  }
  [[nodiscard]] Json alarms() const {
    auto out = Json::array();
    for (auto const& outcome : result_.alarms) {
      if (outcome.truth != Truth::yes) continue;
      auto const& alarm = pack_[outcome.alarm];
      out.push_back({{"name", alarm.name},
                     {"title", alarm.title},
                     {"tier", pack_[alarm.see].name},
                     {"say", alarm.say},
                     {"because", alarm.because},
                     {"cites", cites(alarm.cites)}});
    }
    return out;
  }
  [[nodiscard]] Json questions() const {
    auto out = Json::array();
    for (auto const& question : open_questions(tables_, result_))
      out.push_back(open_question_json(pack_, question, pack_[question.sign].ask));
    return out;
  }
  [[nodiscard]] Json where() const {
    auto const place = localise(tables_, result_);
    auto found = Json::array();
    for (auto const& one : place.found) {
      auto signs = Json::array();
      for (auto const sign : one.signs) signs.push_back(pack_[sign].name);
      found.push_back({{"site", pack_[one.mark.site].name},
                       {"side", side(one.mark.side)},
                       {"signs", std::move(signs)}});
    }
    auto regions = Json::array();
    for (auto const& region : place.regions)
      regions.push_back({{"site", pack_[region.region].name}, {"probability", region.probability}});
    return {{"found", std::move(found)}, {"regions", std::move(regions)}};
  }
  [[nodiscard]] Json causes() const {
    auto out = Json::array();
    for (auto const& ranked : result_.ranking) {
      Json one;
      one["name"] = ranked.cause ? Json(pack_[*ranked.cause].name) : Json(nullptr);
      one["title"] = title_of(pack_, ranked.cause);
      if (ranked.cause) {
        one["tier"] = pack_[pack_[*ranked.cause].see].name;
        one["not_pain"] = pack_[*ranked.cause].not_pain;
      }
      one["prior"] = ranked.prior;
      one["evidence_decibans"] = decibans(ranked.evidence);
      one["posterior"] = ranked.posterior;
      one["interval"] = interval(uncertainty_.chance(ranked.cause));
      one["reasons"] = ranked.cause ? reason_list(*ranked.cause) : Json::array();
      if (ranked.cause) one["next"] = pack_[*ranked.cause].next;
      out.push_back(std::move(one));
    }
    return out;
  }
  [[nodiscard]] Json alike_with_first() const {
    auto out = Json::array();
    if (result_.judgement.nothing_told) return out;
    for (auto const cause : uncertainty_.alike_with_first())
      out.push_back(cause ? Json(pack_[*cause].name) : Json(nullptr));
    return out;
  }
  [[nodiscard]] static Json interval(Interval const& interval) {
    return {{"low", interval.low}, {"high", interval.high}};
  }
  [[nodiscard]] Json reason_list(CauseId cause) const {
    auto out = Json::array();
    SourceSubjects const subjects(pack_);
    for (auto const& reason : reasons(result_, cause)) {
      auto const& rule = pack_[reason.rule];
      out.push_back({{"rule", rule.name},
                     {"text", reason_text(pack_, reason)},
                     {"decibans", decibans(reason.weight)},
                     {"share", reason.share},
                     {"because", rule.because},
                     {"cites", cites(subjects.at(reason.rule, cause))}});
    }
    return out;
  }
  [[nodiscard]] Json known() const {
    constexpr std::array origins = {"given",        "from_whole", "from_part",
                                    "inapplicable", "from_breed", "from_weight"};
    auto out = Json::array();
    for (auto const& one : result_.knowledge.known) {
      Json entry = {{"sign", pack_[one.sign].name},
                    {"answer", answer_text(pack_, one.sign, one.answer)},
                    {"origin", origins.at(static_cast<std::size_t>(one.origin))}};
      if (one.origin != Origin::given) entry["follows_from"] = pack_[one.from].name;
      out.push_back(std::move(entry));
    }
    return out;
  }
  [[nodiscard]] Json cites(std::vector<SourceId> const& sources) const {
    auto out = Json::array();
    for (auto const source : sources) out.push_back(pack_[source].text);
    return out;
  }
  [[nodiscard]] static Json side(Side side) {
    return side == Side::left ? Json("left") : side == Side::right ? Json("right") : Json(nullptr);
  }

  Tables const& tables_;
  Pack const& pack_;
  Case const& patient_;
  Assessment const& result_;
  Uncertainty uncertainty_;
};

}  // namespace

nlohmann::ordered_json assessment_json(Tables const& tables, Case const& patient,
                                       Assessment const& result) {
  return AssessmentJson(tables, patient, result).write();
}

}  // namespace flinch::cli
