#pragma once
// A case file in YAML: the patient, and the answers by the names of the pack's signs.
//
//   name: Bramble
//   patient: {species: patient, age: 11 years, weight: 68 lb, breed: labrador, sex: male, neutered:
//   yes} came for: [stiff_after_rest] answers:
//     stiff_after_rest: yes
//     tender: [left elbow, right elbow]
//     swollen: {found: [left elbow], clear: [spine]}
//     appetite: less
//     temperature: 38.6 C
//     trembling: can't tell
//   note: free text
//   outcome: {cause: elbow_arthritis, needed: visit}
#include "flinch/model/case.hpp"
#include "flinch/model/pack.hpp"
#include "flinch/text/diagnostic.hpp"

namespace flinch {

/// Whether the outcome of a closed case is read. Ignored, it may name a cause or a tier that the
/// pack does not have, as another version of it may.
enum class Outcomes { read, ignored };

/// The case, or every mistake in it: keys and names that do not exist (with the nearest that does),
/// units that do not fit, amounts that cannot be believed, a species that the pack is not for.
/// Nothing is guessed.
[[nodiscard]] Outcome<Case> read_case(SourceSet const& sources, FileId file, Pack const& pack,
                                      Outcomes outcomes = Outcomes::read);

}  // namespace flinch
