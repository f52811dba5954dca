#include "care/telling_json.hpp"

#include <array>

namespace flinch::cli {
namespace {

using Json = nlohmann::ordered_json;

Json name_of_tier(Pack const& pack, std::optional<TierId> id) {
  return id ? Json(pack[*id].name) : Json(nullptr);
}

Json urgency_json(Pack const& pack, ToldUrgency const& told) {
  constexpr std::array by = {"alarm", "taken", "likelihood"};
  auto reasons = Json::array();
  for (auto const& reason : told.reasons)
    reasons.push_back({{"by", by.at(static_cast<std::size_t>(reason.by))},
                       {"sets_tier", reason.sets_tier},
                       {"what", reason.what},
                       {"because", reason.because}});
  return {{"tier", name_of_tier(pack, told.tier)},
          {"title", told.title},
          {"say", told.say},
          {"by_likelihood", told.is_by_likelihood},
          {"could_be", name_of_tier(pack, told.could_be)},
          {"reasons", std::move(reasons)},
          {"held_back", told.held_back}};
}

Json warnings_json(Telling const& told) {
  auto out = Json::array();
  for (auto const& warning : told.do_not)
    out.push_back({{"title", warning.title},
                   {"text", warning.text},
                   {"because", warning.because},
                   {"but_ask", warning.but_ask}});
  return out;
}

Json open_json(Pack const& pack, Telling const& told) {
  auto out = Json::array();
  for (auto const& question : told.open)
    out.push_back({{"sign", pack[question.open.sign].name},
                   {"ask", question.ask},
                   {"could_reach", pack[question.open.could_reach].name},
                   {"who_else", question.who_else}});
  return out;
}

Json items_json(std::vector<ToldItem> const& list) {
  auto out = Json::array();
  for (auto const& item : list) out.push_back({{"title", item.title}, {"text", item.text}});
  return out;
}

}  // namespace

Json telling_json(Pack const& pack, Telling const& told) {
  return {{"urgency", urgency_json(pack, told.urgency)},
          {"script", told.script.lines},
          {"do_not", warnings_json(told)},
          {"may_not", told.may_not},
          {"medicines", told.mouth.medicines},
          {"food_and_water", told.mouth.food_and_water},
          {"open", open_json(pack, told)},
          {"open_count", told.open_count},
          {"clashes", told.clashes},
          {"ring_again", items_json(told.ring_again)},
          {"look_again", told.look_again},
          {"next", told.next}};
}

}  // namespace flinch::cli
