#pragma once
// Packs of any size, for measuring.
#include <cstddef>
#include <string>

namespace flinch::bench {

/// A sound pack with so many rules, each over one of `rules / 4` signs and naming three of 60
/// causes.
[[nodiscard]] std::string synthetic_pack(std::size_t rules);

/// The same rules as YAML: a list of maps.
[[nodiscard]] std::string synthetic_yaml(std::size_t rules);

}  // namespace flinch::bench
