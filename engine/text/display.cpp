#include "flinch/text/display.hpp"

#include <cstdint>

namespace flinch {
namespace {

struct Decoded {
  char32_t point = 0;
  std::size_t length = 0;  // 0: not valid UTF-8
};

// One code point after RFC 3629: shortest form only, no surrogates, nothing above U+10FFFF.
Decoded decode(std::string_view text) {
  auto const byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  auto const lead = byte(0);
  if (lead < 0x80) return {lead, 1};
  std::size_t const length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
  if (lead < 0xC2 || lead > 0xF4 || text.size() < length) return {};
  char32_t point = lead & (0xFFU >> (length + 1));
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) return {};
    point = (point << 6U) | (byte(i) & 0x3FU);
  }
  bool const overlong = (length == 3 && point < 0x800) || (length == 4 && point < 0x10000);
  bool const surrogate = point >= 0xD800 && point <= 0xDFFF;
  if (overlong || surrogate || point > 0x10FFFF) return {};
  return {point, length};
}

// Combining marks take no column; East Asian wide forms and pictographs take two (the blocks of
// Unicode's EastAsianWidth table that a rule file may plausibly hold).
std::size_t columns(char32_t c) {
  if (c < 0x20 || (c >= 0x7F && c < 0xA0)) return 0;
  if ((c >= 0x300 && c < 0x370) || (c >= 0x200B && c <= 0x200F) || (c >= 0xFE00 && c <= 0xFE0F))
    return 0;
  bool const wide = (c >= 0x1100 && c <= 0x115F) || (c >= 0x2E80 && c <= 0xA4CF) ||
                    (c >= 0xAC00 && c <= 0xD7A3) || (c >= 0xF900 && c <= 0xFAFF) ||
                    (c >= 0xFE30 && c <= 0xFE6F) || (c >= 0xFF00 && c <= 0xFF60) ||
                    (c >= 0x1F300 && c <= 0x1FAFF) || (c >= 0x20000 && c <= 0x3FFFD);
  return wide ? 2 : 1;
}

}  // namespace

std::size_t display_width(std::string_view text) {
  std::size_t width = 0;
  while (!text.empty()) {
    auto const [point, length] = decode(text);
    width += length == 0 ? 1 : columns(point);
    text.remove_prefix(length == 0 ? 1 : length);
  }
  return width;
}

std::size_t whole_character(std::string_view text, std::size_t at) {
  if (at >= text.size()) return text.size();
  while (at > 0 && (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U) --at;
  return at;
}

std::string inert(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    auto const [point, length] = decode(text);
    bool const control = length == 0 || (point < 0x20 && point != '\t') ||
                         (point >= 0x7F && point < 0xA0) ||
                         (point >= 0x202A && point <= 0x202E) ||  // bidirectional overrides
                         (point >= 0x2066 && point <= 0x2069);
    if (control)
      out += '?';
    else
      out += text.substr(0, length);
    text.remove_prefix(length == 0 ? 1 : length);
  }
  return out;
}

std::size_t find_invalid_utf8(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    auto const length = decode(text.substr(at)).length;
    if (length == 0) return at;
    at += length;
  }
  return std::string_view::npos;
}

char32_t first_code_point(std::string_view text) { return decode(text).point; }

}  // namespace flinch
