#pragma once
// One typed line as the facts of the patient, in any order.
//
//   read_facts(pack, {age, sex, breed, weight}, "8 years, male neutered, Labrador", context)
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "flinch/interview/answer_entry.hpp"

namespace flinch {

struct FactsEntry {
  std::vector<std::pair<SignId, Answer>> answers;
  bool cannot_tell = false;  ///< any of them
  std::string remark;        ///< why nothing is taken; one line
  /// "Did you mean ...?": the whole line, once for each breed that the remark offers.
  std::vector<std::vector<std::pair<SignId, Answer>>> suggested;
};

/// Each piece of the line must be one of the facts: pieces are parted by commas, semicolons, "and"
/// or blanks alone, and a fact may be named before it ("age: 8"). Ages and weights need a unit or
/// their name, since a bare number may be either. Nothing is taken of a line that holds a piece
/// that is not understood, can be read in two ways, tells a fact twice or corrects itself ("no, 9
/// years"). What no piece tells is left out.
[[nodiscard]] FactsEntry read_facts(Pack const& pack, std::vector<SignId> const& facts,
                                    std::string_view line, EntryContext const& context);

/// Facts of the patient that are told where nobody asked for them, as whole words of their own:
/// "male", "5 years old", a breed by one of its names.
struct FactsUnasked {
  std::vector<std::pair<SignId, Answer>> answers;
  /// They can only be facts or amounts, and of what is not sure: "400 kg", "8 weeks", a word for
  /// the young. Nothing is taken; it is asked in its turn.
  bool is_for_later = false;
};
/// Of an age only what is said to be one is taken ("5 years old"), since 5 years may be since when;
/// of a weight what is said to be one ("weighs 30 kg"), or stands beside another fact; of a
/// breed its name, or another name beside another fact. Where the words leave anything open,
/// nothing is taken.
[[nodiscard]] FactsUnasked facts_unasked(Pack const& pack, std::string_view words,
                                         EntryContext const& context);

}  // namespace flinch
