#include "care/measure_text.hpp"

#include <fmt/format.h>

namespace flinch::cli {
namespace {

void write_slimming(WeightLoss const& plan, Page& page) {
  page.paragraph(
      fmt::format(
          "Aim at about {:.1f} kg. Start with {:.0f} kcal a day (resting energy, 70 x "
          "kg^0.75, at that weight; patients differ up to threefold). Lose {:.2f} to {:.2f} "
          "kg a week. Lameness may ease from {:.1f} kg lost, measurably from {:.1f} kg.",
          plan.aim_kg, plan.kcal_a_day, plan.slowest_kg_a_week, plan.fastest_kg_a_week,
          plan.first_benefit_kg, plan.force_plate_benefit_kg),
      4);
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
  if (!what.how.empty()) page.paragraph(how_words(what, measure), 4);
  if (measure.weight_loss) write_slimming(*measure.weight_loss, page);
  for (auto const& gate : what.stop_if)
    if (!gate.reason.empty()) page.paragraph(gate.reason, 4, "Stop: ");
  if (!on.is_keeper() || what.grade == 'D' || what.by_mouth)
    page.paragraph(what.because, 4, "Evidence: ");
  if (on.is_clinician())
    for (auto const id : what.cites) page.paragraph(on.pack[id].text, 4, "Source: ");
}

}  // namespace flinch::cli
