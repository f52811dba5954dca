#pragma once
// A pack for tests of the book that are not about what a pack says.
#include <memory>
#include <string>

#include "flinch/model/pack.hpp"

namespace flinch::test {

/// The sign `limping`, the cause `sprain` and the rule between them, and `rest`.
[[nodiscard]] std::shared_ptr<Pack const> limping_pack(std::string const& rest = "");

}  // namespace flinch::test
