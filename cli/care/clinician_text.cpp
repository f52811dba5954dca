#include "care/clinician_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "care/measure_text.hpp"
#include "flinch/model/shown_weight.hpp"

namespace flinch::cli {
namespace {

bool is_of_mouth(ClosedGate const& gate) {
  return gate.kind == GateKind::by_mouth_now || gate.kind == GateKind::by_mouth_surgery ||
         gate.kind == GateKind::by_mouth_nothing_told || gate.kind == GateKind::by_mouth_may_rise;
}

// A problem and what the pack has for it, in the order of the pack.
struct Problem {
  std::string title;
  std::vector<PlannedMeasure const*> measures;
};

class ClinicianText {
 public:
  explicit ClinicianText(CarePage const& on) : on_(on) {
    for (auto const* list : {&on.told.plan.measures, &on.told.plan.avoid})
      for (auto const& measure : *list)
        if (on.care(measure).for_clinician && measure.fits == Truth::yes && !is_idle(measure))
          add(measure);
    for (auto& problem : problems_)
      std::stable_sort(problem.measures.begin(), problem.measures.end(),
                       [](auto const* a, auto const* b) { return a->care < b->care; });
    std::stable_sort(problems_.begin(), problems_.end(), [](Problem const& a, Problem const& b) {
      return a.measures.front()->care < b.measures.front()->care;
    });
  }

  void write() {
    auto& page = on_.page;
    page.heading("FOR THE CLINICIAN, BY PROBLEM");
    page.paragraph(
        fmt::format("What fits this {}: ranges and cautions, no instruction. Doses are reckoned "
                    "for the weight as it is, also where one says that lean weight counts; read "
                    "strengths from the packet.",
                    on_.pack.words.one));
    body();
    for (auto const& problem : problems_) write(problem);
    if (problems_.empty())
      page.paragraph("The pack has nothing on this for a clinician; that is no all-clear.");
    page.blank();
  }

 private:
  // What is advised against for want of evidence is no matter of the first hour.
  [[nodiscard]] bool is_idle(PlannedMeasure const& measure) const {
    auto const& what = on_.care(measure);
    return on_.is_top() && !what.avoid.empty() && what.grade == 'D';
  }

  void add(PlannedMeasure const& measure) {
    auto const& title = on_.care(measure).problem;
    auto found = std::find_if(problems_.begin(), problems_.end(),
                              [&](Problem const& problem) { return problem.title == title; });
    if (found == problems_.end()) found = problems_.insert(found, Problem{title, {}});
    found->measures.push_back(&measure);
  }

  void body() {
    auto const* weight = on_.result.find(patient_sign::weight);
    if (weight == nullptr || on_.told.plan.weight_doubt) return;
    auto const kg = std::get<double>(weight->answer);
    auto const energy = resting_energy_kcal(on_.pack.resting_energy, on_.pack.doses, kg);
    auto const figure = is_believable_kg(on_.pack.doses, kg) ? on_.pack.body_surface : std::nullopt;
    std::string size;
    if (figure)
      size = fmt::format("Body surface {:.2f} m2 ({:g} x kg^2/3)", body_surface_m2(*figure, kg),
                         *figure);
    if (energy)
      size += fmt::format("{} energy {:.0f} kcal a day", figure ? "; resting" : "Resting", *energy);
    if (!size.empty()) on_.page.paragraph(size + ".");
    auto const [unit, in_a_kg] = weight_unit(on_.pack);
    if (auto const aim = lean_kg(kg); aim && *aim < kg)
      on_.page.paragraph(fmt::format(
          "By its body score it should weigh about {:.1f} {}: {:.0f} % of each dose here, "
          "which is for {} {}.",
          *aim * in_a_kg, unit, std::floor(*aim / kg * 100), amount_words(kg * in_a_kg), unit));
  }

  // The weight to aim at by the score that the pack slims by, if it is known.
  [[nodiscard]] std::optional<double> lean_kg(double kg) const {
    for (auto const& care : on_.pack.care) {
      auto const* known = care.slims_by ? on_.result.find(*care.slims_by) : nullptr;
      if (known == nullptr) continue;
      if (auto const aim = weight_to_aim_at_kg(care.slimming, on_.pack.doses, kg,
                                               std::get<double>(known->answer)))
        return aim;
    }
    return std::nullopt;
  }

  void write(Problem const& problem) {
    if (!problem.title.empty()) on_.page.line("  " + on_.page.bold(problem.title));
    std::vector<PlannedMeasure const*> barred;
    for (auto const* measure : problem.measures)
      if (measure->advice == Advice::withheld)
        barred.push_back(measure);
      else
        one(*measure);
    tell_barred(barred);
  }

  // What this patient may not have, those with the same reasons together. That nothing goes by
  // mouth yet is told above, and stands alone only where nothing else is against a measure.
  void tell_barred(std::vector<PlannedMeasure const*> const& barred) {
    struct Group {
      std::string reasons;
      std::string titles;
    };
    std::vector<Group> groups;
    for (auto const* measure : barred) {
      auto const reasons = reasons_against(*measure);
      auto found = std::find_if(groups.begin(), groups.end(),
                                [&](Group const& group) { return group.reasons == reasons; });
      if (found == groups.end()) found = groups.insert(found, Group{reasons, ""});
      found->titles += (found->titles.empty() ? "" : "; ") + on_.care(*measure).title;
    }
    for (auto const& group : groups)
      on_.page.paragraph(fmt::format("Not as it stands: {}. {}", group.titles, group.reasons), 2,
                         on_.page.bullet());
  }

  [[nodiscard]] std::string reasons_against(PlannedMeasure const& measure) const {
    std::string out;
    for (auto const& gate : measure.gates)
      if (gate.truth == Truth::yes && !is_of_mouth(gate))
        out += (out.empty() ? "" : " ") + gate_words(on_.pack, on_.result, gate);
    return out.empty() ? "Nothing by mouth yet." : out;
  }

  void one(PlannedMeasure const& measure) {
    auto const& what = on_.care(measure);
    std::string const word = !what.avoid.empty()                 ? what.avoid
                             : !what.give                        ? ""
                             : measure.advice == Advice::offered ? "nothing known against it"
                             : measure.advice == Advice::ask_vet ? "weigh up"
                                                                 : "ask first";
    on_.page.paragraph(fmt::format("{}{}{} [{}]", what.title, word.empty() ? "" : ": ", word,
                                   grade_words(what.grade)),
                       2, on_.page.bullet());
    told_gates(measure);
    write_details(on_, measure);
  }

  // What a class of medicines shares is told at the first of them, and pointed to at the others.
  void told_gates(PlannedMeasure const& measure) {
    auto const& title = on_.care(measure).title;
    std::size_t shared = 0;
    std::string shared_with;
    for (auto const& gate : measure.gates) {
      auto const words = gate_words(on_.pack, on_.result, gate);
      auto const [told, is_new] = told_gates_.emplace(words, title);
      if (is_new) {
        on_.page.paragraph(words, 4, "- ");
      } else {
        ++shared;
        shared_with = told->second;
      }
    }
    if (shared > 0)
      on_.page.paragraph(
          fmt::format("{}as for {}: {} point{}.", shared < measure.gates.size() ? "and " : "",
                      shared_with, shared, shared > 1 ? "s" : ""),
          4, "- ");
  }

  CarePage const& on_;
  std::vector<Problem> problems_;
  std::map<std::string, std::string> told_gates_;  ///< words, and the measure that told them
};

}  // namespace

void write_for_clinician(CarePage const& on) {
  if (on.is_clinician()) ClinicianText(on).write();
}

}  // namespace flinch::cli
