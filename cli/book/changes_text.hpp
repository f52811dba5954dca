#pragma once
// What an entry of a call changed, in words.
#include <string>
#include <string_view>
#include <vector>

#include "flinch/model/pack.hpp"

namespace flinch::cli {

/// One line a change of a merge patch, by the labels of the pack, or without one by the names
/// of the case file: "lame: yes", "age: taken back"; harmless on a terminal. `{}` gives none.
/// Throws BookTrouble when it is no JSON object.
[[nodiscard]] std::vector<std::string> changes_in_words(std::string_view changes,
                                                        Pack const* pack = nullptr);

}  // namespace flinch::cli
