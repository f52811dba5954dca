#pragma once
// Care in words: doses, gates, grades and times as people say them.
#include <string>

#include "flinch/care/plan.hpp"
#include "flinch/explain/reasons.hpp"

namespace flinch {

/// "150 mg by mouth every 24 hours (8.3 mg per kg): 1.5 tablets of 100 mg".
[[nodiscard]] std::string dose_words(Care const& care, GivenDose const& dose);

/// Why a gate is closed, with the answer behind it: "Not on broken skin (wound: found at ...)".
[[nodiscard]] std::string gate_words(Pack const& pack, Assessment const& result,
                                     ClosedGate const& gate);

/// "30 minutes", "12 hours", "1 day".
[[nodiscard]] std::string time_words(double seconds);

/// A sign as a question.
[[nodiscard]] std::string question_words(Pack const& pack, SignId sign);

/// "Nor any of these, ...": the titles of warnings that may not apply; empty when there are none.
[[nodiscard]] std::string may_not_words(Pack const& pack, CarePlan const& plan,
                                        ToldWarnings const& told);

/// Four digits at most, rounded down: "8.333", "150".
[[nodiscard]] std::string amount_words(double amount);

/// Whether a measure is held back for no more than that the patient is to be seen first, or now.
[[nodiscard]] bool merely_waits(PlannedMeasure const& measure);

/// How it is done. Of a clinician's medicine no amount is told while an answer is known that speaks
/// against it, in words neither. Where the vet comes it sends nobody away.
[[nodiscard]] std::string how_words(Care const& care, PlannedMeasure const& measure,
                                    SeenAt seen_at);

/// What of medicines, food and water goes on.
struct ToldMouth {
  std::string medicines;       ///< empty: nothing speaks against what is offered
  std::string food_and_water;  ///< one statement: water stands beside what is withheld
};
[[nodiscard]] ToldMouth mouth_words(Pack const& pack, Assessment const& result,
                                    CarePlan const& plan);

}  // namespace flinch
