#pragma once
// A case out of a tree of maps, lists and scalars, whatever it was written in.
#include "flinch/model/case.hpp"
#include "flinch/model/pack.hpp"
#include "flinch/text/diagnostic.hpp"
#include "yaml/document.hpp"

namespace flinch {

/// The case; when the report has gained errors it is only what could be understood.
[[nodiscard]] Case read_case_tree(yaml::Node const& root, Pack const& pack, Report& report);

}  // namespace flinch
