#pragma once
// Typed text cut into plain words, and amounts read from them.
#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "flinch/interview/answer_entry.hpp"
#include "flinch/model/units.hpp"

namespace flinch {

/// Why a line is not looked at at all (too long, control characters, no text), or nothing.
[[nodiscard]] std::optional<std::string> refusal(std::string_view typed);

/// Small letters; apostrophes gone; every run of letters and every number a word of its own.
/// A decimal comma becomes a point; degree signs and hyphens become gaps. `%`, `/`, `?`, `,`, `;`
/// stay as words.
[[nodiscard]] std::vector<std::string> entry_words(std::string_view typed);

[[nodiscard]] std::string joined(std::vector<std::string> const& words);

template <std::size_t Size>
[[nodiscard]] bool is_one_of(std::string_view word,
                             std::array<std::string_view, Size> const& words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

/// No answer, only a line that says what would be understood.
[[nodiscard]] Entry remark(std::string text);

/// The text shortened for quoting in a remark, control characters made visible.
[[nodiscard]] std::string quoted(std::string_view typed);

/// A part of an amount: `5 lb` of `5 lb 3 oz`; the unit is empty when none was typed.
struct TypedAmount {
  double value = 0;
  std::string_view unit;  ///< a name that `find_unit` knows
};

/// Of "no more than 5", "up to 5": of what was swallowed the most it can be stands; an age or a
/// weight may lie far below it, and is not told.
enum class UpperLimit { stands, tells_nothing };

/// All of the words as amounts, or nothing: "11 and a half", "2 years 3 months", "20 per minute".
[[nodiscard]] std::optional<std::vector<TypedAmount>> typed_amounts(
    std::vector<std::string> const& words, UpperLimit limit);

/// The only value whose label counts what the words count: "three times" of "two to four times".
/// Digits alone are a line of the list, and no count.
[[nodiscard]] std::optional<std::uint32_t> counted_value(Sign const& sign,
                                                         std::vector<std::string> const& words);

/// The value on the line that is named: "line 2", "number 2".
[[nodiscard]] std::optional<std::uint32_t> value_by_line(Sign const& sign,
                                                         std::vector<std::string> const& words);

/// The value that such a number would mean as a count, where the line of that number is another:
/// 2 of "1 none, 2 once, 3 two to four times".
[[nodiscard]] std::optional<std::uint32_t> counted_otherwise(Sign const& sign, std::size_t line);

/// An answer to a sign answered by a number.
[[nodiscard]] Entry read_number(Pack const& pack, SignId sign, std::string_view typed, Date today);

/// An amount of a substance that was swallowed, in words or counted ("2 x 200 mg").
[[nodiscard]] Entry read_substance(Sign const& sign, std::string_view typed);

/// A breed by any of its names; the nearest names are offered otherwise.
[[nodiscard]] Entry read_breed(Pack const& pack, std::string_view typed);

/// An answer to a sign answered by sites.
[[nodiscard]] Entry read_sites(Pack const& pack, SignId sign, std::string_view typed,
                               std::optional<Side> walk_side);

}  // namespace flinch
