#pragma once
// Which number a name has, for names looked up by the million. Names are looked at where they are.
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

namespace flinch {

class NameTable {
 public:
  /// Has room for so many names.
  explicit NameTable(std::size_t names);
  /// The first number given to a name stays.
  void add(std::string_view name, std::uint32_t number);
  [[nodiscard]] std::optional<std::uint32_t> find(std::string_view name) const;

 private:
  struct Slot {
    std::string_view name;
    std::uint32_t number = 0;
    bool is_taken = false;
  };
  [[nodiscard]] std::size_t slot(std::string_view name) const;
  std::vector<Slot> slots_;  ///< their number is a power of two, twice that of the names or more
};

}  // namespace flinch
