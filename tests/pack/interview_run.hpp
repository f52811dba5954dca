#pragma once
// Interviews with dogs whose answers are known: what would be asked, and when the end is clear.
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "flinch/assess/assessment.hpp"
#include "flinch/interview/interview.hpp"

namespace flinch::test {

/// One interview, carried on to its end.
struct InterviewRun {
  std::size_t screens = 0;    ///< shown until nothing more was worth asking
  std::size_t questions = 0;  ///< lines of those screens
  /// Shown until the tier stood for good.
  std::size_t screens_to_tier = 0;
  std::size_t questions_to_tier = 0;
  /// The same with each fact of the patient as a screen of its own, sex and neutered together.
  std::size_t single_facts_to_tier = 0;
  /// Shown until no single answer could reach the highest tier any more.
  std::size_t screens_to_no_life_threat = 0;
  std::optional<TierId> tier;
  bool ends_by_fall = false;  ///< its last change was to a lower one
  std::optional<CauseId> first;
  std::vector<std::vector<SignId>> shown;  ///< signs of each screen behind the complaint
};

/// What the dog's keeper answers where the case is silent. `no` is no to yes-or-no signs and those
/// by sites; of the rest nobody can tell.
enum class Silence : bool { cannot_tell, no };

/// The screens that `Interview` chooses, to its own end, answered from what the case says and what
/// follows from it by meaning. It opens with the complaint, `came_for`, which fills two screens
/// (what worries you, and anything else), or one where there is none. The tier is the one that is
/// told: see `as_told`.
[[nodiscard]] InterviewRun run_interview(Tables const& tables, Interview& interview,
                                         Assessment const& whole,
                                         std::span<SignId const> came_for = {},
                                         Silence silence = Silence::cannot_tell);

/// The fewest screens by which one who knows all answers beforehand would have come to the tier at
/// which `run` ended, had only screens of that run been shown: the complaint, and those of them
/// that are needed. No order of the same screens can do better. Of more than three needed four are
/// counted, so it is never too many.
[[nodiscard]] std::size_t fewest_screens(Tables const& tables, InterviewRun const& run,
                                         Assessment const& whole, std::span<SignId const> came_for,
                                         Silence silence);

/// One question after the other in the given order, leaving out what is known by then.
[[nodiscard]] InterviewRun run_in_order(Tables const& tables, std::vector<SignId> const& order,
                                        Assessment const& whole);

/// The first of the listed causes.
[[nodiscard]] std::optional<CauseId> first_cause(Assessment const& result);

}  // namespace flinch::test
