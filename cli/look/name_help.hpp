#pragma once
// What to say to somebody whose name for a thing is none.
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "flinch/model/find_named.hpp"

namespace flinch::cli {

/// Remedies for `called`, which is no name or title among `kinds` (`search` came back empty), best
/// first: what it is instead, names like it, and where all names stand. One at least.
/// `pack_path` is the pack's as it was given, for the commands that are named.
[[nodiscard]] std::vector<std::string> name_help(Pack const& pack, std::string_view called,
                                                 std::span<NamedKind const> kinds,
                                                 NameSearch const& search,
                                                 std::string const& pack_path);

}  // namespace flinch::cli
