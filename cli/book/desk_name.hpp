#pragma once
// Who sits at which desk, as the book knows it.
#include <string>

namespace flinch::cli {

/// The name of this machine in its network.
[[nodiscard]] std::string this_machine();

/// Somebody at a desk, in one run of the program.
struct DeskName {
  std::string person;
  std::string machine;
  long process = 0;

  /// The person at this machine, in this run.
  [[nodiscard]] static DeskName here(std::string person);
  /// Of such a text; one that is none is all person.
  [[nodiscard]] static DeskName of(std::string const& text);
  /// "Kim at desk2 #4711", as it stands in the book.
  [[nodiscard]] std::string text() const;
  /// "Kim at desk2", harmless to show.
  [[nodiscard]] std::string shown() const;
  /// A run of this machine that is over, however it ended. Of another machine that is not known.
  [[nodiscard]] bool is_gone() const;
};

}  // namespace flinch::cli
