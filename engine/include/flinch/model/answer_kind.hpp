#pragma once
// What each kind of answer is like: one row a kind, which the rest of the program asks.
#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

namespace flinch {

/// How a sign is answered.
enum class AnswerKind : std::uint8_t { yes_or_no, sites, steps, one_of, number, breed };

struct AnswerTraits {
  std::string_view words;        ///< as the language calls it
  std::string_view way;          ///< how it is answered, behind the name of the sign
  std::string_view how_to_test;  ///< for whoever tested it otherwise, behind `way`
  std::string_view test;         ///< one that fits, as `alone see TIER if` would have it
  bool is_plain = false;         ///< yes or no, and nothing besides
  bool takes_yes_or_no = false;  ///< a bare yes or no answers it
  bool has_places = false;       ///< a yes may tell where
  bool has_values = false;       ///< one of the sign's own values
  bool has_order = false;        ///< they go from the usual one to the worst
  bool is_number = false;
  bool is_breed = false;        ///< one of the breeds of the pack
  bool may_be_absent = false;   ///< one of its answers says that the sign is not there
  std::string_view value = {};  ///< what one of the values is called
};

/// In the order of `AnswerKind`.
inline constexpr std::array<AnswerTraits, 6> answer_kinds = {{
    {.words = "yes or no",
     .way = "is answered yes or no",
     .how_to_test = ": name it alone",
     .test = "",
     .is_plain = true,
     .takes_yes_or_no = true,
     .may_be_absent = true},
    {.words = "sites",
     .way = "is answered by sites",
     .how_to_test = ": name it alone or write `at SITE`",
     .test = "",
     .takes_yes_or_no = true,
     .has_places = true,
     .may_be_absent = true},
    {.words = "steps",
     .way = "is answered in steps",
     .how_to_test = ": write `is STEP` or `at least STEP`",
     .test = "at least STEP",
     .has_values = true,
     .has_order = true,
     .may_be_absent = true,
     .value = "step"},
    {.words = "one of",
     .way = "is a choice",
     .how_to_test = ": write `is VALUE`",
     .test = "VALUE",
     .has_values = true,
     .value = "choice"},
    {.words = "number",
     .way = "is a number",
     .how_to_test = ": compare it, as in `>= 5` with its unit, or `between 1 and 3`",
     .test = ">= 5",
     .is_number = true},
    {.words = "breed",
     .way = "is a breed",
     .how_to_test = ": write `breed in GROUP`, a group that `breeds GROUP BREED, BREED` makes",
     .test = "in GROUP",
     .is_breed = true},
}};
static_assert(answer_kinds[static_cast<std::size_t>(AnswerKind::breed)].is_breed &&
              answer_kinds[static_cast<std::size_t>(AnswerKind::number)].is_number);

[[nodiscard]] constexpr AnswerTraits const& traits(AnswerKind kind) {
  return answer_kinds[static_cast<std::size_t>(kind)];
}

}  // namespace flinch
