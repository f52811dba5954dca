#pragma once
// The words of an interview: questions, why they are asked, how to check.
#include <string>

#include "flinch/assess/assessment.hpp"
#include "flinch/interview/interview.hpp"
#include "look/page.hpp"

namespace flinch::cli {

/// Whether the screen is a list that is answered by numbers.
[[nodiscard]] inline bool is_list(Screen const& screen) {
  return screen.questions.size() > 1 && screen.kind != Screen::Kind::dog;
}

/// The question, with what may be typed.
[[nodiscard]] std::string question_text(Pack const& pack, Screen const& screen, Look const& look);

/// Whether the tier is told with "at least": a danger that this audience can tell of is unasked or
/// was skipped. `with_skipped` is the outlook with nothing set aside as skipped.
[[nodiscard]] bool may_rise(Assessment const& result, Outlook const& with_skipped);

/// About how much is left, the tier so far, and how near a higher one is.
[[nodiscard]] std::string standing_text(Pack const& pack, Assessment const& result,
                                        Outlook const& outlook, Outlook const& with_skipped,
                                        Look const& look);

/// The tier that has been reached, in words and marks, why, and what to do; while answers could
/// still raise it, "at least". `result.tier` must be set.
[[nodiscard]] std::string tier_text(Tables const& tables, Assessment const& result,
                                    Outlook const& with_skipped, Look const& look);

/// What an alarm says that fired at the tier that stands already.
[[nodiscard]] std::string alarm_text(Alarm const& alarm, Look const& look);

/// That the tier is less urgent than `before`, or not settled any more.
[[nodiscard]] std::string fall_text(Pack const& pack, TierId before, Assessment const& result,
                                    Outlook const& with_skipped, Look const& look);

/// The tier once more and what it says to do, and what it could still be, to stand last on the
/// screen.
[[nodiscard]] std::string last_word_text(Pack const& pack, Assessment const& result,
                                         Outlook const& with_skipped, Look const& look);

[[nodiscard]] std::string why_text(Pack const& pack, Screen const& screen, Look const& look);
[[nodiscard]] std::string how_text(Pack const& pack, Screen const& screen, Look const& look);

/// Numbered places of one side, for a sign by sites.
[[nodiscard]] std::string walk_text(Pack const& pack, SignId sign, Side side, Look const& look);

}  // namespace flinch::cli
