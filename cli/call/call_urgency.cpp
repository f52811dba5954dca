// What a call says of the urgency: how far it may rise, what it rests on, and what lowered it.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "call/call_model.hpp"
#include "desk/said_worse.hpp"
#include "flinch/explain/reasons.hpp"

namespace flinch::cli {

Urgency CallModel::urgency() const {
  if (open_danger_.empty()) return Urgency::settled;
  return std::any_of(open_danger_.begin(), open_danger_.end(),
                     [](OpenQuestion const& open) { return open.alone_reaches.has_value(); })
             ? Urgency::one_answer_away
             : Urgency::several_answers_away;
}

bool CallModel::rests_on_likelihood() const {
  auto const& result = state_.result;
  return result.judgement.tier &&
         (!result.judgement.alarm_tier || *result.judgement.tier < *result.judgement.alarm_tier);
}

std::vector<SignId> CallModel::unasked_ground() const {
  std::vector<SignId> out;
  for (auto const sign : {patient_sign::sex, patient_sign::age})
    if (!is_settled(sign) && !tables_.roots_of(sign).empty()) out.push_back(sign);
  return out;
}

// Before a tier rests on likelihood: what decides which causes can be.
void CallModel::put_ground_first() {
  if (!rests_on_likelihood()) return;
  auto const ground = unasked_ground();
  if (ground.empty()) return;
  state_.outlook.screen = Screen{Screen::Kind::patient, {{ground.front(), 0, {}, {}, {}}}};
}

void CallModel::tell_change_of_urgency(std::optional<TierId> before) {
  auto const& now = state_.result.judgement.tier;
  if (now == before) return;
  bool const has_risen = now && (!before || *now < *before);
  auto const change = fmt::format("Urgency {} to: {}", has_risen ? "rose" : "fell",
                                  now ? pack()[*now].title : "nothing told");
  if (!has_risen || state_.patient.ring_back_at.empty()) {
    state_.message += (state_.message.empty() ? "" : ". ") + change;
    return;
  }
  state_.message = fmt::format("{}. Ring back was agreed for {}: ! and 1 for a new time. {}",
                               change, state_.patient.ring_back_at, state_.message);
  state_.is_trouble = true;
}

// Answers that cannot both be so are told when they arise: one of them may be a slip.
void CallModel::tell_clash() {
  std::vector<std::string> clashes;
  std::string fresh;
  for (auto const& clash : state_.result.judgement.contradictions) {
    clashes.push_back(contradiction_text(pack(), clash));
    bool const was_told = std::find(clashes_told_.begin(), clashes_told_.end(), clashes.back()) !=
                          clashes_told_.end();
    if (!was_told) fresh += (fresh.empty() ? "" : " ") + clashes.back();
  }
  if (!fresh.empty()) report_trouble(fresh + (state_.message.empty() ? "" : " " + state_.message));
  clashes_told_ = std::move(clashes);
}

// The words stand in the note, where undoing takes them out again.
bool CallModel::is_said_worse() const {
  constexpr std::string_view said = "Said: \"";
  auto const& note = state_.patient.note;
  for (auto at = note.find(said); at != std::string::npos; at = note.find(said, at + 1)) {
    auto const from = at + said.size();
    auto const end = note.find('"', from);
    if (end != std::string::npos && says_only_that_it_is_worse(note.substr(from, end - from)))
      return true;
  }
  return false;
}

// A tier that was told is a promise: that it fell stands on the screen until it has been seen.
void CallModel::keep_promise(std::optional<TierId> before) {
  auto const& now = state_.result.judgement.tier;
  if (!promised_ || (now && *now <= *promised_)) {
    promised_ = now;
    state_.fall.reset();
    return;
  }
  auto const by = state_.message.starts_with("Taken back") ? state_.message : state_.last_answer;
  if (!state_.fall)
    state_.fall = Fall{*promised_, by};
  else if (now != before)
    state_.fall->by += "; " + by;
}

void CallModel::acknowledge_fall() {
  state_.fall.reset();
  promised_ = state_.result.judgement.tier;
  state_.message = "Seen. It stands as shown above";
}

}  // namespace flinch::cli
