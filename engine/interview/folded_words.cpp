// The words of a text, folded to small letters without accents.
#include <utf8proc.h>

#include <algorithm>
#include <array>
#include <cstdint>

#include "flinch/interview/sign_search.hpp"
#include "flinch/text/display.hpp"

namespace flinch {
namespace {

// Letters that Unicode does not take apart, by their usual spelling.
struct Spelling {
  utf8proc_int32_t letter;
  std::string_view usual;
};
constexpr std::array spellings = {
    Spelling{0xE6, "ae"}, Spelling{0xF0, "d"},  Spelling{0xF8, "o"},   Spelling{0xFE, "t"},
    Spelling{0x111, "d"}, Spelling{0x127, "h"}, Spelling{0x131, "i"},  Spelling{0x138, "k"},
    Spelling{0x142, "l"}, Spelling{0x14B, "n"}, Spelling{0x153, "oe"}, Spelling{0x167, "t"},
};

bool is_letter_or_digit(utf8proc_int32_t point) {
  auto const category = utf8proc_category(point);
  return (category >= UTF8PROC_CATEGORY_LU && category <= UTF8PROC_CATEGORY_MC) ||
         category == UTF8PROC_CATEGORY_ND;
}

// What a code point adds to a word; a blank parts words.
std::string folded(char32_t c) {
  if (c == '\'' || c == 0x2019) return "";
  if (c >= 'A' && c <= 'Z') return std::string(1, static_cast<char>(c - 'A' + 'a'));
  if (c < 0x80) {
    bool const stays = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    return std::string(1, stays ? static_cast<char>(c) : ' ');
  }
  std::array<utf8proc_int32_t, 18> parts{};  // the longest decomposition of Unicode
  int last_class = 0;
  auto const count = utf8proc_decompose_char(
      static_cast<utf8proc_int32_t>(c), parts.data(), parts.size(),
      static_cast<utf8proc_option_t>(UTF8PROC_DECOMPOSE | UTF8PROC_COMPAT | UTF8PROC_CASEFOLD |
                                     UTF8PROC_STRIPMARK),
      &last_class);
  std::string out;
  for (std::size_t i = 0; i < static_cast<std::size_t>(std::max<utf8proc_ssize_t>(count, 0)); ++i) {
    auto const* const spelling =
        std::find_if(spellings.begin(), spellings.end(),
                     [&](Spelling const& one) { return one.letter == parts.at(i); });
    if (spelling != spellings.end()) {
      out += spelling->usual;
      continue;
    }
    if (!is_letter_or_digit(parts.at(i))) return " ";
    std::array<utf8proc_uint8_t, 4> bytes{};
    auto const size = utf8proc_encode_char(parts.at(i), bytes.data());
    out.append(bytes.begin(), bytes.begin() + size);
  }
  return out;
}

}  // namespace

std::vector<std::string> folded_words(std::string_view text) {
  std::vector<std::string> words(1);
  while (!text.empty()) {
    std::size_t length = 1;
    while (length < text.size() && (static_cast<unsigned char>(text[length]) & 0xC0U) == 0x80U)
      ++length;
    auto const character = text.substr(0, length);
    bool const is_sound = find_invalid_utf8(character) == std::string_view::npos;
    auto const piece = is_sound ? folded(first_code_point(character)) : " ";
    if (piece != " ")
      words.back() += piece;
    else if (!words.back().empty())
      words.emplace_back();
    text.remove_prefix(is_sound ? length : 1);
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

}  // namespace flinch
