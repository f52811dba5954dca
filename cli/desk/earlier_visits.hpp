#pragma once
// What a desk knows of its patient from earlier calls, and what of it stands in the case.
#include <ctime>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "book/course.hpp"
#include "flinch/assess/assessment.hpp"
#include "flinch/interview/interview.hpp"
#include "look/page.hpp"

namespace flinch::cli {

struct EarlierVisits {
  std::vector<Visit> visits{};           ///< oldest first
  std::optional<Visit> rung_back{};      ///< the one that is rung back for, with those before it
  std::vector<SignId> from_book{};       ///< what the case holds and nobody said in this call
  std::vector<SignId> said_otherwise{};  ///< what somebody said something else of since

  [[nodiscard]] bool is_from_book(SignId sign) const;
  /// Somebody spoke of it in this call: it is no longer the book's.
  void said(SignId sign);
  /// Puts into the case the yes that the visits say to a sign of the course, and takes out one that
  /// they say no more. What somebody said stays. Whether the case is another now.
  bool bring_in(Case& patient, Assessor& assessor, std::time_t now, Pack const& pack);
  /// How it fares against the visit that is rung back for.
  [[nodiscard]] std::optional<Course> course(Case const& patient, Assessment const& result,
                                             Pack const& pack) const;
  /// What was answered to a sign in the call that is rung back for; nothing when it was not.
  [[nodiscard]] Answer const* answer_then(SignId sign) const;
  /// "was: left hind leg"; empty where nothing was answered then.
  [[nodiscard]] std::string then_text(Pack const& pack, SignId sign) const;
  /// What is asked first when somebody is rung back: what it had then and nobody has spoken of
  /// today, as far as this reader can see it. The signs that are there or not in one list, at most
  /// so many; then what is told by a step, a choice or a number, each alone.
  [[nodiscard]] static std::vector<Question> to_ask_again(
      Course const& course, Pack const& pack, Reader reader, std::size_t most,
      std::function<bool(SignId)> const& is_done);
  /// One sentence on the course; empty where there is none.
  [[nodiscard]] std::string sentence(Case const& patient, std::optional<TierId> tier,
                                     std::size_t dangers_unasked, std::time_t now,
                                     Pack const& pack) const;
};

/// How it fares since the call that was rung back for, to stand at the end of this one.
[[nodiscard]] std::string since_last_time_text(Course const& course, Visit const& then,
                                               Pack const& pack, Look const& look);

}  // namespace flinch::cli
