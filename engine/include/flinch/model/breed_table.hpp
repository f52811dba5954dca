#pragma once
// Breeds with their size class, usual adult weight and groups, as read from a pack's YAML table.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "flinch/text/diagnostic.hpp"

namespace flinch {

/// Size classes, in this order wherever they are steps.
enum class SizeClass : std::uint8_t { toy, small, medium, large, giant };
inline constexpr std::size_t size_class_count = 5;

/// From `low` up to, not including, `high`, in kilograms.
struct WeightRange {
  double low_kg = 0;
  double high_kg = 0;
};

struct Breed {
  std::string key;                ///< `labrador_retriever`
  std::string name;               ///< "Labrador Retriever"
  std::optional<SizeClass> size;  ///< none for a crossbreed: it follows from the weight
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
  /// Adult weight of each size class, for patients whose breed does not tell.
  std::optional<std::vector<WeightRange>> size_by_weight;

  /// The breed with this key, name or other name, letter case and `_`, `-`, blanks alike.
  [[nodiscard]] std::optional<std::uint32_t> find(std::string_view name) const;
};

/// Reads the table; every mistake is in the report, and the faulty entries are left out.
///
///   sizes: {toy: 0 to 5 kg, small: 5 to 10 kg, ...}
///   groups: {long_backed: "Short legs and a long back"}
///   breeds:
///     labrador_retriever:
///       {name: Labrador Retriever, size: large, weight: 25 to 36 kg, also: [lab], groups: [...]}
[[nodiscard]] BreedTable read_breed_table(SourceSet const& sources, FileId file, Report& report);

}  // namespace flinch
