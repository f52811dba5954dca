#include "call/call_view.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "call/handover.hpp"
#include "call/ring_back.hpp"
#include "flinch/assess/open_questions.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/text/display.hpp"
#include "page.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t head_rows = 3;
constexpr std::size_t foot_rows = 3;
constexpr std::size_t open_rows = 2;  // what is still open, where the list itself is not shown

// Text of one line for a screen that knows no Unicode: other characters as `?`.
std::string shown(std::string_view text, Letters letters) {
  auto out = inert(text);
  std::replace(out.begin(), out.end(), '\t', ' ');
  if (letters == Letters::unicode) return out;
  std::string ascii;
  for (char const c : out) {
    auto const byte = static_cast<unsigned char>(c);
    if (byte < 0x80)
      ascii += c;
    else if ((byte & 0xC0U) == 0xC0U)
      ascii += '?';
  }
  return ascii;
}

class View {
 public:
  View(CallModel const& call, ScreenSize size, Letters letters)
      : call_(call), state_(call.state()), pack_(call.pack()), size_(size), letters_(letters) {}

  CallScreen draw() {
    if (!is_large_enough(size_)) {
      add(fmt::format("Screen too small: {} x {} is needed. Nothing is lost.",
                      smallest_screen.columns, smallest_screen.rows));
      return finish(size_.rows);
    }
    head();
    if (state_.shows_keys)
      keys();
    else
      page();
    body_ends();
    foot();
    return finish(size_.rows);
  }

 private:
  void page() {
    switch (state_.page) {
      case CallPage::questions:
        return questions();
      case CallPage::details:
        return details();
      case CallPage::answers:
        return answers();
      case CallPage::advice:
        return advice();
    }
  }

  // Lines.

  void add(ViewLine line) { screen_.lines.push_back(std::move(line)); }
  void add(std::string text, Weight weight = Weight::plain) {
    add(ViewLine{{std::move(text), weight}});
  }
  void blank() { add(ViewLine{}); }
  void paragraph(std::string_view text, std::size_t indent, std::string_view bullet,
                 Weight weight = Weight::plain, std::size_t rows_at_most = 1000) {
    Page page({size_.columns, false, false, letters_ == Letters::unicode});
    page.paragraph(shown(text, letters_), indent, bullet);
    auto const wrapped = page.take();
    std::string_view rest = wrapped;
    for (std::size_t row = 0; row < rows_at_most && !rest.empty(); ++row) {
      auto const end = rest.find('\n');
      add(std::string(rest.substr(0, end)), weight);
      rest.remove_prefix(end + 1);
    }
  }
  [[nodiscard]] std::string rule_line(std::string_view left = "") const {
    std::string out(left);
    if (!out.empty()) out += ' ';
    for (auto used = display_width(out); used < size_.columns; ++used)
      out += letters_ == Letters::unicode ? "\u2500" : "-";
    return out;
  }
  // The cursor of an entry stands behind the last line's text.
  void cursor_behind_last_line() {
    std::size_t width = 0;
    for (auto const& piece : screen_.lines.back()) width += display_width(piece.text);
    screen_.cursor = {screen_.lines.size() - 1, std::min(width, size_.columns - 1)};
  }
  // The end of a text that is being typed, as much of it as there is room for.
  [[nodiscard]] std::string tail(std::string_view text, std::size_t columns) const {
    auto out = shown(text, letters_);
    while (display_width(out) > columns) {
      std::size_t next = 1;
      while (next < out.size() && (static_cast<unsigned char>(out[next]) & 0xC0U) == 0x80U) ++next;
      out.erase(0, next);
    }
    return out;
  }

  // Above: how urgent, why, which page.

  void head() {
    auto const& result = state_.result;
    auto const tiers = pack_.tiers.size();
    auto const filled = result.tier ? tiers - index(*result.tier) : 0;
    Page const page({size_.columns, false, false, letters_ == Letters::unicode});
    auto const title = fmt::format(" {} ", shown(urgency_title(pack_, result), letters_));
    add(ViewLine{{title, Weight::urgency}, {" " + page.marks(filled, tiers) + "  "}, {may_rise()}});
    add("Because: " + shown(why(), letters_));
    add(tabs());
  }

  [[nodiscard]] std::string may_rise() const {
    auto const& result = state_.result;
    if (result.tier && index(*result.tier) == 0) return "the highest there is";
    if (!result.ceiling || result.ceiling == result.tier)
      return "no open answer can set off an alarm above it";
    auto const& title = pack_[*result.ceiling].title;
    if (call_.is_settled()) return fmt::format("what nobody here can tell: up to \"{}\"", title);
    return fmt::format("{}could still be \"{}\"", result.tier ? "at least; " : "", title);
  }

  [[nodiscard]] std::string why() const {
    auto const& result = state_.result;
    std::string titles;
    for (auto const& one : result.alarms)
      if (one.truth == Truth::yes && pack_[one.alarm].see == result.tier)
        titles += (titles.empty() ? "" : "; ") + pack_[one.alarm].title;
    if (!titles.empty()) return titles;
    if (!result.tier) return "no alarm so far. Unknown is not no.";
    return "what is likely enough on these answers; no alarm of this urgency.";
  }

  [[nodiscard]] ViewLine tabs() const {
    ViewLine line;
    auto const page = static_cast<std::size_t>(state_.page);
    std::size_t used = 0;
    std::size_t i = 0;
    for (auto const* name : {"questions", "caller and dog", "answers", "advice"}) {
      auto const text = fmt::format("[{}]", name);
      line.push_back({i == page && !state_.shows_keys ? text : fmt::format(" {} ", name),
                      i == page && !state_.shows_keys ? Weight::bold : Weight::plain});
      used += text.size();
      ++i;
    }
    auto who = shown(state_.dog.name, letters_);
    auto const room = size_.columns - used - 1;
    if (display_width(who) > room) who = fitted(who, room);
    for (auto filler = display_width(who); filler < room; ++filler) line.push_back({" "});
    line.push_back({" " + who, Weight::bold});
    return line;
  }

  // Questions.

  void questions() {
    switch (state_.activity) {
      case Activity::asking:
        asking();
        break;
      case Activity::finding:
        finding();
        break;
      case Activity::choosing:
        add("CHOOSE", Weight::bold);
        values(state_.subject, state_.cursor);
        break;
      case Activity::typing:
        typing();
        break;
    }
    if (auto const sign = call_.focus()) words_to_say(*sign);
    if (state_.activity == Activity::asking) further_open();
  }

  void asking() {
    auto const& screen = state_.outlook.screen;
    if (!screen) {
      add("NOTHING MORE TO ASK A CALLER", Weight::bold);
      paragraph(
          "What is still open needs hands on the dog or a clinic. Type letters to find any "
          "sign; Tab for the advice and the note.",
          2, "");
      return;
    }
    auto const& first = screen->questions.front();
    if (screen->kind == Screen::Kind::danger)
      add(fmt::format("ANY OF THESE RIGHT NOW?   {} open could raise the urgency",
                      state_.outlook.danger_left),
          Weight::bold);
    else
      add(fmt::format("NEXT BEST QUESTION   no danger is open; {} more would tell something",
                      state_.outlook.telling_left),
          Weight::bold);
    auto const kind = pack_[first.sign].kind;
    if (kind == AnswerKind::steps || kind == AnswerKind::one_of) return values(first.sign, no_row);
    for (std::size_t i = 0; i < screen->questions.size(); ++i)
      row(i + 1, pack_[screen->questions[i].sign].label, "", i == state_.cursor);
  }

  static constexpr std::size_t no_row = static_cast<std::size_t>(-1);

  void row(std::size_t number, std::string_view label, std::string_view words, bool is_chosen) {
    auto text = fmt::format(" {} {} {}", number, is_chosen ? '>' : ' ', shown(label, letters_));
    if (!words.empty() && words != label) {
      constexpr std::size_t label_columns = 34;
      text = fmt::format("{}  {}", fitted(text, std::max(label_columns, display_width(text))),
                         shown(words, letters_));
    }
    add(std::move(text), is_chosen ? Weight::chosen : Weight::plain);
  }

  void values(SignId sign, std::size_t chosen) {
    auto const& all = pack_[sign].values;
    for (std::size_t i = 0; i < all.size(); ++i) row(i + 1, all[i].label, "", i == chosen);
  }

  void finding() {
    add(ViewLine{{"FIND  ", Weight::bold}, {tail(state_.typed, size_.columns - 10)}});
    cursor_behind_last_line();
    if (state_.found.empty())
      paragraph(state_.typed.empty() ? "Type a few letters of what the caller says."
                                     : "No sign has such words. Try others.",
                2, "");
    for (std::size_t i = 0; i < state_.found.size(); ++i) {
      auto const& found = state_.found[i];
      row(i + 1, pack_[found.sign].label, answered_words(found), i == state_.cursor);
    }
  }

  // What has been answered already, else the words that fitted.
  [[nodiscard]] std::string answered_words(FoundSign const& found) const {
    auto const* known = state_.result.find(found.sign);
    if (known == nullptr) return std::string(found.words);
    return "= " + answer_text(pack_, found.sign, known->answer);
  }

  void typing() {
    auto const& sign = pack_[state_.subject];
    auto const hint =
        sign.kind == AnswerKind::sites ? "where, such as \"left elbow\"; Enter if not known"
        : sign.unit.name.empty()       ? "in a word or a number"
                                       : fmt::format("with its unit, such as {}", sign.unit.name);
    add(ViewLine{{fmt::format("{}  ", shown(sign.label, letters_)), Weight::bold}, {hint}});
    add(ViewLine{{"  > "}, {tail(state_.typed, size_.columns - 6), Weight::bold}});
    cursor_behind_last_line();
  }

  void words_to_say(SignId id) {
    auto const& sign = pack_[id];
    blank();
    paragraph(sign.ask, 0, "SAY    ", Weight::bold);
    if (!sign.help.empty()) paragraph(sign.help, 0, "CHECK  ");
    auto const& screen = state_.outlook.screen;
    if (state_.activity != Activity::asking || !screen) return;
    auto const& question = screen->questions[state_.cursor];
    if (question.could_reach)
      paragraph(fmt::format("could lead to \"{}\"{}", pack_[*question.could_reach].title,
                            question.alarms.empty() ? "" : ": " + pack_[question.alarms[0]].title),
                0, "WHY    ");
  }

  // Danger questions behind those on the screen, in the order in which they will come.
  [[nodiscard]] std::string open_labels(bool with_shown) const {
    std::string out;
    auto const& screen = state_.outlook.screen;
    for (auto const& open : open_questions(call_.tables(), state_.result)) {
      if (open.could_not_tell || !can_see(Audience::nurse, pack_[open.sign].seen_by)) continue;
      if (pack_[open.sign].of_the_dog) continue;
      bool const is_shown =
          screen && std::any_of(screen->questions.begin(), screen->questions.end(),
                                [&](Question const& q) { return q.sign == open.sign; });
      if (is_shown && !with_shown) continue;
      out += (out.empty() ? "" : "; ") + pack_[open.sign].label;
    }
    return out;
  }

  void further_open() {
    auto const labels = open_labels(false);
    auto const used = screen_.lines.size() + foot_rows + 1;
    if (labels.empty() || used >= size_.rows) return;
    blank();
    paragraph(labels, 0, "THEN   ", Weight::plain, size_.rows - used);
  }

  // The caller and the dog.

  void details() {
    add("CALLER AND DOG   type to change, Enter or the arrows for the next", Weight::bold);
    auto const& fields = detail_fields();
    for (std::size_t i = 0; i < fields.size(); ++i) {
      bool const is_here = i == state_.field;
      auto const label = fmt::format(" {} {}  ", is_here ? '>' : ' ', fitted(fields[i].label, 12));
      auto const room = size_.columns - label.size() - 1;
      auto const text = is_here && state_.is_editing ? state_.typed : value_of(fields[i]);
      add(ViewLine{{label, is_here ? Weight::bold : Weight::plain},
                   {is_here ? tail(text, room) : shown(text, letters_),
                    is_here ? Weight::bold : Weight::plain}});
      if (is_here) cursor_behind_last_line();
    }
  }

  [[nodiscard]] std::string value_of(DetailField const& field) const {
    if (field.text != nullptr) return state_.dog.*(field.text);
    for (auto const& [sign, answer] : state_.dog.answers)
      if (sign == field.sign) return answer_text(pack_, sign, answer);
    return "";
  }

  // Answers so far.

  void answers() {
    auto const signs = call_.answered();
    add(fmt::format("ANSWERS SO FAR: {}   y, n, ? change one, x takes it out, Enter asks again",
                    signs.size()),
        Weight::bold);
    auto const room = size_.rows - head_rows - foot_rows - open_rows - 1;
    auto const first = state_.row >= room ? state_.row - room + 1 : 0;
    for (std::size_t i = first; i < std::min(signs.size(), first + room); ++i) {
      auto const* known = state_.result.find(signs[i]);
      auto const text =
          known == nullptr ? "can't tell" : answer_text(pack_, signs[i], known->answer);
      auto const line =
          fmt::format(" {} {}  {}", i == state_.row ? '>' : ' ',
                      fitted(shown(pack_[signs[i]].label, letters_), 40), shown(text, letters_));
      add(line, i == state_.row ? Weight::chosen : Weight::plain);
    }
  }

  // Advice to read out, and the note.

  void advice() {
    std::vector<ViewLine> above;
    above.swap(screen_.lines);
    advice_lines();
    auto const room = size_.rows - head_rows - foot_rows - open_rows;
    auto const last = screen_.lines.size() > room ? screen_.lines.size() - room : 0;
    auto const first = std::min(state_.scroll, last);
    for (std::size_t i = first; i < std::min(screen_.lines.size(), first + room); ++i)
      above.push_back(std::move(screen_.lines[i]));
    screen_.lines = std::move(above);
  }

  void advice_lines() {
    auto const advice = advice_for(call_.tables(), state_.result);
    auto const* const bullet = letters_ == Letters::unicode ? "\u2022 " : "* ";
    add("SAY TO THE CALLER", Weight::bold);
    for (auto const& sentence : advice.say) paragraph(sentence, 2, bullet);
    add("DO NOT GIVE", Weight::bold);
    for (auto const& sentence : advice.never) paragraph(sentence, 2, bullet);
    add("RING BACK", Weight::bold);
    paragraph(ring_back(), 2, bullet);
    blank();
    paragraph(caution, 0, "");
    rule_between();
    auto const note = note_text(handover_note(call_.tables(), state_.dog, state_.result),
                                {size_.columns, false, false, letters_ == Letters::unicode});
    std::string_view rest = note;
    while (!rest.empty()) {
      auto const end = rest.find('\n');
      add(shown(rest.substr(0, end), letters_));
      rest.remove_prefix(end + 1);
    }
  }

  void rule_between() { add(rule_line()); }

  [[nodiscard]] std::string ring_back() const {
    if (!state_.dog.ring_back_at.empty()) return "Agreed: " + state_.dog.ring_back_at;
    if (!state_.result.tier) return "No urgency yet, so no time is proposed.";
    return fmt::format("Proposed: {}. Press r when the caller agrees.",
                       clock_text(ring_back_time(pack_[*state_.result.tier], state_.now)));
  }

  // All keys.

  void keys() {
    add("ALL KEYS   any key goes back", Weight::bold);
    for (auto const* line :
         {"y n ?        yes, no, can't tell: to the question being read out",
          "0            none of those listed: no to all of them",
          "1 to 9       yes to that one of the list; or that choice",
          "up down      another one of the list",
          "letters      find a sign by the caller's words; / first for words in y or n",
          "  in a search: 1 to 9 or Enter yes, - no, ? can't tell, Esc back",
          "Tab          next page: questions, caller and dog, answers, advice",
          "Shift-Tab    the page before;  Esc: back to the questions",
          "r            on the advice page: the time to ring back is agreed",
          "x            on the answers page: take an answer out",
          "Ctrl-Z       undo, as often as you like", "Ctrl-U       empty the line being typed",
          "Ctrl-L       draw the screen again", "F1, Ctrl-K   this page",
          "Ctrl-C       leave; the note is printed, a call with --save goes on later"})
      add(std::string("  ") + line);
  }

  // Below: what is still open, what the last key did, the keys.

  void body_ends() {
    bool const lists_open = state_.page == CallPage::questions &&
                            state_.activity == Activity::asking && !state_.shows_keys;
    auto const end = size_.rows - foot_rows - (lists_open ? 0 : open_rows);
    screen_.lines.resize(std::max(head_rows, end));
    if (!lists_open) still_open();
  }

  void still_open() {
    auto const labels = open_labels(true);
    auto const wanted = screen_.lines.size() + open_rows;
    paragraph(labels.empty() ? "no danger that a caller could tell"
                             : fmt::format("{}: {}", state_.outlook.danger_left, labels),
              0, "OPEN   ", Weight::plain, open_rows);
    screen_.lines.resize(wanted);
  }

  void foot() {
    add(rule_line());
    add(shown(state_.message, letters_), state_.is_trouble ? Weight::chosen : Weight::bold);
    add(state_.shows_keys ? "any key goes back" : key_line());
  }

  [[nodiscard]] std::string key_line() const {
    if (state_.page == CallPage::advice)
      return "r agree the time  up/down scroll  ^Z undo  Tab pages  ^C leave  F1/^K keys";
    if (state_.page != CallPage::questions)
      return "Tab next page  Esc questions  ^Z undo  F1/^K keys";
    switch (state_.activity) {
      case Activity::asking:
        return "y n ?  0 none  1-9 yes to it  letters find  ^Z undo  Tab pages  F1/^K keys";
      case Activity::finding:
        return "1-9, Enter yes  - no  ? can't tell  Esc back  ^Z undo  F1/^K keys";
      case Activity::choosing:
        return "1-9 choose  ? can't tell  Esc leave it  ^Z undo  F1/^K keys";
      case Activity::typing:
        break;
    }
    return "Enter take it  ? can't tell  Esc leave it  ^U empty  ^Z undo  F1/^K keys";
  }

  // Cuts what is too wide, and fills up or cuts to the rows.
  CallScreen finish(std::size_t rows) {
    screen_.lines.resize(rows);
    for (auto& line : screen_.lines) {
      std::size_t used = 0;
      for (auto& piece : line) {
        auto const room = size_.columns - used;
        if (display_width(piece.text) > room) piece.text = fitted(piece.text, room);
        used += display_width(piece.text);
      }
    }
    if (screen_.cursor && screen_.cursor->row >= rows) screen_.cursor.reset();
    return std::move(screen_);
  }

  CallModel const& call_;
  CallState const& state_;
  Pack const& pack_;
  ScreenSize size_;
  Letters letters_;
  CallScreen screen_;
};

}  // namespace

bool is_large_enough(ScreenSize size) {
  return size.columns >= smallest_screen.columns && size.rows >= smallest_screen.rows;
}

CallScreen call_view(CallModel const& call, ScreenSize size, Letters letters) {
  return View(call, size, letters).draw();
}

std::string plain_text(CallScreen const& screen) {
  std::string out;
  for (auto const& line : screen.lines) {
    std::string text;
    for (auto const& piece : line) text += piece.text;
    text.erase(text.find_last_not_of(' ') + 1);
    out += text + '\n';
  }
  return out;
}

}  // namespace flinch::cli
