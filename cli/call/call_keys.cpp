// What each key does in a call.
#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "call/call_key.hpp"
#include "call/call_model.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t typed_bytes = 400;        // of one line
constexpr std::size_t scrolled_at_most = 1000;  // until the screen that shows it says how far

// What of a pasted or typed text belongs in one line: no control characters, blanks for line ends.
std::string one_line(std::string text) {
  std::replace_if(
      text.begin(), text.end(), [](char c) { return c == '\n' || c == '\r' || c == '\t'; }, ' ');
  std::erase_if(text, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; });
  return inert(text);
}

void erase_last(std::string& text) {
  if (!text.empty()) text.resize(whole_character(text, text.size() - 1));
}

}  // namespace

void CallModel::press(Key const& key) {
  state_.message.clear();
  state_.is_trouble = false;
  was_none_pending_ = std::exchange(is_none_pending_, false);
  bool const is_list_on_screen =
      state_.activity == Activity::asking || state_.activity == Activity::finding;
  if (is_list_on_screen) answering_ = Answering::elsewhere;  // until a key answers its lines
  if (key.kind == Key::Kind::leave) return leave();
  leave_was_refused_ = false;
  if (state_.shows_keys) {
    state_.shows_keys = false;
    return;
  }
  switch (key.kind) {
    case Key::Kind::show_keys:
      state_.shows_keys = true;
      return;
    case Key::Kind::undo:
      if ((state_.activity == Activity::typing || state_.activity == Activity::finding) &&
          !state_.typed.empty()) {
        if (state_.activity == Activity::finding) go_on_asking();
        state_.typed.clear();
        state_.message = "What was being typed is gone; Ctrl-Z once more for the answer before";
        return;
      }
      return undo();
    case Key::Kind::next_page:
      return turn_page(1);
    case Key::Kind::previous_page:
      return turn_page(call_page_count - 1);
    default:
      break;
  }
  switch (state_.page) {
    case CallPage::questions:
      return press_on_questions(key);
    case CallPage::details:
      return press_on_details(key);
    case CallPage::answers:
      return press_on_answers(key);
    case CallPage::advice:
    case CallPage::note:
      return press_on_advice(key);
  }
}

void CallModel::leave() {
  bool const is_taken = commit_field() && commit_typing();
  bool const is_kept = keeping_ == Keeping::in_a_file || history_.empty();
  if ((is_taken && is_kept) || leave_was_refused_) {
    state_.is_over = true;
    return;
  }
  leave_was_refused_ = true;
  if (is_taken)
    report_trouble("Nothing keeps this call (no --save). Ctrl-C once more leaves and loses it");
  else
    report_trouble(state_.message + " Ctrl-C once more leaves without it");
}

// Takes over an answer that is being typed; false when it cannot be understood.
bool CallModel::commit_typing() {
  if (state_.activity != Activity::typing || state_.typed.empty()) return true;
  commit_typed();
  return state_.activity != Activity::typing;
}

void CallModel::turn_page(std::size_t by) {
  if (!commit_field() || !commit_typing()) return;
  go_on_asking();
  state_.page =
      static_cast<CallPage>((static_cast<std::size_t>(state_.page) + by) % call_page_count);
  state_.field = state_.row = state_.scroll = 0;
}

// At any moment: no answer that can be typed has a `!` in it. What cannot be understood is dropped,
// and said to be: the advice does not wait for it.
void CallModel::open_advice() {
  if (!commit_field() || !commit_typing()) report_trouble("Not recorded. " + state_.message);
  state_.is_editing = false;
  go_on_asking();
  state_.page = state_.page == CallPage::advice ? CallPage::note : CallPage::advice;
  state_.scroll = 0;
}

void CallModel::press_on_questions(Key const& key) {
  switch (state_.activity) {
    case Activity::asking:
      return ask_by_key(key);
    case Activity::finding:
      return find_by_key(key);
    case Activity::choosing:
      return choose_by_key(key);
    case Activity::typing:
      return type_by_key(key);
  }
}

void CallModel::type_by_key(Key const& key) {
  switch (key.kind) {
    case Key::Kind::enter:
      return commit_typed();
    case Key::Kind::escape:
      return go_on_asking();
    case Key::Kind::text:
      if (key.text == "!") return open_advice();
      return edit_text(key);
    default:
      return edit_text(key);
  }
}

// After a number that was not understood a digit begins anew, and letters are its unit.
void CallModel::edit_text(Key const& key) {
  auto& text = state_.typed;
  bool const is_word = key.kind == Key::Kind::text || key.kind == Key::Kind::paste;
  if (std::exchange(is_refused_, false) && is_word && !key.text.empty()) {
    auto const sign = state_.page == CallPage::details ? detail_fields(pack())[state_.field].sign
                                                       : state_.subject;
    bool const is_number = traits(pack()[sign]).is_number;
    bool const is_digit = key.text.front() >= '0' && key.text.front() <= '9';
    if (!is_number || is_digit) text.clear();
  }
  switch (key.kind) {
    case Key::Kind::erase:
      return erase_last(text);
    case Key::Kind::clear_line:
      return text.clear();
    case Key::Kind::text:
    case Key::Kind::paste:
      text += one_line(key.text);
      if (text.size() <= typed_bytes) return;
      text.resize(whole_character(text, typed_bytes));
      return report_trouble(fmt::format("Cut: a line holds {} characters", typed_bytes));
    default:
      return;
  }
}

void CallModel::press_on_details(Key const& key) {
  auto const fields = detail_fields(pack());
  switch (key.kind) {
    case Key::Kind::up:
    case Key::Kind::down:
      if (commit_field()) move(state_.field, key, fields.size());
      return;
    case Key::Kind::enter:
      if (commit_field() && state_.field + 1 < fields.size()) ++state_.field;
      return;
    case Key::Kind::text:
      if (key.text == "!") return open_advice();
      break;
    case Key::Kind::escape:
      if (state_.is_editing) {
        state_.is_editing = false;
        state_.typed.clear();
        if (std::exchange(is_field_begun_, false)) undo_field();
        return;
      }
      state_.page = CallPage::questions;
      return;
    default:
      break;
  }
  if (!state_.is_editing) {
    // Words go on where they ended; an age or a weight is typed anew, unless it is erased from.
    auto const& field = fields[state_.field];
    bool const goes_on = field.text != nullptr || key.kind == Key::Kind::erase;
    state_.typed = goes_on ? field_text(field) : "";
    state_.is_editing = true;
    is_field_begun_ = false;
    is_refused_ = false;
  }
  edit_text(key);
  keep_field();
}

// Words go into the case letter by letter, as one step to undo: a line that drops loses none.
void CallModel::keep_field() {
  auto const field = detail_fields(pack())[state_.field];
  if (field.text == nullptr || state_.patient.*(field.text) == state_.typed) return;
  auto const message = state_.message;
  auto const what = fmt::format("{}: {}", field.label, state_.typed);
  if (is_field_begun_)
    history_.back().what = state_.last_answer = what;
  else
    remember(what);
  is_field_begun_ = true;
  state_.message = message;
  state_.patient.*(field.text) = state_.typed;
}

void CallModel::undo_field() {
  state_.patient = std::move(history_.back().before);
  history_.pop_back();
  state_.last_answer = history_.empty() ? "" : history_.back().what;
}

void CallModel::press_on_answers(Key const& key) {
  auto const rows = answered();
  if (key.kind == Key::Kind::escape) {
    state_.page = CallPage::questions;
    return;
  }
  auto const text = key.kind == Key::Kind::text ? key.text : "";
  if (text == "!") return open_advice();
  if (is_letter(text) || text == "/") return begin_search(text == "/" ? "" : text);
  if (rows.empty()) return;
  auto const sign = rows[state_.row];
  move(state_.row, key, rows.size());
  if (key.kind == Key::Kind::enter) begin_choice(sign);
  if (text == "1") say_yes(sign);
  if (text == "0") say_no(sign);
  if (text == "?") answer(sign, std::nullopt);
  if (key.kind == Key::Kind::erase) {
    remember(fmt::format("{}: not asked", pack()[sign].label));
    forget(sign);
    reassess();
    go_on_asking();
    if (state_.row + 1 == rows.size() && state_.row > 0) --state_.row;
  }
}

void CallModel::press_on_advice(Key const& key) {
  auto const text = key.kind == Key::Kind::text ? key.text : "";
  if (key.kind == Key::Kind::escape) state_.page = CallPage::questions;
  if (text == "1") agree_to_ring_back();
  if (text == "!") return open_advice();
  if (is_letter(text) || text == "/") return begin_search(text == "/" ? "" : text);
  move(state_.scroll, key, scrolled_at_most);
}

}  // namespace flinch::cli
