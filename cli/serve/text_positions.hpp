#pragma once
// Places in a text as editors count them: lines from 0, and in a line UTF-16 code units from 0.
#include <cstdint>
#include <string_view>
#include <vector>

namespace flinch::cli::serve {

struct LinePosition {
  std::uint32_t line = 0;
  std::uint32_t character = 0;  ///< UTF-16 code units: 2 for a character beyond U+FFFF
  friend bool operator==(LinePosition, LinePosition) = default;
};

/// Translates between byte offsets of one text and such places. Lines end in `\n`, `\r\n` or `\r`.
/// Keeps a view of the text, which must live as long.
class TextPositions {
 public:
  explicit TextPositions(std::string_view text);
  /// Offsets past the end give the end; one within a character gives the character's start.
  [[nodiscard]] LinePosition position(std::size_t offset) const;
  /// A place past the end of its line gives the end of the line, one past the last line the end of
  /// the text; one between the two units of a character gives the character's start.
  [[nodiscard]] std::size_t offset(LinePosition at) const;
  [[nodiscard]] LinePosition end() const { return position(text_.size()); }

 private:
  std::string_view text_;
  std::vector<std::size_t> line_starts_;
};

}  // namespace flinch::cli::serve
