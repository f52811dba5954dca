#pragma once
// What whoever is with the patient does at once: one script, in the order in which it is done.
#include <string>
#include <vector>

#include "flinch/care/plan.hpp"

namespace flinch {

struct Script {
  std::vector<std::string> lines;    ///< five at most; to be read out
  std::vector<std::string> further;  ///< what there was no room for, in the same order
  friend bool operator==(Script const&, Script const&) = default;
};

/// The `say` of each first aid that is offered, this patient's own before what suits any patient,
/// in the order of the pack (air, bleeding, cooling, neck and back, carrying, packet); before what
/// suits any patient (and stands only when it is seen within a day), that of the alarms and of the
/// swallowed things that set the tier. Each line once. Where the line of one that it gives way to
/// is told, or would be but for a third, its own is not. Where the vet comes, what of a line only
/// sends the patient away is left out.
[[nodiscard]] Script script_for(Pack const& pack, Assessment const& result, CarePlan const& plan,
                                SeenAt seen_at);

}  // namespace flinch
