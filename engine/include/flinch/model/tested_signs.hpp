#pragma once
// The signs that a condition asks for.
#include <vector>

#include "flinch/model/pack.hpp"

namespace flinch {

/// Marks them, those inside named conditions included; `signs` has a place for each of the pack.
inline void mark_tested_signs(Pack const& pack, Condition const& condition,
                              std::vector<bool>& signs) {
  if (condition.kind == Condition::Kind::test) signs[index(condition.test.sign)] = true;
  if (condition.kind == Condition::Kind::meaning)
    mark_tested_signs(pack, pack[condition.meaning].condition, signs);
  for (auto const& part : condition.parts) mark_tested_signs(pack, part, signs);
}

}  // namespace flinch
