// The list that is read out in a call: what heads it, how long it stays, no to the rest of it.
#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "call/call_model.hpp"
#include "flinch/model/yes_and_no.hpp"

namespace flinch::cli {

bool CallModel::is_answered_by_yes(SignId sign) const {
  return traits(pack()[sign]).takes_yes_or_no;
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
  if (rests_on_likelihood() && !unasked_ground().empty()) return false;
  // Line by line it stays at the top tier, whose advice is what comes next. Otherwise, and when the
  // caller speaks of something else, it stays while it can still matter.
  if (answering_ == Answering::the_line && state_.result.judgement.tier == TierId{0}) return true;
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
    if (known == nullptr || pack()[sign].of_the_patient) return false;
    return says_yes(known->answer);
  };
  auto const is_half_there = [&](AlarmId alarm) {
    auto const steps = tables_.trigger_steps(alarm);
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
    if (!open.alone_reaches || !is_answered_by_yes(open.sign) || is_settled(open.sign)) continue;
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
    if (out.size() < list_lines) out.push_back(std::move(question));
  return out;
}

// What any patient could die of, and nobody has asked for.
bool CallModel::are_life_threats_open() const {
  return std::any_of(open_danger_.begin(), open_danger_.end(), [&](OpenQuestion const& open) {
    return pack()[open.sign].asked_first && is_answered_by_yes(open.sign) && !is_settled(open.sign);
  });
}

// How bad it is, of what was found, where that could bring it in within the day: one key, and it
// decides more than a list. What any patient could die of is read out before.
std::optional<Question> CallModel::degree_of_found() const {
  if (are_life_threats_open()) return std::nullopt;
  for (auto const& open : open_danger_) {
    if (traits(pack()[open.sign]).has_values && open.alone_reaches &&
        pack()[*open.alone_reaches].within_s <= pressing_s && !is_settled(open.sign) &&
        found_for_degree(tables_, state_.result, open.sign))
      return Question{open.sign,          0,    {}, open.could_reach, open.alarms, open.taken,
                      open.alone_reaches, false};
  }
  return std::nullopt;
}

// When somebody is rung back, what it had comes first.
std::vector<Question> CallModel::first_questions() const {
  std::vector<Question> out;
  if (course_)
    out = EarlierVisits::to_ask_again(*course_, pack(), Reader::nurse, list_lines,
                                      [&](SignId sign) { return is_settled(sign); });
  if (!out.empty() && !is_answered_by_yes(out.front().sign)) return out;
  // At the highest urgency no life threat could raise it, and which poison it was decides the rest.
  bool const is_top = state_.result.judgement.tier == TierId{0};
  if (kind_told_ && !is_settled(*kind_told_) && (is_top || !are_life_threats_open()) &&
      found_for_degree(tables_, state_.result, *kind_told_))
    return {{*kind_told_, 0, {}, {}, {}}};
  if (out.empty())
    if (auto degree = degree_of_found()) return {std::move(*degree)};
  for (auto& question : follow_ups()) {
    bool const is_there = std::any_of(out.begin(), out.end(),
                                      [&](Question const& q) { return q.sign == question.sign; });
    if (!is_there && out.size() < list_lines) out.push_back(std::move(question));
  }
  return out;
}

// They head the list, or are a list of their own before a question that cannot share one.
void CallModel::deal(std::vector<Question> first) {
  if (first.empty()) return;
  auto& screen = state_.outlook.screen;
  if (screen && is_answered_by_yes(first.front().sign) && screen->kind == Screen::Kind::danger &&
      is_answered_by_yes(screen->questions[0].sign))
    for (auto const& question : screen->questions) {
      bool const is_there = std::any_of(first.begin(), first.end(),
                                        [&](Question const& q) { return q.sign == question.sign; });
      if (!is_there && first.size() < list_lines) first.push_back(question);
    }
  screen = Screen{Screen::Kind::danger, std::move(first)};
}

void CallModel::say_none_of_these() {
  if (!state_.outlook.screen) return;
  auto const questions = state_.outlook.screen->questions;
  if (!std::all_of(questions.begin(), questions.end(),
                   [&](Question const& q) { return is_answered_by_yes(q.sign); })) {
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
  // On one line of a screen: whole names, and how many more.
  constexpr std::size_t room = 30;
  std::string shown;
  std::size_t named = 0;
  for (auto const sign : rest) {
    auto const& label = pack()[sign].label;
    if (named > 0 && shown.size() + label.size() > room) break;
    shown += (named++ == 0 ? "" : ", ") + label;
  }
  if (named < rest.size()) shown += fmt::format(" and {} more", rest.size() - named);
  // Of a list answered in part, nobody may have said "and nothing else".
  bool const is_danger = state_.outlook.screen->kind == Screen::Kind::danger;
  if (rest.size() < questions.size() && is_danger && !std::exchange(was_none_pending_, false)) {
    is_none_pending_ = true;
    report_trouble(fmt::format("0 once more says NO to: {}", labels));
    return;
  }
  remember("none of: " + shown);
  for (auto const sign : rest) set(sign, plain_answer(pack()[sign], false));
  answering_ = Answering::the_rest;
  reassess();
  go_on_asking();
}

}  // namespace flinch::cli
