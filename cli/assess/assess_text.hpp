#pragma once
// An assessment for people to read.
#include <string>

#include "flinch/assess/assessment.hpp"
#include "look/page.hpp"

namespace flinch::cli {

enum class Numbers : bool { hidden, shown };

struct TextOptions {
  Numbers numbers = Numbers::hidden;
  std::size_t causes = 5;
  bool are_dangers_unasked = false;  ///< the tier is told with "At least"
  std::string file{};                ///< of the case, for commands that are named; or nothing
};

/// "10 years, 32.66 kg, Labrador Retriever, male, neutered": what is known of it; may be empty.
[[nodiscard]] std::string signalment_text(Pack const& pack, Assessment const& result);

[[nodiscard]] std::string assessment_text(Tables const& tables, Case const& dog,
                                          Assessment const& result, TextOptions const& options,
                                          Look const& look);

}  // namespace flinch::cli
