#include "care/measure_text.hpp"

#include <fmt/format.h>

#include "flinch/model/shown_weight.hpp"

namespace flinch::cli {
namespace {

void write_slimming(Pack const& pack, WeightLoss const& plan, Page& page) {
  auto const [unit, in_a_kg] = weight_unit(pack);
  auto text = fmt::format("Aim at about {:.1f} {}.", plan.aim_kg * in_a_kg, unit);
  if (plan.kcal_a_day)
    text += fmt::format(
        " Start with {:.0f} kcal a day (resting energy, {:g} x kg^0.75, at that weight; patients "
        "differ up to threefold).",
        *plan.kcal_a_day, *pack.resting_energy);
  text += fmt::format(" Lose {:.2f} to {:.2f} {} a week.", plan.slowest_kg_a_week * in_a_kg,
                      plan.fastest_kg_a_week * in_a_kg, unit);
  for (auto const& benefit : plan.benefits) {
    bool const is_first = &benefit == &plan.benefits.front();
    text += fmt::format("{} {} from {:.1f} {}{}", is_first ? "" : ",", benefit.text,
                        benefit.from_kg * in_a_kg, unit, is_first ? " lost" : "");
  }
  if (!plan.benefits.empty()) text += '.';
  page.paragraph(text, 4);
}

}  // namespace

void write_details(CarePage const& on, PlannedMeasure const& measure) {
  auto const& what = on.care(measure);
  auto& page = on.page;
  if (measure.dose)
    if (auto const* dose = std::get_if<GivenDose>(&*measure.dose))
      page.paragraph(
          (measure.advice == Advice::offered ? "" : "Only if each of these is answered no: ") +
              dose_words(what, *dose),
          4);
  if (!what.how.empty()) page.paragraph(how_words(what, measure, on.told.seen_at), 4);
  if (measure.weight_loss) write_slimming(on.pack, *measure.weight_loss, page);
  for (auto const& gate : what.stop_if)
    if (!gate.reason.empty()) page.paragraph(gate.reason, 4, "Stop: ");
  if (!on.is_keeper() || what.grade == 'D' || what.by_mouth)
    page.paragraph(what.because, 4, "Evidence: ");
  if (on.is_clinician())
    for (auto const id : what.cites) page.paragraph(on.pack[id].text, 4, "Source: ");
}

}  // namespace flinch::cli
