#include "call/call_view.hpp"

#include <fmt/format.h>

#include <array>
#include <span>
#include <vector>

#include "call/call_pages.hpp"
#include "call/handover.hpp"
#include "files/clock.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/explain/taken.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t foot_rows = 4;
constexpr std::size_t open_rows = 2;  // what is still open, where the list itself is not shown

// The tier's title; below what could still be, it says so itself, for whoever reads nothing else.
std::string urgency_words(CallModel const& call) {
  auto const title = title_of(call.pack(), call.state().result.judgement.tier);
  bool const may_rise =
      call.state().result.judgement.tier && call.urgency() == Urgency::one_answer_away;
  return may_rise ? "AT LEAST: " + title : title;
}

std::string may_rise(CallModel const& call) {
  auto const& result = call.state().result;
  if (result.judgement.tier && index(*result.judgement.tier) == 0) return "the highest there is";
  if (!result.judgement.ceiling || result.judgement.ceiling == result.judgement.tier)
    return "nothing open could raise it";
  auto const& title = call.pack()[*result.judgement.ceiling].title;
  switch (call.urgency()) {
    case Urgency::one_answer_away:
      return fmt::format("may be \"{}\"", title);
    case Urgency::several_answers_away:
      return fmt::format("several answers together: \"{}\"", title);
    case Urgency::settled:
      break;
  }
  return fmt::format("a clinic may find it is \"{}\"", title);
}

// As many reasons as there is room for, the first at least, and how many more there are.
std::string why(CallModel const& call, std::size_t room) {
  auto const& result = call.state().result;
  std::vector<std::string> reasons;
  for (auto const& one : result.alarms)
    if (one.truth == Truth::yes && call.pack()[one.alarm].see == result.judgement.tier)
      reasons.push_back(call.pack()[one.alarm].title);
  for (auto const& exposure : result.judgement.exposures)
    if (exposure.see && exposure.see == result.judgement.tier)
      reasons.push_back(taken_text(call.pack(), exposure));
  for (auto shown = reasons.size(); shown > 0; --shown) {
    auto const more = reasons.size() - shown;
    auto const text = fmt::format("{}{}", fmt::join(std::span(reasons).first(shown), "; "),
                                  more > 0 ? fmt::format("; and {} more", more) : "");
    if (shown == 1 || display_width(text) <= room) return text;
  }
  if (!result.judgement.tier) return "no alarm so far. Unknown is not no.";
  if (call.rests_on_likelihood() && !call.unasked_ground().empty()) return "no alarm asks for it.";
  return "how likely causes are, on these answers. No alarm asks for it.";
}

// What the tier rests on, in words: an alarm, or likelihood, firm or not.
std::string ground(CallModel const& call) {
  if (!call.state().result.judgement.tier) return "Because: ";
  if (!call.rests_on_likelihood()) return "ALARM: ";
  auto const open = call.unasked_ground();
  if (open.empty()) return "LIKELIHOOD: ";
  std::string names;
  for (auto const sign : open) names += (names.empty() ? "" : " and ") + call.pack()[sign].label;
  return fmt::format("LIKELIHOOD, not firm before {} told; ",
                     names + (open.size() > 1 ? " are" : " is"));
}

ViewLine tabs(CallModel const& call, CallLines const& lines) {
  auto const& state = call.state();
  ViewLine line;
  std::size_t used = 0;
  for (std::size_t i = 0; i < call_page_count; ++i) {
    constexpr std::array<std::string_view, call_page_count> names = {
        "questions", "caller and patient", "answers", "advice", "note"};
    bool const is_here = i == static_cast<std::size_t>(state.page) && !state.shows_keys;
    line.push_back({is_here ? fmt::format("[{}]", names[i]) : fmt::format(" {} ", names[i]),
                    is_here ? Weight::bold : Weight::plain});
    used += names[i].size() + 2;
  }
  auto who = lines.shown(state.patient.name);
  auto const room = lines.size().columns - used - 1;
  if (display_width(who) > room) who = fitted(who, room);
  line.push_back({std::string(room - display_width(who) + 1, ' '), Weight::plain});
  line.push_back({who, Weight::bold});
  return line;
}

// What earlier calls say of this one, in a line.
void draw_course(CallModel const& call, CallLines& lines) {
  auto const& state = call.state();
  if (auto const& course = call.course()) {
    auto const& then = *call.earlier().rung_back;
    auto const left = course->still_to_ask.size();
    lines.add(ViewLine{
        {fmt::format("RINGING BACK, {}", capitals(fared_text(*course))), Weight::bold},
        {lines.shown(fmt::format(
             "; {}was \"{}\" on {}", left > 0 ? fmt::format("{} to ask again; ", left) : "",
             title_of(call.pack(), then.tier), clock_text(then.begun).substr(0, 10))),
         Weight::plain}});
    return;
  }
  auto const text = call.earlier().sentence(state.patient, state.result.judgement.tier,
                                            call.open_danger().size(), state.now, call.pack());
  if (!text.empty()) lines.add_text(lines.shown("BEFORE: " + text));
}

void draw_head(CallModel const& call, CallLines& lines) {
  auto const& pack = call.pack();
  auto const& tier = call.state().result.judgement.tier;
  auto const all = pack.tiers.size();
  auto const marks = Page(lines.look()).marks(tier ? all - index(*tier) : 0, all);
  lines.add(ViewLine{{" " + lines.shown(urgency_words(call)) + " ", Weight::urgency},
                     {" " + marks + "  ", Weight::plain},
                     {lines.shown(may_rise(call)), Weight::plain}});
  auto const because = ground(call);
  auto const room = lines.size().columns - std::min(lines.size().columns, because.size());
  lines.add_text(because + lines.shown(why(call, room)));
  if (auto const& fall = call.state().fall) {
    constexpr std::string_view seen = "  Enter: seen";
    auto text =
        lines.shown(fmt::format(" FELL from \"{}\" by: {}", pack[fall->from].title, fall->by));
    auto const most = lines.size().columns - seen.size();
    if (display_width(text) > most) text = fitted(text, most - 3) + "...";
    lines.add(ViewLine{{text + " ", Weight::chosen}, {std::string(seen.substr(1)), Weight::bold}});
  }
  draw_course(call, lines);
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
    case CallPage::note:
      return draw_note(call, lines, room);
  }
}

void draw_open(CallModel const& call, CallLines& lines) {
  auto const labels = open_labels(call, OpenLabels::all);
  auto const end = lines.count() + open_rows;
  lines.paragraph(labels.empty()
                      ? "nothing that a caller can tell would make it more urgent than this"
                      : fmt::format("{} a caller can tell, of {}: {}", call.open_danger().size(),
                                    call.all_open().size(), labels),
                  0, "OPEN   ", Weight::plain, open_rows);
  lines.fill_to(end);
}

// What the keys of this page do, what is needed most first.
std::vector<std::string_view> keys_here(CallModel const& call) {
  auto const& state = call.state();
  if (state.page == CallPage::advice)
    return {"1 agree the time", "up/down scroll", "! note", "^Z undo", "^C leave"};
  if (state.page == CallPage::note)
    return {"1 agree the time", "up/down scroll", "! advice", "^Z undo", "^C leave"};
  if (state.page != CallPage::questions) return {"Tab next page", "Esc questions", "^Z undo"};
  switch (state.activity) {
    case Activity::asking:
      if (state.outlook.screen &&
          state.outlook.screen->questions.front().sign == patient_sign::weight_confirmed)
        return {"yes it is right", "no it is not", "or the weight again", "! advice", "Tab pages"};
      if (state.outlook.screen) {
        auto const& kind = traits(call.pack()[state.outlook.screen->questions.front().sign]);
        if (kind.has_values)
          return {"1-9 which is so", "? can't tell", "or type what is said", "! advice",
                  "Tab pages"};
        if (kind.is_number || kind.is_breed)
          return {"Enter, then type it", "? can't tell", "or type what is said", "! advice",
                  "Tab pages"};
      }
      return {"1-9 yes", "0 none", "or type: yes, no, what is said", "! advice", "Tab pages"};
    case Activity::finding:
      return {"1-9 that one", "Enter: the same words", "Esc back", "^Z undo"};
    case Activity::choosing:
      return {"1-9 choose, or its word", "? can't tell", "Esc leave it", "^Z undo"};
    case Activity::typing:
      break;
  }
  return {"Enter take it", "? can't tell", "Esc leave it", "^Z undo", "^U empty"};
}

// Whole items, as many as there is room for; the way to all keys is always among them.
std::string key_line(CallModel const& call, std::size_t columns) {
  if (call.state().shows_keys) return "any key goes back";
  constexpr std::string_view all_keys = "F1/^K keys";
  std::string line;
  for (auto const item : keys_here(call))
    if (line.size() + item.size() + 2 + all_keys.size() <= columns)
      line += fmt::format("{}  ", item);
  return line + std::string(all_keys);
}

// What was recorded last, large, and how to take it back; then what the last key did.
void draw_message(CallState const& state, CallLines& lines) {
  auto const end = lines.count() + foot_rows - 1;
  if (!state.unsaved.empty())
    lines.add_text(lines.shown("NOT SAVED: " + state.unsaved + ". Write the answers down"),
                   Weight::chosen);
  else if (state.last_answer.empty())
    lines.rule();
  if (!state.last_answer.empty()) {
    constexpr std::string_view how = "  recorded; ^Z takes it back";
    auto const room = lines.size().columns - how.size() - 2;
    auto text = lines.shown(capitals(state.last_answer));
    if (display_width(text) > room) text = fitted(text, room);
    lines.add(ViewLine{{" " + text + " ", Weight::chosen}, {std::string(how), Weight::plain}});
  }
  lines.paragraph(state.message, 0, "", state.is_trouble ? Weight::chosen : Weight::bold,
                  end - lines.count());
  lines.fill_to(end);
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
  bool const shows_open = !lists_open && !state.shows_keys;
  auto const end = size.rows - foot_rows - (shows_open ? open_rows : 0);
  draw_page(call, lines, {lines.count(), end});
  lines.fill_to(end);
  if (shows_open) draw_open(call, lines);
  draw_message(state, lines);
  lines.add_text(key_line(call, size.columns));
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
