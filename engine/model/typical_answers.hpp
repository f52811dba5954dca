#pragma once
// The answers to a sign that stand for all others: one of each kind that tests can tell apart.
#include <vector>

#include "flinch/model/case.hpp"
#include "flinch/model/pack.hpp"

namespace flinch {

/// `low` and `high`, the limits between them, and one number between each two neighbours: from low
/// to high, each once. So every second one, from the first, is an end or a limit.
[[nodiscard]] std::vector<double> typical_numbers(std::vector<double> limits, double low,
                                                  double high);

/// Yes and no; each step, choice or breed; of a number the typical ones between the least and the
/// most that is believed of the sign. Of sites none: what is typical hangs on what tests ask for.
[[nodiscard]] std::vector<Answer> typical_answers(Pack const& pack, SignId sign,
                                                  std::vector<double> limits);

}  // namespace flinch
