#include "explain/ways_to_fire.hpp"

#include <algorithm>

#include "explain/fitting_answer.hpp"
#include "flinch/model/yes_and_no.hpp"

namespace flinch {
namespace {

/// Tests with the truths that they must have, those that have them already among them: an answer
/// that is changed must keep these.
using Way = std::vector<Wanted>;

// Of many ways only those with the fewest changes are followed further: conditions may have
// thousands.
constexpr std::size_t ways_followed = 64;
// Two answers that fit alike may differ in what follows from them, so some of each sign are tried.
constexpr std::size_t answers_tried = 8;
constexpr std::size_t combinations_tried = 32;

class Ways {
 public:
  Ways(Tables const& tables, Case const& patient, Assessment const& result, Patient facts)
      : tables_(tables),
        pack_(tables.pack()),
        patient_(patient),
        result_(result),
        evaluator_(tables, result.knowledge),
        facts_(facts) {}

  std::vector<std::vector<WayToFire>> find(ConditionNode const& condition) {
    std::vector<std::vector<WayToFire>> out;
    for (auto const& way : ways(condition, Truth::yes)) out.push_back(answered(way));
    return out;
  }

 private:
  [[nodiscard]] bool is_so(Wanted const& wanted) const {
    return evaluator_.truth(wanted.test) == wanted.truth;
  }

  [[nodiscard]] Answer const* present(SignId sign) const {
    auto const* known = result_.find(sign);
    return known == nullptr ? nullptr : &known->answer;
  }

  // Signs whose answer the way changes, each once, in the order of the way.
  [[nodiscard]] std::vector<SignId> changed(Way const& way) const {
    std::vector<SignId> out;
    for (auto const& wanted : way)
      if (!is_so(wanted) && std::find(out.begin(), out.end(), wanted.test.sign) == out.end())
        out.push_back(wanted.test.sign);
    return out;
  }

  [[nodiscard]] std::vector<Answer> answers_for(Way const& way, SignId sign,
                                                std::size_t most) const {
    if (facts_ == Patient::as_it_is && pack_[sign].of_the_patient && present(sign) != nullptr)
      return {};
    Way tests;
    for (auto const& wanted : way)
      if (wanted.test.sign == sign) tests.push_back(wanted);
    return fitting_answers(tables_, sign, present(sign), tests, most);
  }

  [[nodiscard]] bool is_possible(Way const& way) const {
    auto const signs = changed(way);
    return std::all_of(signs.begin(), signs.end(),
                       [&](SignId sign) { return !answers_for(way, sign, 1).empty(); });
  }

  void shorten(std::vector<Way>& ways) const {
    std::vector<std::pair<std::size_t, Way>> by_changes;
    for (auto& way : ways) by_changes.emplace_back(changed(way).size(), std::move(way));
    std::stable_sort(by_changes.begin(), by_changes.end(), [](auto const& a, auto const& b) {
      return a.first != b.first ? a.first < b.first : a.second.size() < b.second.size();
    });
    if (by_changes.size() > ways_followed) by_changes.resize(ways_followed);
    ways.clear();
    for (auto& [changes, way] : by_changes) ways.push_back(std::move(way));
  }

  [[nodiscard]] std::vector<Way> each_with_each(std::vector<Way> const& some,
                                                std::vector<Way> const& others) const {
    std::vector<Way> out;
    for (auto const& one : some)
      for (auto const& other : others) {
        auto joined = one;
        for (auto const& wanted : other)
          if (std::find(one.begin(), one.end(), wanted) == one.end()) joined.push_back(wanted);
        if (is_possible(joined)) out.push_back(std::move(joined));
      }
    shorten(out);
    return out;
  }

  // The ways in which `needed` of the parts come out as wanted: part by part, for each number of
  // them.
  [[nodiscard]] std::vector<Way> ways_of_some(ConditionNode const& node, std::size_t needed,
                                              Truth wanted) const {
    std::vector<std::vector<Way>> of(needed + 1);
    of[0] = {Way{}};
    for (auto const& part : node.parts) {
      auto const here = ways(part, wanted);
      for (auto count = needed; count > 0; --count) {
        for (auto& way : each_with_each(of[count - 1], here)) of[count].push_back(std::move(way));
        shorten(of[count]);
      }
    }
    return of[needed];
  }

  [[nodiscard]] std::vector<Way> ways(ConditionNode const& node, Truth wanted) const {
    auto const& condition = *node.condition;
    auto const parts = node.parts.size();
    bool const is_yes = wanted == Truth::yes;
    switch (condition.kind) {
      case Condition::Kind::test:
        return ways_of_test({condition.test, wanted});
      case Condition::Kind::meaning:
        return ways(node.parts.front(), wanted);
      case Condition::Kind::negation:
        return ways(node.parts.front(), negation(wanted));
      case Condition::Kind::unless:  // what is not known to hold may stay as it is
        if (is_yes && node.truth == Truth::yes) return {Way{}};
        return ways(node.parts.front(), negation(wanted));
      case Condition::Kind::all:
        return ways_of_some(node, is_yes ? parts : 1, wanted);
      case Condition::Kind::any:
        return ways_of_some(node, is_yes ? 1 : parts, wanted);
      case Condition::Kind::count:
        return ways_of_some(node, is_yes ? condition.needed : parts - condition.needed + 1, wanted);
    }
    return {};
  }

  // A sign that cannot apply must first be made to: it, or the whole that it is part of.
  [[nodiscard]] std::vector<Way> ways_of_test(Wanted const& wanted) const {
    std::vector<Way> out{Way{wanted}};
    if (is_so(wanted)) return out;
    if (!is_possible(out.front())) return {};
    for (std::optional<SignId> at = wanted.test.sign; at; at = pack_[*at].part_of) {
      if (!pack_[*at].applies_if) continue;
      auto const applies = evaluator_.tree(*pack_[*at].applies_if);
      if (applies.truth == Truth::no) out = each_with_each(out, ways(applies, Truth::yes));
    }
    return out;
  }

  // Signs that the way does not change, but whose answer follows from others and may be lost with
  // them.
  [[nodiscard]] std::vector<SignId> followed(Way const& way,
                                             std::vector<SignId> const& apart) const {
    std::vector<SignId> out;
    for (auto const& wanted : way) {
      auto const sign = wanted.test.sign;
      auto const* known = result_.find(sign);
      bool const is_told =
          known == nullptr || known->origin == Origin::given || pack_[sign].of_the_patient;
      if (!is_told && std::find(apart.begin(), apart.end(), sign) == apart.end() &&
          std::find(out.begin(), out.end(), sign) == out.end())
        out.push_back(sign);
    }
    return out;
  }

  // One change a sign, in all combinations of the answers that fit.
  [[nodiscard]] std::vector<WayToFire> answered(Way const& way) const {
    auto signs = changed(way);
    for (auto const sign : followed(way, signs)) signs.push_back(sign);
    std::vector<WayToFire> out(1);
    for (auto const sign : signs) {
      auto const answers = answers_for(way, sign, answers_tried);
      std::vector<WayToFire> longer;
      for (auto const& one : out)
        for (auto const& answer : answers) {
          if (longer.size() == combinations_tried) break;
          longer.push_back(one);
          longer.back().changes.push_back({sign, answer});
        }
      out = std::move(longer);
    }
    for (auto& one : out) follow_families(one.changes);
    return out;
  }

  // Where a part becomes yes and its whole was no, or a whole no and a part of it was yes, that
  // other answer changes as well.
  void follow_families(std::vector<Change>& changes) const {
    for (std::size_t i = 0; i < changes.size(); ++i) {
      auto const sign = changes[i].sign;
      auto const& answer = *changes[i].answer;
      bool const is_yes = says_yes(answer);
      bool const is_no = says_no(answer);
      if (is_yes) {
        if (auto const whole = pack_[sign].part_of) follow(*whole, true, changes);
      } else if (is_no) {
        for (auto const part : tables_.parts_of(sign)) follow(SignId{part}, false, changes);
      }
    }
  }

  // The same answer to another sign, if the other one was given.
  void follow(SignId sign, bool yes, std::vector<Change>& out) const {
    bool const is_changed =
        std::any_of(out.begin(), out.end(), [&](Change const& c) { return c.sign == sign; });
    auto const is_opposite = [&](Answer const& answer) {
      return yes ? says_no(answer) : says_yes(answer);
    };
    bool const is_other = std::any_of(
        patient_.answers.begin(), patient_.answers.end(),
        [&](auto const& answer) { return answer.first == sign && is_opposite(answer.second); });
    if (is_changed) return;
    if (is_other) {
      out.push_back({sign, plain_answer(pack_[sign], yes)});
    } else if (yes) {  // what says the opposite may stand further on
      if (auto const whole = pack_[sign].part_of) follow(*whole, yes, out);
    } else {
      for (auto const part : tables_.parts_of(sign)) follow(SignId{part}, yes, out);
    }
  }

  Tables const& tables_;
  Pack const& pack_;
  Case const& patient_;
  Assessment const& result_;
  Evaluator evaluator_;
  Patient facts_;
};

}  // namespace

std::vector<std::vector<WayToFire>> possible_ways(Tables const& tables, Case const& patient,
                                                  Assessment const& result,
                                                  ConditionNode const& condition, Patient facts) {
  return Ways(tables, patient, result, facts).find(condition);
}

}  // namespace flinch
