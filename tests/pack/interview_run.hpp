#pragma once
// Interviews with dogs whose answers are known: what would be asked, and when the end is clear.
#include <cstddef>
#include <functional>
#include <optional>
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
  std::optional<TierId> tier;
  std::optional<CauseId> first;
};

/// What the dog's keeper would answer: what the case says or what follows from it by meaning;
/// nothing where nobody can tell.
using Answers = std::function<Answer const*(SignId)>;
[[nodiscard]] Answers answers_of(Assessment const& whole);

/// The screens that `Interview` chooses, to its own end.
[[nodiscard]] InterviewRun run_interview(Tables const& tables, Interview& interview,
                                         Assessment const& whole);

/// One question after the other in the given order, leaving out what is known by then.
[[nodiscard]] InterviewRun run_in_order(Tables const& tables, std::vector<SignId> const& order,
                                        Assessment const& whole);

/// The first of the listed causes.
[[nodiscard]] std::optional<CauseId> first_cause(Assessment const& result);

}  // namespace flinch::test
