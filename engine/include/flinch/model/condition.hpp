#pragma once
// A resolved condition: names have become ids, quantities are in the sign's own unit.
#include <algorithm>
#include <cstdint>
#include <limits>
#include <vector>

#include "flinch/syntax/tree.hpp"
#include "flinch/text/source.hpp"

namespace flinch {

enum class SignId : std::uint32_t {};
enum class MeansId : std::uint32_t {};
enum class SiteId : std::uint32_t {};
enum class GroupId : std::uint32_t {};

using syntax::Side;

/// A site, and the side of the patient; `any` where the site has no sides or any will do.
struct SiteMark {
  SiteId site{};
  Side side = Side::any;
  friend bool operator==(SiteMark const&, SiteMark const&) = default;
  friend auto operator<=>(SiteMark const&, SiteMark const&) = default;
};

/// A question to one sign. Which members count depends on `kind`.
struct Test {
  enum class Kind : std::uint8_t {
    holds,     ///< yes; or found somewhere
    at_site,   ///< `mark`
    is_value,  ///< one of `values`
    at_least,  ///< step `values.front()` or beyond
    in_range,  ///< between `low` and `high`
    in_group   ///< the breed is in `group`
  };
  Kind kind = Kind::holds;
  SignId sign{};
  SiteMark mark;
  std::vector<std::uint32_t> values;  ///< indices of steps or choices
  double low = -std::numeric_limits<double>::infinity();
  double high = std::numeric_limits<double>::infinity();
  bool low_included = true;
  bool high_included = true;
  GroupId group{};
  friend bool operator==(Test const&, Test const&) = default;
};

/// Whether a number lies in the range of a test `in_range`, or of what was made of one.
template <class Range>
[[nodiscard]] constexpr bool lies_within(Range const& range, double value) {
  bool const is_above = range.low_included ? value >= range.low : value > range.low;
  bool const is_below = range.high_included ? value <= range.high : value < range.high;
  return is_above && is_below;
}

/// Whether a step or choice is one that a test `is_value` or `at_least` asks for.
[[nodiscard]] inline bool asks_for(Test const& test, std::uint32_t value) {
  return test.kind == Test::Kind::at_least
             ? value >= test.values.front()
             : std::find(test.values.begin(), test.values.end(), value) != test.values.end();
}

struct Condition {
  /// `unless` holds as long as its only part is not known to hold: the one kind that is never
  /// unknown. It stands in alarms alone, beside what sets them off.
  enum class Kind : std::uint8_t { test, meaning, negation, all, any, count, unless };
  Kind kind = Kind::test;
  Test test;                     ///< for `test`
  MeansId meaning{};             ///< for `meaning`
  std::uint32_t needed = 0;      ///< for `count`
  std::vector<Condition> parts;  ///< for the others
  Place at;
  friend bool operator==(Condition const&, Condition const&) = default;
};

/// Parts that must hold for the condition to: all, one, or a count. A negation holds when its only
/// part does not.
[[nodiscard]] inline std::uint32_t needed_parts(Condition const& condition) {
  if (condition.kind == Condition::Kind::all)
    return static_cast<std::uint32_t>(condition.parts.size());
  return condition.kind == Condition::Kind::count ? condition.needed : 1;
}

}  // namespace flinch
