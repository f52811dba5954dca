#pragma once
// A call that a desk keeps in the book, answer by answer; when the book fails, in a case file.
//
//   KeptCall kept(std::move(book), start, tables, DeskName::here("Kim"), now);
//   kept.keep(patient, now).trouble        // after every answer; empty: it is on the disk
#include <ctime>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "book/desk_name.hpp"
#include "book/waiting_calls.hpp"
#include "flinch/assess/assessment.hpp"

namespace flinch::cli {

/// A book that may have failed.
struct DeskBook {
  BookPlace place;
  std::unique_ptr<Book> book;  ///< nothing: it cannot be used, and `trouble` says why
  std::string trouble;
};

/// What a call is when it comes to the desk.
struct CallStart {
  Case patient;                     ///< what is known before anybody says anything
  std::string known_from{};         ///< "the book, call 12": who says that
  std::optional<PatientId> of{};    ///< whose call it will be, where that is known
  std::optional<CallLine> call{};   ///< gone on with
  std::optional<CallId> follows{};  ///< the call that is rung back for
};

class KeptCall {
 public:
  KeptCall(DeskBook book, CallStart const& start, Tables const& tables, DeskName desk,
           std::time_t now);
  KeptCall(KeptCall const&) = delete;
  KeptCall& operator=(KeptCall const&) = delete;

  struct Kept {
    std::string trouble;  ///< why it is kept nowhere
    std::string notice;   ///< it is kept, and this is worth telling
  };
  /// Keeps the case as it now is, forced to the disk; what is `from_book` and not saved yet as the
  /// book's own entry. Nothing is begun before something is said.
  Kept keep(Case const& patient, std::vector<SignId> const& from_book, std::time_t now);

  /// Its number, once it is in the book.
  [[nodiscard]] std::optional<CallId> call() const { return call_; }
  /// The case file that it waits in, if the book does not take it.
  [[nodiscard]] std::string waits_in() const { return waiting_ ? waiting_->path() : ""; }
  /// Gives the call back, having tried once more to take into the book what waits. Where it is
  /// then, in a sentence; empty: it was never begun. A call that is not ended counts as broken off.
  [[nodiscard]] std::string end();

 private:
  [[nodiscard]] BookEntry entry_of(Case const& patient, std::time_t now);
  void save(BookEntry& entry, std::string const& line, std::vector<std::string> const& from_book,
            Case const& patient);
  void judge_with_the_others(BookEntry& entry, CallLine stands, std::string const& changes,
                             Case const& patient);
  [[nodiscard]] Kept wait_in_file(Case const& patient, BookEntry const& entry,
                                  std::string const& why,
                                  std::vector<std::string> const& from_book);
  [[nodiscard]] std::string who_took_it();
  [[nodiscard]] std::string who_else_wrote();
  void release();

  DeskBook book_;
  Tables const& tables_;
  DeskName desk_;
  CallStart start_;
  std::time_t begun_;
  std::string origin_;
  std::optional<CallId> call_;
  std::string line_;  ///< as it was saved last
  std::string first_line_;
  std::string tier_;
  std::string ring_back_at_;
  std::string told_holder_;
  long long entries_ = 0;   ///< of the call, as far as this desk knows them
  bool is_shared_ = false;  ///< it holds what others said and this desk may not know
  std::unique_ptr<WaitingCall> waiting_;
  Assessor assessor_;
};

}  // namespace flinch::cli
