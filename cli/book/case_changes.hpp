#pragma once
// What was said in a call, as merge patches (RFC 7396) of the line of its case.
#include <memory>
#include <optional>
#include <string>
#include <string_view>

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

/// The patch with what is told of a call and is no part of the case: the tier, when to ring back
/// (or that it is no more), whether a file said it. `Folded` passes over it.
[[nodiscard]] std::string with_book_facts(std::string_view said,
                                          std::optional<std::string> const& tier,
                                          std::optional<std::optional<long long>> const& ring_back,
                                          std::optional<TakenInMark> const& taken_in);
[[nodiscard]] std::optional<TakenInMark> taken_in_mark(std::string_view said);

/// The patch that makes `after` of `before`, both lines of a case; `{}` when they are the same.
[[nodiscard]] std::string changes_between(std::string_view before, std::string_view after);

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

 private:
  struct Tree;
  std::unique_ptr<Tree> tree_;
};

}  // namespace flinch::cli
