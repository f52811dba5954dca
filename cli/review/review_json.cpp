#include "review/review_json.hpp"

#include "care/taken_json.hpp"
#include "flinch/assess/uncertainty.hpp"
#include "flinch/explain/cause.hpp"
#include "flinch/explain/condition.hpp"
#include "flinch/explain/contrast.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/explain/rule.hpp"
#include "flinch/explain/tier.hpp"
#include "flinch/explain/what_if.hpp"
#include "flinch/telling/caution.hpp"
#include "look/schema.hpp"
#include "review/review_text.hpp"

namespace flinch::cli {
namespace {

using Json = nlohmann::ordered_json;

class ReviewJson {
 public:
  explicit ReviewJson(Reviewed const& reviewed)
      : reviewed_(reviewed),
        pack_(reviewed.tables.pack()),
        result_(reviewed.result),
        uncertainty_(reviewed.tables, reviewed.result) {}

  Json write(ReviewRequest const& request) {
    Json out;
    out["schema"] = schema_json(review_schema);
    out["case"] = reviewed_.patient.name;
    out["pack"] = {{"name", pack_.name}, {"version", pack_.version}};
    out["caution"] = caution;
    out["result"] = summary(result_);
    if (request.tier || request.is_overview()) out["tier"] = tier();
    if (request.cause) out["causes"] = Json::array({cause(request.cause->cause)});
    if (request.is_overview()) out["causes"] = first_causes();
    if (request.rule) out["rule"] = rule(*request.rule);
    if (request.alarm) out["alarm"] = alarm(*request.alarm);
    if (request.between) out["between"] = between(*request.between);
    if (request.what_if) out["what_if"] = what_if(*request.what_if);
    if (request.changes) out["smallest_changes"] = smallest();
    return out;
  }

 private:
  [[nodiscard]] Json tier_name(std::optional<TierId> id) const {
    return id ? Json(pack_[*id].name) : Json(nullptr);
  }
  [[nodiscard]] Json cause_name(std::optional<CauseId> id) const {
    return id ? Json(pack_[*id].name) : Json(nullptr);
  }
  [[nodiscard]] Json cites(std::vector<SourceId> const& sources) const {
    auto out = Json::array();
    for (auto const source : sources) out.push_back(pack_[source].text);
    return out;
  }
  [[nodiscard]] Json answer(SignId sign) const {
    auto const* known = result_.find(sign);
    return {{"sign", pack_[sign].name},
            {"answer", known ? Json(answer_text(pack_, sign, known->answer)) : Json(nullptr)},
            {"text", known_text(pack_, result_, sign)}};
  }
  [[nodiscard]] Json answers(std::vector<SignId> const& signs) const {
    auto out = Json::array();
    for (auto const sign : signs) out.push_back(answer(sign));
    return out;
  }
  [[nodiscard]] Json changes(std::vector<Change> const& all) const {
    auto out = Json::array();
    for (auto const& change : all)
      out.push_back(
          {{"sign", pack_[change.sign].name},
           {"answer",
            change.answer ? Json(answer_text(pack_, change.sign, *change.answer)) : Json(nullptr)},
           {"now", answer(change.sign)["answer"]}});
    return out;
  }

  [[nodiscard]] Json summary(Assessment const& result) const {
    auto first = Json::array();
    for (std::size_t i = 0; i < std::min<std::size_t>(3, result.ranking.size()); ++i)
      first.push_back({{"name", cause_name(result.ranking[i].cause)},
                       {"posterior", result.ranking[i].posterior}});
    return {{"tier", tier_name(result.judgement.tier)},
            {"ceiling", tier_name(result.judgement.ceiling)},
            {"nothing_told", result.judgement.nothing_told},
            {"contradictions", contradictions(result)},
            {"first", std::move(first)},
            {"alike_with_first", alike_with_first(result)}};
  }
  [[nodiscard]] Json contradictions(Assessment const& result) const {
    auto out = Json::array();
    for (auto const& c : result.judgement.contradictions)
      out.push_back({{"kind", kind_text(c.kind)},
                     {"counted", pack_[c.counted].name},
                     {"against", pack_[c.against].name},
                     {"text", contradiction_text(pack_, c)}});
    return out;
  }
  [[nodiscard]] Json alike_with_first(Assessment const& result) const {
    auto out = Json::array();
    if (result.judgement.nothing_told) return out;
    for (auto const cause : Uncertainty(reviewed_.tables, result).alike_with_first())
      out.push_back(cause_name(cause));
    return out;
  }
  [[nodiscard]] static Json interval(Interval const& interval) {
    return {{"low", interval.low}, {"high", interval.high}};
  }

  [[nodiscard]] Json cause(std::optional<CauseId> id) const {
    auto const why = explain_cause(reviewed_.tables, result_, id);
    auto weights = Json::array();
    for (auto const& w : why.weights) {
      auto const& rule = pack_[w.rule];
      auto const family = family_of(pack_, w.rule, *id);  // weights are a listed cause's
      weights.push_back(
          {{"rule", rule.name},
           {"text", reason_text(pack_, {w.rule, w.truth, w.band, 0, 1})},
           {"as_one_of", family ? Json(pack_[*family].name) : Json(nullptr)},
           {"decibans", decibans(w.counted)},
           {"words", weight_in_words(w.counted)},
           {"alone_decibans", decibans(w.weight)},
           {"share", w.share},
           {"overlaps_with", w.stronger ? Json(pack_[*w.stronger].name) : Json(nullptr)},
           {"because", rule.because},
           {"cites", cites(rule.cites)},
           {"answers", answers(w.behind)}});
    }
    auto open = Json::array();
    for (auto const& o : why.open)
      open.push_back({{"rule", pack_[o.rule].name},
                      {"bits", o.bits},
                      {"most_for_decibans", decibans(o.most_for)},
                      {"most_against_decibans", decibans(o.most_against)},
                      {"signs", sign_names(o.signs)}});
    return {{"name", cause_name(id)},
            {"title", title_of(pack_, id)},
            {"also_called", id ? Json(pack_[*id].also_called) : Json::array()},
            {"rank", why.rank},
            {"prior", why.numbers.prior},
            {"posterior", why.numbers.posterior},
            {"interval", interval(uncertainty_.chance(id))},
            {"base_decibans", decibans(why.log_prior)},
            {"evidence_decibans", decibans(why.numbers.evidence)},
            {"all_causes_decibans", decibans(why.log_scale)},
            {"because", id ? Json(pack_[*id].because) : Json(nullptr)},
            {"cites", id ? cites(pack_[*id].cites) : Json::array()},
            {"weights", std::move(weights)},
            {"open", std::move(open)}};
  }
  [[nodiscard]] Json sign_names(std::vector<SignId> const& signs) const {
    auto out = Json::array();
    for (auto const sign : signs) out.push_back(pack_[sign].name);
    return out;
  }
  [[nodiscard]] Json first_causes() const {
    auto out = Json::array();
    for (std::size_t i = 0; i < std::min<std::size_t>(3, result_.ranking.size()); ++i)
      out.push_back(cause(result_.ranking[i].cause));
    return out;
  }

  [[nodiscard]] Json tree(ConditionNode const& node) const {
    Json out = {{"text", node_text(pack_, *node.condition)}, {"truth", truth_text(node.truth)}};
    if (node.condition->kind == Condition::Kind::test)
      out["answer"] = answer(node.condition->test.sign);
    auto parts = Json::array();
    for (auto const& part : node.parts) parts.push_back(tree(part));
    if (!parts.empty()) out["parts"] = std::move(parts);
    return out;
  }
  [[nodiscard]] Json ways(std::vector<WayToFire> const& all) const {
    auto out = Json::array();
    for (auto const& way : all) out.push_back(changes(way.changes));
    return out;
  }
  [[nodiscard]] Json rule(RuleId id) const {
    auto const why = explain_rule(reviewed_.tables, reviewed_.assessor, reviewed_.patient, id);
    auto const& rule = pack_[id];
    auto bands = Json::array();
    for (std::size_t i = 0; i < why.bands.size(); ++i)
      bands.push_back({{"text", rule.bands[i].text}, {"truth", truth_text(why.bands[i])}});
    auto counted = Json::array();
    for (auto const& c : result_.contributions_of(id))
      counted.push_back({{"cause", pack_[c.cause].name},
                         {"decibans", decibans(c.counted())},
                         {"share", c.share}});
    return {{"name", rule.name},
            {"title", rule.title},
            {"truth", truth_text(why.truth)},
            {"because", rule.because},
            {"cites", cites(rule.cites)},
            {"condition", why.condition ? tree(*why.condition) : Json(nullptr)},
            {"bands", std::move(bands)},
            {"would_fire", ways(why.ways)},
            {"other_facts", sign_names(why.other_facts)},
            {"counted", std::move(counted)}};
  }
  [[nodiscard]] Json alarm(AlarmId id) const {
    auto const why = explain_alarm(reviewed_.tables, reviewed_.assessor, reviewed_.patient, id);
    auto const& alarm = pack_[id];
    return {{"name", alarm.name},
            {"title", alarm.title},
            {"tier", pack_[alarm.see].name},
            {"floor_of", alarm.floor_of ? Json(pack_[*alarm.floor_of].name) : Json(nullptr)},
            {"truth", truth_text(why.truth)},
            {"because", alarm.because},
            {"cites", cites(alarm.cites)},
            {"condition", tree(why.condition)},
            {"would_fire", ways(why.ways)},
            {"other_facts", sign_names(why.other_facts)}};
  }

  [[nodiscard]] Json tier() const {
    auto const why = explain_tier(reviewed_.tables, result_);
    auto fired = Json::array();
    for (auto const& f : why.fired) {
      auto const& alarm = pack_[f.alarm];
      fired.push_back({{"alarm", alarm.name},
                       {"title", alarm.title},
                       {"tier", pack_[alarm.see].name},
                       {"because", alarm.because},
                       {"cites", cites(alarm.cites)},
                       {"answers", answers(f.behind)}});
    }
    auto tiers = Json::array();
    for (auto const& reason : why.tiers) {
      auto causes = Json::array();
      for (auto const& c : reason.causes)
        causes.push_back({{"name", pack_[c.cause].name}, {"posterior", c.posterior}});
      tiers.push_back(
          {{"name", pack_[reason.tier].name},
           {"probability", reason.chance.probability},
           {"threshold", reason.chance.threshold ? Json(*reason.chance.threshold) : Json(nullptr)},
           {"reached", reason.chance.is_reached},
           {"interval", interval(uncertainty_.tier_chance(reason.tier))},
           {"only_just", uncertainty_.is_only_just(reason.tier)},
           {"causes", std::move(causes)}});
    }
    auto held = Json::array();
    for (auto const& one : why.held_back) {
      auto const& alarm = pack_[one.alarm];
      held.push_back({{"alarm", alarm.name},
                      {"title", alarm.title},
                      {"tier", pack_[alarm.see].name},
                      {"answers", answers(one.behind)}});
    }
    return {{"by_alarm", why.is_by_alarm},
            {"by_ranking", why.is_by_ranking},
            {"fired", std::move(fired)},
            {"held_back", std::move(held)},
            {"taken", taken_json(pack_, result_)},
            {"open_alarms", why.open_alarms},
            {"tiers", std::move(tiers)}};
  }

  [[nodiscard]] Json between(std::pair<AskedCause, AskedCause> const& causes) const {
    auto const c = contrast(reviewed_.tables, result_, causes.first.cause, causes.second.cause);
    auto rules = Json::array();
    for (auto const& r : c.rules)
      rules.push_back({{"rule", pack_[r.rule].name},
                       {"text", reason_text(pack_, {r.rule, r.truth, r.band, 0, 1})},
                       {"first_decibans", decibans(r.for_first)},
                       {"second_decibans", decibans(r.for_second)},
                       {"answers", answers(r.behind)}});
    auto open = Json::array();
    for (auto const& o : c.open)
      open.push_back({{"rule", pack_[o.rule].name},
                      {"bits", o.bits},
                      {"most_for_first_decibans", decibans(o.most_for_first)},
                      {"most_for_second_decibans", decibans(o.most_for_second)},
                      {"signs", sign_names(o.signs)}});
    auto const nats = uncertainty_.difference(c.first, c.second);
    return {{"first", cause_name(c.first)},
            {"second", cause_name(c.second)},
            {"base_decibans", decibans(c.base_difference)},
            {"total_decibans", decibans(c.total)},
            {"interval_decibans", interval({decibans(nats.low), decibans(nats.high)})},
            {"told_apart", !nats.holds(0)},
            {"rules", std::move(rules)},
            {"open", std::move(open)}};
  }

  [[nodiscard]] Json what_if(std::vector<Change> const& supposed) const {
    auto const what = flinch::what_if(reviewed_.assessor, reviewed_.patient, supposed);
    auto const state = [&](RuleId rule, RuleState s) {
      return s.truth == Truth::unknown ? Json(nullptr)
                                       : Json(reason_text(pack_, {rule, s.truth, s.band, 0, 1}));
    };
    auto rules = Json::array();
    for (auto const& shift : what.rules)
      rules.push_back({{"rule", pack_[shift.rule].name},
                       {"before", state(shift.rule, shift.before)},
                       {"after", state(shift.rule, shift.after)}});
    auto alarms = Json::array();
    for (auto const& shift : what.alarms)
      alarms.push_back({{"alarm", pack_[shift.alarm].name},
                        {"tier", pack_[pack_[shift.alarm].see].name},
                        {"before", truth_text(shift.before)},
                        {"after", truth_text(shift.after)}});
    return {{"changes", changes(supposed)},
            {"before", summary(what.before)},
            {"after", summary(what.after)},
            {"rules", std::move(rules)},
            {"alarms", std::move(alarms)}};
  }

  [[nodiscard]] Json smallest() const {
    auto const found = smallest_changes(reviewed_.tables, reviewed_.assessor, reviewed_.patient);
    auto const list = [&](std::vector<ChangeSet> const& sets) {
      auto out = Json::array();
      for (auto const& set : sets)
        out.push_back({{"changes", changes(set.changes)},
                       {"tier", tier_name(set.tier)},
                       {"first", cause_name(set.first)},
                       {"first_posterior", set.first_posterior}});
      return out;
    };
    return {{"higher_tier", list(found.higher_tier)},
            {"lower_tier", list(found.lower_tier)},
            {"other_first", list(found.other_first)}};
  }

  Reviewed reviewed_;
  Pack const& pack_;
  Assessment const& result_;
  Uncertainty uncertainty_;
};

}  // namespace

Json review_json(Reviewed const& reviewed, ReviewRequest const& request) {
  return ReviewJson(reviewed).write(request);
}

}  // namespace flinch::cli
