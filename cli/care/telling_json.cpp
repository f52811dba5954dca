#include "care/telling_json.hpp"

#include <array>

#include "flinch/explain/reasons.hpp"

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
  for (auto const& question : told.open) {
    out.push_back(open_question_json(pack, question.open, question.ask));
    out.back()["who_else"] = question.who_else;
  }
  return out;
}

Json items_json(std::vector<ToldItem> const& list) {
  auto out = Json::array();
  for (auto const& item : list) out.push_back({{"title", item.title}, {"text", item.text}});
  return out;
}

}  // namespace

Json open_question_json(Pack const& pack, OpenQuestion const& open, std::string const& ask) {
  auto alarms = Json::array();
  for (auto const alarm : open.alarms) alarms.push_back(pack[alarm].name);
  auto taken = Json::array();
  for (auto const care : open.taken) taken.push_back(pack.care[care].name);
  return {{"sign", pack[open.sign].name},
          {"ask", ask},
          {"could_reach", pack[open.could_reach].name},
          {"alone_reaches", name_of_tier(pack, open.alone_reaches)},
          {"could_not_tell", open.could_not_tell},
          {"alarms", std::move(alarms)},
          {"taken", std::move(taken)}};
}

Json contradictions_json(Pack const& pack, Judgement const& judgement) {
  auto out = Json::array();
  for (auto const& one : judgement.contradictions)
    out.push_back({{"kind", kind_text(one.kind)},
                   {"counted", pack[one.counted].name},
                   {"against", pack[one.against].name}});
  return out;
}

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
