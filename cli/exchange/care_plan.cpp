#include <fmt/format.h>

#include "exchange/resources.hpp"

namespace flinch::cli {
namespace {

Json activity(Pack const& pack, PlannedMeasure const& measure, SeenAt seen_at) {
  auto const& care = pack.care[measure.care];
  auto text = how_words(care, measure, seen_at);
  if (measure.dose)
    if (auto const* given = std::get_if<GivenDose>(&*measure.dose))
      text = fmt::format("{}{}{}", dose_words(care, *given), text.empty() ? "" : ". ", text);
  Json detail;
  detail["code"] = {
      {"coding", Json::array({coding(address(pack, Vocabulary::care), care.name, care.title)})},
      {"text", care.title}};
  detail["status"] = "not-started";
  if (!text.empty()) detail["description"] = text;
  return {{"detail", std::move(detail)}};
}

}  // namespace

Json care_plan(Shared const& shared) {
  auto const& pack = shared.pack();
  auto const& told = shared.told;
  auto out = resource("CarePlan", shared.ids.care);
  out["status"] = "active";
  out["intent"] = "proposal";
  out["title"] = "At home until it is seen";
  out["description"] = "Only what is offered to the keeper. What is not listed is not offered.";
  out["subject"] = reference(shared.ids.patient);
  out["created"] = instant(shared.now);
  out["author"] = reference(shared.ids.program);
  out["supportingInfo"] = Json::array({reference(shared.ids.response)});
  auto activities = Json::array();
  for (auto const& measure : told.plan.measures)
    if (measure.advice == Advice::offered && measure.fits == Truth::yes)
      activities.push_back(activity(pack, measure, told.seen_at));
  if (!activities.empty()) out["activity"] = std::move(activities);

  // What not to do is no activity: who reads over `doNotPerform` would do it.
  auto notes = Json::array();
  for (auto const& line : told.script.lines) add_note(notes, line);
  add_note(notes, told.mouth.medicines);
  add_note(notes, told.mouth.food_and_water);
  for (auto const& warning : told.do_not)
    add_note(notes, fmt::format("{}: {}", warning.title, warning.text));
  add_note(notes, told.may_not);
  for (auto const& one : told.ring_again)
    add_note(notes, fmt::format("{}: {}", one.title, one.text));
  add_note(notes, told.look_again);
  add_note(notes, caution);
  out["note"] = std::move(notes);
  return out;
}

}  // namespace flinch::cli
