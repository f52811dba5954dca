#include "explain/ways_to_fire.hpp"

#include <algorithm>

#include "assess/evaluate.hpp"
#include "explain/telling_answers.hpp"

namespace flinch {
namespace {

using Way = std::vector<Wanted>;

// Of many ways only the shortest are followed further: conditions may have thousands.
constexpr std::size_t ways_followed = 24;

void shorten(std::vector<Way>& ways) {
  std::stable_sort(ways.begin(), ways.end(),
                   [](Way const& a, Way const& b) { return a.size() < b.size(); });
  if (ways.size() > ways_followed) ways.resize(ways_followed);
}

std::vector<Way> each_with_each(std::vector<Way> const& some, std::vector<Way> const& others) {
  std::vector<Way> out;
  for (auto const& one : some)
    for (auto const& other : others) {
      out.push_back(one);
      for (auto const& wanted : other)
        if (std::none_of(one.begin(), one.end(), [&](Wanted const& w) {
              return w.test == wanted.test && w.truth == wanted.truth;
            }))
          out.back().push_back(wanted);
    }
  shorten(out);
  return out;
}

std::vector<Way> ways(ConditionNode const& node, Truth wanted);

// The ways in which `needed` of the parts come out as wanted: part by part, for each number of
// them.
std::vector<Way> ways_of_some(ConditionNode const& node, std::size_t needed, Truth wanted) {
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

std::vector<Way> ways(ConditionNode const& node, Truth wanted) {
  if (node.truth == wanted) return {Way{}};
  auto const& condition = *node.condition;
  auto const parts = node.parts.size();
  bool const is_yes = wanted == Truth::yes;
  switch (condition.kind) {
    case Condition::Kind::test:
      return {Way{{condition.test, wanted}}};
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

// For each sign of the way, the one change whose answer makes all its tests come out as wanted.
std::optional<std::vector<Change>> changes_for(Tables const& tables,
                                               std::vector<Change> const& telling, Way const& way) {
  std::vector<Change> out;
  for (auto const& wanted : way) {
    auto const sign = wanted.test.sign;
    if (std::any_of(out.begin(), out.end(), [&](Change const& c) { return c.sign == sign; }))
      continue;
    auto const fits = [&](Change const& change) {
      return change.sign == sign && std::all_of(way.begin(), way.end(), [&](Wanted const& w) {
               return w.test.sign != sign ||
                      leaf_truth(tables, Tables::leaf_of(w.test), *change.answer) == w.truth;
             });
    };
    auto const found = std::find_if(telling.begin(), telling.end(), fits);
    if (found == telling.end()) return std::nullopt;
    out.push_back(*found);
  }
  return out;
}

}  // namespace

std::vector<WayToFire> possible_ways(Tables const& tables, Case const& dog,
                                     ConditionNode const& condition) {
  std::vector<WayToFire> out;
  auto const telling = telling_changes(tables, dog);
  for (auto& way : ways(condition, Truth::yes))
    if (auto changes = changes_for(tables, telling, way))
      out.push_back({std::move(way), std::move(*changes)});
  return out;
}

}  // namespace flinch
