#pragma once
// Where a case comes from: a file, or standard input.
#include <optional>
#include <string>

#include "commands.hpp"
#include "flinch/model/pack.hpp"
#include "flinch/text/source.hpp"

namespace flinch::cli {

struct NamedCase {
  std::string file;  ///< as named, or "standard input"
  Case dog;
};

/// The case at `path` (`-` is standard input); nothing when it cannot be read or has mistakes,
/// which have been told then.
[[nodiscard]] std::optional<NamedCase> open_case(std::string const& path, SourceSet& sources,
                                                 Pack const& pack, Session const& session);

}  // namespace flinch::cli
