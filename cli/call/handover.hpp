#pragma once
// What a call ends with: the hand-over note in the trade's four parts.
#include <string>
#include <vector>

#include "flinch/assess/assessment.hpp"
#include "look/page.hpp"

namespace flinch::cli {

struct NoteItem {
  std::string label;  ///< may be empty
  std::string text;
};
struct NotePart {
  std::string title;
  std::vector<NoteItem> items;
};

/// Situation, background, assessment and recommendation, in this order.
[[nodiscard]] std::vector<NotePart> handover_note(Tables const& tables, Case const& dog,
                                                  Assessment const& result);

[[nodiscard]] std::string note_text(std::vector<NotePart> const& note, Look const& look);
/// Markdown in which nothing that a caller said is markup.
[[nodiscard]] std::string note_markdown(std::vector<NotePart> const& note);

}  // namespace flinch::cli
