#include "care/alarm_needs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "flinch/explain/condition.hpp"
#include "flinch/explain/reasons.hpp"

namespace flinch {
namespace {

class Needs {
 public:
  Needs(Tables const& tables, Assessment const& result)
      : pack_(tables.pack()), result_(result), evaluator_(tables, result.knowledge) {}

  // Of a part that is not what it has to be; `wanted` is what it has to be.
  [[nodiscard]] std::string part(ConditionNode const& node, Truth wanted) const {
    auto const& condition = *node.condition;
    switch (condition.kind) {
      case Condition::Kind::negation:
        return part(node.parts.front(), wanted == Truth::yes ? Truth::no : Truth::yes);
      case Condition::Kind::all:
        return parts(node, wanted, wanted == Truth::yes);
      case Condition::Kind::any:
        return parts(node, wanted, wanted == Truth::no);
      case Condition::Kind::count:
        return wanted == Truth::yes ? fmt::format("{} of these: {}", still_needed(node),
                                                  parts(node, wanted, false, ", "))
                                    : parts(node, wanted, true);
      default:
        return one(node, wanted);
    }
  }

 private:
  [[nodiscard]] std::string one(ConditionNode const& node, Truth wanted) const {
    auto const written = as_written(pack_, *node.condition);
    auto const start = fmt::format("{}`{}`", wanted == Truth::yes ? "" : "no ", written);
    if (node.truth == Truth::unknown) return start + ", which is not known";
    return fmt::format("{}, which is {} here{}", start, node.truth == Truth::yes ? "yes" : "no",
                       what_is_known(node));
  }

  // Of a yes or no the answer is told already.
  [[nodiscard]] std::string what_is_known(ConditionNode const& node) const {
    bool const is_plain = node.condition->kind == Condition::Kind::test &&
                          node.condition->test.kind == Test::Kind::holds;
    std::string out;
    if (is_plain) return out;
    for (auto const sign : evaluator_.behind(*node.condition))
      if (result_.find(sign) != nullptr)
        out += (out.empty() ? "" : "; ") + known_text(pack_, result_, sign);
    return out.empty() ? out : fmt::format(" ({})", out);
  }

  [[nodiscard]] std::string parts(ConditionNode const& node, Truth wanted, bool needs_all,
                                  std::string_view between = {}) const {
    std::string out;
    for (auto const& each : node.parts) {
      if (each.truth == wanted) continue;
      auto const joint = between.empty() ? needs_all ? ", and " : ", or " : between;
      out += (out.empty() ? "" : std::string(joint)) + part(each, wanted);
    }
    return out;
  }

  [[nodiscard]] static std::ptrdiff_t still_needed(ConditionNode const& node) {
    auto const held = std::count_if(node.parts.begin(), node.parts.end(),
                                    [](auto const& each) { return each.truth == Truth::yes; });
    return static_cast<std::ptrdiff_t>(node.condition->needed) - held;
  }

  Pack const& pack_;
  Assessment const& result_;
  Evaluator evaluator_;
};

}  // namespace

std::string what_it_needs(Tables const& tables, Assessment const& result,
                          Condition const& condition) {
  Evaluator const evaluator(tables, result.knowledge);
  return "it would need " + Needs(tables, result).part(evaluator.tree(condition), Truth::yes);
}

}  // namespace flinch
