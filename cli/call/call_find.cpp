// What is said in a call, by keys: an answer in a whole word, a sign by some of its words, a choice
// by its number. Nothing is recorded that was not said, or confirmed by its number.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "call/call_key.hpp"
#include "call/call_model.hpp"
#include "desk/said_worse.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/interview/interview.hpp"
#include "flinch/model/yes_and_no.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t letters_for_a_number = 2;  // one letter begins anything

enum class Word : unsigned char { yes, no, cannot_tell, none };

// The whole line as an answer; "n" and "y" as well, which need Enter like any other.
std::optional<Word> answer_word(std::string const& typed) {
  constexpr std::array<std::string_view, 6> none = {"none",          "none of them",
                                                    "none of these", "nothing else",
                                                    "none of those", "none that i can see"};
  std::string plain;
  for (auto const& word : folded_words(typed)) plain += (plain.empty() ? "" : " ") + word;
  if (std::find(none.begin(), none.end(), plain) != none.end()) return Word::none;
  if (means_cannot_tell(typed)) return Word::cannot_tell;
  if (auto const yes = read_yes_or_no(typed)) return *yes ? Word::yes : Word::no;
  return std::nullopt;
}

bool begins_with_digit(std::string const& text) {
  return !text.empty() && text[0] >= '0' && text[0] <= '9';
}

bool begins_with_a_yes(std::string const& typed) {
  auto const words = folded_words(typed);
  return !words.empty() && words.front().size() > 1 && is_bare_yes(words.front());
}

// A weight is confirmed by a yes alone: "yes, pounds" says that it is another.
bool is_half_a_yes(std::string const& typed) {
  return read_yes_or_no(typed) == true && !is_bare_yes(typed);
}

}  // namespace

// What is read out: of words that answer, the question that they answer; else what was found.
std::optional<SignId> CallModel::focus() const {
  if (state_.activity != Activity::finding || state_.found.empty() || answer_word(state_.typed))
    return asked();
  return state_.found[state_.cursor].sign;
}

std::vector<std::string> CallModel::choices() const {
  std::vector<std::string> out;
  for (auto const& value : pack()[state_.subject].values) out.push_back(value.label);
  if (out.empty()) out = {"yes", "no"};
  return out;
}

std::string CallModel::would_record(FoundSign const& found) const {
  auto const& sign = pack()[found.sign];
  if (found.is_turned)
    return sign.label + (is_answered_by_yes(found.sign) ? ": yes or no?" : ": which is so?");
  if (found.value) return sign.label + ": " + sign.values[*found.value].label;
  return is_answered_by_yes(found.sign) ? sign.label + ": yes" : sign.label + ": ...";
}

std::string CallModel::on_enter() const {
  if (state_.activity != Activity::finding) return "";
  if (auto const word = answer_word(state_.typed)) {
    if (*word == Word::none && !chosen_from_) return "no to all that is open in the list";
    auto const sign = asked();
    if (!sign) return "";
    if (*word == Word::cannot_tell) return pack()[*sign].label + ": can't tell";
    bool const yes = *word == Word::yes;
    if (sign == patient_sign::weight_confirmed && is_half_a_yes(state_.typed)) return "";
    if (sign == patient_sign::weight_confirmed) return yes ? "weight: right" : "weight: not right";
    if (!is_answered_by_yes(*sign)) return "";
    auto const& its = pack()[*sign];
    return fmt::format("{}: {}", its.label, answer_text(pack(), *sign, plain_answer(its, yes)));
  }
  if (says_worse(state_.typed)) return "said to be worse, and not yet what";
  if (tells_sex(state_.typed)) return sex_words(read_sex(pack(), state_.typed));
  if (state_.found.empty() || !state_.found[0].is_exact) return "";
  return would_record(state_.found[0]);
}

void CallModel::begin_search(std::string letters) {
  auto const from =
      state_.activity == Activity::choosing ? std::optional(state_.subject) : std::nullopt;
  state_.page = CallPage::questions;
  state_.activity = Activity::finding;
  chosen_from_ = from;
  state_.typed = inert(letters);
  search_again();
}

void CallModel::ask_by_key(Key const& key) {
  auto const sign = asked();
  switch (key.kind) {
    case Key::Kind::up:
    case Key::Kind::down:
      if (sign) move(state_.line, key, state_.outlook.screen->questions.size());
      return;
    case Key::Kind::enter:
      if (state_.fall) return acknowledge_fall();
      if (sign && !is_answered_by_yes(*sign)) return begin(*sign);
      state_.message = "Enter alone answers nothing: a number, or type yes, no or don't know";
      return;
    case Key::Kind::paste:
      if (sign == patient_sign::weight_confirmed && begins_with_digit(key.text)) {
        begin(*sign);
        return edit_text(key);
      }
      begin_search("");
      edit_text(key);
      return search_again();
    case Key::Kind::text:
      return ask_by_letter(key.text);
    default:
      return;
  }
}

void CallModel::ask_by_letter(std::string const& letter) {
  auto const sign = asked();
  if (sign && letter == "?") {
    answering_ = Answering::the_line;
    is_list_unread_ = false;
    return answer(*sign, std::nullopt);
  }
  // The weight is being told again: its first digit is no number of a choice.
  if (sign == patient_sign::weight_confirmed && begins_with_digit(letter)) {
    begin(*sign);
    state_.typed = letter;
    return;
  }
  if (sign && letter == "0") return say_none_of_these();
  if (auto const number = digit({Key::Kind::text, letter}); number > 0 && sign) {
    auto const& questions = state_.outlook.screen->questions;
    bool const is_choice = !is_answered_by_yes(questions[0].sign);
    // The digit may have been meant for what stood here when the hand began.
    if (std::exchange(is_list_unread_, false))
      return report_trouble(
          is_choice ? "This is a new question, no line of the list: read it out, then its number"
                    : "This is a new list: read it out first, then the number of what is so");
    if (is_choice) {
      begin(*sign);
      return press_on_questions({Key::Kind::text, letter});
    }
    if (number > questions.size())
      return report_trouble(fmt::format("There is no question {} here", letter));
    answering_ = Answering::a_number;
    return say_yes(questions[number - 1].sign);
  }
  if (letter == "!") return open_advice();
  if (letter == "/" || is_letter(letter)) return begin_search(letter == "/" ? "" : letter);
  report_trouble("No such key here; F1 or Ctrl-K shows all keys");
}

void CallModel::find_by_key(Key const& key) {
  // "Yes, 45 lb": behind a yes a digit is no number of what was found.
  if (auto const number = digit(key); number > 0 && !begins_with_a_yes(state_.typed)) {
    if (folded_words(state_.typed).empty() || state_.typed.size() < letters_for_a_number)
      return report_trouble("Type more of the word before a number");
    if (number <= state_.found.size()) return take_found(number - 1);
    return report_trouble(fmt::format("There is no sign {} here", key.text));
  }
  switch (key.kind) {
    case Key::Kind::up:
    case Key::Kind::down:
      state_.is_picked = !state_.found.empty();
      return move(state_.cursor, key, state_.found.size());
    case Key::Kind::escape:
      return go_on_asking();
    case Key::Kind::enter:
      return take_search();
    case Key::Kind::erase:
      if (state_.typed.empty()) return go_on_asking();
      break;
    case Key::Kind::text:
      if (key.text == "!") return open_advice();
      if (key.text == "0" || key.text == "?") return answer_found(key);
      break;
    default:
      break;
  }
  edit_text(key);
  search_again();
}

// What the words are of that was found, by its number or by the same words.
void CallModel::take_found(std::size_t at) {
  auto const found = state_.found[at];
  // What the caller tells before anything was asked is what the patient came for.
  is_told_unasked_ = !is_complaint_over_;
  if (found.is_turned) {
    begin_choice(found.sign);
    state_.message = "The words can be read two ways: press the number of what is so";
    return;
  }
  if (found.value) return answer(found.sign, Choice{*found.value});
  auto const said = state_.typed;
  auto const kind = kind_named(found.sign, said);
  if (kind) kind_told_ = kind;
  say_yes(found.sign);
  // "Ate chocolate" is recorded as a poison: which one is asked, and the words are not lost.
  if (!kind || !found_for_degree(tables_, state_.result, *kind)) return;
  auto& note = state_.patient.note;
  note += (note.empty() ? "" : " ") + as_said(said);
}

// Of a sign that applies by this one: which it was, or how bad, where a value of it has a word that
// was typed.
std::optional<SignId> CallModel::kind_named(SignId sign, std::string const& typed) const {
  constexpr std::size_t shortest_word = 4;
  auto const plain = folded_words(pack()[sign].label);
  auto words = folded_words(typed);
  std::erase_if(words, [&](std::string const& word) {
    return word.size() < shortest_word ||
           std::find(plain.begin(), plain.end(), word) != plain.end();
  });
  auto const has_word = [&](std::string const& text) {
    auto const its = folded_words(text);
    return std::any_of(words.begin(), words.end(), [&](std::string const& word) {
      return std::find(its.begin(), its.end(), word) != its.end();
    });
  };
  for (auto const i : tables_.roots_of(sign)) {
    auto const& root = tables_.root(i);
    if (root.kind != RootKind::applies) continue;
    auto const kind = SignId{root.subject};
    auto const& values = pack()[kind].values;
    bool const is_named = std::any_of(values.begin(), values.end(), [&](Value const& value) {
      return has_word(value.label) ||
             std::any_of(value.also_said.begin(), value.also_said.end(), has_word);
    });
    if (is_named && !is_settled(kind)) return kind;
  }
  return std::nullopt;
}

void CallModel::take_search() {
  if (note_worse() || answer_by_word() || answer_sex()) return;
  if (state_.found.empty()) {
    // What comes next is typed anew, not behind it.
    auto const typed = std::exchange(state_.typed, {});
    search_again();
    return report_trouble(
        typed.empty() ? std::string("Type what is said, or Esc")
                      : fmt::format("Nothing was found for \"{}\": other words, or Esc", typed));
  }
  if (state_.found[0].is_exact) return take_found(0);
  if (state_.found[0].may_calm)
    return report_trouble(
        "It lets a danger sign wait: ask as it stands there, then press its number");
  report_trouble(state_.found.size() == 1
                     ? std::string("Not the same words: 1 if that is meant, or other words")
                     : fmt::format("Not the same words: press the number of what is meant, 1 to {}",
                                   state_.found.size()));
}

// No and can't tell, to what stands there in the same words or was gone to with the arrows.
void CallModel::answer_found(Key const& key) {
  bool const is_meant = !state_.found.empty() && (state_.is_picked || state_.found[0].is_exact);
  if (!is_meant || answer_word(state_.typed))
    return report_trouble("Go to what is meant with the arrows first, then 0 for no, ? if unknown");
  auto const sign = state_.found[state_.cursor].sign;
  key.text == "0" ? say_no(sign) : answer(sign, std::nullopt);
}

// Yes, no and don't know, as whole words, to the question that is being read out.
bool CallModel::answer_by_word() {
  auto const word = answer_word(state_.typed);
  if (!word) return false;
  auto const sign = asked();
  if (!sign) {
    report_trouble("No question is open: yes or no to what?");
    return true;
  }
  if (*word == Word::none && !chosen_from_) {
    go_on_asking();
    say_none_of_these();
    return true;
  }
  if (*word != Word::cannot_tell && !is_answered_by_yes(*sign) &&
      *sign != patient_sign::weight_confirmed) {
    report_trouble(fmt::format("\"{}\" is not answered by yes or no: its number or its word",
                               pack()[*sign].label));
    return true;
  }
  if (*sign == patient_sign::weight_confirmed && is_half_a_yes(state_.typed)) {
    report_trouble("Is the weight right? Only yes, or no; or Esc and the weight with its unit");
    return true;
  }
  answering_ = Answering::the_line;
  is_list_unread_ = false;
  if (*word == Word::cannot_tell)
    answer(*sign, std::nullopt);
  else
    *word == Word::yes ? say_yes(*sign) : say_no(*sign);
  return true;
}

// Where the sex is asked any words for it; elsewhere those that mean nothing else.
bool CallModel::tells_sex(std::string const& typed) const {
  if (asked() == patient_sign::sex) return read_sex(pack(), typed).sex.has_value();
  return names_sex(pack(), typed);
}

std::string CallModel::sex_words(SexEntry const& entry) const {
  std::string out;
  for (auto const& [sign, answer] :
       {std::pair{patient_sign::sex, entry.sex}, std::pair{patient_sign::neutered, entry.neutered}})
    if (answer)
      out += fmt::format("{}{}: {}", out.empty() ? "" : ", ", pack()[sign].label,
                         answer_text(pack(), sign, *answer));
  return out;
}

// "Worse", when somebody is rung back: the note keeps that it was said, until it is said what.
bool CallModel::says_worse(std::string const& typed) const {
  auto const words = folded_words(typed);
  bool const says_how = std::any_of(words.begin(), words.end(), [](std::string const& word) {
    return word == "worse" || word == "worst" || word == "new";
  });
  return course_ && says_only_that_it_is_worse(typed) && (says_how || !read_yes_or_no(typed));
}

bool CallModel::note_worse() {
  if (!says_worse(state_.typed)) return false;
  auto const said = as_said(state_.typed);
  remember("said: " + state_.typed);
  auto& note = state_.patient.note;
  note += (note.empty() ? "" : " ") + said;
  reassess();
  go_on_asking();
  state_.message = "Then what is worse, or new? Type it in the caller's words";
  return true;
}

bool CallModel::answer_sex() {
  if (!tells_sex(state_.typed)) return false;
  auto entry = read_sex(pack(), state_.typed);
  // Told otherwise before: one of the two is a slip.
  std::string before;
  for (auto const& [sign, answer] :
       {std::pair{patient_sign::sex, entry.sex}, std::pair{patient_sign::neutered, entry.neutered}})
    if (auto const* known = state_.result.find(sign);
        answer && known != nullptr && known->answer != *answer)
      before += fmt::format("{}{}: {}", before.empty() ? "" : ", ", pack()[sign].label,
                            answer_text(pack(), sign, known->answer));
  remember(sex_words(entry));
  if (entry.sex) set(patient_sign::sex, std::move(entry.sex));
  if (entry.neutered) set(patient_sign::neutered, std::move(entry.neutered));
  reassess();
  go_on_asking();
  if (!before.empty()) tell(fmt::format("Told before as {}", before));
  return true;
}

// Yes or no by number, where words alone leave it open; a step or choice otherwise.
void CallModel::begin_choice(SignId sign) {
  begin(sign);
  if (is_answered_by_yes(sign)) state_.activity = Activity::choosing;
}

void CallModel::choose_by_key(Key const& key) {
  auto const count = choices().size();
  if (auto const number = digit(key); number > 0) {
    if (number > count) return report_trouble(fmt::format("There is no choice {} here", key.text));
    // Of ten lines and more 1 may begin 10 to 19.
    if (number * 10 <= count) {
      state_.activity = Activity::typing;
      state_.typed = key.text;
      state_.message =
          fmt::format("{0}, then Enter; or a further digit: {0}0 to {1}", key.text, count);
      return;
    }
    auto const& screen = state_.outlook.screen;
    bool const is_put = screen && screen->questions.front().sign == state_.subject;
    answering_ = is_put ? Answering::the_choice : Answering::elsewhere;
    if (!is_answered_by_yes(state_.subject))
      return answer(state_.subject, Choice{static_cast<std::uint32_t>(number - 1)});
    return number == 1 ? say_yes(state_.subject) : say_no(state_.subject);
  }
  switch (key.kind) {
    case Key::Kind::escape:
      return go_on_asking();
    case Key::Kind::paste:
      begin_search("");
      edit_text(key);
      return search_again();
    case Key::Kind::text:
      if (key.text == "?") return answer(state_.subject, std::nullopt);
      if (key.text == "!") return open_advice();
      if (key.text == "/" || is_letter(key.text))
        return begin_search(key.text == "/" ? "" : key.text);
      break;
    default:
      break;
  }
  report_trouble("Press the number of what fits or type its word; ? if nobody can tell, Esc");
}

}  // namespace flinch::cli
