#pragma once
// Answers as people type them, held against what they mean: see `typed_answers.tsv`.
#include <cstddef>
#include <string>
#include <vector>

#include "flinch/model/pack.hpp"

namespace flinch::test {

struct TypedAnswer {
  std::string question, typed, means, from;
};

/// What became of one.
enum class Reading : std::uint8_t {
  understood,
  /// Of a complaint: what it means stands in the list that is shown, to be taken by its number.
  offered,
  asked_again,
  misread  ///< something is recorded, or said to be recorded, that was not said
};

struct ReadAnswer {
  TypedAnswer answer;
  Reading reading{};
  std::string recorded;  ///< in words
};

/// The lines of the file, as text; stops the program where a line has not four columns.
[[nodiscard]] std::vector<TypedAnswer> typed_answers(std::string const& text);

/// Each of them, read as the questionnaire reads it. An expectation that names nothing of the pack
/// stops the program.
[[nodiscard]] std::vector<ReadAnswer> read_all(Pack const& pack,
                                               std::vector<TypedAnswer> const& answers);

[[nodiscard]] std::size_t count_of(std::vector<ReadAnswer> const& read, Reading reading);

/// The section of docs/interview.md on them.
[[nodiscard]] std::string typed_answers_section(std::vector<ReadAnswer> const& read,
                                                std::vector<ReadAnswer> const& second);

}  // namespace flinch::test
