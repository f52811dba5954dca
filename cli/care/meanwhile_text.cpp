#include "care/meanwhile_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "care/measure_text.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t questions_shown = 8;

void add(std::string& titles, std::string_view title) {
  titles += (titles.empty() ? "" : "; ");
  titles += title;
}

}  // namespace

void write_not_to_do(CarePage const& on) {
  auto const& told = on.told;
  if (told.do_not.empty() && told.may_not.empty()) return;
  auto& page = on.page;
  page.heading("DO NOT");
  for (auto const& warning : told.do_not) {
    page.paragraph(fmt::format("{}: {} {}", warning.title, warning.text, warning.because), 2,
                   page.bullet());
    if (!warning.but_ask.empty()) page.paragraph("But ask: " + warning.but_ask, 4);
  }
  if (!told.may_not.empty()) page.paragraph(told.may_not, 2, page.bullet());
  page.blank();
}

void write_to_do(CarePage const& on) {
  auto& page = on.page;
  page.heading(!on.is_top()     ? "WHAT YOU CAN DO IN THE NEXT 24 HOURS"
               : on.vet_comes() ? "WHAT YOU CAN DO UNTIL THE VET IS THERE"
                                : "WHAT YOU CAN DO ON THE WAY");
  bool has_any = false;
  for (auto const& measure : on.told.plan.measures) {
    auto const& what = on.care(measure);
    if (what.for_clinician || measure.advice != Advice::offered || measure.fits != Truth::yes)
      continue;
    has_any = true;
    page.paragraph(fmt::format("{} [{}]", what.title, grade_words(what.grade)), 2, page.bullet());
    write_details(on, measure);
  }
  for (auto const& say : on.told.script.further) page.paragraph(say, 2, page.bullet());
  if (on.is_top())
    page.paragraph("All else would delay and waits until it has been seen.", 2, page.bullet());
  if (!has_any && !on.is_top()) page.paragraph("Nothing more than to keep it quiet and watch.");
  if (on.told.plan.is_seen_today && !on.is_top())
    page.paragraph("Other home care waits until it has been seen.", 2, page.bullet());
  page.blank();
}

void write_ask_first(CarePage const& on) {
  std::string waiting;
  std::string examined;
  auto const& handed = on.told.plan.for_examination;
  for (auto const& measure : on.told.plan.measures) {
    auto const& what = on.care(measure);
    if (measure.advice != Advice::ask_first || measure.fits != Truth::yes || what.for_clinician)
      continue;
    bool const is_handed = std::find(handed.begin(), handed.end(), measure.care) != handed.end();
    // A keeper who must leave now is asked only what first aid waits for.
    if (on.is_top() && on.is_keeper() && (!what.first_aid || is_handed)) continue;
    add(is_handed ? examined : waiting, what.title);
  }
  if (waiting.empty() && examined.empty()) return;
  auto& page = on.page;
  page.heading("ASK FIRST");
  if (!examined.empty())
    page.paragraph("A vet examines it before any of these; do not test it yourself: " + examined +
                   ".");
  if (!waiting.empty()) {
    page.paragraph("Not before these are answered; unknown is not no:");
    page.paragraph(waiting + ".");
  }
  // What first aid waits for stands before the rest, which is cut off after a few.
  auto const is_of_first_aid = [&](CareQuestion const& question) {
    return std::any_of(question.waiting.begin(), question.waiting.end(),
                       [&](std::size_t care) { return on.pack.care[care].first_aid; });
  };
  auto questions = on.told.plan.questions;
  std::stable_partition(questions.begin(), questions.end(), is_of_first_aid);
  if (on.is_top() && on.is_keeper())
    std::erase_if(questions, [&](CareQuestion const& one) { return !is_of_first_aid(one); });
  for (std::size_t i = 0; i < std::min(questions.size(), questions_shown); ++i)
    page.paragraph(question_words(on.pack, questions[i].sign), 2, "? ");
  if (questions.size() > questions_shown)
    page.paragraph(fmt::format("... and {} more questions", questions.size() - questions_shown));
  page.blank();
}

void write_advised(CarePage const& on, Advice advice, std::string_view heading) {
  auto& page = on.page;
  bool has_heading = false;
  for (auto const& measure : on.told.plan.measures) {
    auto const& what = on.care(measure);
    if (measure.advice != advice || measure.fits != Truth::yes || what.for_clinician) continue;
    if (merely_waits(measure)) continue;
    // What only keeps the patient at ease and has had to end is told under what not to do.
    if (what.while_waiting && measure.gates.front().kind == GateKind::stop) continue;
    if (!has_heading) page.heading(heading);
    has_heading = true;
    page.paragraph(what.title, 2, page.bullet());
    for (auto const& gate : measure.gates)
      if (gate.kind != GateKind::leave_now && gate.kind != GateKind::seen_first &&
          (advice == Advice::ask_vet || gate.truth == Truth::yes))
        page.paragraph(gate_words(on.pack, on.result, gate), 4, "- ");
    if (!on.is_keeper() && advice == Advice::ask_vet) write_details(on, measure);
  }
  if (has_heading) page.blank();
}

void write_ring_again(CarePage const& on) {
  if (on.told.ring_again.empty()) return;
  auto& page = on.page;
  page.heading("RING AGAIN");
  for (auto const& one : on.told.ring_again)
    page.paragraph(one.title + ": " + one.text, 2, page.bullet());
  page.blank();
}

}  // namespace flinch::cli
