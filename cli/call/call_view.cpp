#include "call/call_view.hpp"

#include <fmt/format.h>

#include <array>

#include "call/call_pages.hpp"
#include "call/handover.hpp"
#include "flinch/explain/taken.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t head_rows = 3;
constexpr std::size_t foot_rows = 3;
constexpr std::size_t open_rows = 2;  // what is still open, where the list itself is not shown

// The tier's title; below what could still be, it says so itself, for whoever reads nothing else.
std::string urgency_words(CallModel const& call) {
  auto const title = urgency_title(call.pack(), call.state().result);
  bool const may_rise = call.state().result.tier && call.urgency() == Urgency::one_answer_away;
  return may_rise ? "AT LEAST: " + title : title;
}

std::string may_rise(CallModel const& call) {
  auto const& result = call.state().result;
  if (result.tier && index(*result.tier) == 0) return "the highest there is";
  if (!result.ceiling || result.ceiling == result.tier) return "nothing open could raise it";
  auto const& title = call.pack()[*result.ceiling].title;
  switch (call.urgency()) {
    case Urgency::one_answer_away:
      return fmt::format("may be \"{}\"", title);
    case Urgency::several_answers_away:
      return fmt::format("several answers together: \"{}\"", title);
    case Urgency::settled:
      break;
  }
  return fmt::format("untold, or for hands: up to \"{}\"", title);
}

std::string why(CallModel const& call) {
  auto const& result = call.state().result;
  std::string titles;
  for (auto const& one : result.alarms)
    if (one.truth == Truth::yes && call.pack()[one.alarm].see == result.tier)
      titles += (titles.empty() ? "" : "; ") + call.pack()[one.alarm].title;
  for (auto const& exposure : result.exposures)
    if (exposure.see && exposure.see == result.tier)
      titles += (titles.empty() ? "" : "; ") + taken_text(call.pack(), exposure);
  if (!titles.empty()) return titles;
  if (!result.tier) return "no alarm so far. Unknown is not no.";
  return "what is likely enough on these answers; no alarm asks for it.";
}

ViewLine tabs(CallModel const& call, CallLines const& lines) {
  auto const& state = call.state();
  ViewLine line;
  std::size_t used = 0;
  for (std::size_t i = 0; i < call_page_count; ++i) {
    constexpr std::array<std::string_view, call_page_count> names = {"questions", "caller and dog",
                                                                     "answers", "advice"};
    bool const is_here = i == static_cast<std::size_t>(state.page) && !state.shows_keys;
    line.push_back({is_here ? fmt::format("[{}]", names[i]) : fmt::format(" {} ", names[i]),
                    is_here ? Weight::bold : Weight::plain});
    used += names[i].size() + 2;
  }
  auto who = lines.shown(state.dog.name);
  auto const room = lines.size().columns - used - 1;
  if (display_width(who) > room) who = fitted(who, room);
  line.push_back({std::string(room - display_width(who) + 1, ' '), Weight::plain});
  line.push_back({who, Weight::bold});
  return line;
}

void draw_head(CallModel const& call, CallLines& lines) {
  auto const& pack = call.pack();
  auto const& tier = call.state().result.tier;
  auto const all = pack.tiers.size();
  auto const marks = Page(lines.look()).marks(tier ? all - index(*tier) : 0, all);
  lines.add(ViewLine{{" " + lines.shown(urgency_words(call)) + " ", Weight::urgency},
                     {" " + marks + "  ", Weight::plain},
                     {lines.shown(may_rise(call)), Weight::plain}});
  lines.add_text("Because: " + lines.shown(why(call)));
  lines.add(tabs(call, lines));
}

void draw_page(CallModel const& call, CallLines& lines, PageRoom room) {
  if (call.state().shows_keys) return draw_keys(lines);
  switch (call.state().page) {
    case CallPage::questions:
      return draw_questions(call, lines, room);
    case CallPage::details:
      return draw_details(call, lines);
    case CallPage::answers:
      return draw_answers(call, lines, room);
    case CallPage::advice:
      return draw_advice(call, lines, room);
  }
}

void draw_open(CallModel const& call, CallLines& lines) {
  auto const labels = open_labels(call, OpenLabels::all);
  auto const end = lines.count() + open_rows;
  lines.paragraph(labels.empty() ? "no danger that a caller could tell"
                                 : fmt::format("{}: {}", call.open_danger().size(), labels),
                  0, "OPEN   ", Weight::plain, open_rows);
  lines.fill_to(end);
}

std::string key_line(CallState const& state) {
  if (state.shows_keys) return "any key goes back";
  if (state.page == CallPage::advice)
    return "r agree the time  up/down scroll  ^Z undo  Tab pages  ^C leave  F1/^K keys";
  if (state.page != CallPage::questions) return "Tab next page  Esc questions  ^Z undo  F1/^K keys";
  switch (state.activity) {
    case Activity::asking:
      return "y n ?  0 none  1-9 yes to it  letters find  ! advice  ^Z undo  Tab  F1/^K keys";
    case Activity::finding:
      return "1-9, Enter yes  - no  ? can't tell  Esc back  ^Z undo  F1/^K keys";
    case Activity::choosing:
      return "1-9 choose  ? can't tell  Esc leave it  ^Z undo  F1/^K keys";
    case Activity::typing:
      break;
  }
  return "Enter take it  ? can't tell  Esc leave it  ^U empty  ^Z undo  F1/^K keys";
}

}  // namespace

bool is_large_enough(ScreenSize size) {
  return size.columns >= smallest_screen.columns && size.rows >= smallest_screen.rows;
}

CallScreen call_view(CallModel const& call, ScreenSize size, Letters letters) {
  CallLines lines(size, letters);
  auto const& state = call.state();
  if (!is_large_enough(size)) {
    lines.add_text(fmt::format("Too small: {}x{} needed; nothing is lost", smallest_screen.columns,
                               smallest_screen.rows));
    lines.fill_to(size.rows);
    return lines.take();
  }
  draw_head(call, lines);
  bool const lists_open =
      state.page == CallPage::questions && state.activity == Activity::asking && !state.shows_keys;
  auto const end = size.rows - foot_rows - (lists_open ? 0 : open_rows);
  draw_page(call, lines, {head_rows, end});
  lines.fill_to(end);
  if (!lists_open) draw_open(call, lines);
  lines.rule();
  lines.add_text(lines.shown(state.message), state.is_trouble ? Weight::chosen : Weight::bold);
  lines.add_text(key_line(state));
  return lines.take();
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
