#include "ask/ask_session.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <istream>
#include <ostream>
#include <utility>

#include "ask/question_text.hpp"
#include "ask/standing_text.hpp"
#include "assess/assess_text.hpp"
#include "files/clock.hpp"
#include "files/practice_source.hpp"
#include "files/read_bytes.hpp"
#include "flinch/assess/weight_doubt.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/interview/sign_search.hpp"
#include "flinch/telling/telling.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {

namespace {

bool leaves_the_question(LineKey key) {
  return key != LineKey::why && key != LineKey::how && key != LineKey::keys && key != LineKey::more;
}

}  // namespace

AskSession::AskSession(Tables const& tables, Reader reader, CaseKeeper keeper, Date today,
                       std::istream& in, Echo echo, Session const& session, EarlierVisits earlier)
    : tables_(tables),
      pack_(tables.pack()),
      assessor_(tables),
      interview_(tables, reader, limits_of_lines()),
      reader_(reader),
      search_(tables.pack()),
      keeper_(std::move(keeper)),
      earlier_(std::move(earlier)),
      context_{today, Side::any},
      in_(in),
      echo_(echo),
      session_(session) {}

AskSession::Ended AskSession::run(Case patient) {
  now_.patient = std::move(patient);
  // Told of another weight, it does not answer for this one: it is asked again.
  if (doubt_of_weight(pack_, now_.patient))
    std::erase_if(now_.patient.answers,
                  [](auto const& one) { return one.first == patient_sign::weight_confirmed; });
  // Who goes on with a case has told what it is about, or answered without.
  now_.is_complaint_over =
      std::any_of(now_.patient.answers.begin(), now_.patient.answers.end(), [&](auto const& one) {
        return !pack_[one.first].of_the_patient && !earlier_.is_from_book(one.first);
      });
  remark(std::string(keys_text));
  for (auto after = After::go_on; after == After::go_on;) {
    auto const outlook = look_ahead();
    auto const with_skipped = outlook_with_skipped();
    auto const told_of = next_told_of();
    bool const asks_on = outlook.screen && (goes_on_ || !outlook.is_enough);
    auto const news = note_tier(as_told(tables_, result_, now_.set_aside), with_skipped);
    if (news != News::nothing && (asks_on || now_.clear_wanted || told_of ||
                                  !now_.is_complaint_over || !to_ask_again().empty()))
      after = pause(news);
    else if (now_.clear_wanted)
      after = ask_clear();
    else if (told_of)
      after = ask({Screen::Kind::telling, {{*told_of, 0, {}, {}, {}}}}, outlook, with_skipped);
    else if (auto again = to_ask_again(); !again.empty())
      after = ask({Screen::Kind::danger, std::move(again)}, outlook, with_skipped);
    else if (!now_.is_complaint_over)
      after = ask_complaint();
    else if (asks_on)
      after = ask(*outlook.screen, outlook, with_skipped);
    else if (!offers_skipped())
      after = end_or_more(outlook, with_skipped);
  }
  ask_next_time();
  say("\n");
  if (course_)
    say(since_last_time_text(*course_, *earlier_.rung_back, pack_, session_.look) + "\n");
  say_assessment(result_);
  return {now_.patient, !save_failed_};
}

std::optional<std::string> AskSession::read_line() {
  session_.out << "> " << std::flush;
  auto line = read_typed_line(in_);
  if (!line) {
    session_.out << '\n';
    return std::nullopt;
  }
  if (echo_ == Echo::by_us) {
    bool const is_text = find_invalid_utf8(*line) == std::string::npos;
    session_.out << (is_text ? inert(*line) : "(bytes that are no text)") << '\n';
  }
  return line;
}

void AskSession::say(std::string const& text) { session_.out << text << std::flush; }

// The urgency stands last: the rest is longer than a screen; behind it only words that nobody could
// place. A skipped danger is an unasked one.
void AskSession::say_so_far() { say_assessment(as_told(tables_, result_, now_.set_aside)); }

void AskSession::say_assessment(Assessment const& result) {
  auto const with_skipped = outlook_with_skipped();
  TextOptions options;
  options.setting = setting_now();
  options.are_dangers_unasked = may_rise(result, with_skipped);
  options.are_causes_named = !with_skipped.is_opening;
  options.reader = reader_;
  say(assessment_text(tables_, now_.patient, result, options, session_.look) + "\n" +
      last_word_text(tables_, result, with_skipped, reader_, setting_now(), session_.look));
  if (!now_.unclear.empty()) {
    Page page(session_.look);
    for (auto const& words : now_.unclear)
      page.paragraph(fmt::format(
          "Not settled what was meant by \"{}\": it may be a danger. Tell the "
          "{} in these words.",
          inert(words), seen_at(pack_, setting_now()) == SeenAt::home ? "vet" : "clinic"));
    say(page.take());
  }
}

// A practice may close while the questions go on.
Setting AskSession::setting_now() const {
  auto out = session_.setting;
  set_clock(out, now_or_fixed());
  return out;
}

Outlook AskSession::outlook_with_skipped() {
  return interview_.next(result_, now_.places_untold, std::span(now_.patient.came_for));
}

void AskSession::remark(std::string const& text) {
  Page page(session_.look);
  page.paragraph(text);
  say(page.take());
}

Outlook AskSession::look_ahead() {
  bool const is_other = earlier_.bring_in(now_.patient, assessor_, now_or_fixed(), pack_);
  result_ = assessor_.assess(now_.patient);
  tell_course();
  if (is_other) save();
  auto set_aside = now_.set_aside;
  set_aside.insert(set_aside.end(), now_.places_untold.begin(), now_.places_untold.end());
  return interview_.next(result_, set_aside, std::span(now_.patient.came_for));
}

// What earlier visits say of it, as often as that changes.
void AskSession::tell_course() {
  if (earlier_.visits.empty()) return;
  if (earlier_.rung_back) return tell_since_then();
  auto const text = earlier_.sentence(now_.patient, result_.judgement.tier,
                                      outlook_with_skipped().danger_left, now_or_fixed(), pack_);
  if (text == told_sentence_) return;
  told_sentence_ = text;
  if (text.empty()) return;
  std::string known;
  for (auto const sign : earlier_.from_book)
    if (pack_[sign].yes_if_seen_before || pack_[sign].yes_if_worse)
      known += fmt::format("{}\"{}: yes\"", known.empty() ? "" : " and ", pack_[sign].label);
  remark("Before: " + text + "." +
         (known.empty() ? "" : " Recorded, as known from the book: " + known + "."));
}

// A tier that rises is told at once, and what to do; so is a further alarm at the tier that stands,
// and a tier that falls.
AskSession::News AskSession::note_tier(Assessment const& told, Outlook const& with_skipped) {
  std::vector<AlarmId> fired;
  auto const tier = told.judgement.tier;
  for (auto const alarm : told.judgement.fired)
    if (pack_[alarm].see == tier) fired.push_back(alarm);
  bool const rose = tier && (!told_tier_ || *tier < *told_tier_);
  bool const fell = told_tier_ && (!tier || *told_tier_ < *tier);
  if (rose) {
    say(tier_text(tables_, told, with_skipped, reader_, setting_now(), session_.look));
  } else if (fell) {
    say(fall_text(pack_, {*told_tier_, last_noted_}, told, with_skipped, session_.look));
  } else {
    auto fresh = fired;
    std::erase_if(fresh, [&](AlarmId alarm) {
      return std::find(told_alarms_.begin(), told_alarms_.end(), alarm) != told_alarms_.end();
    });
    if (!fresh.empty())
      say(alarms_text(tables_, told, fresh, told_script_, reader_, session_.look));
  }
  told_tier_ = tier;
  told_alarms_ = std::move(fired);
  told_script_ = flinch::tell(tables_, told, reader_).script;
  // Who took an answer back knows what lowered it.
  if (fell && !std::exchange(has_taken_back_, false)) return News::a_fall;
  return rose && *told_tier_ == TierId{0} ? News::the_top : News::nothing;
}

// What to do now must not scroll away under the next question, nor that it is less urgent now.
AskSession::After AskSession::pause(News news) {
  remark(news == News::the_top
             ? fmt::format("{}. The questions can wait: Enter goes on with them, q ends them.",
                           pack_[*told_tier_].title)
             : std::string("Press Enter when you have read this; b takes the answer back."));
  for (;;) {
    auto const line = read_line();
    if (!line) return After::end;
    if (line->empty()) return After::go_on;
    auto const key = read_key(*line);
    if (key == LineKey::stop) return After::end;
    if (key == LineKey::back) {
      if (go_back() == Done::yes) return After::go_on;
    } else if (key == LineKey::so_far) {
      say_so_far();
    } else {
      remark("Press Enter to go on, or type so far (f), back (b) or stop (q).");
    }
  }
}

// Why it may end here, and what is left open all the same.
std::string AskSession::nothing_more_text(Outlook const& outlook,
                                          Outlook const& with_skipped) const {
  if (with_skipped.danger_left > 0 && outlook.danger_left == 0)
    return fmt::format(
        "You skipped {} question{} that could still make it \"{}\": type skipped to see them "
        "again.",
        with_skipped.danger_left, with_skipped.danger_left == 1 ? "" : "s",
        pack_[*with_skipped.several_answers_reach].title);
  if (outlook.danger_left > 0) return "";
  auto const open = open_to(tables_, result_, reader_);
  if (!open.empty())
    return fmt::format("All that matters has been asked. {}", untold_text(pack_, open));
  return outlook.screen ? "Nothing more is worth asking: no answer of yours can make it more "
                          "urgent now, and none would tell much about the cause."
                        : "No question is left that you could answer.";
}

AskSession::After AskSession::end_or_more(Outlook const& outlook, Outlook const& with_skipped) {
  auto const text = nothing_more_text(outlook, with_skipped);
  if (!outlook.screen && with_skipped.danger_left == 0) {
    remark(text);
    return After::end;
  }
  remark(text +
         (outlook.screen ? " Type more to go on, or press Enter to end." : " Press Enter to end."));
  for (;;) {
    auto const line = read_line();
    if (!line || line->empty()) return After::end;
    auto const key = read_key(*line);
    if (key == LineKey::stop) return After::end;
    if (key == LineKey::more && outlook.screen) {
      goes_on_ = true;
      return After::go_on;
    }
    if (key == LineKey::skipped && !now_.set_aside.empty()) {
      keep_state();
      now_.set_aside.clear();
      return After::go_on;
    }
    if (key == LineKey::back) {
      if (go_back() == Done::yes) return After::go_on;
    } else if (key == LineKey::so_far) {
      say_so_far();
    } else {
      remark(fmt::format("Type more, {}back (b), so far (f), or press Enter to end.",
                         now_.set_aside.empty() ? "" : "skipped, "));
    }
  }
}

bool AskSession::offers_skipped() {
  if (now_.set_aside.empty() || skipped_shown_) return false;
  skipped_shown_ = true;
  remark("The questions that you skipped, once more:");
  now_.set_aside.clear();
  return true;
}

AskSession::After AskSession::ask(Screen const& screen, Outlook const& outlook,
                                  Outlook const& with_skipped) {
  context_.walk_side.reset();
  part_.reset();
  is_untold_pending_ = false;
  suggested_.clear();
  say("\n" +
      standing_text(pack_, as_told(tables_, result_, now_.set_aside), outlook, with_skipped,
                    session_.look) +
      (screen.questions.front().sign == patient_sign::weight_confirmed
           ? weight_question()
           : question_text(pack_, screen, session_.look, beside(screen))));
  for (;;) {
    auto const line = read_line();
    if (!line) {
      keep_part(screen);
      return After::end;
    }
    if (take_line(screen, *line)) return After::go_on;
    if (auto const key = read_key(*line)) {
      if (leaves_the_question(*key)) keep_part(screen);
      auto const done = press(*key, screen);
      if (done == Done::again) return After::go_on;
      if (done != Done::no) return done == Done::end ? After::end : After::go_on;
    }
  }
}

AskSession::After AskSession::ask_clear() {
  auto const sign = *now_.clear_wanted;
  say("\n");
  remark(
      fmt::format("Were all other places looked at too, and are they free of it: {}? (yes, no "
                  "or ?)",
                  pack_[sign].label));
  Screen const screen{Screen::Kind::telling, {{sign, 0, {}, {}, {}}}};
  for (;;) {
    auto const line = read_line();
    if (!line) return After::end;
    auto yes = read_yes_or_no(*line);
    // "Yes, but" is no word that all the others are free of it.
    if (yes == true && folded_words(*line).size() > 1) yes.reset();
    if (yes || means_cannot_tell(*line)) {
      keep_state();
      now_.clear_wanted.reset();
      if (yes == true) {
        auto const answers = std::find_if(now_.patient.answers.begin(), now_.patient.answers.end(),
                                          [&](auto const& a) { return a.first == sign; });
        auto findings = std::get<Findings>(answers->second);
        findings.clear = clear_elsewhere(pack_, sign, findings.found);
        set(sign, findings);
      }
      save();
      return After::go_on;
    }
    auto const key = read_key(*line);
    if (key == LineKey::skip) {
      keep_state();
      now_.clear_wanted.reset();
      return After::go_on;
    }
    if (!key) {
      remark("Answer yes, no, or ? if you cannot tell.");
      continue;
    }
    auto const done = press(*key, screen);
    if (done != Done::no) return done == Done::end ? After::end : After::go_on;
  }
}

AskSession::Done AskSession::press(LineKey key, Screen const& screen) {
  switch (key) {
    case LineKey::skip:
      keep_state();
      for (auto const& question : screen.questions) now_.set_aside.push_back(question.sign);
      return Done::yes;
    case LineKey::skipped:
      if (now_.set_aside.empty()) {
        remark("Nothing was skipped.");
        return Done::no;
      }
      keep_state();
      now_.set_aside.clear();
      return Done::yes;
    case LineKey::back:
      return go_back();
    case LineKey::why:
      say(why_text(pack_, screen, session_.look, beside(screen)));
      return Done::no;
    case LineKey::how:
      say(how_text(pack_, screen, session_.look));
      return Done::no;
    case LineKey::so_far:
      say("\n");
      say_so_far();
      return Done::again;
    case LineKey::stop:
      return Done::end;
    case LineKey::more:
      remark("There is more to ask: answer, skip (s) or stop (q).");
      return Done::no;
    case LineKey::keys:
      remark(std::string(keys_text));
      return Done::no;
  }
  return Done::no;
}

AskSession::Done AskSession::go_back() {
  suggested_.clear();
  if (past_.empty()) return take_back_one();
  now_ = std::move(past_.back().state);
  earlier_.from_book = std::move(past_.back().from_book);
  earlier_.said_otherwise = std::move(past_.back().said_otherwise);
  past_.pop_back();
  last_noted_ = "the last answer was taken back";
  has_taken_back_ = true;
  save();
  return Done::yes;
}

// Of an interview that is gone on with, the order of the answers is not known: which one is asked.
AskSession::Done AskSession::take_back_one() {
  auto const& answers = now_.patient.answers;
  auto const& untold = now_.patient.cannot_tell;
  if (answers.empty() && untold.empty()) {
    remark("This is the first question.");
    return Done::no;
  }
  Page page(session_.look);
  page.paragraph(
      "Which answer, of those given before, is to be taken back? Its number; Enter for none.");
  std::size_t number = 0;
  for (auto const& [sign, answer] : answers)
    page.paragraph(fmt::format("{}: {}", pack_[sign].label, answer_text(pack_, sign, answer)), 0,
                   fmt::format("{:>3}  ", ++number));
  for (auto const sign : untold)
    page.paragraph(pack_[sign].label + ": can't tell", 0, fmt::format("{:>3}  ", ++number));
  say(page.take());
  for (;;) {
    auto const line = read_line();
    if (!line) return Done::end;
    auto const text = trimmed_small(*line);
    if (text.empty()) return Done::again;
    std::size_t wanted = 0;
    auto const read = std::from_chars(text.data(), text.data() + text.size(), wanted);
    bool const is_number = read.ec == std::errc{} && read.ptr == text.data() + text.size();
    if (!is_number || wanted < 1 || wanted > number) {
      remark(fmt::format("Type a number from 1 to {}, or press Enter for none.", number));
      continue;
    }
    auto const sign =
        wanted <= answers.size() ? answers[wanted - 1].first : untold[wanted - 1 - answers.size()];
    forget(sign);
    last_noted_ = pack_[sign].label + " taken back";
    has_taken_back_ = true;
    remark(fmt::format("Taken back: {}.", pack_[sign].label));
    save();
    return Done::yes;
  }
}

void AskSession::save() {
  auto const kept = keeper_.keep(now_.patient, earlier_.from_book);
  if (!kept.trouble.empty() && !save_failed_)
    remark(
        fmt::format("The answers cannot be saved in {}: {}. They are kept as long as this goes on; "
                    "saving is tried again with each answer.",
                    keeper_.place, kept.trouble));
  if (!kept.notice.empty()) remark(kept.notice + ".");
  save_failed_ = !kept.trouble.empty();
}

}  // namespace flinch::cli
