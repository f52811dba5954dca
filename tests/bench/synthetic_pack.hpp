#pragma once
// Packs of any size, for measuring.
#include <cstddef>
#include <string>

namespace flinch::bench {

/// A sound pack with so many rules, each over one of `rules / 4` signs and naming three of 60
/// causes.
[[nodiscard]] std::string synthetic_pack(std::size_t rules);

/// A sound pack of so many causes and signs, for interviews: each sign has one rule that names
/// twenty causes, and every twentieth sign an alarm.
[[nodiscard]] std::string wide_pack(std::size_t causes, std::size_t signs);

/// The same rules as YAML: a list of maps.
[[nodiscard]] std::string synthetic_yaml(std::size_t rules);

}  // namespace flinch::bench
