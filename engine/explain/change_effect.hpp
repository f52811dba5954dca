#pragma once
// What a single changed answer does to an assessment, in a form in which two that have nothing to
// do with each other can be added up without assessing them together.
#include <cstdint>
#include <vector>

#include "flinch/assess/assessment.hpp"

namespace flinch {

/// A cause (past the last: none of the listed) and the factor on its probability before scaling.
struct CauseFactor {
  std::uint32_t cause = 0;
  double factor = 1;
};

/// What a change did to what a rule counts for a cause, in natural logarithms.
struct RuleDelta {
  RuleId rule{};
  CauseId cause{};
  double counted = 0;
};

/// What a change did to what a rule of an overlap says of a cause, before the overlap takes its
/// part: the cause moves between nothing and this much by it, whatever else is in the overlap.
struct OverlapDelta {
  RuleId rule{};
  CauseId cause{};
  double weight = 0;
};

/// Sets bit `i` of a row of bits that is long enough.
inline void set_bit(std::vector<std::uint64_t>& bits, std::size_t i) {
  bits[i / 64] |= std::uint64_t{1} << (i % 64);
}

struct ChangeEffect {
  std::vector<RuleDelta> deltas;          ///< those that are not 0
  std::vector<OverlapDelta> overlapping;  ///< of rules whose outcome is another
  std::vector<CauseFactor> factors;       ///< those that are not 1
  std::vector<double> unscaled;           ///< of each cause: prior * evidence, by one scale for all
  std::vector<std::uint32_t> by_unscaled;  ///< causes, most probable first
  std::vector<double> tier_sums;           ///< of `unscaled` over the causes of each tier
  double sum = 0;                          ///< of `unscaled`
  std::vector<std::int32_t> alarms;  ///< how many more alarms, and things taken, ask for each tier
  std::int32_t told_signs = 0;       ///< how many more signs are told
  bool contradicts = false;          ///< it adds a contradiction to those of the case
  /// What it bears on, see `EffectTaker`: each once, in order. Two changes meet when they share
  /// one.
  std::vector<std::uint32_t> touches;
};

/// Takes effects against the assessment without a change.
class EffectTaker {
 public:
  EffectTaker(Tables const& tables, Assessment const& before);
  /// `after` is the assessment with the one sign changed.
  [[nodiscard]] ChangeEffect take(SignId changed, Assessment const& after) const;
  /// How many things a change can bear on.
  [[nodiscard]] std::size_t touchable() const;
  /// How many alarms, and things taken, ask for each tier before.
  [[nodiscard]] std::vector<std::int32_t> const& alarms_before() const { return alarms_; }

 private:
  void touch(SignId sign, std::vector<std::uint32_t>& touches) const;
  [[nodiscard]] std::vector<std::uint32_t> touches_of(SignId changed,
                                                      Assessment const& after) const;
  [[nodiscard]] std::vector<double> evidence_of(Assessment const& result) const;
  [[nodiscard]] std::vector<RuleDelta> deltas_of(Assessment const& after) const;
  [[nodiscard]] std::vector<OverlapDelta> overlapping_in(Assessment const& after) const;
  [[nodiscard]] std::vector<std::int32_t> fired(Assessment const& result) const;

  Tables const& tables_;
  Assessment const& before_;
  std::vector<double> evidence_;
  double highest_ = 0;
  std::vector<std::int32_t> alarms_;
  std::vector<std::int32_t> applies_root_;  ///< of each sign, or -1
};

}  // namespace flinch
