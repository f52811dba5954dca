#pragma once
// An answer to one sign that makes tests of it come out as they must.
#include <optional>
#include <span>

#include "flinch/assess/assessment.hpp"

namespace flinch {

/// A test, and the truth that it must have.
struct Wanted {
  Test test;
  Truth truth = Truth::yes;
  friend bool operator==(Wanted const&, Wanted const&) = default;
};

/// None where no answer does. Of sites, what was found stays found (and what was clear, clear) as
/// far as the tests let it. `present` may be null; all tests are of `sign`.
[[nodiscard]] std::optional<Answer> fitting_answer(Tables const& tables, SignId sign,
                                                   Answer const* present,
                                                   std::span<Wanted const> tests);

}  // namespace flinch
