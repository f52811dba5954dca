#pragma once
// What stands between the urgency above and the keys below: one function a page.
#include "call/call_lines.hpp"

namespace flinch::cli {

/// Rows that the page may use, from the row at which it begins.
struct PageRoom {
  std::size_t first_row = 0;
  std::size_t end_row = 0;
};

void draw_questions(CallModel const& call, CallLines& lines, PageRoom room);
void draw_details(CallModel const& call, CallLines& lines);
void draw_answers(CallModel const& call, CallLines& lines, PageRoom room);
void draw_advice(CallModel const& call, CallLines& lines, PageRoom room);
void draw_note(CallModel const& call, CallLines& lines, PageRoom room);
void draw_keys(CallLines& lines);

/// Which of the open danger questions to name.
enum class OpenLabels : bool { all, behind_the_list };
/// Their labels, in the order in which they will come.
[[nodiscard]] std::string open_labels(CallModel const& call, OpenLabels which);

}  // namespace flinch::cli
