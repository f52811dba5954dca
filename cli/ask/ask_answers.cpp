// What is typed to a question of an interview, taken as an answer.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <utility>

#include "ask/ask_session.hpp"
#include "ask/question_text.hpp"
#include "desk/as_typed.hpp"
#include "desk/beside_a_yes.hpp"
#include "desk/offer_taken.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/interview/answer_entry.hpp"
#include "flinch/interview/fact_entry.hpp"
#include "flinch/model/yes_and_no.hpp"

namespace flinch::cli {

// Whether the line was an answer. A line that is a key is left to the caller without a word.
bool AskSession::take_line(Screen const& screen, std::string const& line) {
  if (is_list(pack_, screen)) return take_list(screen, line);
  if (is_of_facts(screen)) return take_facts(screen, line);
  auto const sign = screen.questions.front().sign;
  if (sign == patient_sign::sex) return take_sex(screen, line);
  if (sign == patient_sign::weight_confirmed) return take_weight_again(line);
  if (traits(pack_[sign]).has_places && show_walk(sign, line)) return false;
  return screen.kind == Screen::Kind::place ? take_place(sign, line) : take_one(sign, line);
}

// A list of dangers answered in part: the rest is no only once that has been said as well.
bool AskSession::take_list(Screen const& screen, std::string const& line) {
  auto reply = read_list_reply(line, screen.questions.size());
  auto const text = trimmed_small(line);
  bool const denies = means_none_of_them(text) && text != "n";
  bool const is_untold = means_cannot_tell(text);
  if (part_ && denies) {
    reply = *part_;
  } else if (part_ && is_untold) {
    reply = *part_;
    for (auto const rest : left_out(reply, screen.questions.size()))
      reply.cannot_tell.push_back(rest);
    std::sort(reply.cannot_tell.begin(), reply.cannot_tell.end());
  } else if (!reply.remark.empty()) {
    if (!read_key(line)) remark(reply.remark);
    return false;
  } else if (screen.kind != Screen::Kind::telling && !denies) {
    if (is_untold) reply = {};
    if (part_) reply = joined_replies(*part_, reply);
    if (!left_out(reply, screen.questions.size()).empty()) {
      part_ = std::move(reply);
      save_part(screen);
      remark(left_out_text(screen, is_untold));
      return false;
    }
  }
  take_reply(screen, reply);
  return true;
}

// What is so is on the disk at once, while the rest is asked.
void AskSession::save_part(Screen const& screen) {
  auto const before = now_.patient;
  for (auto const i : part_->yes) {
    auto const sign = screen.questions[i].sign;
    set(sign, plain_answer(pack_[sign], true));
  }
  save();
  now_.patient = before;
}

// What was said of a list that is left half answered stands; the rest of it stays open.
void AskSession::keep_part(Screen const& screen) {
  if (!part_) return;
  keep_state();
  for (auto const i : part_->yes) {
    auto const sign = screen.questions[i].sign;
    set(sign, plain_answer(pack_[sign], true));
  }
  for (auto const i : part_->cannot_tell) set_cannot_tell(screen.questions[i].sign);
  part_.reset();
  result_ = assessor_.assess(now_.patient);
  save();
}

std::string AskSession::left_out_text(Screen const& screen, bool is_untold) const {
  std::string lines;
  for (auto const i : left_out(*part_, screen.questions.size()))
    lines += fmt::format("{}{} {}", lines.empty() ? "" : "; ", i + 1,
                         pack_[screen.questions[i].sign].label);
  if (is_untold)
    return fmt::format(
        "Can nobody tell about any of these: {}? Then they stay open. Type ? once more if so, the "
        "numbers that are so, or none.",
        lines);
  return fmt::format(
      "Is it no to all of these: {}? Type no if none of them is so; or more numbers, ?3, or ? if "
      "nobody can tell.",
      lines);
}

void AskSession::take_reply(Screen const& screen, ListReply const& reply) {
  keep_state();
  std::string noted;
  for (std::size_t i = 0; i < screen.questions.size(); ++i) {
    auto const sign = screen.questions[i].sign;
    if (std::binary_search(reply.cannot_tell.begin(), reply.cannot_tell.end(), i)) {
      set_cannot_tell(sign);
    } else if (std::binary_search(reply.yes.begin(), reply.yes.end(), i)) {
      set(sign, plain_answer(pack_[sign], true));
      if (auto const clash = beside_a_none(tables_, result_, sign, Answer(true)); !clash.empty())
        remark(clash + " (b for this one).");
      noted += (noted.empty() ? "yes to " : ", ") + pack_[sign].label;
    } else {
      set(sign, plain_answer(pack_[sign], false));
    }
  }
  auto const denied = screen.questions.size() - reply.yes.size() - reply.cannot_tell.size();
  auto const others = reply.yes.empty() && reply.cannot_tell.empty() ? "all " : "the other ";
  if (denied > 0) noted += fmt::format("{}no to {}{}", noted.empty() ? "" : "; ", others, denied);
  if (!reply.cannot_tell.empty())
    noted += fmt::format("{}{} answered don't know", noted.empty() ? "" : "; ",
                         reply.cannot_tell.size());
  note(noted);
  save();
}

// What was just recorded; it may have lowered the urgency.
void AskSession::note(std::string const& what) {
  last_noted_ = what;
  has_taken_back_ = false;
  remark("Noted: " + what + ".");
}

bool AskSession::take_sex(Screen const& screen, std::string const& line) {
  auto const entry = read_sex(pack_, line);
  if (!entry.remark.empty() || (!entry.sex && !entry.cannot_tell)) {
    if (!read_key(line))
      remark(entry.remark.empty()
                 ? fmt::format("And is the {} male or female? Type both, or ?.", pack_.words.one)
                 : entry.remark);
    return false;
  }
  keep_state();
  std::string noted;
  auto const one = [&](SignId sign, std::optional<Answer> const& answer) {
    if (answer) {
      set(sign, *answer);
      noted += fmt::format("{}{} {}", noted.empty() ? "" : ", ", pack_[sign].label,
                           answer_text(pack_, sign, *answer));
    } else if (entry.cannot_tell) {
      set_cannot_tell(sign);
      noted = "can't tell";
    }
  };
  one(patient_sign::sex, entry.sex);
  if (screen.questions.size() > 1 || entry.neutered) one(patient_sign::neutered, entry.neutered);
  note(noted);
  save();
  return true;
}

// Facts told in one line, all or none of them; what no word tells is asked again.
bool AskSession::take_facts(Screen const& screen, std::string const& line) {
  std::vector<SignId> signs;
  for (auto const& question : screen.questions) signs.push_back(question.sign);
  FactsEntry reply;
  if (auto const taken = offer_taken(suggested_.size(), line)) {
    reply.answers = suggested_[*taken];
    suggested_.clear();
  } else {
    reply = read_facts(pack_, signs, line, context_);
    bool const was_offered = !std::exchange(suggested_, std::move(reply.suggested)).empty();
    if (was_offered && read_yes_or_no(line))
      reply.remark = "Then type the whole line once more, with the breed, or crossbreed.";
  }
  bool const was_pending = std::exchange(is_untold_pending_, false);
  if (reply.cannot_tell && !was_pending) {
    std::string labels;
    for (auto const sign : signs) labels += (labels.empty() ? "" : ", ") + pack_[sign].label;
    is_untold_pending_ = true;
    remark(
        fmt::format("Can nobody tell any of these: {}? Then they stay open. Type ? once more if "
                    "so, or what you know.",
                    labels));
    return false;
  }
  if (reply.answers.empty() && !reply.cannot_tell) {
    if (!read_key(line)) remark(reply.remark);
    return false;
  }
  keep_state();
  std::string noted;
  for (auto const& [sign, answer] : reply.answers) {
    set(sign, answer);
    noted += fmt::format("{}{}: {}", noted.empty() ? "" : "; ", pack_[sign].label,
                         text_as_typed(pack_, sign, answer, line));
  }
  for (auto const sign : signs)
    if (reply.cannot_tell) {
      set_cannot_tell(sign);
      noted += fmt::format("{}{}: can't tell", noted.empty() ? "" : "; ", pack_[sign].label);
    }
  note(noted);
  save();
  return true;
}

bool AskSession::take_one(SignId sign, std::string const& line) {
  auto entry = read_entry(pack_, sign, line, context_);
  if (!entry.answer && !entry.cannot_tell) {
    if (read_key(line)) return false;
    // "Did you mean Pomeranian?" can be answered by yes, and by no.
    if (auto const taken = offer_taken(suggested_.size(), line);
        taken && sign == patient_sign::breed) {
      entry.answer = suggested_[*taken].front().second;
      suggested_.clear();
    } else {
      bool const was_offered = !std::exchange(suggested_, {}).empty();
      for (auto const& one : entry.suggested) suggested_.push_back({{sign, one}});
      remark(was_offered && read_yes_or_no(line) ? "Then type another name, or ? if unknown."
                                                 : entry.remark);
      return false;
    }
  }
  keep_state();
  if (entry.cannot_tell) {
    set_cannot_tell(sign);
    note(fmt::format("{}: can't tell", pack_[sign].label));
  } else {
    set(sign, *entry.answer);
    note(fmt::format("{}: {}", pack_[sign].label, text_as_typed(pack_, sign, *entry.answer, line)));
    for (auto const& clash : {beside_a_yes(tables_, result_, sign, *entry.answer),
                              beside_a_none(tables_, result_, sign, *entry.answer)})
      if (!clash.empty()) remark(clash + " (b for this one).");
    auto const* findings = std::get_if<Findings>(&*entry.answer);
    if (findings != nullptr && !findings->found.empty() && tables_.hangs_on_place(sign))
      now_.clear_wanted = sign;
    // "Somewhere" says that the place is not known; a plain yes does not.
    if (findings != nullptr && findings->found_somewhere && findings->found.empty() &&
        !read_yes_or_no(line))
      now_.places_untold.push_back(sign);
  }
  save();
  return true;
}

// Where, of what was found: no word for the place takes the finding back.
bool AskSession::take_place(SignId sign, std::string const& line) {
  auto const entry = read_entry(pack_, sign, line, context_);
  auto const* findings = entry.answer ? std::get_if<Findings>(&*entry.answer) : nullptr;
  auto const& label = pack_[sign].label;
  if (findings == nullptr && !entry.cannot_tell) {
    if (!read_key(line)) remark(entry.remark);
    return false;
  }
  if (findings != nullptr && !findings->found_somewhere) {
    remark(
        fmt::format("You said that it was found: {}. Name the place; ? if nobody can tell where; "
                    "b takes the yes back.",
                    label));
    return false;
  }
  keep_state();
  if (findings == nullptr || findings->found.empty()) {
    now_.places_untold.push_back(sign);
    note(fmt::format("{}: yes, and nobody can tell where", label));
    return true;
  }
  set(sign, *findings);
  if (tables_.hangs_on_place(sign)) now_.clear_wanted = sign;
  note(fmt::format("{}: {}", label, answer_text(pack_, sign, *findings)));
  save();
  return true;
}

bool AskSession::show_walk(SignId sign, std::string const& line) {
  auto const word = trimmed_small(line);
  auto const side = word == "left" || word == "l"    ? std::optional(Side::left)
                    : word == "right" || word == "r" ? std::optional(Side::right)
                    : word == "middle"               ? std::optional(Side::any)
                                                     : std::nullopt;
  if (!side || is_told_by_side(pack_, sign)) return false;
  context_.walk_side = *side;
  say(walk_text(pack_, sign, *side, session_.look));
  return true;
}

void AskSession::set(SignId sign, Answer answer) {
  auto& patient = now_.patient;
  earlier_.said(sign);
  std::erase(patient.cannot_tell, sign);
  auto const is_it = [&](SignId one) { return one == sign; };
  // It was told of unasked, though not how much.
  if (std::any_of(now_.to_ask.begin(), now_.to_ask.end(), is_it) &&
      std::none_of(patient.came_for.begin(), patient.came_for.end(), is_it))
    patient.came_for.push_back(sign);
  if (sign == patient_sign::weight) forget(patient_sign::weight_confirmed);
  if (!tables_.is_told(sign, answer)) std::erase(patient.came_for, sign);
  std::erase_if(patient.answers, [&](auto const& a) { return a.first == sign; });
  patient.answers.emplace_back(sign, std::move(answer));
}

void AskSession::set_cannot_tell(SignId sign) {
  forget(sign);
  now_.patient.cannot_tell.push_back(sign);
}

void AskSession::forget(SignId sign) {
  earlier_.said(sign);
  std::erase_if(now_.patient.answers, [&](auto const& one) { return one.first == sign; });
  std::erase(now_.patient.cannot_tell, sign);
  std::erase(now_.patient.came_for, sign);
}

}  // namespace flinch::cli
