// Figures of two rules that cannot both be right: what includes something is at least as frequent
// as that, and answers that exclude each other share one whole.
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "model/walk.hpp"
#include "proofread/remarks.hpp"

namespace flinch {
namespace {

// Differences below this are rounding in what was published.
constexpr double as_printed = 0.005;

class ImpossiblePairs {
 public:
  ImpossiblePairs(Pack const& pack, Remarks& remarks) : pack_(pack), remarks_(remarks) {}

  void find() {
    for (auto const& rule : pack_.rules)
      if (rule.condition) rules_of_[first_sign(*rule.condition)].push_back(&rule);
    for (auto const& rule : pack_.rules) {
      if (!rule.condition) continue;
      compare_with_wholes(rule);
      compare_with_parts(rule);
      for (auto const* other : rules_of_[first_sign(*rule.condition)])
        if (&rule < other) compare_exclusive(rule, *other);
    }
  }

 private:
  [[nodiscard]] SignId first_sign(Condition const& condition) const {
    std::optional<SignId> out;
    walk_tests(pack_, condition, [&](Condition const& leaf, Polarity) {
      if (!out) out = leaf.test.sign;
    });
    return *out;
  }

  void compare_with_wholes(Rule const& rule) {
    if (!is_sign(*rule.condition)) return;
    for (auto whole = pack_[rule.condition->test.sign].part_of; whole;
         whole = pack_[*whole].part_of)
      for (auto const* other : rules_of_[*whole])
        if (is_sign(*other->condition))
          compare_included(rule, *other, "a part cannot be more frequent than its whole");
  }

  void compare_with_parts(Rule const& rule) {
    if (rule.condition->kind != Condition::Kind::all) return;
    for (auto const& part : rule.condition->parts)
      for (auto const* other : rules_of_[first_sign(part)])
        if (*other->condition == part)
          compare_included(
              rule, *other,
              "a condition joined by `and` cannot be more frequent than one of its parts");
  }

  [[nodiscard]] static bool is_sign(Condition const& c) {
    return c.kind == Condition::Kind::test && c.test.kind == Test::Kind::holds;
  }

  // How often a rule's condition holds with a cause (without one: usually), and where that stands.
  struct Figure {
    double frequency = 0;
    Place at{};
    bool is_named = true;
  };
  [[nodiscard]] static Figure figure(Rule const& rule, std::optional<CauseId> cause) {
    for (auto const& entry : rule.entries)
      if (entry.cause == cause) return {entry.frequencies.front(), entry.at, true};
    return {rule.usual.front(), rule.at, !cause};
  }

  [[nodiscard]] static std::vector<std::optional<CauseId>> causes_of(Rule const& a, Rule const& b) {
    std::set<CauseId> named;
    for (auto const* rule : {&a, &b})
      for (auto const& entry : rule->entries) named.insert(entry.cause);
    std::vector<std::optional<CauseId>> out{std::nullopt};
    out.insert(out.end(), named.begin(), named.end());
    return out;
  }

  void compare_included(Rule const& narrow, Rule const& wide, std::string const& why) {
    for (auto const cause : causes_of(narrow, wide)) {
      auto const less = figure(narrow, cause);
      auto const more = figure(wide, cause);
      if (less.frequency > more.frequency + as_printed)
        report(narrow, less, wide, more, cause, "more than", why,
               "raise the second figure, or lower the first");
    }
  }

  // Two rules over values of one sign that no patient has both of.
  void compare_exclusive(Rule const& a, Rule const& b) {
    if (!is_value(*a.condition) || !is_value(*b.condition)) return;
    auto const& one = a.condition->test;
    auto const& other = b.condition->test;
    if (one.sign != other.sign) return;
    for (auto const value : one.values)
      if (std::find(other.values.begin(), other.values.end(), value) != other.values.end()) return;
    bool const is_all = one.values.size() + other.values.size() == pack_[one.sign].values.size();
    for (auto const cause : causes_of(a, b)) {
      auto const first = figure(a, cause);
      auto const second = figure(b, cause);
      auto const sum = first.frequency + second.frequency;
      if (sum > 1 + as_printed || (is_all && sum < 1 - as_printed))
        report(a, first, b, second, cause, "beside",
               is_all ? "the answers are all that there are, so their shares add up to 100%"
                      : "the answers exclude each other, so their shares come to 100% at most",
               "make one rule `over` the sign of both, or mend a figure");
    }
  }

  [[nodiscard]] static bool is_value(Condition const& c) {
    return c.kind == Condition::Kind::test && c.test.kind == Test::Kind::is_value;
  }

  void report(Rule const& a, Figure const& of_a, Rule const& b, Figure const& of_b,
              std::optional<CauseId> cause, std::string_view relation, std::string const& why,
              std::string remedy) {
    auto const in = cause ? fmt::format("in `{}`", pack_[*cause].name) : std::string("usually");
    auto const text = [](Rule const& rule, Figure const& figure) {
      return fmt::format("rule `{}` {:.3g}%{}", rule.name, 100 * figure.frequency,
                         figure.is_named ? "" : " (its usual)");
    };
    remarks_
        .add(Code::impossible_pair, of_a.at, {a.at, b.at},
             fmt::format("{} {}, {} {}", in, text(a, of_a), relation, text(b, of_b)), why,
             std::move(remedy))
        .notes.push_back({"the second figure stands here", of_b.at});
  }

  Pack const& pack_;
  Remarks& remarks_;
  std::map<SignId, std::vector<Rule const*>> rules_of_;  ///< by the first sign of the condition
};

}  // namespace

void find_impossible_pairs(Pack const& pack, Remarks& remarks) {
  ImpossiblePairs(pack, remarks).find();
}

}  // namespace flinch
