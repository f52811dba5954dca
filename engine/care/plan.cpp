#include "flinch/care/plan.hpp"

#include <algorithm>

#include "care/gates.hpp"
#include "flinch/assess/open_questions.hpp"

namespace flinch {
namespace {

constexpr double day_s = 86400;
constexpr double likely_enough = 0.1;  // of a cause that a measure is for; a judgement

class Planner {
 public:
  Planner(Tables const& tables, Assessment const& result, CareReader audience)
      : tables_(tables), pack_(tables.pack()), result_(result) {
    plan_.audience = audience;
    if (auto const* weight = result.find(dog_sign::weight))
      weight_kg_ = std::get<double>(weight->answer);
  }

  CarePlan make() {
    plan_.tier = result_.tier;
    for (std::size_t i = 0; i < pack_.care.size(); ++i)
      if (pack_.care[i].taken) look_at_exposure(i);
    shut_mouth();
    for (std::size_t i = 0; i < pack_.care.size(); ++i)
      if (!pack_.care[i].taken) look_at_measure(i);
    collect_questions();
    set_look_again();
    return std::move(plan_);
  }

 private:
  // What was taken can make it more urgent, never less. An amount without a known substance counts
  // for each that it may have been.
  void look_at_exposure(std::size_t i) {
    auto const& care = pack_.care[i];
    Exposure out{i, fits(care), number(care.taken), {}, {}, {}, {}};
    if (out.is_this == Truth::unknown && another_is_known(care)) return;
    bool const nothing_taken = out.mg && *out.mg <= 0;
    bool const only_maybe = out.is_this == Truth::unknown && !out.mg;
    if (out.is_this == Truth::no || nothing_taken || only_maybe) return;
    if (out.mg) *out.mg = convert(*out.mg, pack_[*care.taken].unit, *find_unit("mg"));
    if (auto const since = number(care.since))
      out.hours = convert(*since, pack_[*care.since].unit, *find_unit("hours"));
    bool const is_believable =
        weight_kg_ && *weight_kg_ >= lightest_kg && *weight_kg_ <= heaviest_kg;
    if (!weight_kg_) out.refusal = DoseRefusal::weight_unknown;
    if (weight_kg_ && !is_believable) out.refusal = DoseRefusal::weight_out_of_range;
    if (out.mg && is_believable) {
      out.mg_per_kg = *out.mg / *weight_kg_;
      // Rounding must not hide a level: an amount at the threshold reaches it.
      constexpr double rounding = 1e-9;
      for (std::size_t level = 0; level < care.levels.size(); ++level) {
        if (*out.mg_per_kg < care.levels[level].mg_per_kg * (1 - rounding)) continue;
        out.reached.push_back(level);
        raise(care.levels[level].see);
      }
    }
    // Without a believable weight it counts as the smallest dog: too urgent rather than too late.
    if (out.mg && !is_believable)
      for (auto const& level : care.levels)
        if (*out.mg / lightest_kg >= level.mg_per_kg) raise(level.see);
    plan_.exposures.push_back(std::move(out));
  }

  // Of the substances that share an amount, one is known to be it: the others are not guessed at.
  [[nodiscard]] bool another_is_known(Care const& care) const {
    return std::any_of(pack_.care.begin(), pack_.care.end(), [&](Care const& other) {
      return other.taken == care.taken && fits(other) == Truth::yes;
    });
  }

  void raise(std::optional<TierId> see) {
    if (!see || (plan_.tier && *plan_.tier <= *see)) return;
    plan_.tier = see;
    plan_.raised_by_taken = true;
  }

  [[nodiscard]] std::optional<double> number(std::optional<SignId> sign) const {
    if (!sign) return std::nullopt;
    auto const* known = result_.find(*sign);
    if (known == nullptr) return std::nullopt;
    return std::get<double>(known->answer);
  }

  // Nothing by mouth at the top tier; none before a visit within the day, since an anaesthetic may
  // be needed; none while too little is known. While danger signs are open that could reach the top
  // tier, they are asked first.
  void shut_mouth() {
    constexpr TierId top{0};
    if (plan_.tier == top) {
      plan_.mouth = ClosedGate{GateKind::by_mouth_now, Truth::yes, "", {}, {}};
    } else if (plan_.tier && pack_[*plan_.tier].within_s <= day_s) {
      plan_.mouth = ClosedGate{GateKind::by_mouth_surgery, Truth::yes, "", {}, {}};
    } else if (!plan_.tier || result_.too_few_answers) {
      plan_.mouth = ClosedGate{GateKind::by_mouth_too_few, Truth::yes, "", {}, {}};
    } else if (result_.ceiling == top) {
      plan_.mouth = ClosedGate{GateKind::by_mouth_may_rise, Truth::unknown, "", {}, {}};
      for (auto const& question : open_questions(tables_, result_))
        if (question.could_reach == top) plan_.mouth->signs.push_back(question.sign);
    }
  }

  void look_at_measure(std::size_t i) {
    auto const& care = pack_.care[i];
    if (care.for_clinician && plan_.audience != CareReader::clinician) return;
    PlannedMeasure out;
    out.care = i;
    out.fits = fits(care);
    if (out.fits == Truth::no) return;
    for (auto const& gate : care.never_if) close(GateKind::never, gate, out);
    for (auto const& gate : care.ask_vet_if) close(GateKind::ask_vet, gate, out);
    bool const is_measure = care.avoid.empty() && care.watch.empty();
    if (is_measure && !care.for_clinician && !care.first_aid && plan_.tier == TierId{0})
      out.gates.push_back({GateKind::leave_now, Truth::yes, "", {}, {}});
    if (care.by_mouth && plan_.mouth) out.gates.push_back(*plan_.mouth);
    if (care.give) dose(care, out);
    if (care.name == "weight_loss" && weight_kg_)
      if (auto const sign = pack_.find_sign("body_condition"))
        if (auto const score = number(sign)) out.weight_loss = weight_loss(*weight_kg_, *score);
    out.advice = Advice::offered;
    for (auto const& gate : out.gates) out.advice = std::max(out.advice, advice_of(gate));
    std::stable_sort(out.gates.begin(), out.gates.end(),
                     [](auto const& a, auto const& b) { return advice_of(a) > advice_of(b); });
    auto& list = !care.avoid.empty()   ? plan_.avoid
                 : !care.watch.empty() ? plan_.watch
                                       : plan_.measures;
    list.push_back(std::move(out));
  }

  void close(GateKind kind, CareGate const& gate, PlannedMeasure& out) const {
    auto const truth = truth_of(tables_, result_, gate.condition);
    if (truth == Truth::no) return;
    out.gates.push_back(
        {kind, truth, gate.reason, signs_behind(tables_, result_, gate.condition), {}});
  }

  void dose(Care const& care, PlannedMeasure& out) const {
    out.dose = compute_dose(*care.give, care.at_most, care.forms, weight_kg_);
    auto const* refusal = std::get_if<DoseRefusal>(&*out.dose);
    if (refusal == nullptr) return;
    bool const is_unknown = *refusal == DoseRefusal::weight_unknown;
    out.gates.push_back({GateKind::dose,
                         is_unknown ? Truth::unknown : Truth::yes,
                         "",
                         {dog_sign::weight},
                         *refusal});
  }

  [[nodiscard]] static Advice advice_of(ClosedGate const& gate) {
    if (gate.kind == GateKind::ask_vet) return Advice::ask_vet;
    return gate.truth == Truth::yes ? Advice::withheld : Advice::ask_first;
  }

  [[nodiscard]] Truth fits(Care const& care) const {
    auto out = care.fit_if ? truth_of(tables_, result_, *care.fit_if) : Truth::yes;
    if (care.causes.empty()) return out;
    bool const is_likely =
        !result_.too_few_answers &&
        std::any_of(result_.ranking.begin(), result_.ranking.end(), [&](Ranked const& ranked) {
          return ranked.cause && ranked.posterior >= likely_enough &&
                 std::find(care.causes.begin(), care.causes.end(), *ranked.cause) !=
                     care.causes.end();
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
    std::stable_sort(
        plan_.questions.begin(), plan_.questions.end(),
        [](auto const& a, auto const& b) { return a.waiting.size() > b.waiting.size(); });
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
  std::optional<double> weight_kg_;
  CarePlan plan_;
};

}  // namespace

CarePlan plan_care(Tables const& tables, Assessment const& result, CareReader audience) {
  return Planner(tables, result, audience).make();
}

std::string refusal_text(DoseRefusal refusal) {
  switch (refusal) {
    case DoseRefusal::weight_unknown:
      return "weight missing: weigh the dog (you on the scales with and without it), or ask the "
             "clinic; no dose is guessed";
    case DoseRefusal::weight_out_of_range:
      return "weight outside 0.5 to 100 kg: check the number and its unit (lb or kg); no dose is "
             "computed";
    case DoseRefusal::too_small_to_measure:
      break;
  }
  return "too little to be measured or split safely in any form known here; ask the clinic";
}

}  // namespace flinch
