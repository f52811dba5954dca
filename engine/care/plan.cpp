#include "flinch/care/plan.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "flinch/assess/evaluator.hpp"
#include "flinch/assess/open_questions.hpp"
#include "flinch/model/body_weight.hpp"
#include "flinch/model/shown_weight.hpp"
#include "flinch/model/yes_and_no.hpp"

namespace flinch {
namespace {

constexpr double day_s = 86400;

class Planner {
 public:
  Planner(Tables const& tables, Assessment const& result, Reader reader)
      : tables_(tables),
        pack_(tables.pack()),
        result_(result),
        evaluator_(tables, result.knowledge),
        weight_kg_(result.knowledge.number(patient_sign::weight)) {
    plan_.weight_doubt = doubt_of_weight(pack_, result.knowledge);
    plan_.reader = reader;
  }

  CarePlan make() {
    plan_.tier = result_.judgement.tier;
    plan_.is_seen_today = plan_.tier && pack_[*plan_.tier].within_s <= day_s;
    ask_about_taken();
    shut_mouth();
    for (std::size_t i = 0; i < pack_.care.size(); ++i)
      if (!pack_.care[i].taken) look_at_measure(i);
    collect_questions();
    set_look_again();
    return std::move(plan_);
  }

 private:
  // What of the swallowed is not known: how much, when, which, and of how heavy a patient.
  void ask_about_taken() {
    for (auto const& substance : tables_.substances()) {
      auto const& care = pack_.care[substance.care];
      auto const* exposure = exposure_of(substance.care);
      // Where no level sets a tier, what it may have been is no reason to ask how much.
      auto const is_this = exposure != nullptr ? exposure->is_this
                           : substance.see     ? may_be_this(care)
                                               : std::nullopt;
      if (!is_this) {
        ask_which(care);
        continue;
      }
      if (exposure == nullptr || !exposure->mg) ask_of_taken(*care.taken);
      if (care.fit_if && *is_this == Truth::unknown)
        for (auto const sign : evaluator_.behind(*care.fit_if)) ask_of_taken(sign);
      if (care.since) ask_of_taken(*care.since);
      ask_of_taken(plan_.weight_doubt ? patient_sign::weight_confirmed : patient_sign::weight);
    }
  }

  [[nodiscard]] Exposure const* exposure_of(std::size_t care) const {
    for (auto const& exposure : result_.judgement.exposures)
      if (exposure.care == care) return &exposure;
    return nullptr;
  }

  // One of several, and that one of them was swallowed is known.
  [[nodiscard]] std::optional<Truth> may_be_this(Care const& care) const {
    if (!care.fit_if || evaluator_.truth(*care.fit_if) != Truth::unknown) return std::nullopt;
    for (auto const sign : evaluator_.behind(*care.fit_if)) {
      auto const whole = pack_[sign].part_of;
      auto const* known = whole ? result_.find(*whole) : nullptr;
      if (known != nullptr && says_yes(known->answer)) return Truth::unknown;
    }
    return std::nullopt;
  }

  // That something was swallowed is known, and a choice of which is open: that is asked.
  void ask_which(Care const& care) {
    if (!care.fit_if || evaluator_.truth(*care.fit_if) != Truth::unknown) return;
    auto const open = evaluator_.behind(*care.fit_if);
    auto const is_one = [&](SignId sign) { return is_choice(sign); };
    auto const choice = std::find_if(open.begin(), open.end(), is_one);
    if (choice == open.end()) return;
    if (std::all_of(open.begin(), open.end(), is_one) || names_a_choice_made(*care.fit_if))
      ask_of_taken(*choice);
  }

  // Whether one of the choices that the condition names has been made.
  [[nodiscard]] bool names_a_choice_made(Condition const& condition) const {
    if (condition.kind == Condition::Kind::meaning)
      return names_a_choice_made(pack_[condition.meaning].condition);
    if (condition.kind == Condition::Kind::test)
      return is_choice(condition.test.sign) && evaluator_.truth(condition) == Truth::yes;
    return condition.kind != Condition::Kind::negation &&
           std::any_of(condition.parts.begin(), condition.parts.end(),
                       [&](Condition const& part) { return names_a_choice_made(part); });
  }

  [[nodiscard]] bool is_choice(SignId sign) const { return traits(pack_[sign]).has_values; }

  void ask_of_taken(SignId sign) {
    auto& asked = plan_.taken_questions;
    bool const is_open =
        result_.find(sign) == nullptr && std::find(asked.begin(), asked.end(), sign) == asked.end();
    if (is_open) asked.push_back(sign);
  }

  // Nothing by mouth at the top tier; none before a visit within the day, where the vet decides
  // first; none while too little is known. While danger signs are open that could reach the top
  // tier, they are asked first.
  void shut_mouth() {
    constexpr TierId top{0};
    if (plan_.tier == top) {
      plan_.mouth = ClosedGate{GateKind::by_mouth_now, Truth::yes, "", {}, {}};
    } else if (plan_.is_seen_today) {
      plan_.mouth = ClosedGate{GateKind::by_mouth_surgery, Truth::yes, "", {}, {}};
    } else if (!plan_.tier || result_.judgement.nothing_told) {
      plan_.mouth = ClosedGate{GateKind::by_mouth_nothing_told, Truth::yes, "", {}, {}};
    } else if (result_.judgement.ceiling == top) {
      // What only a clinic can measure (blood cells, pressure in the eye) is not left open at home.
      ClosedGate gate{GateKind::by_mouth_may_rise, Truth::unknown, "", {}, {}};
      for (auto const& question : open_questions(tables_, result_))
        if (question.could_reach == top && pack_[question.sign].seen_by != SeenBy::clinic)
          gate.signs.push_back(question.sign);
      if (!gate.signs.empty()) plan_.mouth = gate;
    }
  }

  void look_at_measure(std::size_t i) {
    auto const& care = pack_.care[i];
    if (care.for_clinician && plan_.reader == Reader::keeper) return;
    PlannedMeasure out;
    out.care = i;
    out.fits = fits(care);
    if (out.fits == Truth::no) return;
    // A fast stands only before a visit, and of several the first that is known to fit.
    bool const is_fast = care.is_fasting;
    if (is_fast && (!is_fasted() || plan_.fast || out.fits != Truth::yes)) return;
    for (auto const& gate : care.never_if) close(GateKind::never, gate, out);
    for (auto const& gate : care.ask_vet_if) close(GateKind::ask_vet, gate, out);
    for (auto const& gate : care.stop_if) stop(gate, out);
    wait_for_the_vet(care, out);
    if (care.by_mouth && plan_.mouth && care.avoid.empty()) out.gates.push_back(*plan_.mouth);
    if (care.give) dose(care, out);
    if (care.slims_by && weight_kg_ && !plan_.weight_doubt)
      if (auto const score = result_.knowledge.number(*care.slims_by))
        out.weight_loss = weight_loss(pack_, care.slimming, *weight_kg_, *score);
    out.advice = Advice::offered;
    for (auto const& gate : out.gates) out.advice = std::max(out.advice, advice_of(gate));
    bool const is_barred = std::any_of(out.gates.begin(), out.gates.end(),
                                       [](auto const& gate) { return gate.truth == Truth::yes; });
    if (is_barred && out.dose && std::holds_alternative<GivenDose>(*out.dose)) out.dose.reset();
    std::stable_sort(out.gates.begin(), out.gates.end(),
                     [](auto const& a, auto const& b) { return advice_of(a) > advice_of(b); });
    if (care.for_clinician && plan_.reader == Reader::nurse) {
      bool const is_injected = care.give && syntax::is_injected(*care.give);
      if (plan_.is_seen_today && is_injected && out.fits == Truth::yes &&
          out.advice != Advice::withheld)
        plan_.vet_may_ask_for.push_back(i);
      return;
    }
    auto& list = !care.avoid.empty()   ? plan_.avoid
                 : !care.watch.empty() ? plan_.watch
                                       : plan_.measures;
    bool const stands = out.advice != Advice::withheld;
    list.push_back(std::move(out));
    if (is_fast && stands) plan_.fast = plan_.avoid.size() - 1;
  }

  [[nodiscard]] bool is_fasted() const {
    return plan_.mouth && (plan_.mouth->kind == GateKind::by_mouth_now ||
                           plan_.mouth->kind == GateKind::by_mouth_surgery);
  }

  void close(GateKind kind, CareGate const& gate, PlannedMeasure& out) const {
    auto const truth = evaluator_.truth(gate.condition);
    if (truth == Truth::no) return;
    out.gates.push_back({kind, truth, gate.reason, evaluator_.behind(gate.condition), {}});
  }

  // What means stop during a measure forbids to begin it. Unknown closes nothing: some of it shows
  // only while the measure lasts.
  void stop(CareGate const& gate, PlannedMeasure& out) const {
    if (evaluator_.truth(gate.condition) == Truth::yes) close(GateKind::stop, gate, out);
  }

  // At the top tier all but first aid would delay; before a visit within the day the rest waits,
  // but for what only keeps the patient at ease.
  void wait_for_the_vet(Care const& care, PlannedMeasure& out) const {
    if (!care.avoid.empty() || care.for_clinician || care.first_aid) return;
    bool const is_top = plan_.tier == TierId{0};
    if (is_top && care.watch.empty())
      out.gates.push_back({GateKind::leave_now, Truth::yes, "", {}, {}});
    else if (plan_.is_seen_today && !is_top && !care.while_waiting)
      out.gates.push_back({GateKind::seen_first, Truth::yes, "", {}, {}});
  }

  void dose(Care const& care, PlannedMeasure& out) const {
    out.dose = compute_dose(*care.give, care.at_most, care.forms, weight_kg_, pack_.doses,
                            pack_.syringe_marks);
    if (plan_.weight_doubt && depends_on_weight(*care.give) &&
        is_believable_kg(pack_.doses, *weight_kg_))
      out.dose = DoseRefusal::weight_doubted;
    auto const* refusal = std::get_if<DoseRefusal>(&*out.dose);
    if (refusal == nullptr) return;
    bool const is_doubted = *refusal == DoseRefusal::weight_doubted;
    bool const is_unknown = *refusal == DoseRefusal::weight_unknown || is_doubted;
    out.gates.push_back({GateKind::dose,
                         is_unknown ? Truth::unknown : Truth::yes,
                         "",
                         {is_doubted ? patient_sign::weight_confirmed : patient_sign::weight},
                         *refusal});
  }

  [[nodiscard]] static Advice advice_of(ClosedGate const& gate) {
    if (gate.kind == GateKind::ask_vet) return Advice::ask_vet;
    return gate.truth == Truth::yes ? Advice::withheld : Advice::ask_first;
  }

  [[nodiscard]] Truth fits(Care const& care) const {
    auto out = care.fit_if ? evaluator_.truth(*care.fit_if) : Truth::yes;
    if (care.causes.empty()) return out;
    if (result_.judgement.nothing_told) return both(out, Truth::unknown);
    auto const& chances = result_.judgement.posteriors_by_answers();
    bool const is_likely = std::any_of(care.causes.begin(), care.causes.end(), [&](CauseId cause) {
      return chances[index(cause)] >= likely_enough_for_care;
    });
    return both(out, truth(is_likely));
  }

  void collect_questions() {
    for (auto const& measure : plan_.measures) {
      if (measure.advice != Advice::ask_first || measure.fits != Truth::yes) continue;
      for (auto const& gate : measure.gates)
        if (advice_of(gate) == Advice::ask_first && gate.kind != GateKind::by_mouth_may_rise)
          for (auto const sign : gate.signs) wait_for(asked_as(sign), measure.care);
    }
    hand_over_what_hurts();
    std::stable_sort(
        plan_.questions.begin(), plan_.questions.end(),
        [](auto const& a, auto const& b) { return a.waiting.size() > b.waiting.size(); });
  }

  // A keeper is asked for nothing that only a clinic can find, nor for what hurts; nor for the rest
  // of what such a finding decides.
  void hand_over_what_hurts() {
    if (plan_.reader == Reader::nurse || plan_.reader == Reader::clinician) return;
    auto const is_for_hands = [&](CareQuestion const& question) {
      auto const& sign = pack_[question.sign];
      return sign.seen_by != SeenBy::anyone || sign.may_hurt;
    };
    auto& handed = plan_.for_examination;
    auto const is_handed = [&](std::size_t care) {
      return std::find(handed.begin(), handed.end(), care) != handed.end();
    };
    for (auto const& question : plan_.questions)
      if (is_for_hands(question))
        for (auto const care : question.waiting)
          if (!is_handed(care)) handed.push_back(care);
    std::sort(handed.begin(), handed.end());
    for (auto& question : plan_.questions) {
      auto& waiting = question.waiting;
      waiting.erase(std::remove_if(waiting.begin(), waiting.end(), is_handed), waiting.end());
    }
    auto& questions = plan_.questions;
    questions.erase(std::remove_if(questions.begin(), questions.end(),
                                   [](CareQuestion const& q) { return q.waiting.empty(); }),
                    questions.end());
  }

  [[nodiscard]] SignId asked_as(SignId sign) const {
    auto const whole = pack_[sign].part_of;
    return whole && result_.find(*whole) == nullptr ? asked_as(*whole) : sign;
  }

  void wait_for(SignId sign, std::size_t care) {
    auto found = std::find_if(plan_.questions.begin(), plan_.questions.end(),
                              [&](CareQuestion const& q) { return q.sign == sign; });
    if (found == plan_.questions.end())
      found = plan_.questions.insert(plan_.questions.end(), CareQuestion{sign, {}});
    if (found->waiting.empty() || found->waiting.back() != care) found->waiting.push_back(care);
  }

  void set_look_again() {
    constexpr double soonest_s = 900;
    constexpr double unknown_s = 7200;
    plan_.look_again_s =
        plan_.tier ? std::clamp(pack_[*plan_.tier].within_s / 2, soonest_s, day_s) : unknown_s;
  }

  Tables const& tables_;
  Pack const& pack_;
  Assessment const& result_;
  Evaluator evaluator_;
  std::optional<double> weight_kg_;
  CarePlan plan_;
};

}  // namespace

CarePlan plan_care(Tables const& tables, Assessment const& result, Reader reader) {
  return Planner(tables, result, reader).make();
}

ToldWarnings warnings_to_tell(Pack const& pack, CarePlan const& plan) {
  ToldWarnings out;
  bool const is_top = plan.tier == TierId{0};
  for (std::size_t i = 0; i < plan.avoid.size(); ++i) {
    auto const& warning = plan.avoid[i];
    auto const& care = pack.care[warning.care];
    if (care.for_clinician || warning.advice == Advice::withheld) continue;
    if (plan.fast == i) continue;  // told with the food and water
    if (is_top && care.grade == 'D') continue;
    (warning.fits == Truth::yes ? out.apply : out.may_not).push_back(i);
  }
  return out;
}

std::string refusal_text(Pack const& pack, Assessment const& result, DoseRefusal refusal) {
  switch (refusal) {
    case DoseRefusal::weight_unknown:
      return fmt::format(
          "weight missing: weigh the {} (one that can be carried: you on the scales with and "
          "without it), or have it weighed where it is seen; no dose is guessed",
          pack.words.one);
    case DoseRefusal::weight_out_of_range: {
      auto const [unit, in_a_kg] = weight_unit(pack);
      return fmt::format(
          "weight outside {:g} to {:g} {}: check the number and its unit ({}); no dose is computed",
          pack.doses.lightest_kg * in_a_kg, pack.doses.heaviest_kg * in_a_kg, unit,
          unit == "g" ? "g or kg" : "lb or kg");
    }
    case DoseRefusal::weight_doubted: {
      auto const doubt = doubt_of_weight(pack, result.knowledge);
      return (doubt ? doubt_words(pack, *doubt) : std::string("the weight is unusual")) +
             "; is that right? Weigh again; no amount is told until the weight is confirmed";
    }
    case DoseRefusal::too_small_to_measure:
      break;
  }
  return "too little to be measured or split safely in any form known here; another strength is "
         "for the vet to choose";
}

}  // namespace flinch
