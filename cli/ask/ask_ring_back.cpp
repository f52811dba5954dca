// Somebody comes back to what was asked before: whether it is worse, and when to look at it again.
#include <fmt/format.h>

#include <algorithm>

#include "ask/ask_session.hpp"
#include "desk/ring_back_time.hpp"
#include "files/clock.hpp"

namespace flinch::cli {

// Told as often as it is another; what is still to be asked comes anyway.
void AskSession::tell_since_then() {
  auto const& then = *earlier_.rung_back;
  bool const is_first = !course_;
  course_ = earlier_.course(now_.patient, result_, pack_);
  course_->dangers_unasked = outlook_with_skipped().danger_left;
  if (now_.is_said_worse || !now_.unclear.empty()) hold_back_as_said_worse(*course_);
  auto const text = what_changed_text(*course_, then, pack_);
  if (text == told_sentence_) return;
  told_sentence_ = text;
  if (!is_first) return remark("Since then: " + text + ".");
  remark(fmt::format("Rung back for call {} of {}, which was \"{}\": first what it had then.",
                     number(then.call), clock_text(then.begun),
                     then.tier ? pack_[*then.tier].title : "nothing told that says how soon"));
}

std::vector<Question> AskSession::to_ask_again() const {
  constexpr std::size_t lines_at_most = InterviewLimits{}.lines_at_most;
  if (!course_) return {};
  return EarlierVisits::to_ask_again(*course_, pack_, reader_, lines_at_most, [&](SignId sign) {
    auto const& aside = now_.set_aside;
    return result_.find(sign) != nullptr ||
           std::find(aside.begin(), aside.end(), sign) != aside.end();
  });
}

BesideQuestions AskSession::beside(Screen const& screen) const {
  BesideQuestions out;
  if (!course_) return out;
  out.then = [&](SignId sign) { return earlier_.then_text(pack_, sign); };
  auto const& still = course_->still_to_ask;
  if (std::all_of(screen.questions.begin(), screen.questions.end(), [&](Question const& one) {
        return std::find(still.begin(), still.end(), one.sign) != still.end();
      }))
    out.heading = "It had this then. Is any of it so right now?";
  return out;
}

// No time is agreed before somebody agrees to it.
void AskSession::ask_next_time() {
  if (!keeper_.reminds) return;
  auto const now = now_or_fixed();
  auto const& tier = result_.judgement.tier;
  auto const* its_tier = tier ? &pack_[*tier] : nullptr;
  auto const proposed =
      its_tier != nullptr ? clock_text(ring_back_time(*its_tier, now, session_.setting)) : "";
  auto& agreed = now_.patient.ring_back_at;
  remark(
      fmt::format("Ring back when? {}{}A time such as 15:40; Enter for {}.",
                  agreed.empty() ? "" : fmt::format("Agreed: {}. ", agreed),
                  proposed.empty() ? "" : fmt::format("1 for {}, as this urgency asks. ", proposed),
                  agreed.empty() ? "no time" : "no other"));
  while (auto const line = read_line()) {
    auto const typed = trimmed_small(*line);
    if (typed.empty() || read_key(*line) == LineKey::stop) return;
    bool const is_proposed = typed == "1" && !proposed.empty();
    auto const time = agreed_time(is_proposed ? proposed : typed, its_tier, now);
    if (!time) {
      remark("Not understood as a time: 15:40, or 2026-11-25 15:40; or Enter.");
      continue;
    }
    agreed = time->text;
    save();
    remark(fmt::format("Noted: ring back at {}.", agreed));
    if (time->warning.empty()) return;
    remark(time->warning + ". Another time, or Enter to leave it.");
  }
}

}  // namespace flinch::cli
