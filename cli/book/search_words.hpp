#pragma once
// What a patient is found by: words of its name and of its caller's, and the number.
#include <string>
#include <string_view>
#include <vector>

namespace flinch::cli {

/// Letters small, accents kept, everything that is neither letter nor digit a gap.
[[nodiscard]] std::vector<std::string> words_in(std::string_view text);

/// The digits of a number as it was told, whatever stands between them.
[[nodiscard]] std::string digits_in(std::string_view number);

/// What a patient is listed under: each word, and the number from its front and from its end.
[[nodiscard]] std::vector<std::string> search_words(std::string_view patient,
                                                    std::string_view client,
                                                    std::string_view number);

/// What was typed, as beginnings of such words. Of each inner list one must fit; digits that stand
/// together or apart are one number, from its front or from its end.
[[nodiscard]] std::vector<std::vector<std::string>> search_beginnings(std::string_view typed);

}  // namespace flinch::cli
