#pragma once
// An assessment for people to read.
#include <optional>
#include <string>

#include "flinch/assess/assessment.hpp"
#include "flinch/model/reader.hpp"
#include "flinch/telling/practice.hpp"
#include "look/page.hpp"

namespace flinch::cli {

enum class Numbers : bool { hidden, shown };

struct TextOptions {
  Numbers numbers = Numbers::hidden;
  std::size_t causes = 5;
  bool are_dangers_unasked = false;  ///< the tier is told with "At least"
  bool are_causes_named = true;      ///< enough is known to name causes
  /// Whose open questions alone are counted; without, those of all are.
  std::optional<Reader> reader{};
  Setting setting{};
  std::string care_command{};  ///< that is named for what to do meanwhile; or nothing
};

[[nodiscard]] std::string assessment_text(Tables const& tables, Case const& patient,
                                          Assessment const& result, TextOptions const& options,
                                          Look const& look);

}  // namespace flinch::cli
