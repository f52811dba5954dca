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

/// A rule file beside a pack that nothing includes.
struct LeftOut {
  std::string file;
  std::vector<std::string> names;  ///< of its statements
  mutable bool is_told = false;    ///< at the first name that is missing for it
};

class Symbols {
 public:
  /// `kind` is the word for one of them, as in "unknown sign `x`".
  explicit Symbols(std::string_view kind) : kind_(kind) {}

  /// Gives the name to `index`. A name that is taken is reported, and keeps its first meaning.
  void define(syntax::Name const& name, std::uint32_t index, Report& report);
  /// Keeps the words that people read for a name; both outlive this.
  void called(std::string_view name, std::string_view words) { words_.push_back({words, name}); }
  /// The name whose words these are, capitals or not, `_` for a blank or not; nothing where none or
  /// several have them.
  [[nodiscard]] std::optional<std::string> named_by(std::string_view words) const;
  /// Makes `find` say nothing about a name: the statement that defines it could not be read.
  void forgive(std::string const& name) { forgiven_.insert(name); }
  /// Makes `find` say nothing about names that are like no other: something that defines names
  /// could not be read, and theirs may be among them.
  void forgive_strangers() { forgives_strangers_ = true; }
  /// Files whose names would be known if they were included; they outlive this.
  void left_out(std::vector<LeftOut> const& files) { left_out_ = &files; }
  /// The index behind the name; an unknown one is reported with the nearest known name. One that
  /// is like no other is reported once: its statement is missing, whatever uses it.
  [[nodiscard]] std::optional<std::uint32_t> find(syntax::Name const& name, Report& report) const;
  [[nodiscard]] std::optional<std::uint32_t> find(std::string_view name) const;
  /// Whether an unknown name is not reported: what could not be read may define it.
  [[nodiscard]] bool is_forgiven(std::string_view name) const;
  [[nodiscard]] std::optional<Place> place_of(std::string_view name) const;
  /// The known name nearest to a misspelt one.
  [[nodiscard]] std::optional<std::string> near(std::string_view name) const;
  [[nodiscard]] std::string_view kind() const { return kind_; }
  /// All of them, in no order.
  [[nodiscard]] std::vector<std::string_view> names() const;

 private:
  [[nodiscard]] LeftOut const* left_out_with(std::string const& name) const;
  struct Entry {
    std::uint32_t index = 0;
    Place at;
  };
  std::string_view kind_;
  std::unordered_map<std::string, Entry> entries_;
  struct Words {
    std::string_view words;
    std::string_view name;
  };
  std::vector<Words> words_;
  std::unordered_set<std::string> forgiven_;
  std::vector<LeftOut> const* left_out_ = nullptr;
  mutable std::unordered_set<std::string> told_;  ///< unknown names that are like no other
  bool forgives_strangers_ = false;
};

}  // namespace flinch
