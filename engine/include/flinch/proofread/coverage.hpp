#pragma once
// Which rules and alarms a set of patients has set off: what no patient sets off, nothing has
// tried.
#include <cstddef>
#include <vector>

#include "flinch/assess/assessment.hpp"

namespace flinch {

class Coverage {
 public:
  explicit Coverage(Pack const& pack);

  /// Counts one assessed patient.
  void add(Assessment const& result);

  [[nodiscard]] std::size_t patients() const { return patients_; }
  /// In how many patients the rule's condition was true, or its band known.
  [[nodiscard]] std::size_t fired(RuleId rule) const { return rules_[index(rule)]; }
  [[nodiscard]] std::size_t fired(AlarmId alarm) const { return alarms_[index(alarm)]; }
  /// Those that no patient has set off, in the order of the pack.
  [[nodiscard]] std::vector<RuleId> silent_rules() const;
  [[nodiscard]] std::vector<AlarmId> silent_alarms() const;

 private:
  std::size_t patients_ = 0;
  std::vector<std::size_t> rules_;
  std::vector<std::size_t> alarms_;
};

/// The coverage of the pack's own examples.
[[nodiscard]] Coverage cover_examples(Tables const& tables);

}  // namespace flinch
