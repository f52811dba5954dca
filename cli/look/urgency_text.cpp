#include "look/urgency_text.hpp"

#include <fmt/format.h>

#include "flinch/text/display.hpp"

namespace flinch::cli {

void write_tier(Pack const& pack, ToldUrgency const& urgency, std::string_view before, Page& page) {
  auto const tiers = pack.tiers.size();
  auto const filled = urgency.tier ? tiers - index(*urgency.tier) : 0;
  page.line(fmt::format("  {}  {}{}", page.marks(filled, tiers), before,
                        page.strong(" " + inert(urgency.title) + " ")));
  page.paragraph(urgency.say);
}

void write_reasons(ToldUrgency const& urgency, Wording wording, Causes causes, Page& page) {
  for (auto const& reason : urgency.reasons) {
    bool const is_likelihood = reason.by == UrgentBy::likelihood;
    if (is_likelihood && causes == Causes::left_out) {
      if (urgency.is_by_likelihood)
        page.paragraph(
            "No single sign makes it this urgent; by what is known so far the likely causes do.", 2,
            page.bullet());
      continue;
    }
    if (is_likelihood && wording == Wording::in_brief && !urgency.is_by_likelihood) continue;
    auto text = (reason.sets_tier ? "" : "Also: ") + reason.what;
    if (wording == Wording::in_full && !reason.because.empty()) text += " " + reason.because;
    page.paragraph(text, 2, page.bullet());
  }
  for (auto const& held : urgency.held_back) page.paragraph(held, 2, page.bullet());
}

void write_script(Telling const& told, Page& page) {
  auto const& lines = told.script.lines;
  for (std::size_t i = 0; i < lines.size(); ++i)
    page.paragraph(lines[i], 2, fmt::format("{}. ", i + 1));
  if (!told.mouth.food_and_water.empty())
    page.paragraph("Food and water: " + told.mouth.food_and_water, 2, page.bullet());
}

}  // namespace flinch::cli
