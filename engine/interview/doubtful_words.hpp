// Words by which a sentence tells what is not so now, or not so of this patient.
#pragma once

#include <string>
#include <vector>

#include "flinch/model/species.hpp"

namespace flinch {

/// How far what a part of a complaint leaves open reaches.
enum class DoubtReach {
  none,
  clause,  ///< up to the next comma or "but"
  line     ///< up to the next "but"
};

/// Of words that are no phrase of the pack: denied ("vet said no fit"), past ("he used to limp"),
/// feared ("in case he eats grapes") or of another animal.
[[nodiscard]] DoubtReach doubt_in(std::vector<std::string> const& part,
                                  SpeciesWords const& species);

/// "Is he limping", also without its question mark.
[[nodiscard]] bool is_asked(std::vector<std::string> const& part, SpeciesWords const& species);

/// "He was limping", of which "limping" may be a phrase of the pack.
[[nodiscard]] bool is_over(std::vector<std::string> const& part);

/// Whether a complaint takes back what it tells: "limping, but fine now", "had a fit but didn't".
/// A comma is a word of its own.
[[nodiscard]] bool takes_back(std::vector<std::string> const& complaint,
                              SpeciesWords const& species);

}  // namespace flinch
