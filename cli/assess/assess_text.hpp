#pragma once
// An assessment for people to read.
#include <optional>
#include <string>

#include "flinch/assess/assessment.hpp"
#include "flinch/interview/interview.hpp"
#include "look/page.hpp"

namespace flinch::cli {

enum class Numbers : bool { hidden, shown };

struct TextOptions {
  Numbers numbers = Numbers::hidden;
  std::size_t causes = 5;
  bool are_dangers_unasked = false;  ///< the tier is told with "At least"
  bool are_causes_named = true;      ///< enough is known to name causes
  /// Whose open questions are named; without, those of all.
  std::optional<Audience> audience{};
};

/// "10 years, 32.66 kg, Labrador Retriever, male, neutered": what is known of it; may be empty.
[[nodiscard]] std::string signalment_text(Pack const& pack, Assessment const& result);

[[nodiscard]] std::string assessment_text(Tables const& tables, Case const& dog,
                                          Assessment const& result, TextOptions const& options,
                                          Look const& look);

}  // namespace flinch::cli
