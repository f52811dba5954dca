#pragma once
// What a call ends with: advice to read out, and the hand-over note in the trade's four parts.
#include <string>
#include <vector>

#include "flinch/assess/assessment.hpp"
#include "look/page.hpp"

namespace flinch::cli {

/// What to tell the caller, and what they must not give; sentences of the pack and of this program.
struct AdviceToCaller {
  std::vector<std::string> say;
  std::vector<std::string> never;
};
[[nodiscard]] AdviceToCaller advice_for(Tables const& tables, Assessment const& result);

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

/// What stands below every advice and note.
extern std::string const caution;

}  // namespace flinch::cli
