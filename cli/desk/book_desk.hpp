#pragma once
// A desk that works with the day book: which call, of whom, and what of it is known already. Asked
// and answered line by line.
#include <ctime>
#include <iosfwd>
#include <optional>
#include <string>

#include "book/kept_call.hpp"
#include "command.hpp"
#include "flinch/model/pack.hpp"

namespace flinch::cli {

/// What the command line says of the book.
struct BookWish {
  std::string book;   ///< its name; empty: the one in use, if there is one
  std::string by;     ///< who sits there; empty: the user's name
  std::string call;   ///< the number of a call to go on with; empty: none
  std::string ring;   ///< the number of a call that is rung back for; empty: none
  bool none = false;  ///< case files only
};
[[nodiscard]] std::vector<Option> book_wish_options(BookWish& wish);

/// Whether who answers can be asked whom the call is about.
enum class Talks : bool { no, yes };

/// The book of this desk: the one that was named, which is begun if it is not there; without a
/// name, at a terminal, the one in use. Nothing: case files, and nothing was opened.
[[nodiscard]] std::optional<DeskBook> desk_book(BookWish const& wish, Talks talks);

/// A call to begin or to go on with.
struct BookDesk {
  DeskBook book;
  DeskName desk;
  CallStart start;
  std::vector<SignId> from_book;  ///< what the case holds and nobody said in this call
  std::vector<CallLine> visits;   ///< earlier ones, oldest first
};
struct BookDeskStart {
  std::optional<BookDesk> desk;
  Status status = Status::fine;
  std::optional<Case> looked_at{};  ///< a call that another desk has, and that is only looked at
};

/// Takes in what waited, offers what this desk broke off, asks whom the call is about. Nothing when
/// the input ended or the call is left to another desk. A book that fails is told, and the call
/// begins without it.
[[nodiscard]] BookDeskStart begin_at_book(DeskBook book, BookWish const& wish, Tables const& tables,
                                          std::time_t now, std::istream& in,
                                          Session const& session);

}  // namespace flinch::cli
