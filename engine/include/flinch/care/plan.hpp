#pragma once
// What is safe until the patient is seen: every care measure of the pack, offered, to be asked
// about first, or withheld with the reason.
//
//   CarePlan plan = plan_care(tables, assessor.assess(patient), Reader::keeper);
//   for (auto const& measure : plan.measures) ...
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "flinch/assess/assessment.hpp"
#include "flinch/assess/weight_doubt.hpp"
#include "flinch/care/dose.hpp"
#include "flinch/care/energy.hpp"
#include "flinch/model/reader.hpp"

namespace flinch {

/// What is said of a measure, the most cautious last. `never if` known to be true withholds it, and
/// so does a `stop if`; a `never if` that is unknown means ask first; `ask vet if` true or unknown
/// means ask the vet; only when all of them are known to be false is it offered.
enum class Advice : std::uint8_t { offered, ask_vet, ask_first, withheld };

/// Why a gate is not open.
enum class GateKind : std::uint8_t {
  never,                  ///< a `never if`
  ask_vet,                ///< an `ask vet if`
  stop,                   ///< a `stop if` that is true already
  leave_now,              ///< at the top tier only first aid: the rest would delay
  seen_first,             ///< to be seen within a day: what is not `while waiting` waits for that
  by_mouth_now,           ///< no medicine, supplement or meal at the top tier
  by_mouth_surgery,       ///< seen within a day: the vet decides first
  by_mouth_nothing_told,  ///< no medicine while nothing was told that says how soon
  by_mouth_may_rise,      ///< danger signs are open that could still reach the top tier
  dose                    ///< the dose cannot be computed, see `refusal`
};

struct ClosedGate {
  GateKind kind{};
  Truth truth = Truth::unknown;  ///< of the condition: true closes, unknown asks
  std::string reason;            ///< the pack's words; may be empty
  std::vector<SignId> signs;     ///< whose answers made it true, or whose answers are missing
  std::optional<DoseRefusal> refusal;
};

struct PlannedMeasure {
  std::size_t care = 0;              ///< index in the pack's list
  Truth fits = Truth::yes;           ///< `fit if` and what it is `for`; never `no`
  Advice advice = Advice::withheld;  ///< for what not to do: `offered` means it stands
  std::vector<ClosedGate> gates;     ///< the most cautious first
  /// None, too, where a gate is known to be true: what is answered yes has no number to copy.
  std::optional<ComputedDose> dose;
  std::optional<WeightLoss> weight_loss;  ///< by the score that the measure `slims by`
};

/// A question that holds measures back, and those that wait for it.
struct CareQuestion {
  SignId sign{};
  std::vector<std::size_t> waiting;  ///< indices in the pack's list
};

struct CarePlan {
  Reader reader = Reader::keeper;
  /// No amount by weight is in the plan while there is one.
  std::optional<WeightDoubt> weight_doubt;
  std::optional<TierId> tier;            ///< the assessment's
  bool is_seen_today = false;            ///< `tier` is within a day
  std::optional<ClosedGate> mouth;       ///< why nothing, or nothing yet, may go by mouth
  std::vector<PlannedMeasure> measures;  ///< what to do, in the order of the pack
  std::vector<PlannedMeasure> avoid;     ///< what not to do
  /// What of food and water goes on: the first fast of the pack that is known to fit, by its place
  /// in `avoid`; none where food goes on as usual.
  std::optional<std::size_t> fast;
  std::vector<PlannedMeasure> watch;  ///< what means "ring again"
  /// For the nurse of a patient seen within the day: injections that fit and that nothing known
  /// bars. Their doses are the vet's.
  std::vector<std::size_t> vet_may_ask_for;
  /// What is not known of what was swallowed: `Judgement::exposures` says what is.
  std::vector<SignId> taken_questions;
  /// What must be asked before measures that fit can be offered, what most of them wait for first.
  /// Where a whole sign is unknown, the whole is asked. What opens the mouth is in `mouth`.
  std::vector<CareQuestion> questions;
  /// Measures that a keeper cannot clear by an answer: only hands that have learnt it, a clinic, or
  /// a test that hurts could. No question waits for these.
  std::vector<std::size_t> for_examination;
  /// When to look again, seconds: half of the tier's time, within 15 minutes and 24 hours (a
  /// judgement); without a tier, 2 hours.
  double look_again_s = 0;
};

/// The plan for what the assessment knows. What is `for clinician` is told to the clinician alone.
/// A measure whose `fit if` is unknown is kept with `fits` unknown; one that does not fit is left
/// out. Measures `for` a cause fit when one of these has a probability of at least 10 % (a
/// judgement).
[[nodiscard]] CarePlan plan_care(Tables const& tables, Assessment const& result, Reader reader);

/// What not to do, as every page tells it: indices into `CarePlan::avoid`, in the order of the
/// pack.
struct ToldWarnings {
  std::vector<std::size_t> apply;    ///< told in full
  std::vector<std::size_t> may_not;  ///< nor these, unless it is known that they do not apply
};

/// Left out are cross-checks for the clinician, warnings that are withheld, the fast (told with
/// food and water), and at the top tier those of grade D: there is no time for what merely does not
/// help.
[[nodiscard]] ToldWarnings warnings_to_tell(Pack const& pack, CarePlan const& plan);

/// "weight missing: weigh the patient ..." in lay words: what was refused, and what to do.
[[nodiscard]] std::string refusal_text(Pack const& pack, Assessment const& result,
                                       DoseRefusal refusal);

}  // namespace flinch
