#include <fmt/format.h>

#include "exchange/resources.hpp"

namespace flinch::cli {

Json service_request(Shared const& shared) {
  auto const& pack = shared.pack();
  auto const& urgency = shared.told.urgency;
  auto const& tier = pack[*urgency.tier];
  auto out = resource("ServiceRequest", shared.ids.urgency);
  out["status"] = "active";
  out["intent"] = "proposal";
  out["priority"] = priority(tier);
  out["code"] = {{"coding", Json::array({tier_coding(pack, *urgency.tier)})}, {"text", tier.title}};
  out["subject"] = reference(shared.ids.patient);
  out["occurrencePeriod"] = {
      {"start", instant(shared.now)},
      {"end", instant(shared.now + static_cast<std::time_t>(tier.within_s))}};
  out["authoredOn"] = instant(shared.now);
  out["requester"] = reference(shared.ids.program);
  auto reasons = Json::array();
  for (auto const& reason : urgency.reasons) reasons.push_back({{"text", reason.what}});
  if (!reasons.empty()) out["reasonCode"] = std::move(reasons);
  out["supportingInfo"] =
      Json::array({reference(shared.ids.response), reference(shared.ids.causes)});

  auto notes = Json::array();
  if (urgency.could_be) {
    constexpr std::size_t most = 5;
    std::string asked;
    auto const& open = shared.told.open;
    for (std::size_t i = 0; i < open.size() && i < most; ++i)
      asked += (asked.empty() ? "" : " ") + open[i].ask;
    if (open.size() > most) asked += fmt::format(" And {} more.", open.size() - most);
    add_note(notes, fmt::format("What is not known yet could make it \"{}\": {}",
                                pack[*urgency.could_be].title, asked));
  }
  for (auto const& reason : urgency.reasons) add_note(notes, reason.because);
  add_note(notes, caution);
  out["note"] = std::move(notes);
  out["patientInstruction"] = urgency.say;
  return out;
}

}  // namespace flinch::cli
