#pragma once
// An answer in the words in which it comes back to whoever typed it.
#include <string>
#include <string_view>

#include "flinch/model/case.hpp"
#include "flinch/model/pack.hpp"

namespace flinch::cli {

/// The answer in words; of an amount that was typed in another unit than its sign has, both: "20 lb
/// (9.072 kg)".
[[nodiscard]] std::string text_as_typed(Pack const& pack, SignId sign, Answer const& answer,
                                        std::string_view typed);

}  // namespace flinch::cli
