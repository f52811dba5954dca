#pragma once
// The patients of case files, counted into a coverage.
#include <string>
#include <vector>

#include "command.hpp"
#include "flinch/proofread/coverage.hpp"

namespace flinch::cli {

/// Assesses every case in these places (YAML files, folders of them, and files of JSON lines, whose
/// names end in .jsonl) and adds it to `coverage`. False when one cannot be read; every such
/// mistake goes to `session.err`.
[[nodiscard]] bool cover_cases(std::vector<std::string> const& places, Tables const& tables,
                               Coverage& coverage, Session const& session);

}  // namespace flinch::cli
