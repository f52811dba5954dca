// The words of a text, folded to small letters.
#include <cstdint>

#include "flinch/interview/sign_search.hpp"
#include "flinch/text/display.hpp"

namespace flinch {
namespace {

// Base letters of U+00C0 to U+017F (Unicode's canonical decompositions; ligatures and letters
// without one by their usual spelling); `*` stands for no letter.
constexpr std::string_view base_letters =
    "aaaaaaaceeeeiiii"
    "dnooooo*ouuuuyts"
    "aaaaaaaceeeeiiii"
    "dnooooo*ouuuuyty"
    "aaaaaaccccccccdd"
    "ddeeeeeeeeeegggg"
    "gggghhhhiiiiiiii"
    "iiiijjkkklllllll"
    "lllnnnnnnnnnoooo"
    "oooorrrrrrssssss"
    "ssttttttuuuuuuuu"
    "uuuuwwyyyzzzzzzs";

// What a code point adds to a word; a blank parts words.
std::string folded(char32_t c, std::string_view character) {
  if (c == '\'' || c == 0x2019 || (c >= 0x300 && c < 0x370)) return "";
  if (c == 0xC6 || c == 0xE6) return "ae";
  if (c == 0xDF) return "ss";
  if (c == 0x152 || c == 0x153) return "oe";
  if (c >= 'A' && c <= 'Z') return std::string(1, static_cast<char>(c - 'A' + 'a'));
  if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) return std::string(1, static_cast<char>(c));
  if (c >= 0xC0 && c < 0xC0 + base_letters.size()) {
    auto const base = base_letters[c - 0xC0];
    return std::string(1, base == '*' ? ' ' : base);
  }
  return c < 0x100 ? " " : std::string(character);  // other scripts as they are
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
    auto const piece = is_sound ? folded(first_code_point(character), character) : " ";
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
