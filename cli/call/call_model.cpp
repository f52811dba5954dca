#include "call/call_model.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>

#include "call/ring_back.hpp"
#include "files/clock.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/model/yes_and_no.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t steps_kept = 1000;
// The dog's own signs have a page of their own: danger comes first here.
constexpr std::array<SignId, dog_sign::count> dogs_own = {dog_sign::age,  dog_sign::weight,
                                                          dog_sign::sex,  dog_sign::neutered,
                                                          dog_sign::size, dog_sign::breed};

// On the telephone all that could raise the urgency comes before what only tells causes apart, and
// lists before single questions.
constexpr InterviewLimits danger_first{
    .lines_at_most = 7,
    .least_bits = InterviewLimits{}.least_bits,
    .alone_bits = std::numeric_limits<double>::infinity(),
};

// Answered by yes or no, a place apart.
bool is_there_or_not(Pack const& pack, SignId sign) {
  return pack[sign].kind == AnswerKind::yes_or_no || pack[sign].kind == AnswerKind::sites;
}

}  // namespace

std::vector<DetailField> const& detail_fields() {
  static std::vector<DetailField> const fields = {
      {"caller", &Case::caller, {}},
      {"call back", &Case::call_back, {}},
      {"dog's name", &Case::name, {}},
      {"age", nullptr, dog_sign::age},
      {"weight", nullptr, dog_sign::weight},
      {"breed", nullptr, dog_sign::breed},
      {"sex", nullptr, dog_sign::sex},
      {"neutered", nullptr, dog_sign::neutered},
      {"note", &Case::note, {}},
      {"ring back at", &Case::ring_back_at, {}},
  };
  return fields;
}

CallModel::CallModel(Tables const& tables, Case dog, Keeping keeping, std::time_t now)
    : tables_(tables),
      keeping_(keeping),
      assessor_(tables),
      interview_(tables, Audience::nurse, danger_first),
      search_(tables.pack()) {
  state_.dog = std::move(dog);
  state_.now = now;
  reassess();
}

std::optional<SignId> CallModel::focus() const {
  switch (state_.activity) {
    case Activity::asking:
      if (!state_.outlook.screen) return std::nullopt;
      return state_.outlook.screen->questions[state_.cursor].sign;
    case Activity::finding:
      if (state_.found.empty()) return std::nullopt;
      return state_.found[state_.cursor].sign;
    case Activity::choosing:
    case Activity::typing:
      break;
  }
  return state_.subject;
}

std::vector<SignId> CallModel::answered() const {
  std::vector<SignId> out;
  for (auto const& [sign, answer] : state_.dog.answers)
    if (!pack()[sign].of_the_dog) out.push_back(sign);
  for (auto const sign : state_.dog.cannot_tell)
    if (!pack()[sign].of_the_dog) out.push_back(sign);
  std::sort(out.begin(), out.end());
  return out;
}

bool CallModel::is_settled(SignId sign) const {
  auto const& untold = state_.dog.cannot_tell;
  return state_.result.find(sign) != nullptr ||
         std::find(untold.begin(), untold.end(), sign) != untold.end();
}

bool CallModel::is_found(SignId sign) const {
  auto const* known = state_.result.find(sign);
  return known != nullptr && known->origin == Origin::given &&
         std::holds_alternative<Findings>(known->answer) && says_yes(known->answer);
}

bool CallModel::lacks_place(SignId sign) const {
  auto const* known = state_.result.find(sign);
  auto const* findings = known == nullptr ? nullptr : std::get_if<Findings>(&known->answer);
  return findings != nullptr && findings->found_somewhere && findings->found.empty();
}

Urgency CallModel::urgency() const {
  if (open_danger_.empty()) return Urgency::settled;
  return std::any_of(open_danger_.begin(), open_danger_.end(),
                     [](OpenQuestion const& open) { return open.alone_reaches.has_value(); })
             ? Urgency::one_answer_away
             : Urgency::several_answers_away;
}

void CallModel::report_trouble(std::string message) {
  state_.message = std::move(message);
  state_.is_trouble = true;
}

void CallModel::reassess() {
  auto const before = state_.result.tier;
  state_.result = assessor_.assess(state_.dog);
  // Where something is that was found is typed as soon as it is marked, and can be added any time.
  std::vector<SignId> not_asked(dogs_own.begin(), dogs_own.end());
  for (auto const& known : state_.result.known)
    if (lacks_place(known.sign)) not_asked.push_back(known.sign);
  auto list = std::move(state_.outlook.screen);
  state_.outlook = interview_.next(state_.result, not_asked);
  open_danger_ = open_questions(tables_, state_.result);
  std::erase_if(open_danger_, [&](OpenQuestion const& open) {
    auto const& sign = pack()[open.sign];
    return open.could_not_tell || sign.of_the_dog || !can_see(Audience::nurse, sign.seen_by);
  });
  auto first = follow_ups();
  std::swap(list, state_.outlook.screen);
  if (!is_list_kept(first)) {
    auto const& read_out = state_.outlook.screen;
    bool const was_read_out =
        read_out && is_there_or_not(pack(), read_out->questions[0].sign) &&
        (answering_ == Answering::a_number || answering_ == Answering::elsewhere);
    std::swap(list, state_.outlook.screen);
    deal(std::move(first));
    is_list_unread_ = was_read_out;
  } else {
    // What hangs on its lines may have changed.
    for (auto& question : state_.outlook.screen->questions) {
      auto const open =
          std::find_if(open_danger_.begin(), open_danger_.end(),
                       [&](OpenQuestion const& one) { return one.sign == question.sign; });
      bool const hangs = open != open_danger_.end();
      question.alarms = hangs ? open->alarms : std::vector<AlarmId>{};
      question.could_reach = hangs ? std::optional(open->could_reach) : std::nullopt;
      question.alone_reaches = hangs ? open->alone_reaches : std::nullopt;
    }
  }
  tell_change_of_urgency(before);
}

void CallModel::tell_change_of_urgency(std::optional<TierId> before) {
  auto const& now = state_.result.tier;
  if (state_.message.empty() || now == before) return;
  bool const has_risen = now && (!before || *now < *before);
  auto const change = fmt::format("Urgency {} to: {}", has_risen ? "rose" : "fell",
                                  now ? pack()[*now].title : "nothing told");
  if (!has_risen || state_.dog.ring_back_at.empty()) {
    state_.message += ". " + change;
    return;
  }
  state_.message = fmt::format("{}. Ring back was agreed for {}: ! and r for a new time. {}",
                               change, state_.dog.ring_back_at, state_.message);
  state_.is_trouble = true;
}

// A list stays, numbered as it was, while answers to it come: what the caller says of the second
// and the fifth, and then of the rest, is said of the lines that were read out.
bool CallModel::is_list_kept(std::vector<Question> const& first) const {
  auto const& screen = state_.outlook.screen;
  if (!screen || screen->questions.size() < 2) return false;
  auto const& questions = screen->questions;
  auto const is_open = [&](Question const& q) { return !is_settled(q.sign); };
  if (std::none_of(questions.begin(), questions.end(), is_open)) return false;
  if (answering_ == Answering::a_number) return true;
  // Line by line it stays at the top tier, whose advice is what comes next. Otherwise, and when the
  // caller speaks of something else, it stays while it can still matter.
  if (answering_ == Answering::the_line && state_.result.tier == TierId{0}) return true;
  bool const matters = screen->kind != Screen::Kind::danger ||
                       std::any_of(questions.begin(), questions.end(), [&](Question const& q) {
                         return is_open(q) && std::any_of(open_danger_.begin(), open_danger_.end(),
                                                          [&](OpenQuestion const& open) {
                                                            return open.sign == q.sign;
                                                          });
                       });
  if (!matters || answering_ == Answering::the_line) return matters;
  auto const is_listed = [&](Question const& wanted) {
    return std::any_of(questions.begin(), questions.end(),
                       [&](Question const& q) { return q.sign == wanted.sign; });
  };
  return std::all_of(first.begin(), first.end(), is_listed);
}

// What could complete an alarm that something found already speaks for: with a swollen belly,
// retching. Those on which most such alarms hang come first.
std::vector<Question> CallModel::follow_ups() const {
  auto const is_found = [&](SignId sign) {
    auto const* known = state_.result.find(sign);
    if (known == nullptr || pack()[sign].of_the_dog) return false;
    return says_yes(known->answer);
  };
  auto const is_half_there = [&](AlarmId alarm) {
    auto const steps = tables_.steps(tables_.alarm_root(alarm));
    return std::any_of(steps.begin(), steps.end(), [&](Tables::Step const& step) {
      return step.kind == Tables::Step::Kind::leaf && is_found(tables_.leaves()[step.detail].sign);
    });
  };
  auto const is_swallowed = [&](SignId sign) {
    auto const whole = pack()[sign].part_of;
    return whole && is_found(*whole);
  };
  std::vector<std::pair<std::ptrdiff_t, Question>> counted;
  for (auto const& open : open_danger_) {
    if (!open.alone_reaches || !is_there_or_not(pack(), open.sign) || is_settled(open.sign))
      continue;
    // That something was swallowed is what all questions about it hang on.
    auto const half_there =
        std::count_if(open.alarms.begin(), open.alarms.end(), is_half_there) +
        (is_swallowed(open.sign) ? static_cast<std::ptrdiff_t>(open.taken.size()) : 0);
    if (half_there > 0)
      counted.push_back({half_there,
                         {open.sign,
                          0,
                          {},
                          open.could_reach,
                          open.alarms,
                          open.taken,
                          open.alone_reaches,
                          false}});
  }
  std::stable_sort(counted.begin(), counted.end(),
                   [](auto const& a, auto const& b) { return a.first > b.first; });
  std::vector<Question> out;
  for (auto& [count, question] : counted)
    if (out.size() < danger_first.lines_at_most) out.push_back(std::move(question));
  return out;
}

// They head the list, or are a list of their own before a question that cannot share one.
void CallModel::deal(std::vector<Question> first) {
  if (first.empty()) return;
  auto& screen = state_.outlook.screen;
  if (screen && screen->kind == Screen::Kind::danger &&
      is_there_or_not(pack(), screen->questions[0].sign))
    for (auto const& question : screen->questions) {
      bool const is_there = std::any_of(first.begin(), first.end(),
                                        [&](Question const& q) { return q.sign == question.sign; });
      if (!is_there && first.size() < danger_first.lines_at_most) first.push_back(question);
    }
  screen = Screen{Screen::Kind::danger, std::move(first)};
}

void CallModel::go_on_asking() {
  state_.activity = Activity::asking;
  state_.typed.clear();
  state_.found.clear();
  taken_back_.reset();
  state_.cursor = 0;
  if (!state_.outlook.screen) return;
  auto const& questions = state_.outlook.screen->questions;
  auto const open = std::find_if(questions.begin(), questions.end(),
                                 [&](Question const& q) { return !is_settled(q.sign); });
  if (open != questions.end()) state_.cursor = static_cast<std::size_t>(open - questions.begin());
}

void CallModel::remember(std::string what) {
  if (history_.size() == steps_kept) history_.erase(history_.begin());
  history_.push_back({state_.dog, state_.outlook.screen, what});
  state_.last_answer = what;
  state_.message = std::move(what);
}

void CallModel::undo() {
  state_.is_editing = false;
  if (history_.empty()) {
    go_on_asking();
    state_.message = "Nothing to undo";
    return;
  }
  auto step = std::move(history_.back());
  history_.pop_back();
  state_.dog = std::move(step.before);
  state_.last_answer = history_.empty() ? "" : history_.back().what;
  state_.message = fmt::format("Undone: {}", step.what);
  answering_ = Answering::elsewhere;
  reassess();
  state_.outlook.screen = std::move(step.list);
  is_list_unread_ = false;
  go_on_asking();
  state_.row = std::min(state_.row, std::max<std::size_t>(1, answered().size()) - 1);
}

void CallModel::forget(SignId sign) {
  std::erase_if(state_.dog.answers, [&](auto const& one) { return one.first == sign; });
  std::erase(state_.dog.cannot_tell, sign);
}

// Answers and what could not be told are kept in the order of the signs, as a case that is read.
void CallModel::set(SignId sign, std::optional<Answer> answer) {
  forget(sign);
  if (!answer) {
    auto& unknown = state_.dog.cannot_tell;
    unknown.insert(std::lower_bound(unknown.begin(), unknown.end(), sign), sign);
    return;
  }
  auto& answers = state_.dog.answers;
  auto const place = std::lower_bound(answers.begin(), answers.end(), sign,
                                      [](auto const& one, SignId s) { return one.first < s; });
  answers.insert(place, {sign, std::move(*answer)});
}

void CallModel::answer(SignId sign, std::optional<Answer> answer) {
  auto const text = answer ? answer_text(pack(), sign, *answer) : std::string("can't tell");
  remember(fmt::format("{}: {}", pack()[sign].label, text));
  set(sign, std::move(answer));
  reassess();
  go_on_asking();
}

void CallModel::say_yes(SignId sign) {
  switch (pack()[sign].kind) {
    case AnswerKind::yes_or_no:
      return answer(sign, true);
    case AnswerKind::sites:  // found: counted at once, and the place follows if it tells anything
      if (!is_found(sign)) {
        answer(sign, plain_answer(pack()[sign], true));
        if (!tables_.hangs_on_place(sign)) return;
      }
      return begin(sign);
    case AnswerKind::steps:
    case AnswerKind::one_of:
    case AnswerKind::number:
    case AnswerKind::breed:
      return begin(sign);
  }
}

void CallModel::say_no(SignId sign) {
  switch (pack()[sign].kind) {
    case AnswerKind::yes_or_no:
      return answer(sign, false);
    case AnswerKind::sites:
      return answer(sign, plain_answer(pack()[sign], false));
    case AnswerKind::steps:
    case AnswerKind::one_of:
    case AnswerKind::number:
    case AnswerKind::breed:
      begin(sign);
      report_trouble(
          fmt::format("\"{}\" is not answered by no: choose or type", pack()[sign].label));
  }
}

void CallModel::say_none_of_these() {
  if (!state_.outlook.screen) return;
  auto const questions = state_.outlook.screen->questions;
  if (!std::all_of(questions.begin(), questions.end(),
                   [&](Question const& q) { return is_there_or_not(pack(), q.sign); })) {
    report_trouble("0 says no to yes-or-no questions: choose or type an answer here");
    return;
  }
  if (is_list_unread_) {
    is_list_unread_ = false;
    report_trouble("This is a new list: read it out first. 0 once more says no to all of it");
    return;
  }
  std::vector<SignId> rest;
  for (auto const& question : questions)
    if (!is_settled(question.sign)) rest.push_back(question.sign);
  std::string labels;
  for (auto const sign : rest) labels += (labels.empty() ? "" : ", ") + pack()[sign].label;
  remember("none of: " + labels);
  for (auto const sign : rest) set(sign, plain_answer(pack()[sign], false));
  answering_ = Answering::the_rest;
  reassess();
  go_on_asking();
}

// Choosing or typing an answer to the sign.
void CallModel::begin(SignId sign) {
  auto const kind = pack()[sign].kind;
  state_.subject = sign;
  state_.cursor = 0;
  state_.typed.clear();
  state_.found.clear();
  state_.page = CallPage::questions;
  state_.activity = kind == AnswerKind::steps || kind == AnswerKind::one_of ? Activity::choosing
                                                                            : Activity::typing;
}

void CallModel::agree_to_ring_back() {
  if (!state_.result.tier) {
    report_trouble("No urgency yet, so no time: type one under Tab, ring back at");
    return;
  }
  auto const time = clock_text(ring_back_time(pack()[*state_.result.tier], state_.now));
  remember("ring back at: " + time);
  state_.dog.ring_back_at = time;
}

}  // namespace flinch::cli
