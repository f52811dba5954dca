#pragma once
// Case files that can be shown to anybody.
#include <string>
#include <string_view>

#include "flinch/text/diagnostic.hpp"

namespace flinch {

/// The text of a case file with what would tell who somebody is (name, caller, numbers, note, and
/// comments) blotted out: every byte and every character stays in its place, so that an error in it
/// points where it did. What cannot be told apart, as in a file that is no YAML, is blotted out
/// too.
[[nodiscard]] std::string without_words(std::string_view text);

/// What is blotted out is shown as: a character that takes as many bytes, 1 to 4, so that columns
/// stay.
[[nodiscard]] std::string_view blot_of(std::size_t bytes);

/// `render`, with that file shown so.
[[nodiscard]] std::string render_without_words(std::vector<Diagnostic> const& diagnostics,
                                               SourceSet const& sources, FileId file);

}  // namespace flinch
