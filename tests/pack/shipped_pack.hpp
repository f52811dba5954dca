#pragma once
// The pack in rules/canine.
#include <memory>
#include <string_view>

#include "flinch/model/pack.hpp"

namespace flinch::test {

/// As the program holds it, made ready at build time: each test is a process, and under the
/// sanitisers reading the texts anew takes seconds.
[[nodiscard]] std::shared_ptr<Pack const> shipped_pack();

/// Its care statement of this name; throws where there is none.
[[nodiscard]] Care const& care_named(Pack const& pack, std::string_view name);

/// Read from its texts in the source tree.
[[nodiscard]] std::shared_ptr<Pack const> parsed_shipped_pack();

}  // namespace flinch::test
