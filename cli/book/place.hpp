#pragma once
// Where a book is: a file of one desk, or a server for several.
#include <optional>
#include <string>

namespace flinch::cli {

struct BookPlace {
  std::string location;  ///< an absolute path, or an address `postgresql://...`
  bool is_server = false;
  std::string shown;  ///< for people: without password and settings
  int wait_s = 20;    ///< for other programs that write, and for a server to answer

  /// What tells it from other books, without a password.
  [[nodiscard]] std::string const& identity() const { return is_server ? shown : location; }
};

/// The book that was named; without a name $FLINCH_BOOK, else book.db in the user's data folder
/// ($XDG_DATA_HOME/flinch, or ~/.local/share/flinch). Throws BookTrouble where none of these is
/// there, and for a name that no book can have.
[[nodiscard]] BookPlace book_place(std::string const& named);

/// The book that $FLINCH_BOOK names, or the user's own where it was begun; nothing where there is
/// neither. Opens nothing. Throws BookTrouble for a name that no book can have.
[[nodiscard]] std::optional<BookPlace> book_in_use();

/// Makes the file (and its folder, where that is missing) for the owner alone, if it is not there.
/// Throws BookTrouble.
void make_book_file(BookPlace const& place);

/// Takes from the file what others than its owner may do with it; false where they still may do
/// something, as on a disk that knows no owners. What another's file allows is for its owner to
/// say. Throws BookTrouble where it is not there or is no plain file.
[[nodiscard]] bool keep_book_file_private(BookPlace const& place);

}  // namespace flinch::cli
