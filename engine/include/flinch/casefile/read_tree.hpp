#pragma once
// A case out of a tree of maps, lists and scalars, whatever it was written in.
#include "flinch/casefile/read_case.hpp"
#include "flinch/model/pack.hpp"
#include "flinch/text/diagnostic.hpp"
#include "flinch/yaml/document.hpp"

namespace flinch {

/// The case; when the report has gained errors it is only what could be understood.
[[nodiscard]] Case read_case_tree(yaml::Node const& root, Pack const& pack, Outcomes outcomes,
                                  Report& report);

}  // namespace flinch
