#pragma once
// Text for people: wrapped to the screen, bold and one hue where they show, plain where they do
// not.
#include <cstddef>
#include <string>
#include <string_view>

namespace flinch::cli {

/// What the place where text goes can show.
struct Look {
  std::size_t width = 80;
  bool has_weight = false;  ///< bold and reverse
  bool has_colour = false;  ///< the one hue; never without `has_weight`
  bool has_unicode = false;
  bool out_is_terminal = false;  ///< somebody reads the answer as it is written
  bool err_is_terminal = false;  ///< somebody waits: long work shows itself there
};

/// From the terminals behind standard output and standard error, NO_COLOR, TERM, COLUMNS and the
/// locale's names.
[[nodiscard]] Look look_of_stdout();

class Page {
 public:
  explicit Page(Look const& look) : look_(look) {}

  /// A heading in bold, in a line of its own.
  void heading(std::string_view text);
  /// Text wrapped to the width, its first line after `first_indent` blanks, the others after
  /// `indent`.
  void paragraph(std::string_view text, std::size_t indent = 2, std::string_view bullet = "");
  /// What stands before a paragraph of a list.
  [[nodiscard]] std::string_view bullet() const { return look_.has_unicode ? "\u2022 " : "* "; }
  void line(std::string_view text);
  void blank();

  [[nodiscard]] std::string bold(std::string_view text) const;
  /// Reverse, in the one hue where there is colour: for the tier alone.
  [[nodiscard]] std::string strong(std::string_view text) const;
  /// `filled` of `all` marks.
  [[nodiscard]] std::string marks(std::size_t filled, std::size_t all) const;
  /// A bar of `width` columns, filled to `share` (0 to 1).
  [[nodiscard]] std::string bar(double share, std::size_t width) const;
  [[nodiscard]] Look const& look() const { return look_; }
  [[nodiscard]] std::string take() { return std::move(text_); }

 private:
  Look look_;
  std::string text_;
};

/// Text cut or filled with blanks to so many columns.
[[nodiscard]] std::string fitted(std::string_view text, std::size_t columns);

}  // namespace flinch::cli
