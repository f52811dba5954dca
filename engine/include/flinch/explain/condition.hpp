#pragma once
// Conditions in words, part by part.
#include <string>

#include "flinch/model/pack.hpp"

namespace flinch {

/// A test in words: "limping", "tender to touch at left elbow", "appetite: at least less than
/// usual", "age 8 years or more".
[[nodiscard]] std::string test_text(Pack const& pack, Test const& test);

/// A test or a meaning by its names, as it is written in a pack: "eats at least less", "off_food".
[[nodiscard]] std::string as_written(Pack const& pack, Condition const& condition);

/// What stands at a part of a condition: the test in words, or "all of", "any of", "at least 2 of",
/// "not", or the title of the meaning.
[[nodiscard]] std::string node_text(Pack const& pack, Condition const& condition);

/// A whole condition in one line: "weak, gives out and (limping or not (swollen))".
[[nodiscard]] std::string condition_text(Pack const& pack, Condition const& condition);

}  // namespace flinch
