#pragma once
// What was said in a call, as merge patches (RFC 7396) of the line of its case.
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace flinch::cli {

/// A line, or a patch, in two: what the patient has, and what would tell who it is (name, caller,
/// number, time to ring back in the caller's words, note).
struct SaidAndWords {
  std::string said;
  std::string words;  ///< `{}` when there are none
};
/// Throws BookTrouble when it is no JSON object.
[[nodiscard]] SaidAndWords apart(std::string_view changes);

/// An entry that a file said.
struct TakenInMark {
  bool had_words = false;  ///< also once they are forgotten
};

/// Whether it says what the patient turned out to have or to need.
[[nodiscard]] bool has_outcome(std::string_view said);

/// What an entry tells of its call that is no part of the case.
struct BookFacts {
  std::optional<std::string> tier{};                    ///< empty: none any more
  std::optional<std::optional<long long>> ring_back{};  ///< when, or that it is no more
  std::optional<TakenInMark> taken_in{};
  std::optional<long long> follows{};  ///< the number of the call that this one rings back for
  std::string waited_in{};             ///< see `BookEntry`
  std::string species{};               ///< see `NewCall`
  std::string pack{};                  ///< see `NewCall`
};

/// The patch with these. `Folded` puts them into no case.
[[nodiscard]] std::string with_book_facts(std::string_view said, BookFacts const& facts);
/// Whether the entry waited in this case file.
[[nodiscard]] bool has_waited_in(std::string_view said, std::string const& file);
[[nodiscard]] std::optional<TakenInMark> taken_in_mark(std::string_view said);

/// The species of the patient, as far as an entry tells it: the key under which the patient's own
/// facts stand, or the fact of the book. Empty: not told, or of a pack that names none.
[[nodiscard]] std::string species_in(std::string_view said);

/// A patch in two: the answers to the signs of these names, and all else.
struct AnswersApart {
  std::string of_these;  ///< `{}` when there are none
  std::string rest;
};
[[nodiscard]] AnswersApart answers_apart(std::string_view changes,
                                         std::vector<std::string> const& names);
/// The names of the signs that a patch answers, the patient's own among them: they stand under
/// `Pack::patient_key`.
[[nodiscard]] std::vector<std::string> answered_in(std::string_view changes,
                                                   std::string_view patient_key);

/// The patch that makes `after` of `before`, both lines of a case; `{}` when they are the same.
[[nodiscard]] std::string changes_between(std::string_view before, std::string_view after);

/// The changes of one who knows the line as `before` and makes `after` of it, where it meanwhile
/// `stands` otherwise: what it came for is a list, of which only what this one added or took out
/// changes.
[[nodiscard]] std::string came_for_of_both(std::string_view changes, std::string_view before,
                                           std::string_view after, std::string_view stands);

/// The line of a case with these changes, their words left out.
[[nodiscard]] std::string said_together(std::string_view line, std::string_view changes);

/// Patches put upon each other.
class Folded {
 public:
  Folded();
  ~Folded();
  Folded(Folded&&) noexcept;
  Folded& operator=(Folded&&) noexcept;
  /// Throws BookTrouble when it is no JSON object.
  void add(std::string_view changes);
  [[nodiscard]] std::string text() const;
  /// The number of the call that this one rings back for.
  [[nodiscard]] std::optional<long long> follows() const { return follows_; }
  /// The name of the pack by which the call was begun; empty: an older book does not tell.
  [[nodiscard]] std::string const& pack() const { return pack_; }
  /// See `species_in`.
  [[nodiscard]] std::string const& species() const { return species_; }

 private:
  struct Tree;
  std::unique_ptr<Tree> tree_;
  std::optional<long long> follows_;
  std::string pack_;
  std::string species_;
};

}  // namespace flinch::cli
