#pragma once
// Supposed answers in one line: `belly_swollen=yes, tender=left elbow + right elbow, vomiting=no`.
#include <vector>

#include "flinch/model/case.hpp"
#include "flinch/model/pack.hpp"
#include "flinch/text/diagnostic.hpp"

namespace flinch {

/// The changes that a line asks for, or every mistake in it. Answers are written as in case files:
/// yes, no, `can't tell`, a step or choice, an amount with its unit, or sites joined by `+`.
[[nodiscard]] Outcome<std::vector<Change>> read_changes(SourceSet const& sources, FileId file,
                                                        Pack const& pack);

}  // namespace flinch
