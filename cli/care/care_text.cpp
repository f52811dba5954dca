#include "care/care_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <vector>

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
  CareText(Tables const& tables, Case const& dog, std::string_view file, Assessment const& result,
           CarePlan const& plan, Look const& look)
      : pack_(tables.pack()), dog_(dog), file_(file), result_(result), plan_(plan), page_(look) {}

  std::string write() {
    who();
    how_soon();
    in_five_lines();
    taken();
    mouth();
    not_to_do();
    to_do();
    have_ready();
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
      bool const is_told = alarm.see == *plan_.tier && !has_script();
      page_.paragraph(alarm.title + ". " + (is_told ? alarm.say : std::string()), 2,
                      page_.bullet());
    }
    if (result_.ceiling && (!result_.tier || *result_.ceiling < *plan_.tier))
      page_.paragraph(fmt::format("Could be up to \"{}\": for what is open, flinch assess {}",
                                  pack_[*result_.ceiling].title, inert(file_)));
    page_.blank();
  }

  // What is to be done at once is told once, in one order.
  [[nodiscard]] bool has_script() const { return is_keeper() && plan_.is_seen_today; }

  [[nodiscard]] std::vector<std::string> first_aid_titles(bool is_of_this_dog) const {
    std::vector<std::string> out;
    for (auto const& measure : plan_.measures) {
      auto const& what = care(measure.care);
      if (what.first_aid && !what.for_clinician && measure.advice == Advice::offered &&
          measure.fits == Truth::yes && what.fit_if.has_value() == is_of_this_dog)
        out.push_back(what.title + ".");
    }
    return out;
  }

  // A frightened keeper reads five lines: what helps this dog first, in the order of the pack (air,
  // bleeding, cooling, back and neck, carrying, packet), then what its alarms add.
  void in_five_lines() {
    if (!has_script()) return;
    constexpr std::size_t shown = 5;
    auto lines = first_aid_titles(true);
    auto const titles = lines.size();  // told in full below
    for (auto const& outcome : result_.alarms) {
      auto const& alarm = pack_[outcome.alarm];
      if (outcome.truth == Truth::yes && alarm.see == *plan_.tier && !alarm.say.empty())
        lines.push_back(alarm.say);
    }
    for (auto i = std::max(shown, titles); i < lines.size(); ++i) further_.push_back(lines[i]);
    for (auto& title : first_aid_titles(false)) lines.push_back(std::move(title));
    if (lines.empty()) return;
    page_.heading(is_top() ? "BEFORE YOU LEAVE AND ON THE WAY, IN THIS ORDER"
                           : "FIRST, IN THIS ORDER");
    for (std::size_t i = 0; i < std::min(shown, lines.size()); ++i)
      page_.paragraph(lines[i], 2, fmt::format("{}. ", i + 1));
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
    page_.paragraph((level.mg_per_kg > 0 ? "reached: " : "") + level_text(level), 4, "- ");
  }

  void mouth() {
    if (!plan_.mouth) return;
    bool const is_yet = plan_.mouth->truth != Truth::yes;
    page_.heading(is_yet ? "NO SUPPLEMENTS AND NO MEDICINES YET" : "FOOD, WATER, MEDICINES");
    page_.paragraph(mouth_words(pack_, result_, plan_));
    auto const& signs = plan_.mouth->signs;
    for (std::size_t i = 0; i < std::min(signs.size(), danger_questions_shown); ++i)
      page_.paragraph(question_words(pack_, signs[i]), 2, "? ");
    if (signs.size() > danger_questions_shown)
      page_.paragraph(fmt::format("... and {} more: flinch assess {}",
                                  signs.size() - danger_questions_shown, inert(file_)));
    page_.blank();
  }

  void not_to_do() {
    auto const told = warnings_to_tell(pack_, plan_);
    auto const others = may_not_words(pack_, plan_, told);
    if (told.apply.empty() && others.empty()) return;
    page_.heading("DO NOT");
    for (auto const i : told.apply) {
      auto const& warning = plan_.avoid[i];
      auto const& what = care(warning.care);
      page_.paragraph(fmt::format("{}: {} {}", what.title, what.avoid, what.because), 2,
                      page_.bullet());
      for (auto const& gate : warning.gates)
        if (gate.kind == GateKind::ask_vet && gate.truth == Truth::yes)
          page_.paragraph("But ask: " + gate_words(pack_, result_, gate), 4);
    }
    if (!others.empty()) page_.paragraph(others, 2, page_.bullet());
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
    for (auto const& say : further_) page_.paragraph(say, 2, page_.bullet());
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
    if (measure.dose)
      if (auto const* dose = std::get_if<GivenDose>(&*measure.dose))
        page_.paragraph(
            (measure.advice == Advice::offered ? "" : "Only if each of these is answered no: ") +
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

  // What the vet asks the nurse for first, and what only waits for the vet's word.
  void have_ready() {
    if (plan_.audience != CareReader::nurse) return;
    page_.heading("HAVE READY FOR THE VET");
    page_.paragraph(
        result_.find(dog_sign::weight) == nullptr
            ? "Weight (weigh it), pulse, refill time, gums, breaths a minute, temperature."
            : "Pulse, refill time, gums, breaths a minute, temperature.",
        2, page_.bullet());
    page_.paragraph("All medicines with name, strength and last dose; last food and water.", 2,
                    page_.bullet());
    std::string cleared;
    for (auto const& measure : plan_.measures)
      if (measure.advice == Advice::ask_vet && measure.fits == Truth::yes)
        cleared += (cleared.empty() ? "" : "; ") + care(measure.care).title;
    if (!cleared.empty())
      page_.paragraph("For the vet to clear: " + cleared + ".", 2, page_.bullet());
    page_.blank();
  }

  void cross_checks() {
    if (!is_clinician()) return;
    page_.heading("CROSS-CHECK FOR THE CLINICIAN");
    page_.paragraph(
        "What fits this dog's problem: ranges and cautions, no instruction. Dose by lean weight; "
        "read "
        "strengths from the packet.");
    if (auto const* weight = result_.find(dog_sign::weight))
      if (auto const surface = body_surface_m2(std::get<double>(weight->answer)))
        page_.paragraph(fmt::format(
            "Body surface {:.2f} m2 (0.101 x kg^2/3); resting energy {:.0f} kcal a day.", *surface,
            *resting_energy_kcal(std::get<double>(weight->answer))));
    std::string barred;
    for (auto const* list : {&plan_.measures, &plan_.avoid})
      for (auto const& measure : *list) {
        if (!care(measure.care).for_clinician || measure.fits != Truth::yes) continue;
        if (measure.advice == Advice::withheld)
          barred += barred_words(measure) + "\n";
        else
          cross_check(measure);
      }
    tell_barred(barred);
    page_.blank();
  }

  // What this dog may not have is one line each, with every reason that is known.
  [[nodiscard]] std::string barred_words(PlannedMeasure const& measure) const {
    auto out = care(measure.care).title + ": ";
    bool is_first = true;
    for (auto const& gate : measure.gates) {
      if (gate.truth != Truth::yes) continue;
      out += (is_first ? "" : " ") + gate_words(pack_, result_, gate);
      is_first = false;
    }
    return out;
  }

  void tell_barred(std::string_view barred) {
    if (barred.empty()) return;
    page_.paragraph("Not for this dog as it stands:");
    for (std::size_t from = 0; from < barred.size();) {
      auto const end = barred.find('\n', from);
      page_.paragraph(barred.substr(from, end - from), 4, "- ");
      from = end + 1;
    }
  }

  void cross_check(PlannedMeasure const& measure) {
    auto const& what = care(measure.care);
    std::string const word = !what.avoid.empty()                 ? what.avoid
                             : !what.give                        ? ""
                             : measure.advice == Advice::offered ? "nothing known against it"
                             : measure.advice == Advice::ask_vet ? "weigh up"
                                                                 : "ask first";
    page_.paragraph(fmt::format("{}{}{} [{}]", what.title, word.empty() ? "" : ": ", word,
                                grade_words(what.grade)),
                    2, page_.bullet());
    told_gates(measure);
    details(measure);
  }

  // What a class of medicines shares is told at the first of them, and pointed to at the others.
  void told_gates(PlannedMeasure const& measure) {
    auto const& title = care(measure.care).title;
    std::size_t shared = 0;
    std::string shared_with;
    for (auto const& gate : measure.gates) {
      auto const words = gate_words(pack_, result_, gate);
      auto const [told, is_new] = told_gates_.emplace(words, title);
      if (is_new) {
        page_.paragraph(words, 4, "- ");
      } else {
        ++shared;
        shared_with = told->second;
      }
    }
    if (shared > 0)
      page_.paragraph(
          fmt::format("{}as for {}: {} point{}.", shared < measure.gates.size() ? "and " : "",
                      shared_with, shared, shared > 1 ? "s" : ""),
          4, "- ");
  }

  void ask_first() {
    std::string waiting;
    std::string examined;
    auto const& handed = plan_.for_examination;
    for (auto const& measure : plan_.measures) {
      if (measure.advice != Advice::ask_first || measure.fits != Truth::yes ||
          care(measure.care).for_clinician)
        continue;
      bool const is_handed = std::find(handed.begin(), handed.end(), measure.care) != handed.end();
      auto& titles = is_handed ? examined : waiting;
      titles += (titles.empty() ? "" : "; ") + care(measure.care).title;
    }
    // A keeper who must leave now is asked nothing that only a measure waits for.
    if ((waiting.empty() && examined.empty()) || (is_top() && is_keeper())) return;
    page_.heading("ASK FIRST");
    if (!examined.empty())
      page_.paragraph(
          "A vet examines it before any of these; do not test it yourself: " + examined + ".");
    if (!waiting.empty()) {
      page_.paragraph("Not before these are answered; unknown is not no:");
      page_.paragraph(waiting + ".");
    }
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
      // What only keeps the dog at ease and has had to end is told under what not to do.
      if (what.while_waiting && measure.gates.front().kind == GateKind::stop) continue;
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
    if (is_top()) {
      page_.heading("RING AGAIN");
      page_.paragraph("Something changes on the way: ring the clinic while you travel.", 2,
                      page_.bullet());
      page_.blank();
      return;
    }
    bool has_heading = false;
    for (auto const& one : plan_.watch) {
      if (one.fits != Truth::yes || one.advice == Advice::withheld) continue;
      if (!has_heading) page_.heading("RING AGAIN");
      has_heading = true;
      page_.paragraph(care(one.care).title + ": " + care(one.care).watch, 2, page_.bullet());
    }
    if (has_heading) page_.blank();
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
  std::string_view file_;
  Assessment const& result_;
  CarePlan const& plan_;
  Page page_;
  std::vector<std::string> further_;  ///< what alarms say and the first five lines had no room for
  std::map<std::string, std::string> told_gates_;  ///< words, and the measure that told them
};

}  // namespace

std::string care_text(Tables const& tables, Case const& dog, std::string_view file,
                      Assessment const& result, CarePlan const& plan, Look const& look) {
  return CareText(tables, dog, file, result, plan, look).write();
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
                       ? "No medicine and no supplement before a vet has seen it."
                   : plan.fast ? pack.care[plan.avoid[*plan.fast].care].avoid
                               : "No medicine and no supplement until more is known.",
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
