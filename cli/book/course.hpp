#pragma once
// How a patient fares over its visits.
#include <ctime>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "book/book.hpp"
#include "flinch/assess/knowledge.hpp"
#include "flinch/model/case.hpp"
#include "flinch/model/pack.hpp"

namespace flinch::cli {

/// Answers that nobody gave: those given make them known.
using ImpliedAnswers = std::vector<std::pair<SignId, Answer>>;
[[nodiscard]] ImpliedAnswers implied_answers(Knowledge const& knowledge);

/// A call of the book as a pack reads it.
struct Visit {
  CallId call{};
  std::time_t begun = 0;
  std::optional<CallId> follows;
  std::optional<TierId> tier;  ///< that was told
  Case patient;
  ImpliedAnswers implied{};  ///< where they were looked for
};
/// Those that the pack can read, in the order in which they stand.
[[nodiscard]] std::vector<Visit> read_visits(std::vector<CallLine> const& calls, Pack const& pack);
/// The call `last` of these with all that was said in the calls that it rings back for, one after
/// the other: of two answers to one sign the later counts, and what a call did not ask, or nobody
/// could tell in it, stays as it was. Its tier is the most urgent one until a call has asked all
/// again. Nothing where `last` is not among them.
[[nodiscard]] std::optional<Visit> with_those_before(std::vector<Visit> const& visits, CallId last,
                                                     Pack const& pack);

/// Today against an earlier visit.
struct Course {
  enum class Fared : unsigned char {
    unknown,  ///< something that it had, or a measure of danger, is not asked again, or nobody can
              ///< tell; or such a measure is otherwise and the urgency no lower; or nothing that
              ///< tells of the course was answered both times
    better,   ///< something is gone or milder, or such a measure is otherwise and the
              ///< urgency lower, and nothing is new or graver
    same,
    worse  ///< a sign is new or graver, or the urgency is higher
  };
  Fared fared = Fared::unknown;
  std::vector<SignId> fresh;   ///< there now: then it was not, or a danger that nobody had told
  std::vector<SignId> graver;  ///< a higher step, or found at more places
  std::vector<SignId> milder;
  std::vector<SignId> gone;
  std::vector<SignId> otherwise;      ///< a number or a choice that an alarm tests
  std::vector<SignId> place_unknown;  ///< then its place was told, today it is not
  std::vector<SignId> still_to_ask;   ///< it had them, or they were measured and an alarm tests
                                      ///< them, and today nobody has spoken of them
  std::vector<SignId> untold;         ///< nobody can tell today
  std::optional<TierId> tier_then;
  std::optional<TierId> tier_now;
  bool is_said_worse = false;       ///< in words that no answer stands for
  std::size_t dangers_unasked = 0;  ///< what a caller could still tell that would be worse
};
/// By the signs that are there or not, or come in steps, and the numbers and choices that an alarm
/// tests; what lasts, and since when it is, says nothing of the course. `implied`: of today.
[[nodiscard]] Course compare_with(Visit const& then, Case const& now, std::optional<TierId> tier,
                                  Pack const& pack, ImpliedAnswers const& implied = {});

/// Somebody said that it is worse, or something new: whatever the answers say, it is neither better
/// nor the same.
void hold_back_as_said_worse(Course& course);

/// "worse", "better", "the same", "not known yet"; "better so far" while dangers are unasked.
[[nodiscard]] std::string fared_text(Course const& course);
/// "worse than in call 17 of 2026-11-24 15:10: new: collapsed; gone: limping"
[[nodiscard]] std::string what_changed_text(Course const& course, Visit const& then,
                                            Pack const& pack);
/// The same with what is still to ask.
[[nodiscard]] std::string course_text(Course const& course, Visit const& then, Pack const& pack);

/// Visits for the same trouble as today's, ring-backs left out: they share a sign that it came for,
/// and where both tell places of it, a place. Oldest first.
[[nodiscard]] std::vector<Visit const*> visits_for_the_same(std::vector<Visit> const& visits,
                                                            Case const& now, Pack const& pack);
/// `dangers_unasked`: of today's, as in `Course`.
/// "limping, left front leg: third visit for it in 5 weeks; worse than last time"; empty where it
/// is the first.
[[nodiscard]] std::string course_sentence(std::vector<Visit> const& visits, Case const& today,
                                          std::optional<TierId> tier, std::size_t dangers_unasked,
                                          std::time_t now, Pack const& pack);
/// The signs to which the visits say yes (see `Sign::yes_if_seen_before` and `yes_if_worse`).
/// Seen before: two weeks ago or longer, so that one bout is not taken for two. Worse: than at the
/// last visit for the same, a day to thirty days ago. Both spans are judgements.
[[nodiscard]] std::vector<SignId> signs_said_by(std::vector<Visit> const& visits, Case const& today,
                                                std::optional<TierId> tier, std::time_t now,
                                                Pack const& pack);

}  // namespace flinch::cli
