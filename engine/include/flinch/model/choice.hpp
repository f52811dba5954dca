#pragma once
// What a choice stands for: a value of its sign, or a breed of the pack.
#include <optional>
#include <string>
#include <string_view>

#include "flinch/model/case.hpp"
#include "flinch/model/pack.hpp"

namespace flinch {

/// How many there are for the sign; none where it is answered otherwise.
[[nodiscard]] std::uint32_t choice_count(Pack const& pack, Sign const& sign);

/// As a case writes it, and in words for people.
[[nodiscard]] std::string const& choice_name(Pack const& pack, Sign const& sign, Choice choice);
[[nodiscard]] std::string const& choice_label(Pack const& pack, Sign const& sign, Choice choice);

/// The choice that is written so: the name of a value; a breed by any of its names.
[[nodiscard]] std::optional<Choice> find_choice(Pack const& pack, Sign const& sign,
                                                std::string_view written);

}  // namespace flinch
