#include "explain/ways_to_fire.hpp"

#include <algorithm>
#include <set>

#include "explain/fitting_answer.hpp"

namespace flinch {
namespace {

/// Tests with the truths that they must have, those that have them already among them: an answer
/// that is changed must keep these.
using Way = std::vector<Wanted>;

// Of many ways only those with the fewest changes are followed further: conditions may have
// thousands.
constexpr std::size_t ways_followed = 64;

class Ways {
 public:
  Ways(Tables const& tables, Case const& dog, Assessment const& result, Dog facts)
      : tables_(tables), pack_(tables.pack()), dog_(dog), result_(result), facts_(facts) {}

  std::vector<WayToFire> find(ConditionNode const& condition) {
    std::vector<WayToFire> out;
    for (auto const& way : ways(condition, Truth::yes)) {
      auto changes = changes_for(way);
      if (!changes) continue;
      WayToFire one{std::move(*changes)};
      if (std::find(out.begin(), out.end(), one) == out.end()) out.push_back(std::move(one));
    }
    std::stable_sort(out.begin(), out.end(), [](WayToFire const& a, WayToFire const& b) {
      return a.changes.size() < b.changes.size();
    });
    return out;
  }

 private:
  [[nodiscard]] bool is_so(Wanted const& wanted) const {
    return test_truth(tables_, result_, wanted.test) == wanted.truth;
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

  [[nodiscard]] std::optional<Answer> answer_for(Way const& way, SignId sign) const {
    if (facts_ == Dog::as_it_is && pack_[sign].of_the_dog && present(sign) != nullptr)
      return std::nullopt;
    Way tests;
    for (auto const& wanted : way)
      if (wanted.test.sign == sign) tests.push_back(wanted);
    return fitting_answer(tables_, sign, present(sign), tests);
  }

  [[nodiscard]] bool is_possible(Way const& way) const {
    auto const signs = changed(way);
    return std::all_of(signs.begin(), signs.end(),
                       [&](SignId sign) { return answer_for(way, sign).has_value(); });
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
      auto const applies = condition_tree(tables_, result_, *pack_[*at].applies_if);
      if (applies.truth == Truth::no) out = each_with_each(out, ways(applies, Truth::yes));
    }
    return out;
  }

  // One change a sign; and where a part becomes yes and its whole was no, or a whole no and a part
  // of it was yes, that other answer as well.
  [[nodiscard]] std::optional<std::vector<Change>> changes_for(Way const& way) const {
    std::vector<Change> out;
    for (auto const sign : changed(way)) {
      auto answer = answer_for(way, sign);
      if (!answer) return std::nullopt;
      out.push_back({sign, std::move(answer)});
    }
    for (std::size_t i = 0; i < out.size(); ++i) {
      auto const* yes = std::get_if<bool>(&*out[i].answer);
      if (yes == nullptr) continue;
      if (*yes) {
        if (auto const whole = pack_[out[i].sign].part_of) follow(*whole, true, out);
      } else {
        for (auto const part : tables_.parts_of(out[i].sign)) follow(SignId{part}, false, out);
      }
    }
    return out;
  }

  // The same answer to another sign, if the other one was given.
  void follow(SignId sign, bool yes, std::vector<Change>& out) const {
    bool const is_changed =
        std::any_of(out.begin(), out.end(), [&](Change const& c) { return c.sign == sign; });
    bool const is_other = std::any_of(
        dog_.answers.begin(), dog_.answers.end(),
        [&](auto const& answer) { return answer.first == sign && answer.second == Answer(!yes); });
    auto const* known = present(sign);
    bool const passes_on = known != nullptr && known->index() == 0 && std::get<bool>(*known) != yes;
    if (is_changed) return;
    if (is_other) {
      out.push_back({sign, yes});
    } else if (passes_on) {  // what follows by itself: look at what it follows from
      if (yes) {
        if (auto const whole = pack_[sign].part_of) follow(*whole, yes, out);
      } else {
        for (auto const part : tables_.parts_of(sign)) follow(SignId{part}, yes, out);
      }
    }
  }

  Tables const& tables_;
  Pack const& pack_;
  Case const& dog_;
  Assessment const& result_;
  Dog facts_;
};

}  // namespace

std::vector<WayToFire> possible_ways(Tables const& tables, Case const& dog,
                                     Assessment const& result, ConditionNode const& condition,
                                     Dog facts) {
  return Ways(tables, dog, result, facts).find(condition);
}

}  // namespace flinch
