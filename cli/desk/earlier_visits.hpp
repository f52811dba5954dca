#pragma once
// What a desk knows of its patient from earlier calls, and what of it stands in the case.
#include <ctime>
#include <optional>
#include <string>
#include <vector>

#include "book/course.hpp"
#include "flinch/assess/assessment.hpp"

namespace flinch::cli {

struct EarlierVisits {
  std::vector<Visit> visits{};           ///< oldest first
  std::optional<Visit> rung_back{};      ///< the one that is rung back for
  std::vector<SignId> from_book{};       ///< what the case holds and nobody said in this call
  std::vector<SignId> said_otherwise{};  ///< what somebody said something else of since

  [[nodiscard]] bool is_from_book(SignId sign) const;
  /// Somebody spoke of it in this call: it is no longer the book's.
  void said(SignId sign);
  /// Puts into the case the yes that the visits say to a sign of the course, and takes out one that
  /// they say no more. What somebody said stays. Whether the case is another now.
  bool bring_in(Case& patient, Assessor& assessor, std::time_t now, Pack const& pack);
  /// How it fares against the visit that is rung back for.
  [[nodiscard]] std::optional<Course> course(Case const& patient, std::optional<TierId> tier,
                                             Pack const& pack) const;
  /// One sentence on the course; empty where there is none.
  [[nodiscard]] std::string sentence(Case const& patient, std::optional<TierId> tier,
                                     std::size_t dangers_unasked, std::time_t now,
                                     Pack const& pack) const;
};

}  // namespace flinch::cli
