#pragma once
// Closed cases run through a pack: how often it was right about the urgency and the cause.
//
//   Audit result = audit(tables, cases);
//   result.triage.under                 // how many were given a less urgent tier than needed
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "flinch/assess/assessment.hpp"
#include "flinch/audit/statistics.hpp"

namespace flinch {

/// Told how many cases are done, so that long work can show itself.
using EachCase = std::function<void(std::size_t done)>;

/// A case and the name by which people find it again, such as its file's.
struct NamedCase {
  std::string name;
  Case patient;
};

/// Tier needed against tier given. Where too little was known for any tier, the last (least urgent)
/// counts as given, for that is what silence amounts to.
struct Triage {
  GradeTable cells;  ///< [needed][given], most urgent first
  std::size_t without_tier = 0;
  Proportion exact;
  Proportion under;  ///< given a less urgent tier than was needed
  Proportion over;   ///< given a more urgent one
  std::optional<double> linear_kappa;
  std::optional<double> quadratic_kappa;
};

/// How well a probability told what came true.
struct Calibration {
  std::vector<Forecast> forecasts;  ///< in the order of the cases
  std::optional<double> brier;
  std::optional<double> log_loss;
  std::vector<ReliabilityBand> bands;
};

/// How well the true cause was found. A ranking that is not shown, because too little was known,
/// hits nothing.
struct Hits {
  Proportion first;
  Proportion top_three;
};

/// The cases of one true cause.
struct CauseAudit {
  std::optional<CauseId> cause;  ///< none: none of the listed causes
  Hits hits;
  Proportion under;  ///< of those whose needed tier is known
  Proportion over;
};

/// A case that went wrong: given too low a tier, or its cause not placed first.
struct Miss {
  std::string name;
  std::optional<TierId> needed;
  std::optional<TierId> given;
  std::size_t tiers_too_low = 0;
  bool is_cause_known = false;
  std::optional<CauseId> cause;
  std::size_t place = 0;  ///< of the true cause in the ranking, from 1; 0 when it is not known
  std::string why;        ///< one line: what was preferred, and its strongest reasons
};

struct Audit {
  std::size_t cases = 0;
  std::size_t left_open = 0;  ///< cases without an outcome, not counted
  Triage triage;
  Hits hits;
  Calibration needs_now;            ///< chance of a cause that needs the first tier
  std::vector<RocPoint> now_curve;  ///< of that chance
  std::optional<double> now_area;
  /// The same with alarms: where one for the first tier fired, the patient ranks above all others.
  std::vector<RocPoint> now_curve_with_alarms;
  std::optional<double> now_area_with_alarms;
  Calibration first_cause;  ///< probability of what stands first: is it the true cause?
  /// Mean of -ln of the probability given to the true cause, among all causes.
  std::optional<double> cause_log_loss;
  std::vector<CauseAudit> by_cause;  ///< in the order of the pack, none of the listed last
  std::vector<Miss> misses;          ///< worst first: tiers too low, then place of the true cause
};

/// Runs every closed case through the pack. Same cases, same result; the order of the cases only
/// decides ties among the misses. `each` is called before every case.
[[nodiscard]] Audit audit(Tables const& tables, std::span<NamedCase const> cases,
                          EachCase const& each = {});

}  // namespace flinch
