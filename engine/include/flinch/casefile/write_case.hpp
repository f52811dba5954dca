#pragma once
// A case as the YAML text that `read_case` reads back, or as the line that `CaseLineReader` does.
//
//   std::string const text = write_case(patient, pack);   // the same patient, word for word
#include <string>

#include "flinch/model/case.hpp"
#include "flinch/model/pack.hpp"

namespace flinch {

/// The case in the format of docs/cases.md: `read_case` of it with the same pack gives an equal
/// case. Answers stand in the order of the pack's signs. Free text is quoted on one line, with
/// control characters and changes of writing direction as escapes; bytes that are not UTF-8 become
/// U+FFFD. What the patient came for and is not told any more is left out. Findings that say
/// nothing (neither found nor clear) are left out: they are unknown.
[[nodiscard]] std::string write_case(Case const& patient, Pack const& pack);

/// The same case as a JSON object on one line, without a line break: `CaseLineReader` of it, told
/// to read outcomes, gives an equal case. An outcome that says nothing is left out.
[[nodiscard]] std::string write_case_line(Case const& patient, Pack const& pack);

}  // namespace flinch
