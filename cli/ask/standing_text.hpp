#pragma once
// Where an interview stands: how urgent it is so far, what changed that, and how much is left.
//
// `with_skipped` is the outlook with nothing set aside as skipped: a danger that was skipped is an
// unasked one.
#include <string>
#include <vector>

#include "flinch/assess/assessment.hpp"
#include "flinch/interview/interview.hpp"
#include "flinch/telling/practice.hpp"
#include "flinch/telling/script.hpp"
#include "look/page.hpp"

namespace flinch::cli {

/// Whether the tier is told with "at least": a danger that this reader can tell of is unasked or
/// was skipped.
[[nodiscard]] bool may_rise(Assessment const& result, Outlook const& with_skipped);

/// About how much is left, the tier so far, and how near a higher one is.
[[nodiscard]] std::string standing_text(Pack const& pack, Assessment const& result,
                                        Outlook const& outlook, Outlook const& with_skipped,
                                        Look const& look);

/// The tier that has been reached, in words and marks, why, and what to do; while answers could
/// still raise it, "at least". `result.judgement.tier` must be set.
[[nodiscard]] std::string tier_text(Tables const& tables, Assessment const& result,
                                    Outlook const& with_skipped, Reader reader,
                                    Setting const& setting, Look const& look);

/// Alarms that fired at the tier that stands already, and what is to be done now, unless it was
/// told before.
[[nodiscard]] std::string alarms_text(Tables const& tables, Assessment const& result,
                                      std::vector<AlarmId> const& fired, Script const& told_before,
                                      Reader reader, Look const& look);

/// A tier that was told, and what was recorded since.
struct ToldTier {
  TierId tier{};
  std::string lowered_by;
};

/// That the tier is less urgent than `before`, or not settled any more, and what lowered it.
[[nodiscard]] std::string fall_text(Pack const& pack, ToldTier const& before,
                                    Assessment const& result, Outlook const& with_skipped,
                                    Look const& look);

/// What is open that this reader could still find out, and could not tell when asked or was not
/// asked; most urgent first.
[[nodiscard]] std::vector<OpenQuestion> open_to(Tables const& tables, Assessment const& result,
                                                Reader reader);

/// That these could not be told, what they could make of the tier, and what to do; `open` holds one
/// at least.
[[nodiscard]] std::string untold_text(Pack const& pack, std::vector<OpenQuestion> const& open);

/// The tier once more and what it says to do, and what in the reader's own power could change it,
/// to stand last on the screen.
[[nodiscard]] std::string last_word_text(Tables const& tables, Assessment const& result,
                                         Outlook const& with_skipped, Reader reader,
                                         Setting const& setting, Look const& look);

}  // namespace flinch::cli
