#pragma once
// What `flinch check` found, for programs: docs/check.schema.json.
#include <nlohmann/json.hpp>

#include "check_findings.hpp"

namespace flinch::cli {

[[nodiscard]] nlohmann::ordered_json diagnostics_json(std::vector<Diagnostic> const& diagnostics,
                                                      SourceSet const& sources);

/// Of a pack that loads.
[[nodiscard]] nlohmann::ordered_json check_json(CheckFindings const& findings,
                                                SourceSet const& sources);

}  // namespace flinch::cli
