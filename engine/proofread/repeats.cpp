// Rules that count one answer twice.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "flinch/proofread/proofread.hpp"
#include "proofread/remarks.hpp"
#include "proofread/rule_outcomes.hpp"

namespace flinch {
namespace {

constexpr std::size_t most_tests_tried = 20000;  // over all combinations, for one pair of rules

class Repeats {
 public:
  Repeats(Tables const& tables, Remarks& remarks)
      : tables_(tables), pack_(tables.pack()), remarks_(remarks) {
    outcomes_.reserve(pack_.rules.size());
    for (auto const& rule : pack_.rules) outcomes_.emplace_back(pack_, rule);
  }

  void find() {
    std::vector<std::vector<std::uint32_t>> rules_of_sign(pack_.signs.size());
    for (std::uint32_t later = 0; later < outcomes_.size(); ++later) {
      std::set<std::uint32_t> earlier;
      for (auto const sign : outcomes_[later].signs()) {
        auto& others = rules_of_sign[index(sign)];
        earlier.insert(others.begin(), others.end());
        others.push_back(later);
      }
      for (auto const other : earlier) compare(RuleId{other}, RuleId{later});
    }
  }

 private:
  // A cause that both rules name, with the place of each entry.
  struct Common {
    CauseId cause{};
    std::size_t first = 0;
    std::size_t second = 0;
  };

  void compare(RuleId first, RuleId second) {
    auto const overlap = tables_.overlap_of(first);
    if (overlap >= 0 && overlap == tables_.overlap_of(second)) return;
    auto const common = common_causes(first, second);
    if (common.empty()) return;
    auto const& a = outcomes_[index(first)];
    auto const& b = outcomes_[index(second)];
    if (pack_[first].condition && pack_[second].condition) {
      auto const tie = tie_of(a, b);
      if (tie == Tie::same) return report_same(first, second, common);
      if (tie == Tie::opposite) return report_opposite(first, second, common);
    }
    if (a.signs().size() == 1 && a.signs() == b.signs()) compare_answers(first, second, common);
  }

  [[nodiscard]] std::vector<Common> common_causes(RuleId first, RuleId second) const {
    std::vector<Common> out;
    auto const& a = pack_[first].entries;
    auto const& b = pack_[second].entries;
    for (std::size_t i = 0; i < a.size(); ++i)
      for (std::size_t j = 0; j < b.size(); ++j)
        if (a[i].cause == b[j].cause) out.push_back({a[i].cause, i, j});
    return out;
  }

  enum class Tie { none, same, opposite };

  [[nodiscard]] Tie tie_of(RuleOutcomes const& a, RuleOutcomes const& b) const {
    auto conditions = a.conditions();
    conditions.push_back(b.conditions().front());
    Worlds worlds(pack_, conditions);
    if (!worlds.start(most_tests_tried)) return Tie::none;
    bool same = true;
    bool opposite = true;
    do {
      (worlds.holds(*conditions[0]) == worlds.holds(*conditions[1]) ? opposite : same) = false;
    } while ((same || opposite) && worlds.next());
    return same ? Tie::same : opposite ? Tie::opposite : Tie::none;
  }

  [[nodiscard]] double weight(RuleId rule, std::size_t entry, std::uint32_t outcome) const {
    return tables_.weight(tables_.entries(rule)[entry], outcome);
  }

  void report_same(RuleId first, RuleId second, std::vector<Common> const& common) {
    std::vector<CauseId> moved;
    for (auto const& c : common)
      if (weight(first, c.first, 0) * weight(second, c.second, 0) > 0) moved.push_back(c.cause);
    if (moved.empty()) return;
    report(Code::said_twice, first, second,
           fmt::format("rule `{}` is true exactly when `{}` is, and both move {} the same way",
                       pack_[second].name, pack_[first].name, names(moved)));
  }

  void report_opposite(RuleId first, RuleId second, std::vector<Common> const& common) {
    std::vector<CauseId> named;
    for (auto const& c : common) named.push_back(c.cause);
    report(Code::opposite_twice, first, second,
           fmt::format("rule `{}` is true exactly when `{}` is false, and both name {}",
                       pack_[second].name, pack_[first].name, names(named)));
  }

  // Both hang on the same one sign: some answer to it may move a cause through each of them.
  void compare_answers(RuleId first, RuleId second, std::vector<Common> const& common) {
    auto const& a = outcomes_[index(first)];
    auto const& b = outcomes_[index(second)];
    auto conditions = a.conditions();
    for (auto const* condition : b.conditions()) conditions.push_back(condition);
    Worlds worlds(pack_, conditions);
    if (!worlds.start(most_tests_tried)) return;
    bool const is_by_site = traits(pack_[a.signs().front()]).has_places;
    std::set<CauseId> moved;
    do {
      auto const in_a = a.in(worlds);
      auto const in_b = b.in(worlds);
      if (!in_a || !in_b) continue;
      // Two places found are two findings, however alike the signs.
      if (is_by_site && !is_nested(a, b)) return;
      for (auto const& c : common) {
        auto const x = weight(first, c.first, *in_a);
        auto const y = weight(second, c.second, *in_b);
        auto const least = std::log(telling_factor);
        if (std::min(std::abs(x), std::abs(y)) >= least && x * y > 0) moved.insert(c.cause);
      }
    } while (worlds.next());
    if (moved.empty()) return;
    report(Code::same_sign_twice, first, second,
           fmt::format("one answer about `{}` counts in rules `{}` and `{}`, both for {}",
                       pack_[a.signs().front()].name, pack_[first].name, pack_[second].name,
                       names({moved.begin(), moved.end()})));
  }

  // Whether one of the conditions cannot hold without the other.
  [[nodiscard]] bool is_nested(RuleOutcomes const& a, RuleOutcomes const& b) const {
    std::vector<Condition const*> const conditions = {a.conditions().front(),
                                                      b.conditions().front()};
    Worlds worlds(pack_, conditions);
    if (!worlds.start(most_tests_tried)) return false;
    bool first_implies = true;
    bool second_implies = true;
    do {
      bool const x = worlds.holds(*conditions[0]);
      bool const y = worlds.holds(*conditions[1]);
      first_implies = first_implies && (!x || y);
      second_implies = second_implies && (!y || x);
    } while (worlds.next());
    return first_implies || second_implies;
  }

  [[nodiscard]] std::string names(std::vector<CauseId> const& causes) const {
    std::string out;
    for (auto const cause : causes)
      out += fmt::format("{}`{}`", out.empty() ? "" : ", ", pack_[cause].name);
    return out;
  }

  void report(Code code, RuleId first, RuleId second, std::string what) {
    auto const& a = pack_[first];
    auto const& b = pack_[second];
    remarks_
        .add(code, b.at, {a.at, b.at}, std::move(what),
             "one answer weighs twice, as if two had been given",
             "take the cause out of one of the rules, or let them share an `overlap`")
        .notes.push_back({fmt::format("rule `{}` is here", a.name), a.at});
  }

  Tables const& tables_;
  Pack const& pack_;
  Remarks& remarks_;
  std::vector<RuleOutcomes> outcomes_;
};

}  // namespace

void find_repeats(Tables const& tables, Remarks& remarks) { Repeats(tables, remarks).find(); }

}  // namespace flinch
