#include "care/swallowed_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "flinch/explain/taken.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t danger_questions_shown = 4;

}  // namespace

void write_swallowed_already(CarePage const& on) {
  auto const& exposures = on.result.judgement.exposures;
  if (exposures.empty() && on.told.plan.taken_questions.empty()) return;
  auto& page = on.page;
  page.heading("ALREADY TAKEN");
  page.paragraph(exposures.empty() ? on.vet_comes() ? "The vet will ask:" : "The clinic will ask:"
                                   : "An estimate against the lowest levels that the pack knows.");
  for (std::size_t n = 0; n < exposures.size(); ++n) {
    auto const& exposure = exposures[n];
    auto const& what = on.pack.care[exposure.care];
    page.paragraph(taken_text(on.pack, exposure) + ".", 2, page.bullet());
    if (exposure.reached.empty()) page.paragraph(harm_text(on.pack, on.result, exposure), 4, "- ");
    for (auto const i : exposure.reached) {
      auto const& level = what.levels[i];
      page.paragraph((level.mg_per_kg > 0 ? "reached: " : "") + level_text(level), 4, "- ");
    }
    if (!on.is_keeper()) page.paragraph(what.because, 4);
    // What is done is told once for those that stand together and ask for the same.
    bool const is_last =
        n + 1 == exposures.size() || on.pack.care[exposures[n + 1].care].how != what.how;
    if (is_last) page.paragraph(what.how, 4);
  }
  for (auto const sign : on.told.plan.taken_questions)
    page.paragraph(question_words(on.pack, sign), 2, "? ");
  page.blank();
}

// What of food and water goes on stands with the script; without one, here.
void write_mouth(CarePage const& on) {
  if (!on.told.plan.mouth) return;
  auto& page = on.page;
  bool const is_yet = on.told.plan.mouth->truth != Truth::yes;
  page.heading(is_yet ? "NO SUPPLEMENTS AND NO MEDICINES YET" : "FOOD, WATER, MEDICINES");
  bool const is_told =
      on.told.mouth.food_and_water.empty() || (!on.told.script.lines.empty() && !on.is_clinician());
  page.paragraph(on.told.mouth.medicines +
                 (is_told ? std::string() : " " + on.told.mouth.food_and_water));
  auto const& signs = on.told.plan.mouth->signs;
  for (std::size_t i = 0; i < std::min(signs.size(), danger_questions_shown); ++i)
    page.paragraph(question_words(on.pack, signs[i]), 2, "? ");
  if (signs.size() > danger_questions_shown)
    page.paragraph(fmt::format("... and {} more{}{}", signs.size() - danger_questions_shown,
                               on.assess_command.empty() ? "" : ": ", on.assess_command));
  page.blank();
}

}  // namespace flinch::cli
