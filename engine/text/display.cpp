#include "flinch/text/display.hpp"

#include <utf8proc.h>

#include <algorithm>

namespace flinch {
namespace {

struct Decoded {
  char32_t point = 0;
  std::size_t length = 0;  // 0: not valid UTF-8
};

// Of a text that is not empty.
Decoded decode(std::string_view text) {
  if (auto const lead = static_cast<unsigned char>(text.front()); lead < 0x80) return {lead, 1};
  utf8proc_int32_t point = 0;
  auto const length = utf8proc_iterate(
      reinterpret_cast<utf8proc_uint8_t const*>(text.data()),
      static_cast<utf8proc_ssize_t>(std::min<std::size_t>(text.size(), 4)), &point);
  if (length <= 0) return {};
  return {static_cast<char32_t>(point), static_cast<std::size_t>(length)};
}

std::size_t columns(char32_t point) {
  return static_cast<std::size_t>(utf8proc_charwidth(static_cast<utf8proc_int32_t>(point)));
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

std::string_view shown(std::string_view word) {
  constexpr std::size_t longest = 40;
  return word.substr(0, whole_character(word, std::min(word.size(), longest)));
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
