#pragma once
// Calls that the book could not take: case files in the user's state folder, until it can.
#include <iosfwd>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "book/book.hpp"
#include "files/journal.hpp"
#include "flinch/assess/assessment.hpp"
#include "flinch/model/case.hpp"
#include "flinch/model/pack.hpp"

namespace flinch::cli {

/// A case file that waits. What the book must know beside the case stands in it as a comment; as
/// long as this object lives no other program takes it in.
class WaitingCall {
 public:
  /// In a new file, for the book of this identity; `waited.call.entry.changes` is not looked at.
  WaitingCall(std::string book, WaitedCall waited);

  /// Writes the case as it now is, with the tier and the time to ring back that it was told, and
  /// the names of the signs that nobody answered in this call.
  /// Nothing when it went well, otherwise why not.
  [[nodiscard]] std::optional<std::string> write(Case const& patient, Pack const& pack,
                                                 BookEntry const& told,
                                                 std::vector<std::string> from_book);
  /// This desk is done with the call: it was not broken off.
  void end(Pack const& pack, std::string const& desk);
  [[nodiscard]] std::string const& path() const { return journal_->path(); }
  /// Takes it into the book and removes the file; `own` is the name of the tier that this desk
  /// told. Throws BookTrouble.
  struct Taken {
    CallId call{};
    std::string told;  ///< see `told_otherwise`
  };
  Taken take_into(Book& book, Assessor& assessor, Pack const& pack, std::string const& own);

 private:
  std::string book_;
  WaitedCall waited_;
  Case patient_;  ///< as it was written last
  std::unique_ptr<Journal> journal_;
};

struct WaitedCalls {
  std::size_t taken_in = 0;
  std::size_t left = 0;           ///< for this book, and this pack cannot read them
  std::vector<std::string> told;  ///< see `told_otherwise`
};
/// Takes in all that wait for this book and are open nowhere else. Throws BookTrouble.
[[nodiscard]] WaitedCalls take_in_waiting(Book& book, Tables const& tables);

}  // namespace flinch::cli
