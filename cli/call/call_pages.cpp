#include "call/call_pages.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "call/handover.hpp"
#include "desk/ring_back_time.hpp"
#include "files/clock.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/interview/answer_entry.hpp"
#include "flinch/model/shown_weight.hpp"
#include "flinch/telling/telling.hpp"

namespace flinch::cli {
namespace {

constexpr char const* from_book_text = "  (from the book)";

void draw_values(CallModel const& call, CallLines& lines, SignId sign) {
  auto const& values = call.pack()[sign].values;
  for (std::size_t i = 0; i < values.size(); ++i) lines.choice(i + 1, values[i].label, "", false);
}

void draw_choices(CallModel const& call, CallLines& lines) {
  auto const labels = call.choices();
  for (std::size_t i = 0; i < labels.size(); ++i) lines.choice(i + 1, labels[i], "", false);
}

// What the list is for, and how much is open behind it.
std::string asking_heading(CallModel const& call) {
  auto const& state = call.state();
  if (state.outlook.screen->questions.front().sign == patient_sign::weight_confirmed)
    return "IS THE WEIGHT RIGHT?   no amounts are told before that";
  if (state.outlook.screen->kind == Screen::Kind::patient)
    return "FIRST, BEFORE THE URGENCY MAY REST ON LIKELIHOOD";
  bool const is_firm = !call.rests_on_likelihood() || call.unasked_ground().empty();
  if (state.result.judgement.tier && index(*state.result.judgement.tier) == 0 && is_firm)
    return "ENOUGH: GIVE THE ADVICE NOW (!). If they stay on the line:";
  if (traits(call.pack()[state.outlook.screen->questions.front().sign]).has_values)
    return "HOW MUCH, OR WHICH?   one of these";
  auto const open = call.open_danger().size();
  if (state.outlook.screen->kind == Screen::Kind::danger)
    return fmt::format("ANY OF THESE RIGHT NOW?   {} of {} open are for the caller", open,
                       call.all_open().size());
  if (open == 0) return "WHAT TELLS MOST NOW   nothing open could raise the urgency";
  return fmt::format("WHAT TELLS MOST NOW   {} open could raise the urgency together", open);
}

// What has been answered to a line of the list.
std::string said_to(CallModel const& call, SignId sign) {
  if (auto const* known = call.state().result.find(sign))
    return "= " + answer_text(call.pack(), sign, known->answer);
  if (call.is_settled(sign)) return "= can't tell";
  return call.earlier().then_text(call.pack(), sign);
}

void draw_asking(CallModel const& call, CallLines& lines) {
  auto const& state = call.state();
  auto const& screen = state.outlook.screen;
  if (!screen) {
    lines.heading("NOTHING MORE TO ASK A CALLER");
    lines.paragraph(
        fmt::format(
            "What is still open needs hands on the {} or a clinic. Type letters to find any "
            "sign; Tab for the advice and the note.",
            call.pack().words.one),
        2, "");
    return;
  }
  lines.heading(asking_heading(call));
  auto const first = screen->questions.front().sign;
  if (first == patient_sign::weight_confirmed)
    return lines.add_text("  Type yes or no, or the weight once more with its unit.");
  if (traits(call.pack()[first]).has_values) {
    if (auto const said = said_to(call, first); !said.empty())
      lines.add_text(lines.shown(call.pack()[first].label + "  " + said));
    return draw_values(call, lines, first);
  }
  for (std::size_t i = 0; i < screen->questions.size(); ++i) {
    auto const sign = screen->questions[i].sign;
    lines.choice(i + 1, call.pack()[sign].label, said_to(call, sign), i == state.line);
  }
}

// What has been answered already, else the words that fitted.
std::string words_beside(CallModel const& call, FoundSign const& found) {
  auto const said = said_to(call, found.sign);
  return said.empty() ? std::string(found.words) : said;
}

void draw_finding(CallModel const& call, CallLines& lines) {
  auto const& state = call.state();
  lines.add(ViewLine{{"FIND  ", Weight::bold},
                     {lines.tail(state.typed, lines.size().columns - 10), Weight::plain}});
  lines.cursor_behind_last_line();
  if (state.found.empty() && call.on_enter().empty())
    lines.paragraph(state.typed.empty() ? "Type a few letters of what the caller says."
                                        : "No sign has such words. Try others.",
                    2, "");
  if (!state.found.empty() && state.found.front().of_disease)
    lines.paragraph(fmt::format("That is a disease ({}). Which of its signs are seen?",
                                call.pack()[*state.found.front().of_disease].title),
                    2, "");
  if (auto const enter = call.on_enter(); !enter.empty())
    lines.add(ViewLine{{"Enter records  ", Weight::plain},
                       {lines.shown(capitals(enter)), Weight::chosen}});
  for (std::size_t i = 0; i < state.found.size(); ++i) {
    auto const& found = state.found[i];
    lines.choice(i + 1, call.would_record(found), words_beside(call, found),
                 state.is_picked && i == state.cursor);
    // Its words alone say less than it means.
    if (found.may_calm) lines.paragraph(call.pack()[found.sign].ask, 5, "");
  }
}

void draw_typing(CallModel const& call, CallLines& lines) {
  auto const& state = call.state();
  auto const& sign = call.pack()[state.subject];
  auto const places = places_to_name(call.pack(), state.subject);
  auto const hint =
      is_told_by_side(call.pack(), state.subject) ? "left, right or both; Enter if not known"
      : traits(sign).has_places
          ? fmt::format("where, such as \"{}\"; Enter if not known",
                        places.empty() ? "" : site_text(call.pack(), places.front()))
      : sign.unit.name.empty() ? std::string("in a word or a number")
                               : fmt::format("with its unit, such as {}", sign.unit.name);
  lines.add(ViewLine{{lines.shown(sign.label) + "  ", Weight::bold}, {hint, Weight::plain}});
  lines.add(ViewLine{{"  > ", Weight::plain},
                     {lines.tail(state.typed, lines.size().columns - 6), Weight::bold}});
  lines.cursor_behind_last_line();
}

std::string sex_question(Pack const& pack) {
  if (pack.is_never_neutered) return "Male or female?";
  if (!pack.sex_never_neutered) return "Male or female, and neutered? (type \"male neutered\")";
  return fmt::format("Male or female, and if {0}, neutered? (type \"{0} neutered\")",
                     *pack.sex_never_neutered == 0 ? "female" : "male");
}

void draw_words_to_say(CallModel const& call, CallLines& lines, SignId id) {
  auto const& state = call.state();
  auto const& sign = call.pack()[id];
  lines.blank();
  auto const doubt = id == patient_sign::weight_confirmed
                         ? doubt_of_weight(call.pack(), state.patient)
                         : std::nullopt;
  auto const say = doubt                     ? doubt_words(call.pack(), *doubt) + ". Is that right?"
                   : id == patient_sign::sex ? sex_question(call.pack())
                   : sign.of_the_patient && sign.ask.empty()
                       ? fmt::format("What is its {}?", sign.label)
                       : sign.ask;
  lines.paragraph(say, 0, "SAY    ", Weight::bold);
  if (!sign.help.empty()) lines.paragraph(sign.help, 0, "CHECK  ");
  if (id == patient_sign::weight)
    lines.paragraph("Believed: " + believed_weights(call.pack()) + ".", 0, "CHECK  ");
  if (state.activity != Activity::asking) return;
  auto const& question = state.outlook.screen->questions[state.line];
  if (!question.could_reach || question.alarms.size() + question.taken.size() == 0) return;
  auto const hangs = question.alarms.size() > 1
                         ? fmt::format("{} alarms hang on it", question.alarms.size())
                     : question.alarms.size() == 1 ? call.pack()[question.alarms[0]].title
                                                   : "how much harm what it took can do";
  auto const& could_reach = call.pack()[*question.could_reach].title;
  auto const& alone = question.alone_reaches;
  auto const leads = !alone ? fmt::format("could help to lead to \"{}\"", could_reach)
                     : alone == question.could_reach
                         ? fmt::format("could lead to \"{}\"", could_reach)
                         : fmt::format("could lead to \"{}\", with others to \"{}\"",
                                       call.pack()[*alone].title, could_reach);
  lines.paragraph(fmt::format("{}: {}", leads, hangs), 0, "WHY    ");
}

void draw_ring_back(CallModel const& call, CallLines& lines) {
  auto const& state = call.state();
  auto const& agreed = state.patient.ring_back_at;
  auto const& tier = state.result.judgement.tier;
  auto const proposed =
      tier ? clock_text(ring_back_time(call.pack()[*tier], state.now, call.setting())) : "";
  lines.heading("RING BACK");
  if (!agreed.empty()) lines.paragraph("Agreed: " + agreed, 2, lines.bullet());
  if (proposed.empty())
    lines.paragraph("No urgency yet, so no time is proposed.", 2, lines.bullet());
  else if (proposed != agreed)
    lines.paragraph(fmt::format("Proposed{}: {}. Press 1 when the caller agrees.",
                                agreed.empty() ? "" : " for this urgency, from now", proposed),
                    2, lines.bullet());
}

void draw_items(CallLines& lines, std::string_view heading, std::vector<std::string> const& items) {
  if (items.empty()) return;
  lines.heading(std::string(heading));
  for (auto const& item : items) lines.paragraph(item, 2, lines.bullet());
}

void draw_advice_lines(CallModel const& call, CallLines& lines) {
  auto const& state = call.state();
  auto const told = tell(call.tables(), state.result, Reader::nurse, call.setting());
  lines.heading("SAY TO THE CALLER, IN THIS ORDER");
  lines.paragraph(told.urgency.say, 2, lines.bullet());
  for (std::size_t i = 0; i < told.script.lines.size(); ++i)
    lines.paragraph(told.script.lines[i], 2, fmt::format("{}. ", i + 1));
  if (!told.mouth.food_and_water.empty())
    lines.paragraph("Food and water: " + told.mouth.food_and_water, 2, lines.bullet());
  if (call.urgency() != Urgency::settled)
    draw_items(lines, "NOT SETTLED",
               {fmt::format("{}. They could still raise the urgency: in doubt, go by the higher "
                            "one.",
                            told.open_count)});
  draw_ring_back(call, lines);
  if (auto const first = ask_us_first_words(told); !first.empty())
    draw_items(lines, "NOT YET TO DO", {first});
  std::vector<std::string> items;
  if (!told.mouth.medicines.empty()) items.push_back(told.mouth.medicines);
  for (auto const& warning : told.do_not) items.push_back(warning.title + ": " + warning.text);
  if (!told.may_not.empty()) items.push_back(told.may_not);
  draw_items(lines, "DO NOT", items);
  items.clear();
  for (auto const& one : told.ring_again) items.push_back(one.title + ": " + one.text);
  draw_items(lines, "RING AGAIN", items);
  lines.paragraph(caution, 0, "");
}

// What stands on the page from its first row on, as far as it is scrolled.
void scroll(CallModel const& call, CallLines& lines, PageRoom room) {
  auto all = lines.take_from(room.first_row);
  auto const rows = room.end_row - room.first_row;
  auto const last = all.size() > rows ? all.size() - rows : 0;
  lines.limit_scroll(last);
  auto const first = std::min(call.state().scroll, last);
  for (std::size_t i = first; i < std::min(all.size(), first + rows); ++i)
    lines.add(std::move(all[i]));
}

}  // namespace

std::string open_labels(CallModel const& call, OpenLabels which) {
  std::string out;
  auto const& screen = call.state().outlook.screen;
  auto const is_listed = [&](SignId sign) {
    return screen && std::any_of(screen->questions.begin(), screen->questions.end(),
                                 [&](Question const& q) { return q.sign == sign; });
  };
  for (auto const& open : call.open_danger()) {
    if (which == OpenLabels::behind_the_list && is_listed(open.sign)) continue;
    out += (out.empty() ? "" : "; ") + call.pack()[open.sign].label +
           (call.lacks_place(open.sign) ? " (where)" : "");
  }
  return out;
}

void draw_questions(CallModel const& call, CallLines& lines, PageRoom room) {
  auto const& state = call.state();
  switch (state.activity) {
    case Activity::asking:
      draw_asking(call, lines);
      break;
    case Activity::finding:
      draw_finding(call, lines);
      break;
    case Activity::choosing:
      lines.heading("CHOOSE   " + lines.shown(call.pack()[state.subject].label));
      draw_choices(call, lines);
      break;
    case Activity::typing:
      draw_typing(call, lines);
      break;
  }
  if (auto const sign = call.focus()) draw_words_to_say(call, lines, *sign);
  auto const labels = open_labels(call, OpenLabels::behind_the_list);
  if (state.activity != Activity::asking || labels.empty() || lines.count() + 2 > room.end_row)
    return;
  lines.blank();
  lines.paragraph(labels, 0, "THEN   ", Weight::plain, room.end_row - lines.count());
}

void draw_details(CallModel const& call, CallLines& lines) {
  lines.heading("CALLER AND PATIENT   type to change, Enter or the arrows for the next");
  auto const& state = call.state();
  auto const fields = detail_fields(call.pack());
  for (std::size_t i = 0; i < fields.size(); ++i) {
    bool const is_here = i == state.field;
    auto const weight = is_here ? Weight::bold : Weight::plain;
    auto const label = fmt::format(" {} {}  ", is_here ? '>' : ' ', fitted(fields[i].label, 12));
    auto const room = lines.size().columns - label.size() - 1;
    auto const text = is_here && state.is_editing ? state.typed : call.field_text(fields[i]);
    bool const is_known = fields[i].text == nullptr && call.earlier().is_from_book(fields[i].sign);
    lines.add(ViewLine{{label, weight},
                       {is_here ? lines.tail(text, room) : lines.shown(text), weight},
                       {is_known ? from_book_text : "", Weight::plain}});
    if (is_here) lines.cursor_behind_last_line();
  }
}

void draw_answers(CallModel const& call, CallLines& lines, PageRoom room) {
  constexpr std::size_t label_columns = 40;
  auto const& state = call.state();
  auto const signs = call.answered();
  lines.heading(fmt::format(
      "ANSWERS SO FAR: {}   1 yes, 0 no, ? can't tell, Backspace takes it out", signs.size()));
  auto const rows = room.end_row - lines.count();
  auto const first = state.row >= rows ? state.row - rows + 1 : 0;
  for (std::size_t i = first; i < std::min(signs.size(), first + rows); ++i) {
    auto const* known = state.result.find(signs[i]);
    auto const text =
        (known == nullptr ? "can't tell" : answer_text(call.pack(), signs[i], known->answer)) +
        (call.earlier().is_from_book(signs[i]) ? from_book_text : "");
    lines.add_text(fmt::format(" {} {}  {}", i == state.row ? '>' : ' ',
                               fitted(lines.shown(call.pack()[signs[i]].label), label_columns),
                               lines.shown(text)),
                   i == state.row ? Weight::chosen : Weight::plain);
  }
}

void draw_advice(CallModel const& call, CallLines& lines, PageRoom room) {
  draw_advice_lines(call, lines);
  scroll(call, lines, room);
}

void draw_note(CallModel const& call, CallLines& lines, PageRoom room) {
  auto const& state = call.state();
  auto const note = note_text(
      handover_note(call.tables(), state.patient, state.result, call.setting()), lines.look());
  for (std::string_view rest = note; !rest.empty(); rest.remove_prefix(rest.find('\n') + 1))
    lines.add_text(lines.shown(rest.substr(0, rest.find('\n'))));
  scroll(call, lines, room);
}

void draw_keys(CallLines& lines) {
  lines.heading("ALL KEYS   any key goes back");
  // As many as the smallest screen has room for.
  for (auto const* line : {"1 to 9     yes to that one of the list; or that choice",
                           "0          none of those listed: no to all still open",
                           "yes no don't know, and Enter: to the question read out; ? too",
                           "letters    find a sign or a value by the caller's words:",
                           "  there    a number records it; Enter only the same words",
                           "           with the arrows first: 0 no, ? can't tell; Esc back",
                           "Enter      a fall of the urgency was seen; answers nothing",
                           "Tab        next page; Shift-Tab back; Esc the questions",
                           "!          the advice, again the note; 1 there: agreed",
                           "Backspace  on the page of answers: take an answer out",
                           "Ctrl-Z     undo; Ctrl-U empty the line; Ctrl-L redraw",
                           "F1, Ctrl-K this page; Ctrl-C leave; up, down: another line"})
    lines.add_text(std::string("  ") + line);
}

}  // namespace flinch::cli
