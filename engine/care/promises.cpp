#include "flinch/care/promises.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "care/alarm_needs.hpp"
#include "flinch/assess/evaluator.hpp"
#include "flinch/care/plan.hpp"

namespace flinch {
namespace {

// What `check` prints is told with six digits.
bool is_as_told(double a, double b) {
  return std::abs(a - b) <= 1e-5 * std::max(std::abs(a), std::abs(b));
}

std::string tier_name(Pack const& pack, std::optional<TierId> tier) {
  return tier ? pack[*tier].name : "no tier";
}

std::string ranking_head(Pack const& pack, Assessment const& result) {
  std::string out;
  for (std::size_t i = 0; i < std::min<std::size_t>(3, result.ranking.size()); ++i) {
    auto const& ranked = result.ranking[i];
    out += fmt::format("{}{} {:.0f}%", out.empty() ? "" : ", ",
                       ranked.cause ? pack[*ranked.cause].name : "none of the listed causes",
                       100 * ranked.posterior);
  }
  return out;
}

// The tier that came out, the alarms that ask for it, and the ranking.
std::string tier_and_why(Pack const& pack, Assessment const& result) {
  constexpr std::size_t shown = 6;
  std::string alarms;
  std::size_t fired = 0;
  for (std::uint32_t i = 0; i < pack.alarms.size(); ++i)
    if (pack.alarms[i].see == result.judgement.tier && result.judgement.has_fired(AlarmId{i}) &&
        ++fired <= shown)
      alarms += (alarms.empty() ? "" : ", ") + pack.alarms[i].name;
  auto const by = alarms.empty() ? "" : fmt::format("alarm {}; ", alarms);
  return fmt::format("{} ({}{})", tier_name(pack, result.judgement.tier), by,
                     ranking_head(pack, result));
}

// Place in the ranking among the listed causes, from 1.
std::size_t rank_of(Assessment const& result, CauseId cause) {
  auto const place = result.place(cause);
  return place + (place < result.place(std::nullopt) ? 1 : 0);
}

// What the clinician's page says of a measure: nobody's page offers more. Null: it does not fit.
PlannedMeasure const* find_planned(CarePlan const& plan, std::size_t care) {
  for (auto const* list : {&plan.measures, &plan.avoid, &plan.watch})
    for (auto const& measure : *list)
      if (measure.care == care) return &measure;
  return nullptr;
}

// Signs by their names, as an author writes them; of many the first.
std::string sign_names(Pack const& pack, std::vector<SignId> const& signs, std::size_t shown = 6) {
  std::string out;
  for (std::size_t i = 0; i < std::min(shown, signs.size()); ++i)
    out += (out.empty() ? "" : ", ") + pack[signs[i]].name;
  if (signs.size() > shown) out += fmt::format(" and {} more", signs.size() - shown);
  return out;
}

std::string signs_told(Tables const& tables, Case const& patient) {
  std::vector<SignId> told;
  for (auto const& [sign, answer] : patient.answers)
    if (tables.is_told(sign, answer)) told.push_back(sign);
  return sign_names(tables.pack(), told);
}

std::string why_silent(Tables const& tables, Assessment const& result, Alarm const& alarm) {
  auto const& pack = tables.pack();
  Evaluator const evaluator(tables, result.knowledge);
  auto const trigger = evaluator.truth(alarm.trigger());
  if (trigger == Truth::yes && alarm.unless() != nullptr)
    return "held back by its `unless`: " + sign_names(pack, evaluator.behind(*alarm.unless()));
  if (trigger == Truth::unknown)
    return "it did not fire: not known: " + sign_names(pack, evaluator.behind(alarm.trigger()));
  return "it did not fire: " + what_it_needs(tables, result, alarm.trigger());
}

std::string why_standing(Tables const& tables, Assessment const& result, Alarm const& alarm) {
  auto const* unless = alarm.unless();
  if (unless == nullptr) return "it fired";
  Evaluator const evaluator(tables, result.knowledge);
  auto const signs = sign_names(tables.pack(), evaluator.behind(*unless));
  return evaluator.truth(*unless) == Truth::unknown
             ? "it fired: of its `unless` not known: " + signs
             : "it fired: its `unless` does not hold: " + signs;
}

std::string refusal_reason(DoseRefusal refusal) {
  switch (refusal) {
    case DoseRefusal::weight_unknown:
      return "the weight is not known";
    case DoseRefusal::weight_out_of_range:
      return "the weight lies outside `doses`";
    case DoseRefusal::weight_doubted:
      return "the weight is doubted, and `weight_confirmed` is not answered";
    case DoseRefusal::too_small_to_measure:
      break;
  }
  return "no `form` can measure so little";
}

// An example has to answer each of them: nobody wants to be told in turns.
constexpr std::size_t all_to_be_answered = 40;

// Why a gate is closed, in the words of the language.
std::string gate_reason(Pack const& pack, Assessment const& result, ClosedGate const& gate) {
  auto const behind = [&](std::string_view clause) {
    std::vector<SignId> open;
    std::vector<SignId> known;
    for (auto const sign : gate.signs)
      (result.find(sign) == nullptr ? open : known).push_back(sign);
    return gate.truth == Truth::unknown
               ? fmt::format("`{}`: not known: {}", clause, sign_names(pack, open))
               : fmt::format("`{}`: {}", clause, sign_names(pack, known));
  };
  switch (gate.kind) {
    case GateKind::never:
      return behind("never if");
    case GateKind::ask_vet:
      return behind("ask vet if");
    case GateKind::stop:
      return behind("stop if");
    case GateKind::leave_now:
      return "at the top tier only `first aid` is offered";
    case GateKind::seen_first:
      return "before a visit within the day only `first aid` and `while waiting` are offered";
    case GateKind::by_mouth_now:
      return "nothing goes by mouth at the top tier";
    case GateKind::by_mouth_surgery:
      return "nothing goes by mouth before a visit within the day";
    case GateKind::by_mouth_nothing_told:
      return "nothing goes by mouth while nothing was told that says how soon";
    case GateKind::by_mouth_may_rise:
      return fmt::format("nothing goes by mouth while these could reach the top tier: {}",
                         sign_names(pack, gate.signs, all_to_be_answered));
    case GateKind::dose:
      break;
  }
  return refusal_reason(gate.refusal.value_or(DoseRefusal::weight_unknown));
}

std::string amount_text(Care const& care, GivenDose const& dose) {
  auto const unit = dose.unit.empty() ? "" : " " + dose.unit;
  bool const is_range = care.give->up_to && dose.low < dose.amount;
  return (is_range ? fmt::format("{:.6g} to ", dose.low) : std::string()) +
         fmt::format("{:.6g}{}", dose.amount, unit);
}

// "4 mL, 1.5 tablets": as a promise says it.
std::string portions_text(GivenDose const& dose) {
  constexpr std::array<std::string_view, 4> pieces = {"tablets", "capsules", "mL", "spoons"};
  std::string out;
  for (auto const& portion : dose.portions) {
    bool const is_range = portion.least_count < portion.count;
    out += fmt::format("{}{}{:.6g} {}", out.empty() ? " in " : ", or ",
                       is_range ? fmt::format("{:.6g} to ", portion.least_count) : std::string(),
                       portion.count, pieces.at(static_cast<std::size_t>(portion.form.kind)));
  }
  return out;
}

// What came out for a measure, and why it did.
class MeasureOutcome {
 public:
  MeasureOutcome(Tables const& tables, Assessment const& result, CarePlan const& plan,
                 std::size_t care)
      : tables_(tables),
        pack_(tables.pack()),
        result_(result),
        care_(pack_.care[care]),
        measure_(find_planned(plan, care)) {}

  /// None where it does not fit, or is not known to.
  [[nodiscard]] std::optional<Advice> advice() const {
    if (measure_ == nullptr || measure_->fits != Truth::yes) return std::nullopt;
    return measure_->advice;
  }

  [[nodiscard]] bool is_held_by(PromisedPortion const& promised) const {
    auto const* dose = given();
    if (dose == nullptr) return false;
    return std::any_of(dose->portions.begin(), dose->portions.end(),
                       [&](Portion const& portion) { return is_promised(portion, promised); });
  }

  [[nodiscard]] bool comes_to(PromisedAmount const& promised) const {
    auto const* dose = given();
    if (dose == nullptr) return false;
    bool const is_least =
        !promised.least || (care_.give->up_to && is_as_told(*promised.least, dose->low));
    return is_least && is_as_told(promised.most, dose->amount);
  }

  [[nodiscard]] std::string text(bool with_portions) const {
    auto const how = advice();
    if (!how) return misfit();
    auto const* dose = given();
    auto const amount = dose == nullptr ? ""
                                        : " " + amount_text(care_, *dose) +
                                              (with_portions ? portions_text(*dose) : "");
    switch (*how) {
      case Advice::offered:
        return "offered" + amount;
      case Advice::ask_vet:
        return "ask first (the vet)" + amount + reasons(Truth::no);
      case Advice::ask_first:
        return "ask first" + amount + reasons(Truth::unknown);
      case Advice::withheld:
        break;
    }
    return "withheld" + reasons(Truth::yes);
  }

 private:
  [[nodiscard]] GivenDose const* given() const {
    return measure_ == nullptr || !measure_->dose ? nullptr
                                                  : std::get_if<GivenDose>(&*measure_->dose);
  }

  // Of the gates whose condition is so; `no` for those at which the vet is asked.
  [[nodiscard]] std::string reasons(Truth truth) const {
    std::string out;
    for (auto const& gate : measure_->gates) {
      bool const is_for_vet = gate.kind == GateKind::ask_vet;
      if (truth == Truth::no ? !is_for_vet : is_for_vet || gate.truth != truth) continue;
      out += (out.empty() ? ": " : "; ") + gate_reason(pack_, result_, gate);
    }
    return out;
  }

  [[nodiscard]] std::string misfit() const {
    if (measure_ == nullptr) return "it does not fit";
    auto const open = care_.fit_if ? Evaluator(tables_, result_.knowledge).behind(*care_.fit_if)
                                   : std::vector<SignId>();
    return open.empty() ? "it is not known to fit"
                        : "it is not known to fit: not known: " + sign_names(pack_, open);
  }

  Tables const& tables_;
  Pack const& pack_;
  Assessment const& result_;
  Care const& care_;
  PlannedMeasure const* measure_;
};

}  // namespace

bool is_promised(Portion const& portion, PromisedPortion const& promised) {
  return portion.form.kind == promised.kind && is_as_told(promised.most, portion.count) &&
         (!promised.least || is_as_told(*promised.least, portion.least_count));
}

std::vector<BrokenPromise> broken_promises(Tables const& tables, Assessor& assessor,
                                           Example const& example) {
  auto const& pack = tables.pack();
  auto const result = assessor.assess(example.patient);
  auto const plan = plan_care(tables, result, Reader::clinician);
  std::vector<BrokenPromise> out;
  auto const expect = [&](bool kept, Promise const& promise, std::string instead) {
    if (!kept) out.push_back({promise.text, std::move(instead)});
  };
  for (auto const& promise : example.promises) {
    CauseId const cause{promise.subject};
    TierId const tier{promise.subject};
    AlarmId const alarm{promise.subject};
    using Kind = syntax::Promise::Kind;
    switch (promise.kind) {
      case Kind::first:
        expect(rank_of(result, cause) == 1, promise, ranking_head(pack, result));
        break;
      case Kind::not_first:
        expect(rank_of(result, cause) != 1, promise, ranking_head(pack, result));
        break;
      case Kind::among:
        expect(rank_of(result, cause) <= promise.rank, promise,
               fmt::format("rank {} ({})", rank_of(result, cause), ranking_head(pack, result)));
        break;
      case Kind::tier:
        expect(result.judgement.tier == tier, promise, tier_and_why(pack, result));
        break;
      case Kind::tier_at_least:
        expect(result.judgement.tier && *result.judgement.tier <= tier, promise,
               tier_and_why(pack, result));
        break;
      case Kind::ceiling:
        expect(result.judgement.ceiling == tier, promise,
               tier_name(pack, result.judgement.ceiling));
        break;
      case Kind::alarm:
        expect(result.judgement.has_fired(alarm), promise, why_silent(tables, result, pack[alarm]));
        break;
      case Kind::not_alarm:
        expect(!result.judgement.has_fired(alarm), promise,
               why_standing(tables, result, pack[alarm]));
        break;
      case Kind::offered:
      case Kind::not_offered:
      case Kind::withheld:
      case Kind::ask_first: {
        MeasureOutcome const outcome(tables, result, plan, promise.subject);
        auto const advice = outcome.advice();
        bool const is_kept = promise.kind == Kind::offered       ? advice == Advice::offered
                             : promise.kind == Kind::not_offered ? advice != Advice::offered
                             : promise.kind == Kind::withheld
                                 ? advice == Advice::withheld
                                 : advice == Advice::ask_first || advice == Advice::ask_vet;
        bool const is_amount = !promise.amount || outcome.comes_to(*promise.amount);
        bool const is_held = !promise.portion || outcome.is_held_by(*promise.portion);
        expect(is_kept && is_amount && is_held, promise, outcome.text(promise.portion.has_value()));
        break;
      }
      case Kind::nothing_told:
        expect(result.judgement.nothing_told, promise,
               "told: " + signs_told(tables, example.patient));
        break;
    }
  }
  return out;
}

}  // namespace flinch
