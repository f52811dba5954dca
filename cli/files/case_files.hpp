#pragma once
// Many case files at once: named one by one, or by the folders that they lie in.
#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

#include "command.hpp"
#include "flinch/audit/audit.hpp"
#include "flinch/casefile/read_case.hpp"

namespace flinch::cli {

/// The files, each folder replaced by its `*.yaml` in the order of their names. Nothing when one of
/// them is not there or a folder holds none; every such mistake goes to `err`.
[[nodiscard]] std::optional<std::vector<std::string>> case_files(
    std::vector<std::string> const& places, std::ostream& err);

/// The cases in these files, read for the pack; nothing when one cannot be read. All mistakes go to
/// `session.err`.
[[nodiscard]] std::optional<std::vector<NamedCase>> read_cases(
    std::vector<std::string> const& files, Pack const& pack, Session const& session,
    Outcomes outcomes = Outcomes::read);

}  // namespace flinch::cli
