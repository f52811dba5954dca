#pragma once
// Whom a call is about: found in the book by a few letters or digits.
#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

#include "book/book.hpp"
#include "command.hpp"
#include "flinch/model/pack.hpp"

namespace flinch::cli {

class PatientTalk {
 public:
  PatientTalk(Book& book, Pack const& pack, std::istream& in, Session const& session)
      : book_(book), pack_(pack), in_(in), session_(session) {}

  /// Both empty: nobody that the book knows.
  struct About {
    std::optional<PatientFound> patient{};  ///< a new call of this one
    std::optional<CallLine> call{};         ///< or this call, to go on with
    bool rings = false;                     ///< rather, to ring back for
  };
  /// Asks until it is known; nothing when the input ended. Throws BookTrouble.
  [[nodiscard]] std::optional<About> ask();

 private:
  void remark(std::string const& text);
  void search(std::string const& words);
  void show(PatientFound const& patient);
  [[nodiscard]] std::optional<CallLine> call_named(std::string const& line);

  Book& book_;
  Pack const& pack_;
  std::istream& in_;
  Session const& session_;
  std::vector<PatientFound> found_;
  std::optional<PatientFound> shown_;
  std::optional<CallLine> waits_;  ///< the last open call of it that is to be rung back
};

}  // namespace flinch::cli
