#pragma once
// A strict reading of a JSON document: one object, no key twice, nothing behind it, and each piece
// with its place. It becomes the same tree as a YAML document does.
#include <optional>

#include "flinch/text/diagnostic.hpp"
#include "flinch/text/source.hpp"
#include "flinch/yaml/document.hpp"

namespace flinch::json {

/// The object, or nothing when there is none; mistakes are in the report. Texts become quoted
/// scalars, numbers scalars as written, `true` and `false` unquoted ones: within the members of the
/// document's own members `yes` and `no`.
[[nodiscard]] std::optional<yaml::Node> read(SourceSet const& sources, FileId file,
                                             yaml::Limits const& limits, Report& report);

}  // namespace flinch::json
