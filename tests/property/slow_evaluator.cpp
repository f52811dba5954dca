#include "property/slow_evaluator.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "flinch/model/tested_signs.hpp"
#include "property/slow_taken.hpp"

namespace flinch::test {
namespace {

using Answers = std::map<SignId, Answer>;

// -1 false, 0 unknown, 1 true.
int kleene_and(int a, int b) { return a < b ? a : b; }
int kleene_or(int a, int b) { return a > b ? a : b; }

int is_there(Answer const& answer) {
  if (std::holds_alternative<bool>(answer)) return std::get<bool>(answer) ? 1 : -1;
  if (!std::holds_alternative<Findings>(answer)) return 0;
  auto const& f = std::get<Findings>(answer);
  return f.found_somewhere ? 1 : f.clear_everywhere ? -1 : 0;
}

int test_truth(Pack const& pack, Test const& test, Answers const& answers) {
  auto const found = answers.find(test.sign);
  if (found == answers.end()) return 0;
  auto const& answer = found->second;
  if (test.kind == Test::Kind::holds) return is_there(answer);
  if (test.kind == Test::Kind::at_site) {
    auto const& f = std::get<Findings>(answer);
    // Ancestors of the asked site, itself included: clear there means clear here.
    std::set<SiteId> above;
    for (std::optional<SiteId> s = test.mark.site; s; s = pack.sites[index(*s)].inside)
      above.insert(*s);
    for (auto const& mark : f.found)
      for (std::optional<SiteId> s = mark.site; s; s = pack.sites[index(*s)].inside)
        if (*s == test.mark.site && (test.mark.side == Side::any || test.mark.side == mark.side))
          return 1;
    if (f.clear_everywhere) return -1;
    std::set<Side> clear;
    for (auto const& mark : f.clear) {
      if (above.count(mark.site) == 0) continue;
      if (mark.side == Side::any) clear.insert({Side::left, Side::right});
      clear.insert(mark.side);
    }
    bool const both = clear.count(Side::left) != 0 && clear.count(Side::right) != 0;
    return (test.mark.side == Side::any ? both : clear.count(test.mark.side) != 0) ? -1 : 0;
  }
  if (test.kind == Test::Kind::is_value)
    return std::count(test.values.begin(), test.values.end(), std::get<Choice>(answer).index) > 0
               ? 1
               : -1;
  if (test.kind == Test::Kind::at_least)
    return std::get<Choice>(answer).index >= test.values.at(0) ? 1 : -1;
  if (test.kind == Test::Kind::in_group) {
    auto const& group = pack.group_breeds[index(test.group)];
    return std::count(group.begin(), group.end(), std::get<Choice>(answer).index) > 0 ? 1 : -1;
  }
  auto const value = std::get<double>(answer);
  if (value < test.low || value > test.high) return -1;
  if (value == test.low && !test.low_included) return -1;
  if (value == test.high && !test.high_included) return -1;
  return 1;
}

// Below `unless` hold `sure`, the answers that nothing clashes with.
int truth_of(Pack const& pack, Condition const& c, Answers const& answers, Answers const& sure) {
  auto const part_truth = [&](Condition const& part) {
    return truth_of(pack, part, answers, sure);
  };
  switch (c.kind) {
    case Condition::Kind::test:
      return test_truth(pack, c.test, answers);
    case Condition::Kind::meaning:
      return part_truth(pack.means[index(c.meaning)].condition);
    case Condition::Kind::negation:
      return -part_truth(c.parts.at(0));
    case Condition::Kind::unless:
      return truth_of(pack, c.parts.at(0), sure, sure) == 1 ? -1 : 1;
    case Condition::Kind::all: {
      int out = 1;
      for (auto const& part : c.parts) out = kleene_and(out, part_truth(part));
      return out;
    }
    case Condition::Kind::any: {
      int out = -1;
      for (auto const& part : c.parts) out = kleene_or(out, part_truth(part));
      return out;
    }
    case Condition::Kind::count: {
      // The or of the ands of all subsets of the needed size, by the definition of "at least".
      std::vector<int> truths;
      for (auto const& part : c.parts) truths.push_back(part_truth(part));
      int out = -1;
      for (unsigned subset = 0; subset < (1U << truths.size()); ++subset) {
        int all = 1;
        unsigned size = 0;
        for (std::size_t i = 0; i < truths.size(); ++i)
          if ((subset >> i & 1U) != 0) {
            all = kleene_and(all, truths[i]);
            ++size;
          }
        if (size >= c.needed) out = kleene_or(out, all);
      }
      return out;
    }
  }
  return 0;
}

int truth_of(Pack const& pack, Condition const& c, Answers const& answers) {
  return truth_of(pack, c, answers, answers);
}

// The size class is the breed's; without one the weight of a grown dog (a year on) tells it.
std::optional<Answer> size_of(Pack const& pack, Answers const& answers) {
  if (auto const breed = answers.find(patient_sign::breed); breed != answers.end())
    if (auto const size = pack.breeds.breeds[std::get<Choice>(breed->second).index].size)
      return Choice{*size};
  auto const age = answers.find(patient_sign::age);
  auto const weight = answers.find(patient_sign::weight);
  if (age == answers.end() || weight == answers.end() || !pack.size_by_weight) return std::nullopt;
  if (std::get<double>(age->second) < 1) return std::nullopt;
  for (std::uint32_t size = 0; size < pack.size_by_weight->size(); ++size)
    if (std::get<double>(weight->second) >= (*pack.size_by_weight)[size].low_kg &&
        std::get<double>(weight->second) < (*pack.size_by_weight)[size].high_kg)
      return Choice{size};
  return std::nullopt;
}

// What follows by meaning alone, to a fixed point.
Answers close(Pack const& pack, Case const& patient) {
  Answers answers;
  for (auto const& [sign, answer] : patient.answers) answers[sign] = answer;
  for (auto const& [sign, answer] : patient.answers)
    if (is_there(answer) == 1)
      for (auto whole = pack[sign].part_of; whole; whole = pack[*whole].part_of) {
        auto const known = answers.find(*whole);
        if (known != answers.end() && is_there(known->second) == 1) continue;
        if (pack[*whole].kind == AnswerKind::sites)
          answers[*whole] = Findings{true, false, {}, {}};
        else
          answers[*whole] = true;
      }
  if (answers.count(patient_sign::size) == 0)
    if (auto const size = size_of(pack, answers)) answers[patient_sign::size] = *size;
  for (bool changed = true; changed;) {
    changed = false;
    for (std::uint32_t i = 0; i < pack.signs.size(); ++i) {
      SignId const sign{i};
      if (answers.count(sign) != 0) continue;
      auto const& s = pack.signs[i];
      bool no = s.part_of && answers.count(*s.part_of) != 0 && is_there(answers[*s.part_of]) == -1;
      no = no || (s.applies_if && truth_of(pack, *s.applies_if, answers) == -1);
      if (!no) continue;
      changed = true;
      if (s.kind == AnswerKind::sites)
        answers[sign] = Findings{false, true, {}, {}};
      else if (s.kind == AnswerKind::steps)
        answers[sign] = Choice{0};
      else
        answers[sign] = false;
    }
  }
  return answers;
}

bool says_that_it_is_there(Answer const& answer) {
  if (auto const* choice = std::get_if<Choice>(&answer)) return choice->index > 0;
  return is_there(answer) == 1;
}

// What is told twice and differently: a yes to a part and a no to its whole, an answer to what
// cannot apply, a site found and clear. The signs of both sides.
std::set<SignId> clashing(Pack const& pack, Case const& patient, Answers const& closed) {
  std::set<SignId> out;
  Answers given;
  for (auto const& [sign, answer] : patient.answers) given[sign] = answer;
  for (auto const& [id, answer] : closed) {
    auto const& sign = pack[id];
    if (!sign.applies_if || !says_that_it_is_there(answer) ||
        truth_of(pack, *sign.applies_if, closed) != -1)
      continue;
    out.insert(id);
    std::vector<bool> gates(pack.signs.size());
    mark_tested_signs(pack, *sign.applies_if, gates);
    for (std::uint32_t i = 0; i < gates.size(); ++i)
      if (gates[i]) out.insert(SignId{i});
  }
  for (auto const& [id, answer] : given) {
    auto const& sign = pack[id];
    if (is_there(answer) == 1)
      for (auto whole = sign.part_of; whole; whole = pack[*whole].part_of)
        if (given.count(*whole) != 0 && is_there(given[*whole]) == -1) out.insert({id, *whole});
    if (auto const* findings = std::get_if<Findings>(&answer))
      for (auto const& found : findings->found)
        for (auto const& clear : findings->clear) {
          bool is_inside = false;
          for (std::optional<SiteId> s = found.site; s; s = pack.sites[index(*s)].inside)
            is_inside = is_inside || *s == clear.site;
          if (is_inside && (clear.side == Side::any || clear.side == found.side)) out.insert(id);
        }
  }
  return out;
}

// Without what clashes, and what may follow from that.
Answers sure_of(Pack const& pack, Case const& patient, Answers const& closed) {
  auto out = closed;
  auto doubtful = clashing(pack, patient, closed);
  for (std::size_t before = 0; before != doubtful.size();) {
    before = doubtful.size();
    for (auto const& [id, answer] : closed) {
      bool const is_given = std::any_of(patient.answers.begin(), patient.answers.end(),
                                        [&, s = id](auto const& one) { return one.first == s; });
      auto const& sign = pack[id];
      // A yes to a part takes the place of the no that was given to its whole; both clash.
      if (is_given) continue;
      bool hangs = sign.part_of && doubtful.count(*sign.part_of) != 0;
      for (auto const other : doubtful) hangs = hangs || pack[other].part_of == id;
      if (id == patient_sign::size)
        for (auto const other : {patient_sign::age, patient_sign::weight, patient_sign::breed})
          hangs = hangs || doubtful.count(other) != 0;
      std::vector<bool> gates(pack.signs.size());
      if (sign.applies_if) mark_tested_signs(pack, *sign.applies_if, gates);
      for (auto const other : doubtful) hangs = hangs || gates[index(other)];
      if (hangs) doubtful.insert(id);
    }
  }
  for (auto const id : doubtful) out.erase(id);
  return out;
}

// Whether an answer brings a condition nearer to holding by some test on its sign: one that holds
// and is wanted, or one that fails under a `not`.
bool serves(Pack const& pack, Condition const& c, SignId sign, Answer const& answer, bool wanted) {
  if (c.kind == Condition::Kind::test)
    return c.test.sign == sign && test_truth(pack, c.test, {{sign, answer}}) == (wanted ? 1 : -1);
  if (c.kind == Condition::Kind::meaning)
    return serves(pack, pack.means[index(c.meaning)].condition, sign, answer, wanted);
  if (c.kind == Condition::Kind::unless) return false;  // it can only calm
  bool const wanted_below = wanted != (c.kind == Condition::Kind::negation);
  return std::any_of(c.parts.begin(), c.parts.end(), [&](Condition const& part) {
    return serves(pack, part, sign, answer, wanted_below);
  });
}

// Whether an answer tells of something that is there, as docs/ranking.md has it.
bool tells(Pack const& pack, SignId sign, Answer const& answer) {
  auto const& s = pack[sign];
  if (s.of_the_patient) return false;
  if (std::holds_alternative<bool>(answer)) return std::get<bool>(answer);
  if (std::holds_alternative<Findings>(answer)) return std::get<Findings>(answer).found_somewhere;
  if (s.kind == AnswerKind::steps) return std::get<Choice>(answer).index > 0;
  for (auto const& care : pack.care)
    if (care.taken == sign && std::get<double>(answer) > 0) return true;
  bool out = false;
  for (auto const& rule : pack.rules)
    out = out || (rule.condition && serves(pack, *rule.condition, sign, answer, true));
  for (auto const& alarm : pack.alarms)
    out = out || serves(pack, alarm.condition, sign, answer, true);
  return out;
}

std::optional<std::size_t> urgent(std::optional<std::size_t> a, std::optional<std::size_t> b) {
  if (!a) return b;
  if (!b) return a;
  return std::min(*a, *b);
}

}  // namespace

int slow_truth(Pack const& pack, Condition const& condition,
               std::map<SignId, Answer> const& answers) {
  return truth_of(pack, condition, answers);
}

std::map<SignId, Answer> slow_consequences(Pack const& pack, Case const& patient) {
  return close(pack, patient);
}

namespace {

struct Masses {
  std::vector<long double> mass;  ///< of each cause
  long double total = 0;          ///< with none of the listed
};

// Whether the rule asks for no more than that the sign is there.
bool is_presence(Rule const& rule) {
  if (!rule.condition || rule.condition->kind != Condition::Kind::test) return false;
  auto const& test = rule.condition->test;
  return test.kind == Test::Kind::holds ||
         (test.kind == Test::Kind::at_least && test.values.at(0) == 1);
}

// Base times evidence; `silent` are the signs that nobody asked for or told of.
Masses weigh(Pack const& pack, Answers const& answers, std::set<SignId> const& silent) {
  auto const hold = [&](double frequency) {
    return static_cast<long double>(std::min(std::max(frequency, pack.hold_low), pack.hold_high));
  };

  // Weight of each rule for each cause it names.
  std::map<std::pair<std::size_t, std::size_t>, long double> weights;  // (cause, rule)
  for (std::size_t r = 0; r < pack.rules.size(); ++r) {
    auto const& rule = pack.rules[r];
    for (auto const& entry : rule.entries) {
      auto const key = std::pair(index(entry.cause), r);
      if (rule.condition) {
        auto const p = hold(entry.frequencies.at(0));
        auto const u = hold(rule.usual.at(0));
        auto const truth = truth_of(pack, *rule.condition, answers);
        if (truth == 1) weights[key] = std::log(p / u);
        if (truth == -1) weights[key] = std::log((1 - p) / (1 - u));
        if (is_presence(rule) && silent.count(rule.condition->test.sign) != 0) {
          auto const m = static_cast<long double>(*pack[rule.condition->test.sign].mentioned);
          weights[key] = std::log((1 - m * p) / (1 - m * u));
        }
        continue;
      }
      for (std::size_t band = 0; band < rule.bands.size(); ++band)
        if (test_truth(pack, rule.bands[band].test, answers) == 1)
          weights[key] = std::log(hold(entry.frequencies.at(band)) / hold(rule.usual.at(band)));
    }
  }
  for (auto const& overlap : pack.overlaps)
    for (std::size_t cause = 0; cause < pack.causes.size(); ++cause)
      for (bool const positive : {true, false}) {
        std::vector<long double*> members;
        for (auto const rule : overlap.rules)
          if (auto const found = weights.find({cause, index(rule)});
              found != weights.end() && (found->second > 0) == positive)
            members.push_back(&found->second);
        std::stable_sort(members.begin(), members.end(),
                         [](auto const* a, auto const* b) { return std::abs(*a) > std::abs(*b); });
        long double share = 1;
        for (auto* member : members) {
          *member *= share;
          share *= overlap.share;
        }
      }

  Masses out{{}, pack.unlisted};
  for (std::size_t cause = 0; cause < pack.causes.size(); ++cause) {
    long double weight = pack.causes[cause].base;
    for (auto const& [key, w] : weights)
      if (key.first == cause) weight *= std::exp(w);
    out.mass.push_back(weight);
    out.total += weight;
  }
  return out;
}

}  // namespace

SlowResult evaluate_slowly(Pack const& pack, Case const& patient) {
  SlowResult out;
  auto const answers = close(pack, patient);
  auto const sure = sure_of(pack, patient, answers);
  auto const [mass, total] = weigh(pack, answers, {});

  // What was not mentioned bears on the ranking alone.
  std::set<SignId> silent;
  for (std::uint32_t i = 0; i < pack.signs.size() && !patient.came_for.empty(); ++i)
    if (pack.signs[i].mentioned && answers.count(SignId{i}) == 0) silent.insert(SignId{i});
  for (auto const sign : patient.cannot_tell) silent.erase(sign);
  auto const ranked = weigh(pack, answers, silent);
  for (std::size_t cause = 0; cause < pack.causes.size(); ++cause)
    out.posterior[pack.causes[cause].name] = ranked.mass[cause] / ranked.total;
  out.posterior[""] = pack.unlisted / ranked.total;

  for (auto const& [sign, answer] : patient.answers)
    if (tells(pack, sign, answer)) ++out.told_signs;

  for (std::size_t tier = 0; tier < pack.tiers.size(); ++tier) {
    long double chance = 0;
    for (std::size_t cause = 0; cause < pack.causes.size(); ++cause)
      if (index(pack.causes[cause].see) <= tier) chance += mass[cause] / total;
    auto const& harm = pack.tiers[tier].harm;
    auto const threshold = harm ? 1.0L / (1.0L + static_cast<long double>(*harm)) : 0.0L;
    if (harm) out.nearest_threshold = std::min(out.nearest_threshold, std::abs(chance - threshold));
    if (chance >= threshold && !out.ranking_tier && out.told_signs > 0) out.ranking_tier = tier;
  }
  std::optional<std::size_t> possible;
  for (auto const& alarm : pack.alarms) {
    auto const truth = truth_of(pack, alarm.condition, answers, sure);
    out.alarms[alarm.name] = truth;
    if (truth == 1) out.alarm_tier = urgent(out.alarm_tier, index(alarm.see));
    if (truth >= 0) possible = urgent(possible, index(alarm.see));
  }
  auto const taken = weigh_taken_slowly(
      pack, answers, std::set<SignId>(patient.cannot_tell.begin(), patient.cannot_tell.end()));
  out.taken = taken.counted;
  out.alarm_tier = urgent(out.alarm_tier, taken.tier);
  possible = urgent(possible, taken.could_reach);
  out.ceiling = urgent(urgent(out.alarm_tier, out.ranking_tier), possible);
  return out;
}

}  // namespace flinch::test
