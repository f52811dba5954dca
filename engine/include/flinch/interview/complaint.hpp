#pragma once
// What worries a keeper, in the keeper's own words: several things in one line, each with its place
// and since when.
//
//   auto said = read_complaint(pack, search, "limping since yesterday, wibbly", 6);
//   said.parts[0].meant  // lame: the same words, so it may be recorded
//   said.parts[1].found  // nothing: to be asked again
//   said.since           // days
//
// One word that is not known discards nothing but its own part of the line.
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "flinch/interview/answer_entry.hpp"
#include "flinch/interview/sign_search.hpp"
#include "flinch/model/case.hpp"

namespace flinch {

/// An answer to a sign.
struct ToldAnswer {
  SignId sign{};
  Answer answer;
  friend bool operator==(ToldAnswer const&, ToldAnswer const&) = default;
};

/// One thing of the line.
struct ComplaintPart {
  std::string words;  ///< as they were typed, in small letters, without since when
  /// What they say: only where they are the same words as those of the pack, that place and time
  /// apart, and can mean nothing else.
  std::optional<ToldAnswer> meant;
  std::vector<FoundSign> found;  ///< otherwise what they may mean, best first; to be asked
  bool is_in_doubt = false;      ///< it is asked or may be denied: nothing of it stands
};

struct Complaint {
  std::vector<ComplaintPart> parts;  ///< in the order of the line; none of a line without words
  /// Told once, or alike of all parts; of what sets off an alarm alone and does not last, or has a
  /// part that does.
  std::optional<ToldAnswer> since;
};

/// Reads a line of at most 400 bytes and 60 words (see `refusal` of typed answers: more, and
/// control characters, give no parts). Parts are cut at commas, semicolons, strokes and full stops,
/// and at "and", "but", "also", "plus", "with", "then", "&" unless the words on both sides are one
/// phrase of the pack. What follows a denial ("no vomiting and diarrhoea", up to a "but") or stands
/// in a question is never `meant`: it is asked. At most `at_most` meanings are offered for a part.
[[nodiscard]] Complaint read_complaint(Pack const& pack, SignSearch const& search,
                                       std::string_view typed, std::size_t at_most);

/// What was found, as an answer: its value, or a plain yes; nothing where more must be asked (which
/// step, how much), or where the words can be read as a no.
[[nodiscard]] std::optional<ToldAnswer> told_by(Pack const& pack, FoundSign const& found);

/// The sign by which is told since when: the first that is `asked first` and whose steps are called
/// by units of time.
[[nodiscard]] std::optional<SignId> since_when(Pack const& pack);

}  // namespace flinch
