#pragma once

namespace flinch::syntax {

/// What a clause, or the first line of a statement, is about, as far as the slips go that are made
/// in it.
enum class About {
  other,
  names,      ///< one name or several, a figure or a text behind each or not
  yes_or_no,  ///< names of signs, which have no places here
  finding,    ///< a sign and where it was found
  answer,     ///< what may be answered
  floor,      ///< a tier, a test, a reason and its sources
  dose,       ///< amount, way, how often, how long
  never_neutered,
  called,   ///< everyday words for the sexes and the young
  meaning,  ///< a name and its condition
  promises  ///< what must come out for an example
};

}  // namespace flinch::syntax
