#pragma once
// The names of one kind of thing (signs, causes, ...): defined once, found with a hint when
// misspelt.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "flinch/syntax/tree.hpp"
#include "flinch/text/diagnostic.hpp"

namespace flinch {

class Symbols {
 public:
  /// `kind` is the word for one of them, as in "unknown sign `x`".
  explicit Symbols(std::string_view kind) : kind_(kind) {}

  /// Gives the name to `index`. A name that is taken is reported, and keeps its first meaning.
  void define(syntax::Name const& name, std::uint32_t index, Report& report);
  /// Makes `find` say nothing about a name: the statement that defines it could not be read.
  void forgive(std::string const& name) { forgiven_.insert(name); }
  /// The index behind the name; an unknown one is reported with the nearest known name.
  [[nodiscard]] std::optional<std::uint32_t> find(syntax::Name const& name, Report& report) const;
  [[nodiscard]] std::optional<std::uint32_t> find(std::string_view name) const;
  [[nodiscard]] std::optional<Place> place_of(std::string_view name) const;
  /// The known name nearest to a misspelt one.
  [[nodiscard]] std::optional<std::string> near(std::string_view name) const;
  [[nodiscard]] std::string_view kind() const { return kind_; }
  /// All of them, in no order.
  [[nodiscard]] std::vector<std::string_view> names() const;

 private:
  struct Entry {
    std::uint32_t index = 0;
    Place at;
  };
  std::string_view kind_;
  std::unordered_map<std::string, Entry> entries_;
  std::unordered_set<std::string> forgiven_;
};

}  // namespace flinch
