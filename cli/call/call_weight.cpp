// Whether a weight that can hardly be is right: asked in a call behind the dangers.
#include <fmt/format.h>

#include "call/call_model.hpp"
#include "flinch/explain/reasons.hpp"

namespace flinch::cli {

std::optional<WeightDoubt> CallModel::doubt_to_settle() const {
  constexpr auto confirmed = patient_sign::weight_confirmed;
  if (state_.result.knowledge.could_not_be_told(confirmed)) return std::nullopt;
  return doubt_of_weight(pack(), state_.patient);
}

// Behind the dangers: until it is answered no amounts are told, so nothing hangs on it but those.
void CallModel::put_weight_behind_dangers() {
  auto const& screen = state_.outlook.screen;
  if (screen && screen->kind != Screen::Kind::telling) return;
  if (!doubt_to_settle()) return;
  state_.outlook.screen =
      Screen{Screen::Kind::patient, {{patient_sign::weight_confirmed, 0, {}, {}, {}}}};
}

void CallModel::say_weight_is_right() {
  auto const doubt = doubt_to_settle();
  if (!doubt) return go_on_asking();
  answer(patient_sign::weight_confirmed, doubt->kg);
}

// What is not right is known no more, and is asked for at once.
void CallModel::say_weight_is_wrong() {
  remember("weight: not right, to be told anew");
  forget(patient_sign::weight);
  forget(patient_sign::weight_confirmed);
  reassess();
  begin(patient_sign::weight);
}

// The same once more confirms it; another takes its place.
void CallModel::take_weight_again(Entry entry) {
  if (!entry.answer) return answer(patient_sign::weight_confirmed, std::nullopt);
  auto const kg = std::get<double>(*entry.answer);
  auto const doubt = doubt_to_settle();
  bool const is_same = doubt && is_same_weight(kg, doubt->kg);
  answer(is_same ? patient_sign::weight_confirmed : patient_sign::weight, std::move(entry.answer));
}

}  // namespace flinch::cli
