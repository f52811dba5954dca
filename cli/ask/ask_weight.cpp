// Whether a weight that can hardly be is right: a yes confirms it, a no takes it back.
#include <fmt/format.h>

#include "ask/ask_session.hpp"
#include "desk/as_typed.hpp"
#include "flinch/assess/weight_doubt.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/interview/answer_entry.hpp"
#include "look/page.hpp"

namespace flinch::cli {

std::string AskSession::weight_question() const {
  Page page(session_.look);
  if (auto const doubt = doubt_of_weight(pack_, now_.patient))
    page.paragraph(doubt_words(pack_, *doubt) + ". Is that right?", 0);
  page.paragraph("(yes, no, or the weight once more with its unit; or ?)");
  return page.take();
}

// A weight instead of a yes is taken: the same confirms it, another takes its place.
bool AskSession::take_weight_again(std::string const& line) {
  auto const told = doubt_of_weight(pack_, now_.patient);
  auto entry = read_entry(pack_, patient_sign::weight, line, context_);
  auto yes = read_yes_or_no(line);
  // "Yes, but" does not say that it is right.
  if (yes == true && folded_words(line).size() > 1) yes.reset();
  bool const is_same =
      told && entry.answer && is_same_weight(std::get<double>(*entry.answer), told->kg);
  if (!yes && !entry.answer && !entry.cannot_tell) {
    if (!read_key(line)) remark("Answer yes or no, or type the weight with its unit; or ?.");
    return false;
  }
  keep_state();
  auto const& label = pack_[patient_sign::weight].label;
  if (told && (yes == true || is_same)) {
    set(patient_sign::weight_confirmed, told->kg);
    note(fmt::format("{}: {}, and that is right", label,
                     answer_text(pack_, patient_sign::weight, told->kg)));
  } else if (entry.answer) {
    set(patient_sign::weight, *entry.answer);
    note(fmt::format("{}: {}", label,
                     text_as_typed(pack_, patient_sign::weight, *entry.answer, line)));
  } else if (yes == false) {
    forget(patient_sign::weight);
    forget(patient_sign::weight_confirmed);
    now_.to_ask.push_back(patient_sign::weight);
    note(label + ": not right, taken back");
  } else {
    set_cannot_tell(patient_sign::weight_confirmed);
    note(label + ": nobody can tell whether it is right");
  }
  save();
  return true;
}

}  // namespace flinch::cli
