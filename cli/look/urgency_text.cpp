#include "look/urgency_text.hpp"

#include <fmt/format.h>

#include "flinch/explain/taken.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

void write_swallowed(Pack const& pack, Assessment const& result, Exposure const& exposure,
                     Page& page) {
  page.paragraph(
      fmt::format("{}; {}.", taken_text(pack, exposure), harm_text(pack, result, exposure)), 2,
      page.bullet());
  auto const& how = pack.care[exposure.care].how;
  if (!how.empty()) page.paragraph(how, 4, "Do: ");
}

std::string alarm_words(Alarm const& alarm, Wording wording) {
  return wording == Wording::in_brief ? alarm.title + "."
                                      : fmt::format("{}. {}", alarm.title, alarm.because);
}

bool suits_any_dog(Care const& care) { return !care.fit_if && care.causes.empty(); }

// What a less urgent alarm says to do would soften what the tier says: only its finding is named.
void write_lesser(Pack const& pack, Assessment const& result, Wording wording, Page& page) {
  for (auto const& outcome : result.alarms) {
    auto const& alarm = pack[outcome.alarm];
    if (outcome.truth == Truth::yes && alarm.see != *result.tier)
      page.paragraph("Also: " + alarm_words(alarm, wording), 2, page.bullet());
  }
  for (auto const& exposure : result.exposures)
    if (exposure.see != result.tier)
      page.paragraph(fmt::format("Also: {}; {}.", taken_text(pack, exposure),
                                 harm_text(pack, result, exposure)),
                     2, page.bullet());
}

void write_likely_causes(Pack const& pack, Assessment const& result, Page& page) {
  if (result.ranking_tier != result.tier || !pack[*result.tier].harm) return;
  std::string names;  // most of the probability first
  double sum = 0;
  auto const enough = result.tiers[index(*result.tier)].probability / 2;
  for (auto const& ranked : result.ranking) {
    if (!ranked.cause || pack[*ranked.cause].see > *result.tier) continue;
    names += (names.empty() ? "" : ", ") + pack[*ranked.cause].title;
    sum += ranked.posterior;
    if (sum >= enough) break;
  }
  bool const is_alone = result.alarm_tier != result.tier;
  page.paragraph(
      fmt::format("{}ikely enough to matter: {}.",
                  is_alone ? "No alarm asks for this tier, likelihood does. L" : "L", names),
      2, page.bullet());
}

}  // namespace

void write_tier(Pack const& pack, Assessment const& result, std::string_view before, Page& page) {
  auto const& tier = pack[*result.tier];
  auto const tiers = pack.tiers.size();
  page.line(fmt::format("  {}  {}{}", page.marks(tiers - index(*result.tier), tiers), before,
                        page.strong(" " + inert(tier.title) + " ")));
  page.paragraph(tier.say);
}

void write_findings(Pack const& pack, Assessment const& result, Wording wording, Causes causes,
                    Page& page) {
  for (auto const& outcome : result.alarms)
    if (outcome.truth == Truth::yes && pack[outcome.alarm].see == *result.tier)
      write_alarm(pack[outcome.alarm], wording, page);
  for (auto const& exposure : result.exposures)
    if (exposure.see == result.tier) write_swallowed(pack, result, exposure, page);
  bool const is_told = wording == Wording::in_brief && result.alarm_tier == result.tier;
  if (causes == Causes::named && !is_told) write_likely_causes(pack, result, page);
  if (causes == Causes::left_out && result.ranking_tier == result.tier &&
      result.alarm_tier != result.tier)
    page.paragraph("No alarm asks for this tier, likelihood does, from what is known so far.", 2,
                   page.bullet());
  write_lesser(pack, result, wording, page);
}

void write_alarm(Alarm const& alarm, Wording wording, Page& page) {
  page.paragraph(alarm_words(alarm, wording), 2, page.bullet());
  if (!alarm.say.empty()) page.paragraph(alarm.say, 4, "Do: ");
}

void write_first_aid(Pack const& pack, CarePlan const& plan, Wording wording, Page& page) {
  for (auto const& measure : plan.measures) {
    auto const& care = pack.care[measure.care];
    if (!care.first_aid || care.for_clinician || measure.advice != Advice::offered ||
        measure.fits != Truth::yes)
      continue;
    if (wording == Wording::in_brief && suits_any_dog(care)) continue;
    page.paragraph(care.title + (care.how.empty() ? "." : ": " + care.how), 2, page.bullet());
  }
}

}  // namespace flinch::cli
