// What worries the keeper, in the keeper's own words, before anything is asked.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>

#include "ask/ask_session.hpp"
#include "desk/as_typed.hpp"
#include "desk/beside_a_yes.hpp"
#include "desk/said_worse.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/interview/complaint.hpp"
#include "flinch/interview/fact_entry.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t meanings_at_most = 6;

// "2", or nothing.
std::optional<std::size_t> whole_number(std::string_view text) {
  std::size_t number = 0;
  auto const read = std::from_chars(text.data(), text.data() + text.size(), number);
  if (read.ec != std::errc{} || read.ptr != text.data() + text.size()) return std::nullopt;
  return number;
}

// "not 2": that one of the list is wrong.
std::optional<std::size_t> taken_out(std::string const& text) {
  for (std::string_view const word : {"not ", "no ", "without ", "wrong ", "-"})
    if (text.starts_with(word)) return whole_number(std::string_view(text).substr(word.size()));
  return std::nullopt;
}

bool says_that_is_all(std::string const& text) {
  for (std::string_view const words :
       {"no", "n", "none", "nothing", "nothing else", "no nothing else", "thats all", "that's all",
        "that is all", "no thats all", "no that's all", "nope", "no more", "all", "done"})
    if (text == words) return true;
  return false;
}

}  // namespace

AskSession::After AskSession::ask_complaint() {
  if (!now_.unclear.empty()) return ask_unclear();
  auto const& told = now_.patient.came_for;
  Page page(session_.look);
  page.blank();
  if (told.empty() && course_) {
    page.line(page.bold("Is anything new, or worse than then?"));
    page.paragraph("(no; or in your own words, several with commas; or ? if you cannot say)");
  } else if (told.empty()) {
    page.line(page.bold(fmt::format("What worries you about the {}?", pack_.words.one)));
    page.paragraph(
        "(in your own words, several with commas: in pain, off its food since yesterday; or ? if "
        "you cannot say)");
  } else {
    page.line(page.bold("It came for:"));
    std::size_t number = 0;
    for (auto const sign : told)
      page.paragraph(complaint_line(sign), 0, fmt::format("{:>2}  ", ++number));
    page.line(page.bold("Anything else that worries you?"));
    page.paragraph("(no; or more in your own words; not 1 if that one is wrong)");
  }
  say(page.take());
  return take_words([&](std::string const& line) { return take_complaint(line); });
}

// Lines until one is an answer, or a key that ends the question.
AskSession::After AskSession::take_words(std::function<bool(std::string const&)> const& take) {
  for (;;) {
    auto const line = read_line();
    if (!line) return After::end;
    if (take(*line)) return After::go_on;
    if (is_complaint_answered_) continue;
    auto const key = read_key(*line);
    if (!key) continue;
    auto const done = press_beside(*key);
    if (done != Done::no) return done == Done::end ? After::end : After::go_on;
  }
}

// What a line says; a key where it means nothing and is one.
Complaint AskSession::read_said(std::string const& line) {
  auto said = read_complaint(pack_, search_, line, meanings_at_most);
  bool const is_meant = std::any_of(said.parts.begin(), said.parts.end(),
                                    [](ComplaintPart const& part) { return part.meant; });
  is_complaint_answered_ = is_meant || !read_key(line);
  return said;
}

// Whether the line was an answer; with a remark if it was neither that nor a key.
bool AskSession::take_complaint(std::string const& line) {
  auto const text = trimmed_small(line);
  bool const is_first = now_.patient.came_for.empty();
  is_complaint_answered_ = true;
  if (text.empty()) {
    remark(is_first ? "Say in a few words what is wrong; or ? if you cannot say."
                    : "Type no if that is all, or what else worries you.");
    return false;
  }
  if (says_that_is_all(text) || means_cannot_tell(line)) {
    keep_state();
    now_.is_complaint_over = true;
    return true;
  }
  if (auto const number = taken_out(text); number && !is_first) return take_out(*number);
  if (course_ && says_only_that_it_is_worse(line)) {
    keep_state();
    now_.is_said_worse = true;
    keep_words(text);
    save();
    remark("Then say what is worse or new, in your own words.");
    return false;
  }
  auto const said = read_said(line);
  if (!is_complaint_answered_) return false;
  if (!is_first && (text == "yes" || text == "y" || text == "yeah" || text == "yep")) {
    remark("Then type it, in your own words.");
    return false;
  }
  if (said.parts.empty() && !said.since) {
    remark(
        "Not understood: type a few plain words at a time, such as limping; or ? if you cannot "
        "say.");
    return false;
  }
  keep_state();
  take_said(said);
  return true;
}

// What is understood is recorded at once; the rest of the line waits to be settled.
void AskSession::take_said(Complaint const& said) {
  std::string noted;
  std::string for_later;
  std::vector<std::string> unclear;
  for (auto const& part : said.parts) {
    if (!part.meant) {
      if (take_facts_told(part, noted, for_later)) continue;
      // "Off his food": how much is asked, and no number is needed to get there.
      bool const is_asked =
          !part.found.empty() && part.found.front().is_exact && !part.found.front().value;
      keep_words(part.words);
      if (is_asked)
        now_.to_ask.push_back(part.found.front().sign);
      else
        unclear.push_back(part.words);
      continue;
    }
    tell(*part.meant);
    noted += (noted.empty() ? "" : "; ") + complaint_line(part.meant->sign);
  }
  if (said.since) {
    set(said.since->sign, said.since->answer);
    noted += fmt::format("{}{}: {}", noted.empty() ? "" : "; ", pack_[said.since->sign].label,
                         answer_text(pack_, said.since->sign, said.since->answer));
  }
  if (!for_later.empty())
    remark(fmt::format(
        "This is kept in the note: {}. How old the {} is, what it weighs, its sex and breed, how "
        "long it lasts and how much of something are asked in their turn.",
        for_later, pack_.words.one));
  now_.unclear.insert(now_.unclear.begin(), unclear.begin(), unclear.end());
  if (!noted.empty()) note(noted);
  save();
}

// Facts of the patient that come with the complaint are no signs: they are taken, or asked in their
// turn. False where the words may be more than that.
bool AskSession::take_facts_told(ComplaintPart const& part, std::string& noted,
                                 std::string& for_later) {
  auto facts = facts_unasked(pack_, part.words, context_);
  if (facts.answers.empty() && !facts.is_for_later) return false;
  auto const& known = now_.patient.answers;
  for (auto const& fact : facts.answers) {
    auto const before = std::find_if(known.begin(), known.end(),
                                     [&](auto const& one) { return one.first == fact.first; });
    facts.is_for_later = facts.is_for_later || part.is_in_doubt ||
                         (before != known.end() && before->second != fact.second);
  }
  if (facts.is_for_later) {
    keep_words(part.words);
    for_later += fmt::format("{}\"{}\"", for_later.empty() ? "" : ", ", inert(part.words));
    return true;
  }
  for (auto& [sign, answer] : facts.answers) {
    noted += fmt::format("{}{}: {}", noted.empty() ? "" : "; ", pack_[sign].label,
                         text_as_typed(pack_, sign, answer, part.words));
    set(sign, std::move(answer));
  }
  return true;
}

// What is not settled is not lost: whoever reads the case sees the keeper's own words.
void AskSession::keep_words(std::string const& words) {
  auto& kept = now_.patient.note;
  kept += (kept.empty() ? "" : " ") + as_said(words);
}

void AskSession::settle_words(std::string const& words) {
  auto& kept = now_.patient.note;
  auto const said = as_said(words);
  auto const at = kept.find(said);
  if (at == std::string::npos) return;
  kept.erase(at, said.size());
  if (at > 0 && kept[at - 1] == ' ') kept.erase(at - 1, 1);
}

// As what the patient came for: places are added to those told before.
void AskSession::tell(ToldAnswer const& told) {
  auto answer = told.answer;
  auto const known = std::find_if(now_.patient.answers.begin(), now_.patient.answers.end(),
                                  [&](auto const& one) { return one.first == told.sign; });
  if (known != now_.patient.answers.end())
    if (auto* more = std::get_if<Findings>(&answer))
      if (auto const* earlier = std::get_if<Findings>(&known->second);
          earlier != nullptr && earlier->found_somewhere)
        for (auto const& mark : earlier->found)
          if (std::find(more->found.begin(), more->found.end(), mark) == more->found.end())
            more->found.push_back(mark);
  if (auto const clash = beside_a_none(tables_, result_, told.sign, answer); !clash.empty())
    remark(clash + " (b for this one).");
  bool const is_told = tables_.is_told(told.sign, answer);
  set(told.sign, std::move(answer));
  auto& came_for = now_.patient.came_for;
  if (is_told && std::find(came_for.begin(), came_for.end(), told.sign) == came_for.end())
    came_for.push_back(told.sign);
}

std::string AskSession::complaint_line(SignId sign) const {
  auto const known = std::find_if(now_.patient.answers.begin(), now_.patient.answers.end(),
                                  [&](auto const& one) { return one.first == sign; });
  auto const& label = pack_[sign].label;
  if (known == now_.patient.answers.end()) return label;
  if (known->second == Answer(true)) return label;
  auto const* findings = std::get_if<Findings>(&known->second);
  if (findings != nullptr && findings->found_somewhere && findings->found.empty()) return label;
  return label + ": " + answer_text(pack_, sign, known->second);
}

bool AskSession::take_out(std::size_t number) {
  auto const& told = now_.patient.came_for;
  if (number < 1 || number > told.size()) {
    remark(fmt::format("The list has the numbers 1 to {}.", told.size()));
    return false;
  }
  keep_state();
  auto const sign = told[number - 1];
  forget(sign);
  last_noted_ = pack_[sign].label + " taken back";
  has_taken_back_ = true;
  remark(fmt::format("Taken back: {}.", pack_[sign].label));
  save();
  return true;
}

// Words that are not those of the pack: which of its signs they mean is chosen by number.
AskSession::After AskSession::ask_unclear() {
  auto const words = now_.unclear.front();
  auto const said = read_complaint(pack_, search_, words, meanings_at_most);
  auto const found = said.parts.empty() ? std::vector<FoundSign>{} : said.parts.front().found;
  Page page(session_.look);
  page.blank();
  if (found.empty()) {
    page.paragraph(fmt::format("\"{}\" was not understood. Can you say it in other words?", words),
                   0);
    page.paragraph("(other words; or none to leave it out)");
  } else {
    page.paragraph(found.front().of_disease
                       ? fmt::format("\"{}\" is a disease. Which of these do you see?", words)
                       : fmt::format("By \"{}\", which do you mean?", words),
                   0);
    for (std::size_t i = 0; i < found.size(); ++i)
      page.paragraph(would_record(found[i]), 0, fmt::format("{:>2}  ", i + 1));
    page.paragraph("(its number; none if it is none of these; or other words)");
  }
  say(page.take());
  return take_words([&](std::string const& line) { return take_unclear(found, line); });
}

bool AskSession::take_unclear(std::vector<FoundSign> const& found, std::string const& line) {
  auto const text = trimmed_small(line);
  is_complaint_answered_ = true;
  if (text.empty()) {
    remark(found.empty() ? "Type other words, or none to leave it out."
                         : "Type the number of what you mean, other words, or none.");
    return false;
  }
  bool const is_several_numbers =
      text.find_first_not_of("0123456789 ,") == std::string::npos && !whole_number(text);
  if (taken_out(text) || is_several_numbers || read_yes_or_no(line) == true) {
    remark(found.empty() ? "Type other words, or none to leave it out."
                         : "Type the number of what you mean, other words, or none.");
    return false;
  }
  if (means_none_of_them(line) || means_cannot_tell(line)) {
    keep_state();
    remark(fmt::format("Left out: \"{}\".", now_.unclear.front()));
    now_.is_said_worse = true;
    now_.unclear.erase(now_.unclear.begin());
    return true;
  }
  if (auto const number = whole_number(text)) {
    if (*number < 1 || *number > found.size()) {
      remark(found.empty() ? "There is no list here: type other words, or none."
                           : fmt::format("Type a number from 1 to {}, or none.", found.size()));
      return false;
    }
    keep_state();
    take_meaning(found[*number - 1]);
    return true;
  }
  auto const said = read_said(line);
  if (!is_complaint_answered_) return false;
  if (said.parts.empty()) {
    remark("Not understood: type other words, or none to leave it out.");
    return false;
  }
  keep_state();
  settle_words(now_.unclear.front());
  now_.unclear.erase(now_.unclear.begin());
  take_said(said);
  return true;
}

void AskSession::take_meaning(FoundSign const& found) {
  auto const told = told_by(pack_, found);
  if (told) settle_words(now_.unclear.front());
  now_.unclear.erase(now_.unclear.begin());
  if (!told) {
    now_.to_ask.push_back(found.sign);
    return;
  }
  tell(*told);
  note(complaint_line(told->sign));
  save();
}

std::string AskSession::would_record(FoundSign const& found) const {
  auto const& sign = pack_[found.sign];
  bool const is_plain = traits(sign).takes_yes_or_no;
  if (found.is_turned)
    return sign.label + (is_plain ? ": yes or no? (asked next)" : ": asked next");
  if (found.value) return sign.label + ": " + sign.values[*found.value].label;
  if (found.may_calm) return fmt::format("{}: {}", sign.label, sign.ask);
  return told_by(pack_, found) ? sign.label : sign.label + ": asked next";
}

// A key, while words are waited for that are no answer to a question.
AskSession::Done AskSession::press_beside(LineKey key) {
  switch (key) {
    case LineKey::skip:
      keep_state();
      if (now_.unclear.empty())
        now_.is_complaint_over = true;
      else
        now_.unclear.erase(now_.unclear.begin());
      return Done::yes;
    case LineKey::why:
    case LineKey::how:
      remark(
          "What you tell by yourself says most. Say it as you would on the telephone: what, where, "
          "since when. Nothing is recorded that you did not say or confirm.");
      return Done::no;
    case LineKey::more:
      remark("Type what worries you; or skip (s), stop (q).");
      return Done::no;
    case LineKey::skipped:
    case LineKey::back:
    case LineKey::so_far:
    case LineKey::stop:
    case LineKey::keys:
      return press(key, {});
  }
  return Done::no;
}

// What was told of, and how much or whether at all is still to be asked.
std::optional<SignId> AskSession::next_told_of() {
  std::erase_if(now_.to_ask, [&](SignId sign) {
    auto const is_it = [&](auto const& one) { return one == sign; };
    auto const& patient = now_.patient;
    return std::any_of(patient.answers.begin(), patient.answers.end(),
                       [&](auto const& one) { return one.first == sign; }) ||
           std::any_of(patient.cannot_tell.begin(), patient.cannot_tell.end(), is_it) ||
           std::any_of(now_.set_aside.begin(), now_.set_aside.end(), is_it);
  });
  return now_.to_ask.empty() ? std::nullopt : std::optional(now_.to_ask.front());
}

}  // namespace flinch::cli
