#pragma once
// Answers to one sign that make tests of it come out as they must.
#include <span>
#include <vector>

#include "flinch/assess/assessment.hpp"

namespace flinch {

/// A test, and the truth that it must have.
struct Wanted {
  Test test;
  Truth truth = Truth::yes;
  friend bool operator==(Wanted const&, Wanted const&) = default;
};

/// Those that do, at most `most`: of steps, choices and breeds each, of numbers the limits that the
/// tests name and one between each two. Of sites, what was found stays found (and what was clear,
/// clear) as far as the tests let it. `present` may be null; all tests are of `sign`.
[[nodiscard]] std::vector<Answer> fitting_answers(Tables const& tables, SignId sign,
                                                  Answer const* present,
                                                  std::span<Wanted const> tests, std::size_t most);

}  // namespace flinch
