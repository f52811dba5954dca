#pragma once
// A second, slow and obvious computation of what a question would tell: the whole joint table of
// outcomes and causes, and Shannon's definition over it.
#include <map>

#include "flinch/model/pack.hpp"

namespace flinch::test {

/// Bits for each sign on which an undecided rule hangs; `posteriors` has one number a cause and
/// last that of none of the listed.
[[nodiscard]] std::map<SignId, double> gains_slowly(Pack const& pack, Case const& patient,
                                                    std::vector<long double> const& posteriors);

}  // namespace flinch::test
