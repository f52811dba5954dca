#include "flinch/interview/interview.hpp"

#include <algorithm>
#include <array>
#include <tuple>

#include "flinch/assess/evaluator.hpp"
#include "flinch/assess/weight_doubt.hpp"
#include "flinch/model/tested_signs.hpp"
#include "model/walk.hpp"

namespace flinch {
namespace {

// Age and sex decide which dangers can be; weight and breed can wait until those are asked for.
constexpr std::array facts_of_the_patient = {patient_sign::age, patient_sign::sex,
                                             patient_sign::neutered, patient_sign::breed,
                                             patient_sign::weight};

bool comes_first(SignId fact) {
  return fact == patient_sign::age || fact == patient_sign::sex || fact == patient_sign::neutered ||
         fact == patient_sign::weight_confirmed;
}

// Seconds, all judgements. Hearing the question and thinking it over takes as long as most checks.
constexpr double reading_s = 10;
constexpr double hands_s = 20;
constexpr double equipment_s = 60;
constexpr double hurting_s = 30;

}  // namespace

bool can_see(Reader reader, SeenBy seen_by) {
  switch (reader) {
    case Reader::keeper:
    case Reader::nurse:
      return seen_by == SeenBy::anyone;
    case Reader::handler:
      return seen_by != SeenBy::clinic;
    case Reader::clinician:
      return true;
  }
  return false;
}

Interview::Interview(Tables const& tables, Reader reader, InterviewLimits limits)
    : tables_(tables),
      reader_(reader),
      limits_(limits),
      gains_(tables),
      parts_inside_(tables.pack().signs.size()) {
  auto const& signs = tables.pack().signs;
  for (std::uint32_t i = 0; i < signs.size(); ++i)
    if (signs[i].part_of && can_see(reader, signs[i].seen_by))
      ++parts_inside_[index(outermost(SignId{i}))];
}

double Interview::effort_s(SignId sign) const {
  auto const& s = tables_.pack()[sign];
  return reading_s + s.takes_s + (s.seen_by == SeenBy::hands ? hands_s : 0) +
         (s.seen_by == SeenBy::clinic ? equipment_s : 0) + (s.may_hurt ? hurting_s : 0);
}

Outlook Interview::next(Assessment const& assessed, std::span<SignId const> set_aside,
                        std::optional<std::span<SignId const>> came_for) {
  // A tier that may not be told yet closes no question.
  std::optional<Assessment> told;
  if (came_for) told = as_told(tables_, assessed, set_aside);
  auto const& result = told ? *told : assessed;
  open_ = open_questions(tables_, result);
  close_signs(result, set_aside);
  Open open;
  open.patient = patient_facts(result);
  open.places = place_questions(result, set_aside);
  open.danger = danger_questions(result);
  open.substances = substance_questions(result);
  open.amounts = amount_questions(result);
  open.calming = calming_questions(result);
  open.telling = telling_questions(result);
  if (came_for) put_fitting_first(open.danger);
  Outlook out;
  out.patient_left = open.patient.size();
  count_danger(out, open.places);
  open.is_raised_by_place = out.danger_left > 0;
  out.place_left = open.places.size() - out.danger_left;
  count_danger(out, open.danger);
  count(out, open.telling);
  out.telling_left += open.substances.size() + open.amounts.size() + open.calming.size();
  out.is_enough = out.worth_asking() == 0;
  if (came_for) out.screen = opening_screen(result, set_aside, *came_for, open);
  out.is_opening = out.screen.has_value();
  if (!out.screen) out.screen = usual_screen(result, open);
  return out;
}

std::optional<Screen> Interview::usual_screen(Assessment const& result, Open const& open) const {
  bool const decides = !open.danger.empty() && !open.danger.front().waits;
  bool const tells = !open.telling.empty() && open.telling.front().bits >= limits_.alone_bits;
  if (!open.patient.empty() && comes_first(open.patient.front().sign))
    return patient_screen(open.patient);
  if (open.is_raised_by_place) return Screen{Screen::Kind::place, {open.places.front()}};
  if (!open.substances.empty()) return Screen{Screen::Kind::telling, open.substances};
  if (!open.amounts.empty()) return Screen{Screen::Kind::telling, {open.amounts.front()}};
  if (decides) {
    auto danger = danger_screen(open.danger);
    // What may wait for days, and choices one after the other, come behind what is there or not and
    // tells much about the causes, a list or one alone.
    if (is_pressing_list(danger) || open.telling.empty()) return danger;
    auto telling = telling_screen(open.telling, result);
    double bits = 0;
    for (auto const& question : telling.questions) bits += question.bits;
    bool const is_quick = is_there_or_not(telling.questions.front().sign);
    return is_quick && bits >= limits_.alone_bits ? telling : danger;
  }
  if (!open.calming.empty()) return Screen{Screen::Kind::telling, open.calming};
  if (!open.patient.empty()) return patient_screen(open.patient);
  if (!open.places.empty()) return Screen{Screen::Kind::place, {open.places.front()}};
  if (!open.danger.empty() && !tells) return danger_screen(open.danger);
  if (!open.telling.empty()) return telling_screen(open.telling, result);
  return std::nullopt;
}

void Interview::count(Outlook& outlook, std::vector<Question> const& telling) const {
  for (auto const& question : telling)
    if (question.bits >= limits_.least_bits && danger_at_[index(question.sign)] < 0)
      ++outlook.telling_left;
}

void Interview::count_danger(Outlook& outlook, std::vector<Question> const& questions) const {
  auto const raise = [](std::optional<TierId>& reached, std::optional<TierId> tier) {
    if (tier && (!reached || *tier < *reached)) reached = tier;
  };
  std::size_t lines_at_once = 0;
  std::size_t lines_that_wait = 0;
  for (auto const& question : questions) {
    if (!question.could_reach) continue;
    ++outlook.danger_left;
    raise(outlook.one_answer_reaches, question.alone_reaches);
    raise(outlook.several_answers_reach, question.could_reach);
    if (!is_there_or_not(question.sign))
      ++outlook.danger_screens;
    else
      ++(question.waits ? lines_that_wait : lines_at_once);
  }
  for (auto const lines : {lines_at_once, lines_that_wait})
    outlook.danger_screens += (lines + limits_.lines_at_most - 1) / limits_.lines_at_most;
}

void Interview::close_signs(Assessment const& result, std::span<SignId const> set_aside) {
  auto const& pack = tables_.pack();
  closed_.assign(pack.signs.size(), false);
  for (std::size_t i = 0; i < pack.signs.size(); ++i)
    closed_[i] = !can_see(reader_, pack.signs[i].seen_by);
  if (pack.breeds.breeds.empty()) closed_[index(patient_sign::breed)] = true;
  for (auto const& known : result.knowledge.known) closed_[index(known.sign)] = true;
  for (auto const sign : result.knowledge.cannot_tell) closed_[index(sign)] = true;
  for (auto const sign : set_aside) closed_[index(sign)] = true;
}

// The topmost whole that can be asked (a no settles all its parts); and before a sign that may not
// apply, what tells whether it does.
SignId Interview::first_to_ask(SignId sign, Assessment const& result) const {
  auto const& pack = tables_.pack();
  auto asked = sign;
  for (auto whole = pack[sign].part_of; whole; whole = pack[*whole].part_of)
    if (may_ask(*whole)) asked = *whole;
  auto const condition = open_condition(asked, result);
  return condition ? *condition : asked;
}

std::optional<SignId> Interview::open_condition(SignId sign, Assessment const& result) const {
  auto const& pack = tables_.pack();
  auto const& applies = pack[sign].applies_if;
  if (!applies || Evaluator(tables_, result.knowledge).truth(*applies) != Truth::unknown)
    return std::nullopt;
  std::optional<SignId> out;
  walk_tests(pack, *applies, [&](Condition const& leaf, Polarity) {
    if (!out && may_ask(leaf.test.sign)) out = leaf.test.sign;
  });
  return out;
}

// Found, and nothing is known of the place, on which something hangs: one who marks it in a list is
// asked for it, and one who goes on with a case as well. Those that could raise the tier come
// first.
std::vector<Question> Interview::place_questions(Assessment const& result,
                                                 std::span<SignId const> set_aside) const {
  std::vector<Question> out;
  for (auto const& known : result.knowledge.known) {
    auto const* findings = std::get_if<Findings>(&known.answer);
    if (findings == nullptr || !findings->found_somewhere || !findings->found.empty() ||
        !tables_.hangs_on_place(known.sign) ||
        !can_see(reader_, tables_.pack()[known.sign].seen_by) ||
        std::find(set_aside.begin(), set_aside.end(), known.sign) != set_aside.end())
      continue;
    Question question{known.sign, 0, {}, {}, {}};
    for (auto const& open : open_) {
      if (open.sign != known.sign) continue;
      question.could_reach = open.could_reach;
      question.alarms = open.alarms;
      question.alone_reaches = open.alone_reaches;
    }
    out.push_back(std::move(question));
  }
  std::stable_partition(out.begin(), out.end(),
                        [](Question const& q) { return q.could_reach.has_value(); });
  return out;
}

// Which it was, of what may have been swallowed: together, and before how much.
std::vector<Question> Interview::substance_questions(Assessment const& result) {
  std::vector<Question> out;
  auto const add = [&](SignId sign, Exposure const& exposure) {
    bool const is_asked =
        std::any_of(out.begin(), out.end(), [&](Question const& one) { return one.sign == sign; });
    if (!is_asked && may_ask(sign) && is_there_or_not(sign) && out.size() < limits_.lines_at_most)
      out.push_back({sign, 0, {}, exposure.see, {}, {exposure.care}});
  };
  for (auto const& exposure : result.judgement.exposures) {
    if (exposure.is_this != Truth::unknown) continue;
    for (auto const& substance : tables_.substances()) {
      auto const& pack = tables_.pack();
      if (!substance.root || pack.care[substance.care].taken != pack.care[exposure.care].taken)
        continue;
      for (auto const& step : tables_.steps(tables_.root(*substance.root)))
        if (step.kind == Tables::Step::Kind::leaf)
          add(first_to_ask(tables_.leaves()[step.detail].sign, result), exposure);
    }
  }
  return out;
}

// How much was swallowed: not known it counts as harmful, so the answer can only calm, and any vet
// asks for it.
std::vector<Question> Interview::amount_questions(Assessment const& result) const {
  std::vector<Question> out;
  for (auto const& exposure : result.judgement.exposures) {
    auto const amount = tables_.pack().care[exposure.care].taken;
    if (exposure.mg || !amount || !may_ask(*amount)) continue;
    if (!out.empty() && out.back().sign == *amount) continue;
    out.push_back({*amount, 0, {}, exposure.see, {}, {exposure.care}});
  }
  return out;
}

// What would hold back the alarms that set the tier, where all of them can be held back: what is
// there or not together, any other alone.
std::vector<Question> Interview::calming_questions(Assessment const& result) const {
  auto const& pack = tables_.pack();
  std::vector<Question> listed;
  std::vector<Question> alone;
  auto const sets_tier = [&](AlarmId id) { return pack[id].see == result.judgement.tier; };
  auto const& fired = result.judgement.fired;
  bool const stands_anyway = std::any_of(fired.begin(), fired.end(), [&](AlarmId id) {
    return sets_tier(id) && pack[id].unless() == nullptr;
  });
  if (stands_anyway) return {};
  for (auto const id : fired) {
    if (!sets_tier(id)) continue;
    std::vector<bool> tested(pack.signs.size());
    mark_tested_signs(pack, *pack[id].unless(), tested);
    for (std::uint32_t i = 0; i < tested.size(); ++i) {
      if (!tested[i] || !may_ask(SignId{i})) continue;
      auto const sign = first_to_ask(SignId{i}, result);
      auto& out = is_there_or_not(sign) ? listed : alone;
      bool const is_asked = std::any_of(out.begin(), out.end(),
                                        [&](Question const& one) { return one.sign == sign; });
      if (!is_asked && may_ask(sign)) out.push_back({sign, 0, {}, {}, {}});
    }
  }
  if (listed.size() > limits_.lines_at_most) listed.resize(limits_.lines_at_most);
  if (listed.empty() && !alone.empty()) listed.push_back(std::move(alone.front()));
  return listed;
}

// Where anything hangs on them: age, weight and breed also tell the size. Whether a weight is right
// that can hardly be comes first: it was just told.
std::vector<Question> Interview::patient_facts(Assessment const& result) const {
  std::vector<Question> out;
  if (may_ask(patient_sign::weight_confirmed) && doubt_of_weight(tables_.pack(), result.knowledge))
    out.push_back({patient_sign::weight_confirmed, 0, {}, {}, {}});
  bool const asks_size = !tables_.roots_of(patient_sign::size).empty();
  for (auto const sign : facts_of_the_patient) {
    bool const tells_size =
        sign == patient_sign::age || sign == patient_sign::weight || sign == patient_sign::breed;
    bool const is_for_doses = sign == patient_sign::weight && tables_.pack().doses_by_weight();
    bool const matters =
        !tables_.roots_of(sign).empty() || (asks_size && tells_size) || is_for_doses;
    if (matters && may_ask(sign)) out.push_back({sign, 0, {}, {}, {}});
  }
  return out;
}

// What alone could raise the tier first, by the tier that it reaches so; then the rest, by the tier
// that it could reach with others.
std::vector<Question> Interview::danger_questions(Assessment const& result) {
  std::vector<Question> out;
  danger_at_.assign(tables_.pack().signs.size(), -1);
  for (auto const& open : open_) add_danger(open, result, out);
  auto const is_left_over = [&](Question const& q) {
    auto const whole = tables_.pack()[q.sign].part_of;
    return whole && result.find(*whole) == nullptr;
  };
  for (auto& question : out) question.waits = !question.alone_reaches || is_left_over(question);
  // What itself reaches the tier stands before a whole of which only a part would: life threats
  // first.
  auto const reaches_by_part = [&](Question const& q) {
    auto const own = std::find_if(open_.begin(), open_.end(),
                                  [&](OpenQuestion const& open) { return open.sign == q.sign; });
    return own == open_.end() || own->itself_reaches != q.alone_reaches;
  };
  auto const rank = [&](Question const& q) {
    return std::tuple(q.waits, q.waits ? q.could_reach : q.alone_reaches, is_left_over(q),
                      !q.waits && reaches_by_part(q));
  };
  std::stable_sort(out.begin(), out.end(),
                   [&](Question const& a, Question const& b) { return rank(a) < rank(b); });
  return out;
}

// A whole that this reader cannot be asked is replaced by those of its parts that it can be.
void Interview::add_danger(OpenQuestion const& open, Assessment const& result,
                           std::vector<Question>& questions) {
  auto const& pack = tables_.pack();
  auto const hang_on = [&](SignId sign, TierId see) -> Question& {
    auto const asked = first_to_ask(sign, result);
    auto& at = danger_at_[index(asked)];
    if (at < 0) {
      at = static_cast<std::int32_t>(questions.size());
      questions.push_back({asked, 0, {}, see, {}});
    }
    auto& question = questions[static_cast<std::size_t>(at)];
    question.could_reach = std::min(*question.could_reach, see);
    if (auto const alone = open.alone_reaches)
      question.alone_reaches = std::min(question.alone_reaches.value_or(*alone), *alone);
    return question;
  };
  auto const add = [&](SignId sign, AlarmId alarm) {
    auto& question = hang_on(sign, pack[alarm].see);
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
    for (auto const& step : tables_.trigger_steps(alarm)) {
      if (step.kind != Tables::Step::Kind::leaf) continue;
      auto const sign = tables_.leaves()[step.detail].sign;
      if (may_ask(sign) && is_inside(sign)) add(sign, alarm);
    }
  }
  if (open.taken.empty() || !may_ask(open.sign)) return;
  auto& question = hang_on(open.sign, open.could_reach);
  for (auto const care : open.taken)
    if (std::find(question.taken.begin(), question.taken.end(), care) == question.taken.end())
      question.taken.push_back(care);
}

// By bits for the effort: first those to be asked alone, then those that tell enough, then the
// rest.
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
  auto const rank = [&](Question const& q) {
    return std::tuple(q.bits < limits_.least_bits, q.bits < limits_.alone_bits,
                      -q.bits / effort_s(q.sign));
  };
  std::stable_sort(out.begin(), out.end(),
                   [&](Question const& a, Question const& b) { return rank(a) < rank(b); });
  return out;
}

bool Interview::is_there_or_not(SignId sign) const {
  auto const& s = tables_.pack()[sign];
  return !s.of_the_patient && traits(s).takes_yes_or_no;
}

Screen Interview::patient_screen(std::vector<Question> const& facts) const {
  Screen out{Screen::Kind::patient, {facts.front()}};
  if (limits_.are_facts_joined && facts.front().sign != patient_sign::weight_confirmed) {
    out.questions = facts;
    return out;
  }
  if (facts.size() > 1 && facts[0].sign == patient_sign::sex &&
      facts[1].sign == patient_sign::neutered)
    out.questions.push_back(facts[1]);
  return out;
}

bool Interview::is_pressing_list(Screen const& danger) const {
  auto const& first = danger.questions.front();
  auto const& reached = first.waits ? first.could_reach : first.alone_reaches;
  return is_there_or_not(first.sign) && reached && tables_.pack()[*reached].within_s <= pressing_s;
}

// Those that are there or not together, those that wait apart from the others; what is answered
// otherwise stands alone, after them.
Screen Interview::danger_screen(std::vector<Question> const& questions) const {
  auto const& first = questions.front();
  auto const reached = [](Question const& q) { return q.waits ? q.could_reach : q.alone_reaches; };
  Screen out{Screen::Kind::danger, {}};
  bool has_highest = false;
  for (auto const& question : questions) {
    if (!is_there_or_not(question.sign) || question.waits != first.waits) continue;
    has_highest = has_highest || reached(question) == reached(first);
    if (out.questions.size() < limits_.lines_at_most) out.questions.push_back(question);
  }
  if (!has_highest) out.questions = {first};
  return out;
}

// Alone when it tells much; several together while too little is known to say anything, and when
// each tells little.
Screen Interview::telling_screen(std::vector<Question> const& questions,
                                 Assessment const& result) const {
  auto const& first = questions.front();
  Screen out{Screen::Kind::telling, {first}};
  bool const stands_alone = first.bits >= limits_.alone_bits && !result.judgement.nothing_told;
  if (stands_alone || !is_there_or_not(first.sign)) return out;
  bool const is_worth_it = first.bits >= limits_.least_bits;
  for (auto const& question : questions) {
    if (out.questions.size() == limits_.lines_at_most) break;
    if ((question.bits >= limits_.least_bits) != is_worth_it) continue;
    if (question.sign != first.sign && is_there_or_not(question.sign))
      out.questions.push_back(question);
  }
  return out;
}

}  // namespace flinch
