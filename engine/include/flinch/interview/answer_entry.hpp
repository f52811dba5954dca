#pragma once
// What a person typed, as an answer to a sign; or one line that says what would be understood.
//
//   Entry entry = read_entry(pack, sign, "31,5 kg", {today});
//   if (entry.answer) ...            // 31.5, in the sign's own unit
//   else show(entry.remark);         // one line, harmless on a terminal
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "flinch/model/case.hpp"
#include "flinch/model/pack.hpp"

namespace flinch {

/// A day of the calendar, for ages told by a birth date.
struct Date {
  int year = 0;
  int month = 1;  ///< 1 to 12
  int day = 1;    ///< 1 to 31
};

struct EntryContext {
  Date today;
  /// The side whose numbered walk is on the screen (see `site_walk`), for numbers without a side;
  /// where none is, such a number means nothing.
  std::optional<Side> walk_side{};
};

/// One of three: an answer, "can't tell", or neither with a remark.
struct Entry {
  std::optional<Answer> answer;
  bool cannot_tell = false;
  std::string remark;  ///< what would be understood; one line without control characters
  /// What the remark asks whether it was meant ("Did you mean Pomeranian?"): a yes is the only one,
  /// a number one of several.
  std::vector<Answer> suggested{};
};

/// Reads what was typed in answer to `sign`:
/// - yes, no and can't tell in several wordings; `?` is can't tell;
/// - numbers with a decimal point or comma, fractions and small number words, with a unit of either
///   system, or several ("5 lb 3 oz"); without a unit when only one reading can be believed (39 is
///   Celsius, 102 Fahrenheit; 30 may be kg or lb and is not guessed);
/// - ages: "11 and a half", "8 months", "2 years 3 months", a birth date "2019-04-12" or "2019-04";
/// - steps and choices by number (from 1), name, label or the beginning of one; by a count in words
///   ("three times") where labels count, and then by "line 2" where 2 could be either;
/// - breeds by any of their names; the nearest names are offered otherwise;
/// - sites by name, several with commas, `left`, `right` or `both` before them, or alone where the
///   sign `is_told_by_side`; by number from `site_walk`; `none` for clear everywhere, `yes` for
///   found somewhere, or before the places.
/// More than 400 bytes, control characters and bytes that are no text are refused.
[[nodiscard]] Entry read_entry(Pack const& pack, SignId sign, std::string_view typed,
                               EntryContext const& context);

/// Sex and neutered told together: "male, neutered", "f spayed", "entire doe" (a word that the pack
/// has for a female). Either may be missing; with neither there is a remark.
struct SexEntry {
  std::optional<Answer> sex;
  std::optional<Answer> neutered;
  bool cannot_tell = false;  ///< neither
  std::string remark;
};
[[nodiscard]] SexEntry read_sex(Pack const& pack, std::string_view typed);

/// Whether the words tell the sex, or whether it is neutered, where nobody asked for it: by a word
/// that means nothing else, such as the pack's own for its males and females. Not "he", nor what
/// the species itself is called, nor "done".
[[nodiscard]] bool names_sex(Pack const& pack, std::string_view typed);

/// What may be typed, with the everyday words of the pack where it has them: "male (buck), female".
[[nodiscard]] std::string sexes_to_name(Pack const& pack);

/// A weight or temperature in the unit in which it was typed, where that is not the sign's own:
/// "20 lb", "102.2 F"; the line may hold more than the amount.
[[nodiscard]] std::optional<std::string> amount_as_typed(Sign const& sign, double value,
                                                         std::string_view typed);

/// A weight that can be believed in this pack, as it may be typed: "31.5 kg or 68 lb", "39 g"; of
/// a grown one of the breed, where one is given by its place in the pack's table.
[[nodiscard]] std::string weight_example(Pack const& pack,
                                         std::optional<std::uint32_t> breed = std::nullopt);

/// Yes, no, or neither; for questions that are no signs.
[[nodiscard]] std::optional<bool> read_yes_or_no(std::string_view typed);
/// Yes and nothing behind it that says more: "yes", "yes it is", but not "yes she struggles".
[[nodiscard]] bool is_bare_yes(std::string_view typed);
[[nodiscard]] bool means_cannot_tell(std::string_view typed);

/// Whether a number of the list could as well be a count that a label of another line names.
[[nodiscard]] bool are_values_counted(Sign const& sign);

/// Whether the question asks for the place alone ("Where does it hurt?"), not as well whether it is
/// there at all ("Does it limp, and which leg?").
[[nodiscard]] bool asks_only_where(Sign const& sign);

/// Whether left, right or both is a whole answer to where it is: the sign's choice is one site,
/// with two sides.
[[nodiscard]] bool is_told_by_side(Pack const& pack, SignId sign);

/// Two places of the sign's choice, or one, to show how places are typed; none where any will do.
[[nodiscard]] std::vector<SiteMark> places_to_name(Pack const& pack, SignId sign);

/// Where the sign may be found on one side of the patient, in the order in which one feels a
/// patient: each region from its far end up, so that a leg starts at the toes. `Side::any` gives
/// the places that have no sides.
[[nodiscard]] std::vector<SiteMark> site_walk(Pack const& pack, SignId sign, Side side);

/// What is clear when the sign was found at these places and nowhere else: the largest sites of the
/// sign's choice that hold none of them.
[[nodiscard]] std::vector<SiteMark> clear_elsewhere(Pack const& pack, SignId sign,
                                                    std::vector<SiteMark> const& found);

}  // namespace flinch
