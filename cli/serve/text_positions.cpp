#include "serve/text_positions.hpp"

#include <algorithm>

namespace flinch::cli::serve {
namespace {

struct Character {
  std::size_t bytes = 1;
  std::uint32_t units = 1;
};

// The character at `at`; a byte that begins none counts as a character of its own.
Character character_at(std::string_view text, std::size_t at) {
  auto const lead = static_cast<unsigned char>(text[at]);
  std::size_t const bytes = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : lead >= 0xC0 ? 2 : 1;
  for (std::size_t i = 1; i < bytes; ++i)
    if (at + i >= text.size() || (static_cast<unsigned char>(text[at + i]) & 0xC0U) != 0x80U)
      return {};
  return {bytes, bytes == 4 ? 2U : 1U};
}

}  // namespace

TextPositions::TextPositions(std::string_view text) : text_(text), line_starts_{0} {
  for (std::size_t i = 0; i < text.size(); ++i) {
    bool const is_pair = text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n';
    if (!is_pair && (text[i] == '\n' || text[i] == '\r')) line_starts_.push_back(i + 1);
  }
}

LinePosition TextPositions::position(std::size_t offset) const {
  offset = std::min(offset, text_.size());
  auto const next = std::upper_bound(line_starts_.begin(), line_starts_.end(), offset);
  auto const line = static_cast<std::size_t>(next - line_starts_.begin()) - 1;
  LinePosition out{static_cast<std::uint32_t>(line), 0};
  for (auto at = line_starts_[line]; at < offset;) {
    auto const character = character_at(text_, at);
    if (at + character.bytes > offset) break;
    at += character.bytes;
    out.character += character.units;
  }
  return out;
}

std::size_t TextPositions::offset(LinePosition at) const {
  if (at.line >= line_starts_.size()) return text_.size();
  auto out = line_starts_[at.line];
  for (std::uint32_t units = 0; out < text_.size();) {
    if (text_[out] == '\n' || text_[out] == '\r') break;
    auto const character = character_at(text_, out);
    if (units + character.units > at.character) break;
    out += character.bytes;
    units += character.units;
  }
  return out;
}

}  // namespace flinch::cli::serve
