#include "care/care_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "care/care_words.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/explain/taken.hpp"
#include "flinch/text/display.hpp"
#include "look/urgency_text.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t questions_shown = 8;
constexpr std::size_t danger_questions_shown = 4;

class CareText {
 public:
  CareText(Tables const& tables, Case const& dog, Assessment const& result, CarePlan const& plan,
           Look const& look)
      : pack_(tables.pack()), dog_(dog), result_(result), plan_(plan), page_(look) {}

  std::string write() {
    who();
    how_soon();
    taken();
    mouth();
    not_to_do();
    to_do();
    cross_checks();
    ask_first();
    advised(Advice::ask_vet, "ASK THE VET FIRST");
    advised(Advice::withheld, "WITHHELD");
    ring_again();
    look_again();
    caution();
    return page_.take();
  }

 private:
  [[nodiscard]] Care const& care(std::size_t i) const { return pack_.care[i]; }
  [[nodiscard]] bool is_keeper() const { return plan_.audience == CareReader::keeper; }
  [[nodiscard]] bool is_top() const { return plan_.tier == TierId{0}; }
  [[nodiscard]] bool is_clinician() const { return plan_.audience == CareReader::clinician; }

  void who() {
    page_.heading(dog_.name.empty() ? "A dog" : dog_.name);
    auto const* weight = result_.find(dog_sign::weight);
    page_.paragraph(fmt::format("Until seen, for the {}. {}.",
                                is_keeper()      ? "keeper"
                                : is_clinician() ? "clinician"
                                                 : "nurse",
                                weight == nullptr
                                    ? "Weight not known"
                                    : answer_text(pack_, dog_sign::weight, weight->answer)));
    page_.blank();
  }

  void how_soon() {
    page_.heading("HOW SOON");
    auto const tiers = pack_.tiers.size();
    if (!plan_.tier) {
      page_.line("  " + page_.marks(0, tiers) + "  " +
                 page_.strong(" Nothing told that says how soon "));
      page_.paragraph("Ring the clinic if in doubt. Unknown is not no.");
      page_.blank();
      return;
    }
    auto const& tier = pack_[*plan_.tier];
    page_.line(fmt::format("  {}  {}", page_.marks(tiers - index(*plan_.tier), tiers),
                           page_.strong(" " + inert(tier.title) + " ")));
    page_.paragraph(tier.say);
    for (auto const& exposure : result_.exposures)
      if (exposure.see == plan_.tier)
        page_.paragraph(fmt::format("{}; {}.", taken_text(pack_, exposure),
                                    harm_text(pack_, result_, exposure)),
                        2, page_.bullet());
    for (auto const& outcome : result_.alarms) {
      auto const& alarm = pack_[outcome.alarm];
      if (outcome.truth != Truth::yes) continue;
      bool const is_of_tier = alarm.see == *plan_.tier;
      page_.paragraph(alarm.title + ". " + (is_of_tier ? alarm.say : std::string()), 2,
                      page_.bullet());
    }
    if (result_.ceiling && (!result_.tier || *result_.ceiling < *plan_.tier))
      page_.paragraph(fmt::format("Could be up to \"{}\": see flinch assess for what is open.",
                                  pack_[*result_.ceiling].title));
    page_.blank();
  }

  void taken() {
    if (result_.exposures.empty() && plan_.taken_questions.empty()) return;
    page_.heading("ALREADY TAKEN");
    page_.paragraph("An estimate against the lowest published levels.");
    for (auto const& exposure : result_.exposures) {
      auto const& what = care(exposure.care);
      page_.paragraph(taken_text(pack_, exposure) + ".", 2, page_.bullet());
      if (exposure.reached.empty()) page_.paragraph(harm_text(pack_, result_, exposure), 4, "- ");
      for (auto const level : exposure.reached) reached(what.levels[level]);
      page_.paragraph(what.how, 4);
      if (!is_keeper()) page_.paragraph(what.because, 4);
    }
    for (auto const sign : plan_.taken_questions)
      page_.paragraph(question_words(pack_, sign), 2, "? ");
    page_.blank();
  }

  void reached(ToxicLevel const& level) {
    page_.paragraph(level.mg_per_kg > 0 ? fmt::format("reached: {} mg per kg, {}",
                                                      amount_words(level.mg_per_kg), level.harm)
                                        : level.harm,
                    4, "- ");
  }

  void mouth() {
    if (!plan_.mouth) return;
    bool const is_yet = plan_.mouth->truth != Truth::yes;
    page_.heading(is_yet ? "NO SUPPLEMENTS AND NO MEDICINES YET" : "NOTHING BY MOUTH");
    page_.paragraph(mouth_words(pack_, result_, plan_));
    auto const& signs = plan_.mouth->signs;
    for (std::size_t i = 0; i < std::min(signs.size(), danger_questions_shown); ++i)
      page_.paragraph(question_words(pack_, signs[i]), 2, "? ");
    if (signs.size() > danger_questions_shown)
      page_.paragraph(
          fmt::format("... and {} more: flinch assess", signs.size() - danger_questions_shown));
    page_.blank();
  }

  void not_to_do() {
    page_.heading("DO NOT");
    std::string others;
    for (auto const& warning : plan_.avoid) {
      auto const& what = care(warning.care);
      if (what.for_clinician || warning.advice == Advice::withheld) continue;
      if (is_top() && what.grade == 'D') continue;  // no time for what merely does not help
      if (warning.fits != Truth::yes) {
        others += (others.empty() ? "" : "; ") + what.title;
        continue;
      }
      page_.paragraph(fmt::format("{}: {} {}", what.title, what.avoid, what.because), 2,
                      page_.bullet());
      for (auto const& gate : warning.gates)
        if (gate.kind == GateKind::ask_vet && gate.truth == Truth::yes)
          page_.paragraph("But ask: " + gate_words(pack_, result_, gate), 4);
    }
    if (!others.empty())
      page_.paragraph("Nor any of these, unless you know that it does not apply: " + others + ".",
                      2, page_.bullet());
    page_.blank();
  }

  void to_do() {
    page_.heading(is_top() ? "WHAT YOU CAN DO ON THE WAY" : "WHAT YOU CAN DO IN THE NEXT 24 HOURS");
    bool has_any = false;
    for (auto const& measure : plan_.measures) {
      auto const& what = care(measure.care);
      if (what.for_clinician || measure.advice != Advice::offered || measure.fits != Truth::yes)
        continue;
      has_any = true;
      page_.paragraph(fmt::format("{} [{}]", what.title, grade_words(what.grade)), 2,
                      page_.bullet());
      details(measure);
    }
    if (is_top())
      page_.paragraph("All else would delay and waits until it has been seen.", 2, page_.bullet());
    if (!has_any && !is_top()) page_.paragraph("Nothing more than to keep it quiet and watch.");
    if (plan_.is_seen_today && !is_top())
      page_.paragraph("Exercise, massage, packs and slimming wait until it has been seen.", 2,
                      page_.bullet());
    page_.blank();
  }

  void details(PlannedMeasure const& measure) {
    auto const& what = care(measure.care);
    // What is barred has no dose to copy.
    if (measure.dose && measure.advice != Advice::withheld)
      if (auto const* dose = std::get_if<GivenDose>(&*measure.dose))
        page_.paragraph(
            (measure.advice == Advice::ask_first ? "If all that is answered no: " : "") +
                dose_words(what, *dose),
            4);
    if (!what.how.empty()) page_.paragraph(what.how, 4);
    if (measure.weight_loss) slimming(*measure.weight_loss);
    for (auto const& gate : what.stop_if)
      if (!gate.reason.empty()) page_.paragraph(gate.reason, 4, "Stop: ");
    if (!is_keeper() || what.grade == 'D' || what.by_mouth)
      page_.paragraph(what.because, 4, "Evidence: ");
    if (is_clinician()) sources(what);
  }

  void slimming(WeightLoss const& plan) {
    page_.paragraph(
        fmt::format("Aim at about {:.1f} kg. Start with {:.0f} kcal a day (resting energy, 70 x "
                    "kg^0.75, at that weight; dogs differ up to threefold). Lose {:.2f} to {:.2f} "
                    "kg a week. Lameness may ease from {:.1f} kg lost, measurably from {:.1f} kg.",
                    plan.aim_kg, plan.kcal_a_day, plan.slowest_kg_a_week, plan.fastest_kg_a_week,
                    plan.first_benefit_kg, plan.force_plate_benefit_kg),
        4);
  }

  void sources(Care const& what) {
    for (auto const id : what.cites) page_.paragraph(pack_[id].text, 4, "Source: ");
  }

  void cross_checks() {
    if (!is_clinician()) return;
    page_.heading("CROSS-CHECK FOR THE CLINICIAN");
    page_.paragraph("Prescription items and aspirin: ranges and cautions, no instruction.");
    if (auto const* weight = result_.find(dog_sign::weight))
      if (auto const surface = body_surface_m2(std::get<double>(weight->answer)))
        page_.paragraph(fmt::format(
            "Body surface {:.2f} m2 (0.101 x kg^2/3); resting energy {:.0f} kcal a day.", *surface,
            *resting_energy_kcal(std::get<double>(weight->answer))));
    for (auto const* list : {&plan_.measures, &plan_.avoid})
      for (auto const& measure : *list)
        if (care(measure.care).for_clinician) cross_check(measure);
    page_.blank();
  }

  void cross_check(PlannedMeasure const& measure) {
    auto const& what = care(measure.care);
    auto const word = measure.advice == Advice::offered     ? "no bar known"
                      : measure.advice == Advice::ask_vet   ? "weigh up"
                      : measure.advice == Advice::ask_first ? "ask first"
                                                            : "barred";
    page_.paragraph(fmt::format("{}: {} [{}]", what.title, what.avoid.empty() ? word : what.avoid,
                                grade_words(what.grade)),
                    2, page_.bullet());
    for (auto const& gate : measure.gates)
      page_.paragraph(gate_words(pack_, result_, gate), 4, "- ");
    details(measure);
  }

  void ask_first() {
    std::string waiting;
    for (auto const& measure : plan_.measures)
      if (measure.advice == Advice::ask_first && measure.fits == Truth::yes &&
          !care(measure.care).for_clinician)
        waiting += (waiting.empty() ? "" : "; ") + care(measure.care).title;
    // A keeper who must leave now is asked nothing that only a measure waits for.
    if (waiting.empty() || (is_top() && is_keeper())) return;
    page_.heading("ASK FIRST");
    page_.paragraph("Not before these are answered; unknown is not no:");
    page_.paragraph(waiting + ".");
    auto const& questions = plan_.questions;
    for (std::size_t i = 0; i < std::min(questions.size(), questions_shown); ++i)
      page_.paragraph(question_words(pack_, questions[i].sign), 2, "? ");
    if (questions.size() > questions_shown)
      page_.paragraph(fmt::format("... and {} more questions", questions.size() - questions_shown));
    page_.blank();
  }

  void advised(Advice advice, std::string_view heading) {
    bool has_heading = false;
    for (auto const& measure : plan_.measures) {
      auto const& what = care(measure.care);
      if (measure.advice != advice || measure.fits != Truth::yes || what.for_clinician) continue;
      if (merely_waits(measure)) continue;
      if (!has_heading) page_.heading(heading);
      has_heading = true;
      page_.paragraph(what.title, 2, page_.bullet());
      for (auto const& gate : measure.gates)
        if (gate.kind != GateKind::leave_now && gate.kind != GateKind::seen_first &&
            (advice == Advice::ask_vet || gate.truth == Truth::yes))
          page_.paragraph(gate_words(pack_, result_, gate), 4, "- ");
      if (!is_keeper() && advice == Advice::ask_vet) details(measure);
    }
    if (has_heading) page_.blank();
  }

  void ring_again() {
    page_.heading("RING AGAIN");
    if (is_top()) {
      page_.paragraph("Something changes on the way: ring the clinic while you travel.", 2,
                      page_.bullet());
      page_.blank();
      return;
    }
    for (auto const& one : plan_.watch)
      if (one.fits == Truth::yes && one.advice != Advice::withheld)
        page_.paragraph(care(one.care).title + ": " + care(one.care).watch, 2, page_.bullet());
    page_.blank();
  }

  void look_again() {
    page_.heading("LOOK AGAIN");
    page_.paragraph(is_top()
                        ? "All the time, until it is seen; do not wait for a change."
                        : fmt::format("In {} at the latest, with the same questions; at once if "
                                      "anything gets worse.",
                                      time_words(plan_.look_again_s)));
    page_.blank();
  }

  void caution() {
    page_.paragraph(
        "Flinch supports people who decide; it does not diagnose. A licensed veterinarian and "
        "local rules decide. Give no human painkillers. If the dog gets worse, ring again at once.",
        0);
  }

  Pack const& pack_;
  Case const& dog_;
  Assessment const& result_;
  CarePlan const& plan_;
  Page page_;
};

}  // namespace

std::string care_text(Tables const& tables, Case const& dog, Assessment const& result,
                      CarePlan const& plan, Look const& look) {
  return CareText(tables, dog, result, plan, look).write();
}

void write_care_summary(Pack const& pack, CarePlan const& plan, Page& page) {
  constexpr std::size_t shown = 3;
  bool const is_top = plan.tier == TierId{0};
  std::size_t offered = 0;
  std::string titles;
  for (auto const& measure : plan.measures) {
    if (measure.advice != Advice::offered || measure.fits != Truth::yes) continue;
    auto const& care = pack.care[measure.care];
    bool const is_told = is_top && care.first_aid;  // in full, below
    if (care.for_clinician || is_told || ++offered > shown) continue;
    titles += (titles.empty() ? "" : "; ") + pack.care[measure.care].title;
  }
  if (pack.care.empty()) return;
  page.heading("UNTIL SEEN");
  if (plan.mouth)
    page.paragraph(plan.mouth->kind == GateKind::by_mouth_may_rise
                       ? "No medicine and no supplement yet: danger signs are open."
                       : "Nothing by mouth as it stands.",
                   2, page.bullet());
  if (!titles.empty()) page.paragraph(titles + ".", 2, page.bullet());
  if (is_top)
    write_first_aid(pack, plan, Wording::in_full, page);
  else
    page.paragraph(fmt::format("Look again in {} at the latest; at once if anything gets worse.",
                               time_words(plan.look_again_s)),
                   2, page.bullet());
  page.paragraph("What to do, what not, and when to ring again: flinch care CASE", 2,
                 page.bullet());
  page.blank();
}

}  // namespace flinch::cli
