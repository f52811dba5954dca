#include "call/call_model.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>
#include <span>

#include "desk/as_typed.hpp"
#include "desk/beside_a_yes.hpp"
#include "desk/ring_back_time.hpp"
#include "files/clock.hpp"
#include "files/practice_source.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/model/yes_and_no.hpp"

namespace flinch::cli {
namespace {

constexpr std::size_t steps_kept = 1000;
// The patient's own signs have a page of their own: danger comes first here.
constexpr std::array<SignId, patient_sign::count> patients_own = {patient_sign::age,
                                                                  patient_sign::weight,
                                                                  patient_sign::sex,
                                                                  patient_sign::neutered,
                                                                  patient_sign::size,
                                                                  patient_sign::breed,
                                                                  patient_sign::weight_confirmed};

// On the telephone all that could raise the urgency comes before what only tells causes apart,
// since when it is so among that, and lists before single questions.
constexpr InterviewLimits danger_first{
    .lines_at_most = CallModel::list_lines,
    .least_bits = InterviewLimits{}.least_bits,
    .alone_bits = std::numeric_limits<double>::infinity(),
    .is_since_asked_first = false,
};

std::vector<SignId> lines_of(std::optional<Screen> const& screen) {
  std::vector<SignId> out;
  if (screen)
    for (auto const& question : screen->questions) out.push_back(question.sign);
  return out;
}

}  // namespace

std::vector<DetailField> detail_fields(Pack const& pack) {
  std::vector<DetailField> fields = {
      {"caller", &Case::caller, {}},
      {"call back", &Case::call_back, {}},
      {"its name", &Case::name, {}},
      {"age", nullptr, patient_sign::age},
      {"weight", nullptr, patient_sign::weight},
      {"breed", nullptr, patient_sign::breed},
      {"sex", nullptr, patient_sign::sex},
      {"neutered", nullptr, patient_sign::neutered},
      {"note", &Case::note, {}},
      {"ring back at", &Case::ring_back_at, {}},
  };
  if (pack.is_never_neutered)
    std::erase_if(fields, [](DetailField const& field) {
      return field.text == nullptr && field.sign == patient_sign::neutered;
    });
  return fields;
}

CallModel::CallModel(Tables const& tables, Case patient, Keeping keeping, std::time_t now,
                     Setting setting, EarlierVisits earlier)
    : tables_(tables),
      keeping_(keeping),
      assessor_(tables),
      interview_(tables, Reader::nurse, danger_first),
      search_(tables.pack()),
      setting_(std::move(setting)),
      earlier_(std::move(earlier)) {
  state_.patient = std::move(patient);
  state_.now = now;
  reassess();
  state_.message.clear();
  state_.is_trouble = false;
}

void CallModel::set_now(std::time_t now) {
  state_.now = now;
  set_clock(setting_, now);
}

std::optional<SignId> CallModel::asked() const {
  if (state_.activity == Activity::choosing || state_.activity == Activity::typing)
    return state_.subject;
  if (state_.activity == Activity::finding && chosen_from_) return chosen_from_;
  if (!state_.outlook.screen) return std::nullopt;
  return state_.outlook.screen->questions[state_.line].sign;
}

std::vector<SignId> CallModel::answered() const {
  std::vector<SignId> out;
  for (auto const& [sign, answer] : state_.patient.answers)
    if (!pack()[sign].of_the_patient) out.push_back(sign);
  for (auto const sign : state_.patient.cannot_tell)
    if (!pack()[sign].of_the_patient) out.push_back(sign);
  std::sort(out.begin(), out.end());
  return out;
}

bool CallModel::is_settled(SignId sign) const {
  auto const& untold = state_.patient.cannot_tell;
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

void CallModel::tell(std::string const& notice) {
  report_trouble(state_.message.empty() ? notice : notice + ". " + state_.message);
}

void CallModel::report_trouble(std::string message) {
  state_.message = std::move(message);
  state_.is_trouble = true;
}

void CallModel::reassess() {
  auto const before = state_.result.judgement.tier;
  bool const is_of_a_list =
      answering_ != Answering::elsewhere && answering_ != Answering::the_choice;
  if (is_of_a_list) is_complaint_over_ = true;
  (void)earlier_.bring_in(state_.patient, assessor_, state_.now, pack());
  state_.result = assessor_.assess(state_.patient);
  course_ = earlier_.course(state_.patient, state_.result, pack());
  if (course_ && is_said_worse()) hold_back_as_said_worse(*course_);
  // Where something is that was found is typed as soon as it is marked, and can be added any time.
  std::vector<SignId> not_asked(patients_own.begin(), patients_own.end());
  for (auto const& known : state_.result.knowledge.known)
    if (lacks_place(known.sign)) not_asked.push_back(known.sign);
  auto list = std::move(state_.outlook.screen);
  // What goes with the complaint comes first, once there is one; at the top tier the advice does,
  // and no choice stands in its way.
  auto const& came_for = state_.patient.came_for;
  bool const is_top = state_.result.judgement.tier == TierId{0};
  state_.outlook = came_for.empty() || is_top
                       ? interview_.next(state_.result, not_asked)
                       : interview_.next(state_.result, not_asked, std::span(came_for));
  all_open_ = open_questions(tables_, state_.result);
  open_danger_ = all_open_;
  std::erase_if(open_danger_, [&](OpenQuestion const& open) {
    auto const& sign = pack()[open.sign];
    return open.could_not_tell || sign.of_the_patient || !can_see(Reader::nurse, sign.seen_by);
  });
  if (course_) course_->dangers_unasked = open_danger_.size();
  // What opens a call and could raise the urgency is headed and guarded as a danger, a broad
  // question as well: its no settles the dangers in it.
  if (auto& screen = state_.outlook.screen; screen && state_.outlook.is_opening) {
    tell_what_hangs_on(*screen);
    if (std::any_of(screen->questions.begin(), screen->questions.end(),
                    [](Question const& q) { return q.could_reach.has_value(); }))
      screen->kind = Screen::Kind::danger;
    // What any patient could die of heads the list, whatever goes with the complaint.
    std::stable_partition(screen->questions.begin(), screen->questions.end(),
                          [&](Question const& q) { return pack()[q.sign].asked_first; });
  }
  put_ground_first();
  auto first = first_questions();
  std::swap(list, state_.outlook.screen);
  if (!is_list_kept(first)) {
    // A digit may still be meant for what stood there: for a line of the list when what was said
    // was no answer to the whole of it, and always when a question takes its place.
    auto const was_there = lines_of(state_.outlook.screen);
    bool const was_list = !was_there.empty() && is_answered_by_yes(was_there.front());
    std::swap(list, state_.outlook.screen);
    deal(std::move(first));
    auto const is_there = lines_of(state_.outlook.screen);
    bool const is_choice = !is_there.empty() && !is_answered_by_yes(is_there.front());
    bool const may_be_meant = answering_ == Answering::a_number ||
                              answering_ == Answering::elsewhere ||
                              (answering_ == Answering::the_line && was_list && is_choice);
    is_list_unread_ = !was_there.empty() && is_there != was_there && may_be_meant;
  } else {
    tell_what_hangs_on(*state_.outlook.screen);  // it may have changed
  }
  put_weight_behind_dangers();
  keep_promise(before);
  tell_change_of_urgency(before);
  tell_clash();
  state_.line =
      std::min(state_.line, state_.outlook.screen ? state_.outlook.screen->questions.size() - 1
                                                  : std::size_t{0});
}

void CallModel::tell_what_hangs_on(Screen& screen) const {
  for (auto& question : screen.questions) {
    auto const open =
        std::find_if(open_danger_.begin(), open_danger_.end(),
                     [&](OpenQuestion const& one) { return one.sign == question.sign; });
    bool const hangs = open != open_danger_.end();
    question.alarms = hangs ? open->alarms : std::vector<AlarmId>{};
    question.could_reach = hangs ? std::optional(open->could_reach) : std::nullopt;
    question.alone_reaches = hangs ? open->alone_reaches : std::nullopt;
  }
}

void CallModel::go_on_asking() {
  state_.activity = Activity::asking;
  state_.typed.clear();
  state_.found.clear();
  state_.cursor = 0;
  state_.line = 0;
  state_.is_picked = false;
  chosen_from_.reset();
  is_told_unasked_ = false;
  is_refused_ = false;
  if (!state_.outlook.screen) return;
  auto const& questions = state_.outlook.screen->questions;
  auto const open = std::find_if(questions.begin(), questions.end(),
                                 [&](Question const& q) { return !is_settled(q.sign); });
  if (open != questions.end()) state_.line = static_cast<std::size_t>(open - questions.begin());
}

void CallModel::remember(std::string what) {
  if (history_.size() == steps_kept) history_.erase(history_.begin());
  history_.push_back(
      {state_.patient, state_.outlook.screen, what, earlier_.from_book, earlier_.said_otherwise});
  state_.last_answer = std::move(what);
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
  state_.patient = std::move(step.before);
  earlier_.from_book = std::move(step.from_book);
  earlier_.said_otherwise = std::move(step.said_otherwise);
  state_.last_answer = history_.empty() ? "" : history_.back().what;
  state_.message = fmt::format("Taken back: {}", step.what);
  answering_ = Answering::elsewhere;
  auto const was_there = lines_of(state_.outlook.screen);
  reassess();
  state_.outlook.screen = std::move(step.list);
  // A digit may still be meant for what stood there before it was taken back.
  is_list_unread_ = !was_there.empty() && lines_of(state_.outlook.screen) != was_there;
  go_on_asking();
  state_.row = std::min(state_.row, std::max<std::size_t>(1, answered().size()) - 1);
}

void CallModel::forget(SignId sign) {
  std::erase_if(state_.patient.answers, [&](auto const& one) { return one.first == sign; });
  std::erase(state_.patient.cannot_tell, sign);
  std::erase(state_.patient.came_for, sign);
  earlier_.said(sign);
}

// Answers and what could not be told are kept in the order of the signs, as a case that is read.
void CallModel::set(SignId sign, std::optional<Answer> answer) {
  bool const is_told = answer && tables_.is_told(sign, *answer);
  bool const was_told = std::find(state_.patient.came_for.begin(), state_.patient.came_for.end(),
                                  sign) != state_.patient.came_for.end();
  auto const complaint = state_.patient.came_for;
  forget(sign);
  if (sign == patient_sign::weight) forget(patient_sign::weight_confirmed);
  if (is_told && was_told) state_.patient.came_for = complaint;
  if (is_told && !was_told && is_told_unasked_) state_.patient.came_for.push_back(sign);
  if (!answer) {
    auto& unknown = state_.patient.cannot_tell;
    unknown.insert(std::lower_bound(unknown.begin(), unknown.end(), sign), sign);
    return;
  }
  auto& answers = state_.patient.answers;
  auto const place = std::lower_bound(answers.begin(), answers.end(), sign,
                                      [](auto const& one, SignId s) { return one.first < s; });
  answers.insert(place, {sign, std::move(*answer)});
}

void CallModel::answer(SignId sign, std::optional<Answer> answer) {
  auto const typed = state_.activity == Activity::typing ? state_.typed : "";
  auto const text =
      answer ? text_as_typed(pack(), sign, *answer, typed) : std::string("can't tell");
  remember(fmt::format("{}: {}", pack()[sign].label, text));
  auto clash = answer ? beside_a_yes(tables_, state_.result, sign, *answer) : std::string();
  bool const is_news = answer && !is_found(sign);
  if (is_news && clash.empty()) clash = beside_a_none(tables_, state_.result, sign, *answer);
  set(sign, std::move(answer));
  reassess();
  go_on_asking();
  if (!clash.empty()) tell(clash);
}

void CallModel::say_yes(SignId sign) {
  if (sign == patient_sign::weight_confirmed) return say_weight_is_right();
  auto const& its = traits(pack()[sign]);
  if (its.is_plain) return answer(sign, true);
  // Found: counted at once, and the place follows if it tells anything.
  if (its.has_places && !is_found(sign)) {
    answer(sign, plain_answer(pack()[sign], true));
    if (!tables_.hangs_on_place(sign)) return;
  }
  begin(sign);
}

void CallModel::say_no(SignId sign) {
  if (sign == patient_sign::weight_confirmed) return say_weight_is_wrong();
  auto const& its = pack()[sign];
  if (traits(its).takes_yes_or_no) return answer(sign, plain_answer(its, false));
  begin(sign);
  report_trouble(fmt::format("\"{}\" is not answered by no: choose or type", its.label));
}

// Choosing or typing an answer to the sign.
void CallModel::begin(SignId sign) {
  auto const& kind = traits(pack()[sign]);
  state_.subject = sign;
  state_.cursor = 0;
  state_.typed.clear();
  state_.found.clear();
  state_.page = CallPage::questions;
  state_.activity = kind.has_values ? Activity::choosing : Activity::typing;
  chosen_from_.reset();
}

void CallModel::agree_to_ring_back() {
  if (!state_.result.judgement.tier) {
    report_trouble("No urgency yet, so no time: type one under Tab, ring back at");
    return;
  }
  auto const time =
      clock_text(ring_back_time(pack()[*state_.result.judgement.tier], state_.now, setting_));
  remember("ring back at: " + time);
  state_.patient.ring_back_at = time;
}

}  // namespace flinch::cli
