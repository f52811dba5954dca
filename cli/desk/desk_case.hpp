#pragma once
// The case that a desk (`ask`, `call`) works on: where it begins, and what becomes of it at the
// end.
#include <iosfwd>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "book/kept_call.hpp"
#include "command.hpp"
#include "desk/book_desk.hpp"
#include "desk/case_keeper.hpp"
#include "desk/earlier_visits.hpp"
#include "files/journal.hpp"
#include "files/pack_source.hpp"
#include "flinch/assess/tables.hpp"
#include "look/named_command.hpp"

namespace flinch::cli {

struct DeskCase {
  std::unique_ptr<Journal> journal;  ///< of a case that is kept in a file
  std::unique_ptr<KeptCall> call;    ///< of one that is kept in the book; then there is no journal
  Case patient;
  bool is_named = false;    ///< the user named the file: it stays
  bool goes_on = false;     ///< the case held answers already
  EarlierVisits earlier{};  ///< of the book

  /// Whether the answers stay when the desk is done.
  [[nodiscard]] bool is_kept() const { return is_named || call != nullptr; }
  /// Where they go as they come.
  [[nodiscard]] CaseKeeper keeper(Pack const& pack) const;
};

/// What is asked of a desk, and where it begins.
struct DeskWish {
  std::string_view desk;  ///< "ask" or "call"
  std::string save;       ///< the case file; empty: none was named
  BookWish book;
  bool is_terminal = false;  ///< who answers can be asked what is to become of an earlier case
};

/// The file `save`, with the case that it holds; else a call of the book, where one is in use; else
/// a case of this desk that was broken off, if the user wants to go on with it (asked line by line
/// on `in`). Nothing when the file is no sound case, cannot be written or is open elsewhere: the
/// reason is on `session.err`, and `status` bad. Nothing and fine when the input ended, or when a
/// call that another desk has was left to it or only `looked_at`.
struct DeskStart {
  std::optional<DeskCase> desk;
  Status status = Status::fine;
  std::optional<Case> looked_at{};
};
[[nodiscard]] DeskStart begin_desk(DeskWish const& wish, Tables const& tables, SoundPack& opened,
                                   std::istream& in, Session const& session);

/// The desk is done. A named file is written once more when `unsaved`; what cannot be saved goes to
/// `session.err`, so that nothing is lost. A recovery file is removed. Of a call of the book it is
/// told where it is.
[[nodiscard]] Status end_desk(DeskCase const& desk, Case const& patient, bool unsaved,
                              Pack const& pack, Session const& session);

/// Where the case is kept, and the command that goes on with it, for the reader that was named, if
/// any.
[[nodiscard]] std::string saved_text(std::string_view desk, std::string const& save,
                                     GoesOnWith const& on, std::string const& reader);

}  // namespace flinch::cli
