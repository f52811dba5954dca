#pragma once
// What would come out if some answers were others.
//
//   WhatIf const w = what_if(assessor, patient, changes);
//   w.before.tier; w.after.tier; w.rules;   // which rules came out otherwise
#include <optional>
#include <span>
#include <vector>

#include "flinch/assess/assessment.hpp"

namespace flinch {

/// The case with these answers in the place of its own; later changes to a sign win.
[[nodiscard]] Case with_changes(Case patient, std::span<Change const> changes);

/// Whether `after` holds a contradiction that `before` does not.
[[nodiscard]] bool adds_contradiction(Judgement const& before, Judgement const& after);

/// How a rule came out; none when no known answer bears on it.
struct RuleState {
  Truth truth = Truth::unknown;
  std::uint32_t band = 0;
  friend bool operator==(RuleState const&, RuleState const&) = default;
};

struct RuleShift {
  RuleId rule{};
  RuleState before;
  RuleState after;
};

struct AlarmShift {
  AlarmId alarm{};
  Truth before = Truth::unknown;
  Truth after = Truth::unknown;
};

struct WhatIf {
  Assessment before;
  Assessment after;
  std::vector<RuleShift> rules;    ///< that came out otherwise, in the order of the pack
  std::vector<AlarmShift> alarms;  ///< likewise
};

[[nodiscard]] WhatIf what_if(Assessor& assessor, Case const& patient,
                             std::span<Change const> changes);

/// What a change of answers is looked for to do.
struct ChangeSet {
  std::vector<Change> changes;   ///< one or two, in the order of the signs
  std::optional<TierId> tier;    ///< that it leads to
  std::optional<CauseId> first;  ///< that it leads to; none: none of the listed causes
  double first_posterior = 0;
};

struct SmallestChanges {
  std::vector<ChangeSet> higher_tier;
  std::vector<ChangeSet> lower_tier;
  std::vector<ChangeSet> other_first;  ///< none are looked for with nothing told
};

/// The changes of one answer (of two where no single one does it) that would raise the tier, lower
/// it, or put another cause first. Only signs that can be asked are changed, to answers that the
/// conditions of the pack can tell apart, never to "can't tell"; one site is added to those
/// found, or two that one condition asks for, or all of these.
/// Sets that would add a contradiction are left out. Each set is verified by assessing it. At most
/// `shown` for each aim: easiest to find out first (by anyone, by hands, in the clinic), then in
/// the order of the pack; of those that raise the tier the highest first. Costs some tens of
/// milliseconds where single answers do it, and a tenth of a second where all pairs are looked at,
/// on a pack of 560 rules.
[[nodiscard]] SmallestChanges smallest_changes(Tables const& tables, Assessor& assessor,
                                               Case const& patient, std::size_t shown = 6);

}  // namespace flinch
