#pragma once
// The case that a desk (`ask`, `call`) works on: where it begins, and what becomes of it at the
// end.
#include <iosfwd>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "command.hpp"
#include "files/journal.hpp"
#include "files/pack_source.hpp"
#include "flinch/assess/tables.hpp"
#include "look/named_command.hpp"

namespace flinch::cli {

struct DeskCase {
  std::unique_ptr<Journal> journal;
  Case patient;
  bool is_named = false;  ///< the user named the file: it stays
  bool goes_on = false;   ///< the case held answers already
};

/// Whether it can be asked if a case that was broken off is to go on.
enum class Recovers : bool { no, yes };

/// The file `save`, with the case that it holds; without a name, a case of this desk that was
/// broken off, if the user wants to go on with it (asked line by line on `in`). Nothing when the
/// file is no sound case, cannot be written or is open elsewhere: the reason is on `session.err`,
/// and `status` bad. Nothing and fine when the input ended.
struct DeskStart {
  std::optional<DeskCase> desk;
  Status status = Status::fine;
};
[[nodiscard]] DeskStart begin_desk(std::string_view desk, std::string const& save,
                                   Recovers recovers, Tables const& tables, OpenedPack& opened,
                                   std::istream& in, Session const& session);

/// The desk is done. A named file is written once more when `unsaved`; what cannot be saved goes to
/// `session.err`, so that nothing is lost. A recovery file is removed.
[[nodiscard]] Status end_desk(DeskCase const& desk, Case const& patient, bool unsaved,
                              Pack const& pack, Session const& session);

/// Where the case is kept, and the command that goes on with it, for the reader that was named, if
/// any.
[[nodiscard]] std::string saved_text(std::string_view desk, std::string const& save,
                                     GoesOnWith const& on, std::string const& reader);

}  // namespace flinch::cli
