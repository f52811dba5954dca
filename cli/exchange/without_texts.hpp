#pragma once
// A response that can be shown to anybody.
#include <string>
#include <vector>

#include "flinch/text/diagnostic.hpp"

namespace flinch::cli {

/// The JSON of a response with its texts blotted out, which may tell who somebody is; the form's
/// own words and what a mistake underlines stay, and every byte and character in its place.
[[nodiscard]] std::string without_texts(std::string text, std::vector<Diagnostic> const& mistakes);

}  // namespace flinch::cli
