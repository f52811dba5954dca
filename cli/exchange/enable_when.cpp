#include "exchange/enable_when.hpp"

#include <algorithm>

namespace flinch::cli {
namespace {

constexpr bool may_hold = true;

Json differs(Sign const& sign, Json answer) {
  return {{"question", sign.name}, {"operator", "!="}, {"answerCoding", std::move(answer)}};
}

EnableWhen not_sayable() { return {{}, false, false}; }

bool is_choice(EnableWhen const& one) { return one.is_any && one.terms.size() > 1; }

// Both at once. The standard has one behaviour for all terms of an item: of a choice beside other
// terms nothing can be said.
EnableWhen both(EnableWhen a, EnableWhen b) {
  bool const is_whole = a.is_whole && b.is_whole;
  bool const is_mixed = (is_choice(a) || is_choice(b)) && !a.terms.empty() && !b.terms.empty();
  if (is_mixed) {
    auto out = is_choice(a) ? std::move(b) : std::move(a);
    out.is_whole = false;
    return out;
  }
  if (a.terms.empty()) std::swap(a, b);
  a.terms.insert(a.terms.end(), b.terms.begin(), b.terms.end());
  a.is_whole = is_whole;
  return a;
}

EnableWhen either(EnableWhen a, EnableWhen const& b) {
  auto const is_one = [](EnableWhen const& one) { return one.is_any || one.terms.size() == 1; };
  // Always shown, as far as can be said.
  if (a.terms.empty() || b.terms.empty()) return {{}, false, a.is_whole && b.is_whole};
  if (!is_one(a) || !is_one(b)) return not_sayable();
  a.terms.insert(a.terms.end(), b.terms.begin(), b.terms.end());
  a.is_any = true;
  a.is_whole = a.is_whole && b.is_whole;
  return a;
}

class Gates {
 public:
  explicit Gates(Pack const& pack) : pack_(pack) {}

  // Shown where the condition is not known to fail (`may_hold`), or not known to hold.
  [[nodiscard]] EnableWhen of(Condition const& condition, bool wanted) const {
    switch (condition.kind) {
      case Condition::Kind::test:
        return of(condition.test, wanted);
      case Condition::Kind::meaning:
        return of(pack_[condition.meaning].condition, wanted);
      case Condition::Kind::negation:
        return of(condition.parts.front(), !wanted);
      case Condition::Kind::unless:  // stands in alarms alone
      case Condition::Kind::all:
      case Condition::Kind::any:
      case Condition::Kind::count:
        break;
    }
    auto const needed = needed_parts(condition);
    bool const needs_all = needed == condition.parts.size();
    if (!needs_all && needed != 1) return not_sayable();
    std::vector<EnableWhen> parts;
    for (auto const& part : condition.parts) parts.push_back(of(part, wanted));
    auto out = std::move(parts.front());
    for (std::size_t i = 1; i < parts.size(); ++i)
      out = needs_all == wanted ? both(std::move(out), std::move(parts[i]))
                                : either(std::move(out), parts[i]);
    return out;
  }

 private:
  [[nodiscard]] EnableWhen of(Test const& test, bool wanted) const {
    auto const& sign = pack_[test.sign];
    switch (test.kind) {
      case Test::Kind::holds:
        if (wanted == may_hold) return {{differs(sign, no_coding())}, false, true};
        if (traits(sign).has_places) return not_sayable();
        return {{differs(sign, yes_coding())}, false, true};
      case Test::Kind::is_value:
      case Test::Kind::at_least:
        return values(test, sign, wanted);
      case Test::Kind::at_site:
      case Test::Kind::in_range:
      case Test::Kind::in_group:
        break;
    }
    return not_sayable();
  }

  // None of the values that decide against it.
  [[nodiscard]] EnableWhen values(Test const& test, Sign const& sign, bool wanted) const {
    EnableWhen out;
    for (std::uint32_t i = 0; i < sign.values.size(); ++i) {
      if (asks_for(test, i) != wanted)
        out.terms.push_back(differs(sign, choice_coding(pack_, sign, {i})));
    }
    return out;
  }

  Pack const& pack_;
};

}  // namespace

EnableWhen enable_when(Pack const& pack, Sign const& sign) {
  EnableWhen out;
  // A no to any whole around it is a no to it; a pack has no circle of parts.
  for (auto whole = sign.part_of; whole; whole = pack[*whole].part_of)
    out.terms.push_back(differs(pack[*whole], no_coding()));
  if (sign.applies_if) out = both(std::move(out), Gates(pack).of(*sign.applies_if, may_hold));
  return out;
}

}  // namespace flinch::cli
