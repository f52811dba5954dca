#pragma once
// The hand-over note, drawn as text and as Markdown.
#include <string>
#include <vector>

#include "flinch/telling/note.hpp"
#include "look/page.hpp"

namespace flinch::cli {

[[nodiscard]] std::string note_text(std::vector<NotePart> const& note, Look const& look);
/// Markdown in which nothing that a caller said is markup.
[[nodiscard]] std::string note_markdown(std::vector<NotePart> const& note);

}  // namespace flinch::cli
