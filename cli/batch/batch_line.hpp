#pragma once
// One line in, one line out: docs/batch.schema.json.
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "batch/answer_writer.hpp"
#include "flinch/assess/assessment.hpp"
#include "flinch/casefile/read_case_line.hpp"

namespace flinch::cli {

enum class Line : std::uint8_t { good, bad, blank };

/// Holds scratch memory: one a thread, over shared tables.
class LineAssessor {
 public:
  LineAssessor(Tables const& tables, std::size_t causes);

  /// Appends what comes out for the case on this line, with its line break; nothing for a line of
  /// blanks. `number` counts the lines of the input from 1.
  Line assess(std::uint64_t number, std::string_view line, std::string& out);

  /// The same for a line of so many bytes, too long to be kept.
  static void refuse(std::uint64_t number, std::uint64_t bytes, std::string& out);

 private:
  Assessor assessor_;
  CaseLineReader reader_;
  AnswerWriter writer_;
  std::size_t causes_;
  std::vector<std::uint32_t> head_;  ///< of the ranking
};

}  // namespace flinch::cli
