#pragma once
// Breeds with their size class, usual adult weight and groups, as read from a pack's YAML table.
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "flinch/text/diagnostic.hpp"

namespace flinch {

/// The steps of `size` where the pack has no `sizes` of its own.
inline constexpr std::array<std::string_view, 5> usual_sizes = {"toy", "small", "medium", "large",
                                                                "giant"};

/// From `low` up to, not including, `high`, in kilograms.
struct WeightRange {
  double low_kg = 0;
  double high_kg = 0;
};

struct Breed {
  std::string key;   ///< `labrador_retriever`
  std::string name;  ///< "Labrador Retriever"
  /// A step of the sign `size`; none for a crossbreed: it follows from the weight.
  std::optional<std::uint32_t> size;
  WeightRange adult_weight;
  std::vector<std::string> also;      ///< other names, in small letters
  std::vector<std::uint32_t> groups;  ///< indices into the table's groups
};

struct BreedGroup {
  std::string key;
  std::string title;
  Place at{};  ///< of a group that the pack itself defines
};

struct BreedTable {
  std::vector<Breed> breeds;
  std::vector<BreedGroup> groups;

  /// The breed with this key, name or other name, letter case and `_`, `-`, blanks alike.
  [[nodiscard]] std::optional<std::uint32_t> find(std::string_view name) const;
};

/// A step of the sign `size`, and what a grown patient of it weighs where the pack says so.
struct NamedSize {
  std::string name;
  std::optional<WeightRange> weight;
};

/// Reads the table; every mistake is in the report, and the faulty entries are left out. `sizes`
/// are the steps that a breed may have; none: they are not known, and nothing is said of them.
/// `believed` are the weights that the pack believes.
///
///   groups: {long_backed: "Short legs and a long back"}
///   breeds:
///     labrador_retriever:
///       {name: Labrador Retriever, size: large, weight: 25 to 36 kg, also: [lab], groups: [...]}
[[nodiscard]] BreedTable read_breed_table(SourceSet const& sources, FileId file,
                                          std::vector<NamedSize> const& sizes,
                                          std::optional<WeightRange> const& believed,
                                          Report& report);

}  // namespace flinch
