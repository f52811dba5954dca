#pragma once
// The pack in rules/canine, loaded from the source tree.
#include <memory>

#include "flinch/model/pack.hpp"

namespace flinch::test {

[[nodiscard]] std::shared_ptr<Pack const> shipped_pack();

}  // namespace flinch::test
