#include "flinch/assess/open_questions.hpp"

#include <algorithm>
#include <map>
#include <tuple>

namespace flinch {
namespace {

// The sign to ask: the topmost unknown whole that the sign is a part of, or the sign itself.
SignId to_ask(Tables const& tables, Assessment const& result, SignId sign) {
  auto const& pack = tables.pack();
  auto const is_open = [&](SignId s) {
    return result.find(s) == nullptr &&
           !std::binary_search(result.cannot_tell.begin(), result.cannot_tell.end(), s);
  };
  auto asked = sign;
  for (auto whole = pack[sign].part_of; whole; whole = pack[*whole].part_of)
    if (is_open(*whole)) asked = *whole;
  return asked;
}

}  // namespace

std::vector<OpenQuestion> open_questions(Tables const& tables, Assessment const& result) {
  auto const& pack = tables.pack();
  std::map<SignId, OpenQuestion> questions;
  auto known_alarm = result.alarms.begin();
  for (std::uint32_t i = 0; i < pack.alarms.size(); ++i) {
    AlarmId const id{i};
    auto truth = Truth::unknown;
    if (known_alarm != result.alarms.end() && known_alarm->alarm == id)
      truth = (known_alarm++)->truth;
    auto const see = pack[id].see;
    bool const would_raise = !result.tier || see < *result.tier;
    if (truth != Truth::unknown || !would_raise) continue;
    for (auto const& step : tables.steps(tables.alarm_root(id))) {
      if (step.kind != Tables::Step::Kind::leaf) continue;
      auto const sign = tables.leaves()[step.detail].sign;
      auto const* known = result.find(sign);
      bool const is_settled = known != nullptr && !std::holds_alternative<Findings>(known->answer);
      if (is_settled) continue;
      auto& question = questions
                           .try_emplace(to_ask(tables, result, sign),
                                        OpenQuestion{to_ask(tables, result, sign), see, {}, false})
                           .first->second;
      question.could_reach = std::min(question.could_reach, see);
      if (question.alarms.empty() || question.alarms.back() != id) question.alarms.push_back(id);
    }
  }
  std::vector<OpenQuestion> out;
  for (auto& [sign, question] : questions) {
    question.could_not_tell =
        std::binary_search(result.cannot_tell.begin(), result.cannot_tell.end(), sign);
    out.push_back(std::move(question));
  }
  std::stable_sort(out.begin(), out.end(), [&](OpenQuestion const& a, OpenQuestion const& b) {
    auto const rank = [&](OpenQuestion const& q) {
      return std::tuple(q.could_reach, q.could_not_tell, pack[q.sign].seen_by,
                        -static_cast<std::int64_t>(q.alarms.size()));
    };
    return rank(a) < rank(b);
  });
  return out;
}

}  // namespace flinch
