#pragma once
// Which rules and alarms a set of patients has set off, and which gates of care were open and shut
// for one: what no patient sets off, nothing has tried.
#include <cstddef>
#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "flinch/assess/assessment.hpp"
#include "flinch/assess/tables.hpp"

namespace flinch {

/// Which clause of care a condition stands in.
enum class GateClause : std::uint8_t { fit_if, never_if, ask_vet_if, stop_if };

/// One condition of one care statement.
struct GateOfCare {
  std::size_t care = 0;  ///< index in the pack's list
  GateClause clause{};
  std::size_t number = 0;  ///< of those of its clause, from 0
};

/// A condition that was never true, or never false, in any of the patients.
struct UntriedGate {
  GateOfCare gate;
  bool was_true = false;
  bool was_false = false;
};

/// "`never if` 2, "Food on a sick stomach comes back.""
[[nodiscard]] std::string gate_text(Pack const& pack, GateOfCare const& gate);
/// "never if"
[[nodiscard]] std::string_view clause_text(GateClause clause);

class Coverage {
 public:
  /// The tables must outlive it.
  explicit Coverage(Tables const& tables);

  /// Counts one assessed patient.
  void add(Assessment const& result);

  [[nodiscard]] std::size_t patients() const { return patients_; }
  /// In how many patients the rule's condition was true, or its band known.
  [[nodiscard]] std::size_t fired(RuleId rule) const { return rules_[index(rule)]; }
  [[nodiscard]] std::size_t fired(AlarmId alarm) const { return alarms_[index(alarm)]; }
  /// In how many patients what is known held it back (`unless`).
  [[nodiscard]] std::size_t held_back(AlarmId alarm) const { return held_back_[index(alarm)]; }
  /// In how many patients the amount taken asks for the tier of this level, and passes it by less
  /// than ten times.
  [[nodiscard]] std::size_t reached(std::size_t care, std::size_t level) const {
    auto const found = levels_.find({care, level});
    return found == levels_.end() ? 0 : found->second;
  }
  /// Those that no patient has set off, in the order of the pack.
  [[nodiscard]] std::vector<RuleId> silent_rules() const;
  [[nodiscard]] std::vector<AlarmId> silent_alarms() const;
  /// How many conditions of care there are.
  [[nodiscard]] std::size_t gates() const { return gates_.size(); }
  /// Those that were not both true and false, in the order of the pack.
  [[nodiscard]] std::vector<UntriedGate> untried_gates() const;

 private:
  Tables const* tables_;
  std::vector<UntriedGate> gates_;
  std::size_t patients_ = 0;
  std::vector<std::size_t> rules_;
  std::vector<std::size_t> alarms_;
  std::vector<std::size_t> held_back_;
  std::map<std::pair<std::size_t, std::size_t>, std::size_t> levels_;  ///< of care and level
};

/// The coverage of the pack's own examples.
[[nodiscard]] Coverage cover_examples(Tables const& tables);

}  // namespace flinch
