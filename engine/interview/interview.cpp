#include "flinch/interview/interview.hpp"

#include <algorithm>
#include <array>

#include "assess/evaluate.hpp"

namespace flinch {
namespace {

constexpr std::array facts_of_the_dog = {dog_sign::age, dog_sign::weight, dog_sign::breed,
                                         dog_sign::sex, dog_sign::neutered};

// Seconds, all judgements. Hearing the question and thinking it over takes longer than most checks.
constexpr double reading_s = 10;
constexpr double hands_s = 20;
constexpr double equipment_s = 60;
constexpr double hurting_s = 30;

Question& question_of(std::vector<Question>& questions, SignId sign) {
  auto const found = std::find_if(questions.begin(), questions.end(),
                                  [&](Question const& q) { return q.sign == sign; });
  if (found != questions.end()) return *found;
  questions.push_back({sign, 0, {}, {}, {}});
  return questions.back();
}

}  // namespace

bool can_see(Audience audience, SeenBy seen_by) {
  switch (audience) {
    case Audience::keeper:
    case Audience::nurse:
      return seen_by == SeenBy::anyone;
    case Audience::handler:
      return seen_by != SeenBy::clinic;
    case Audience::clinician:
      return true;
  }
  return false;
}

Interview::Interview(Tables const& tables, Audience audience, InterviewLimits limits)
    : tables_(tables),
      audience_(audience),
      limits_(limits),
      gains_(tables),
      applies_root_(tables.pack().signs.size(), -1),
      stack_(tables.deepest_stack() + 1) {
  for (std::size_t i = 0; i < tables.root_count(); ++i)
    if (tables.root(i).kind == RootKind::applies)
      applies_root_[tables.root(i).subject] = static_cast<std::int32_t>(i);
}

double Interview::effort_s(SignId sign) const {
  auto const& s = tables_.pack()[sign];
  return reading_s + s.takes_s + (s.seen_by == SeenBy::hands ? hands_s : 0) +
         (s.seen_by == SeenBy::clinic ? equipment_s : 0) + (s.may_hurt ? hurting_s : 0);
}

Outlook Interview::next(Assessment const& result, std::span<SignId const> set_aside) {
  close_signs(result, set_aside);
  auto dog = dog_facts(result);
  auto const danger = danger_questions(result);
  auto telling = telling_questions(result);
  Outlook out;
  out.dog_left = dog.size();
  out.danger_left = danger.size();
  for (auto const& question : telling) {
    bool const is_danger = std::any_of(danger.begin(), danger.end(),
                                       [&](Question const& d) { return d.sign == question.sign; });
    if (question.bits >= limits_.least_bits && !is_danger) ++out.telling_left;
  }
  out.is_enough = out.worth_asking() == 0;
  if (!dog.empty())
    out.screen = Screen{Screen::Kind::dog, {std::move(dog.front())}};
  else if (!danger.empty())
    out.screen = danger_screen(danger);
  else if (!telling.empty())
    out.screen = Screen{Screen::Kind::telling, {std::move(telling.front())}};
  return out;
}

void Interview::close_signs(Assessment const& result, std::span<SignId const> set_aside) {
  auto const& pack = tables_.pack();
  closed_.assign(pack.signs.size(), false);
  for (std::size_t i = 0; i < pack.signs.size(); ++i)
    closed_[i] = !can_see(audience_, pack.signs[i].seen_by);
  if (pack.breeds.breeds.empty()) closed_[index(dog_sign::breed)] = true;
  for (auto const& known : result.known) closed_[index(known.sign)] = true;
  for (auto const sign : result.cannot_tell) closed_[index(sign)] = true;
  for (auto const sign : set_aside) closed_[index(sign)] = true;
}

// The topmost whole that can be asked (a no settles all its parts); and before a sign that may not
// apply, what tells whether it does.
SignId Interview::first_to_ask(SignId sign, Assessment const& result) {
  auto const& pack = tables_.pack();
  auto asked = sign;
  for (auto whole = pack[sign].part_of; whole; whole = pack[*whole].part_of)
    if (may_ask(*whole)) asked = *whole;
  auto const condition = open_condition(asked, result);
  return condition ? *condition : asked;
}

std::optional<SignId> Interview::open_condition(SignId sign, Assessment const& result) {
  if (applies_root_[index(sign)] < 0) return std::nullopt;
  auto const& root = tables_.root(static_cast<std::size_t>(applies_root_[index(sign)]));
  auto const truth_of = [&](Tables::Leaf const& leaf) {
    auto const* known = result.find(leaf.sign);
    return known == nullptr ? Truth::unknown : leaf_truth(tables_, leaf, known->answer);
  };
  if (evaluate(tables_, root, stack_, truth_of) != Truth::unknown) return std::nullopt;
  for (auto const& step : tables_.steps(root)) {
    if (step.kind != Tables::Step::Kind::leaf) continue;
    auto const on = tables_.leaves()[step.detail].sign;
    if (may_ask(on)) return on;
  }
  return std::nullopt;
}

// Asked first, where anything hangs on them: age, weight and breed also tell the size.
std::vector<Question> Interview::dog_facts(Assessment const& result) const {
  std::vector<Question> out;
  bool const asks_size = !tables_.roots_of(dog_sign::size).empty();
  for (auto const sign : facts_of_the_dog) {
    bool const tells_size = sign <= dog_sign::weight || sign == dog_sign::breed;
    bool const matters = !tables_.roots_of(sign).empty() || (asks_size && tells_size);
    if (matters && may_ask(sign) && result.find(sign) == nullptr)
      out.push_back({sign, 0, {}, {}, {}});
  }
  return out;
}

std::vector<Question> Interview::danger_questions(Assessment const& result) {
  std::vector<Question> out;
  for (auto const& open : open_questions(tables_, result)) add_danger(open, result, out);
  return out;
}

// A whole that this audience cannot be asked is replaced by those of its parts that it can be.
void Interview::add_danger(OpenQuestion const& open, Assessment const& result,
                           std::vector<Question>& questions) {
  auto const& pack = tables_.pack();
  auto const add = [&](SignId sign, AlarmId alarm) {
    auto& question = question_of(questions, first_to_ask(sign, result));
    auto const see = pack[alarm].see;
    question.could_reach = question.could_reach ? std::min(*question.could_reach, see) : see;
    if (std::find(question.alarms.begin(), question.alarms.end(), alarm) == question.alarms.end())
      question.alarms.push_back(alarm);
  };
  auto const is_inside = [&](std::optional<SignId> part) {
    while (part && *part != open.sign) part = pack[*part].part_of;
    return part.has_value();
  };
  for (auto const alarm : open.alarms) {
    if (may_ask(open.sign)) {
      add(open.sign, alarm);
      continue;
    }
    for (auto const& step : tables_.steps(tables_.alarm_root(alarm))) {
      if (step.kind != Tables::Step::Kind::leaf) continue;
      auto const sign = tables_.leaves()[step.detail].sign;
      if (may_ask(sign) && is_inside(sign)) add(sign, alarm);
    }
  }
}

// By bits for the effort; those below `least_bits` after all others.
std::vector<Question> Interview::telling_questions(Assessment const& result) {
  auto const gains = gains_.weigh(result);
  std::vector<Question> out;
  best_.assign(gains.size(), {});
  for (std::uint32_t i = 0; i < gains.size(); ++i) {
    SignId const sign{i};
    if (!gains[i].rule || !may_ask(sign)) continue;
    auto& best = best_[index(first_to_ask(sign, result))];
    if (!best.rule || gains[i].bits > best.bits) best = gains[i];
  }
  for (std::uint32_t i = 0; i < best_.size(); ++i)
    if (best_[i].rule) out.push_back({SignId{i}, best_[i].bits, best_[i].rule, {}, {}});
  std::stable_sort(out.begin(), out.end(), [&](Question const& a, Question const& b) {
    bool const a_tells = a.bits >= limits_.least_bits;
    bool const b_tells = b.bits >= limits_.least_bits;
    if (a_tells != b_tells) return a_tells;
    return a.bits / effort_s(a.sign) > b.bits / effort_s(b.sign);
  });
  return out;
}

// Yes-or-no questions of the first one's tier together, in the order of `open_questions`; a
// question of another kind stands alone.
Screen Interview::danger_screen(std::vector<Question> const& questions) const {
  auto const& pack = tables_.pack();
  Screen out{Screen::Kind::danger, {}};
  for (auto const& question : questions) {
    if (question.could_reach != questions.front().could_reach) continue;
    if (pack[question.sign].kind != AnswerKind::yes_or_no) continue;
    if (out.questions.size() == limits_.lines_at_most) break;
    out.questions.push_back(question);
  }
  if (out.questions.empty()) out.questions.push_back(questions.front());
  return out;
}

}  // namespace flinch
