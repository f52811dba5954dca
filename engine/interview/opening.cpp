// How an interview opens, once it is told what the patient came for.
#include <algorithm>
#include <tuple>

#include "flinch/interview/complaint.hpp"
#include "flinch/interview/interview.hpp"
#include "flinch/model/yes_and_no.hpp"

namespace flinch {
namespace {

// A whole of so many parts stands for a system of the body; smaller ones only sort their parts.
constexpr std::size_t parts_of_a_system = 3;

// After so many answers, three screens of lines, what goes with the complaint waits until the broad
// questions and the facts of the patient are through: tried on published cases, docs/interview.md.
constexpr std::size_t answers_before_the_rest = 24;

bool is_pressing(Pack const& pack, TierId tier) { return pack[tier].within_s <= pressing_s; }

// Its answer alone could bring such a tier about.
bool is_pressing(Pack const& pack, Question const& question) {
  return question.alone_reaches && is_pressing(pack, *question.alone_reaches);
}

bool is_among(SignId sign, std::span<SignId const> signs) {
  return std::find(signs.begin(), signs.end(), sign) != signs.end();
}

// All that the patient is known to have, whether it came for it or a list found it.
std::vector<SignId> signs_found(Pack const& pack, Assessment const& result) {
  std::vector<SignId> out;
  for (auto const& known : result.knowledge.known)
    if (!pack[known.sign].of_the_patient && says_yes(known.answer)) out.push_back(known.sign);
  return out;
}

bool is_top(Question const& question) { return question.alone_reaches == TierId{0}; }

// What was answered about signs, by lines of lists and by single questions; not what follows from
// it.
struct Answered {
  std::size_t lines = 0, choices = 0;
};

Answered answered_about_signs(Pack const& pack, Assessment const& result) {
  Answered out;
  auto const add = [&](SignId sign) {
    if (pack[sign].of_the_patient) return;
    ++(traits(pack[sign]).takes_yes_or_no ? out.lines : out.choices);
  };
  for (auto const& one : result.knowledge.known)
    if (one.origin == Origin::given) add(one.sign);
  for (auto const sign : result.knowledge.cannot_tell) add(sign);
  return out;
}

bool holds(std::vector<Question> const& questions, SignId sign) {
  return std::any_of(questions.begin(), questions.end(),
                     [&](Question const& q) { return q.sign == sign; });
}

}  // namespace

Assessment as_told(Tables const& tables, Assessment const& result,
                   std::span<SignId const> set_aside) {
  auto out = result;
  auto& judgement = out.judgement;
  for (auto const fact : {patient_sign::sex, patient_sign::age})
    if (!tables.roots_of(fact).empty() && result.find(fact) == nullptr &&
        !result.knowledge.could_not_be_told(fact) && !is_among(fact, set_aside) &&
        judgement.tier != judgement.alarm_tier) {
      judgement.tier = judgement.alarm_tier;
      judgement.ranking_tier.reset();
    }
  return out;
}

std::optional<SignId> found_for_degree(Tables const& tables, Assessment const& result,
                                       SignId degree) {
  for (auto const& one : result.knowledge.known) {
    if (tables.pack()[one.sign].of_the_patient || !says_yes(one.answer)) continue;
    for (auto const i : tables.roots_of(one.sign)) {
      auto const& root = tables.root(i);
      if (root.kind == RootKind::applies && SignId{root.subject} == degree) return one.sign;
    }
  }
  return std::nullopt;
}

SignId Interview::outermost(SignId sign) const {
  auto const& pack = tables_.pack();
  while (pack[sign].part_of) sign = *pack[sign].part_of;
  return sign;
}

std::optional<Screen> Interview::opening_screen(Assessment const& result,
                                                std::span<SignId const> set_aside,
                                                std::span<SignId const> came_for,
                                                Open const& open) const {
  auto const& pack = tables_.pack();
  for (auto const sign : came_for) {
    auto const* known = result.find(sign);
    auto const* findings = known == nullptr ? nullptr : std::get_if<Findings>(&known->answer);
    if (findings != nullptr && findings->found_somewhere && findings->found.empty() &&
        can_see(reader_, pack[sign].seen_by) && !is_among(sign, set_aside))
      return Screen{Screen::Kind::place, {{sign, 0, {}, {}, {}}}};
  }
  auto const alone = [](SignId sign) {
    return Screen{Screen::Kind::telling, {{sign, 0, {}, {}, {}}}};
  };
  auto const since = since_when(pack);
  if (limits_.is_since_asked_first && since && !result.judgement.nothing_told && may_ask(*since))
    return alone(*since);
  if (!open.substances.empty()) return Screen{Screen::Kind::telling, open.substances};
  if (!open.amounts.empty()) return Screen{Screen::Kind::telling, {open.amounts.front()}};
  auto const found = signs_found(pack, result);
  auto const list = [&](Screen::Kind kind, std::vector<Question> questions) {
    if (questions.size() > limits_.lines_at_most) questions.resize(limits_.lines_at_most);
    return Screen{kind, std::move(questions)};
  };
  auto dangers = opening_dangers(found, open.danger);
  auto const answered = answered_about_signs(pack, result);
  bool const are_many_answered = answered.lines >= answers_before_the_rest;
  bool const asks_of_any = std::any_of(dangers.begin(), dangers.end(),
                                       [&](Question const& q) { return pack[q.sign].asked_first; });
  // Life threats come before any choice.
  bool const are_life_threats =
      asks_of_any || (!are_many_answered && std::any_of(dangers.begin(), dangers.end(), is_top));
  if (!are_life_threats)
    if (auto const degree = choice_of(result, found, open.danger, Link::hangs_on))
      return alone(*degree);
  auto broad = systems(open.danger);
  bool const may_wait =
      !asks_of_any && are_many_answered && parts_of_found(found, open.danger).empty();
  // One choice for each list, not a row of them before the next list.
  if (!are_life_threats && answered.choices * limits_.lines_at_most < answered.lines)
    if (auto const choice = choice_of(result, found, open.danger, Link::asked_with))
      return alone(*choice);
  // A list that is not full is filled up from what would come next.
  if (!dangers.empty() && !may_wait) {
    for (auto& question : broad)
      if (!holds(dangers, question.sign)) dangers.push_back(std::move(question));
    return list(Screen::Kind::danger, std::move(dangers));
  }
  if (!broad.empty()) {
    for (auto const& question : open.danger)
      if (is_there_or_not(question.sign) && !question.waits && is_pressing(pack, question) &&
          !holds(broad, question.sign))
        broad.push_back(question);
    return list(Screen::Kind::system, std::move(broad));
  }
  // Sex, age and breed decide what can be, and whether a tier may rest on likelihood: after the
  // broad questions, since what these settle would otherwise raise it and let it fall again.
  if (!open.patient.empty() && open.patient.front().sign != patient_sign::weight)
    return patient_screen(open.patient);
  if (auto const choice = first_choice(result)) return alone(*choice);
  if (!open.patient.empty()) return patient_screen(open.patient);
  return std::nullopt;
}

// The first of the choices and amounts that are `asked first`.
std::optional<SignId> Interview::first_choice(Assessment const& result) const {
  auto const& pack = tables_.pack();
  if (result.judgement.nothing_told) return std::nullopt;
  for (std::uint32_t i = 0; i < pack.signs.size(); ++i)
    if (pack.signs[i].asked_first && may_ask(SignId{i}) && !is_there_or_not(SignId{i}))
      return SignId{i};
  return std::nullopt;
}

// How much, and of which kind, of what was found, if it could make it pressing; not of what was
// denied.
std::optional<SignId> Interview::choice_of(Assessment const& result, std::span<SignId const> found,
                                           std::vector<Question> const& danger, Link link) const {
  auto const& pack = tables_.pack();
  auto const is_denied = [&](SignId sign) {
    auto const whole = pack[sign].part_of;
    auto const* known = whole ? result.find(*whole) : nullptr;
    return known != nullptr && says_no(known->answer);
  };
  for (auto const& question : danger) {
    if (is_there_or_not(question.sign) || !is_pressing(pack, question) || is_denied(question.sign))
      continue;
    if (link == Link::hangs_on ? found_for_degree(tables_, result, question.sign).has_value()
                               : is_asked_with(question, found))
      return question.sign;
  }
  return std::nullopt;
}

// An alarm asks for it together with one of these.
bool Interview::is_asked_with(Question const& question, std::span<SignId const> found) const {
  return std::any_of(question.alarms.begin(), question.alarms.end(), [&](AlarmId alarm) {
    auto const steps = tables_.trigger_steps(alarm);
    return std::any_of(steps.begin(), steps.end(), [&](Tables::Step const& step) {
      if (step.kind != Tables::Step::Kind::leaf) return false;
      auto const sign = tables_.leaves()[step.detail].sign;
      return sign != question.sign && is_among(sign, found);
    });
  });
}

// Which it was, where only the whole is known: the pressing ones, life threats first.
std::vector<Question> Interview::parts_of_found(std::span<SignId const> found,
                                                std::vector<Question> const& danger) const {
  auto const& pack = tables_.pack();
  auto const is_untold = [&](SignId whole) {
    return is_among(whole, found) && std::none_of(found.begin(), found.end(), [&](SignId sign) {
             return pack[sign].part_of == whole;
           });
  };
  std::vector<Question> out;
  for (auto const& question : danger) {
    auto const whole = pack[question.sign].part_of;
    if (whole && is_untold(*whole) && is_there_or_not(question.sign) && is_pressing(pack, question))
      out.push_back(question);
  }
  return out;
}

// Those of any patient, then parts of what was found, then what else goes with it; with these,
// others that do but are not pressing fill the list.
std::vector<Question> Interview::opening_dangers(std::span<SignId const> found,
                                                 std::vector<Question> const& danger) const {
  std::vector<Question> out;
  for (auto const& question : danger)
    if (tables_.pack()[question.sign].asked_first && is_there_or_not(question.sign))
      out.push_back(question);
  // Life threats themselves before the broad questions that lead to one.
  std::stable_sort(out.begin(), out.end(), [&](Question const& a, Question const& b) {
    auto const rank = [&](Question const& q) {
      return std::tuple(!q.alone_reaches, q.alone_reaches, is_system(q.sign), q.sign);
    };
    return rank(a) < rank(b);
  });
  auto const first = out.size();
  for (auto& questions : {parts_of_found(found, danger), going_with(found, danger)})
    for (auto const& question : questions)
      if (!holds(out, question.sign)) out.push_back(question);
  bool const asks = first > 0 || std::any_of(out.begin(), out.end(), [&](Question const& q) {
                      return is_pressing(tables_.pack(), q);
                    });
  return asks ? out : std::vector<Question>{};
}

// Parts of the same whole, and what one alarm asks for together with it; what alone reaches the
// highest tier first, then other pressing ones, then those that tell most.
std::vector<Question> Interview::going_with(std::span<SignId const> found,
                                            std::vector<Question> const& danger) const {
  auto const is_kin = [&](SignId sign) {
    return std::any_of(found.begin(), found.end(),
                       [&](SignId told) { return outermost(told) == outermost(sign); });
  };
  std::vector<Question> out;
  for (auto const& question : danger) {
    if (!is_there_or_not(question.sign) || is_system(question.sign) ||
        (!is_kin(question.sign) && !is_asked_with(question, found)))
      continue;
    out.push_back(question);
    out.back().bits = best_[index(question.sign)].bits;
  }
  auto const rank = [&](Question const& q) {
    return std::tuple(!is_top(q), !is_pressing(tables_.pack(), q), -q.bits);
  };
  std::stable_sort(out.begin(), out.end(),
                   [&](Question const& a, Question const& b) { return rank(a) < rank(b); });
  return out;
}

// Of what is pressing, and of the rest, what tells most of a patient that came for this: life
// threats to any patient are asked for before.
void Interview::put_fitting_first(std::vector<Question>& danger) const {
  auto const rank = [&](Question const& q) {
    auto const reached = q.waits ? q.could_reach : q.alone_reaches;
    return std::tuple(q.waits, !is_pressing(tables_.pack(), *reached), -best_[index(q.sign)].bits);
  };
  std::stable_sort(danger.begin(), danger.end(),
                   [&](Question const& a, Question const& b) { return rank(a) < rank(b); });
}

bool Interview::is_system(SignId sign) const {
  return !tables_.pack()[sign].part_of && parts_inside_[index(sign)] >= parts_of_a_system;
}

// Whole signs, none of them in another, that are open dangers; those that tell most first.
std::vector<Question> Interview::systems(std::vector<Question> const& danger) const {
  std::vector<Question> out;
  for (auto const& question : danger) {
    if (!is_there_or_not(question.sign) || !is_system(question.sign)) continue;
    out.push_back(question);
    out.back().bits = best_[index(question.sign)].bits;
  }
  std::stable_sort(out.begin(), out.end(),
                   [](Question const& a, Question const& b) { return a.bits > b.bits; });
  return out;
}

}  // namespace flinch
