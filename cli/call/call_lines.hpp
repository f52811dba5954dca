#pragma once
// The lines of a screen being filled from the top.
#include <string>
#include <string_view>

#include "call/call_view.hpp"
#include "look/page.hpp"

namespace flinch::cli {

/// What was recorded, in capitals: letters of ASCII only.
[[nodiscard]] std::string capitals(std::string_view text);

class CallLines {
 public:
  CallLines(ScreenSize size, Letters letters) : size_(size), letters_(letters) {}

  void add(ViewLine line) { screen_.lines.push_back(std::move(line)); }
  void add_text(std::string text, Weight weight = Weight::plain);
  void heading(std::string text) { add_text(std::move(text), Weight::bold); }
  void blank() { add(ViewLine{}); }
  /// Wrapped to the width, hanging below its bullet; cut after so many rows.
  void paragraph(std::string_view text, std::size_t indent, std::string_view bullet,
                 Weight weight = Weight::plain, std::size_t rows_at_most = 1000);
  /// One of a list that is chosen from by number; `words` stand behind the label.
  void choice(std::size_t number, std::string_view label, std::string_view words, bool is_chosen);
  void rule();
  /// Blank lines up to so many rows; what is below is cut.
  void fill_to(std::size_t rows);
  /// The place to type is behind the last line.
  void cursor_behind_last_line();

  /// Text made harmless, and `?` for what the screen has no letters for.
  [[nodiscard]] std::string shown(std::string_view text) const;
  /// The end of a text that is being typed, as much of it as there is room for.
  [[nodiscard]] std::string tail(std::string_view text, std::size_t columns) const;
  [[nodiscard]] std::string_view bullet() const;
  [[nodiscard]] Look look() const;
  [[nodiscard]] ScreenSize size() const { return size_; }
  [[nodiscard]] std::size_t count() const { return screen_.lines.size(); }
  /// What has been added from row `first` on, taken out again.
  [[nodiscard]] std::vector<ViewLine> take_from(std::size_t first);
  void limit_scroll(std::size_t rows) { screen_.scroll_at_most = rows; }
  /// The screen, every line cut to the width.
  [[nodiscard]] CallScreen take();

 private:
  ScreenSize size_;
  Letters letters_;
  CallScreen screen_;
};

}  // namespace flinch::cli
