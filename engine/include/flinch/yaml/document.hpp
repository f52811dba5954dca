#pragma once
// A strict reading of YAML: one document, no anchors, aliases or tags, no key twice, and each piece
// with its place. Scalars stay text; what they mean is for the reader of the document.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "flinch/text/diagnostic.hpp"

namespace flinch::yaml {

struct Member;

struct Node {
  enum class Kind : unsigned char { nothing, scalar, list, map };
  Kind kind = Kind::nothing;
  std::string scalar;
  bool is_quoted = false;
  std::vector<Node> items;      ///< of a list
  std::vector<Member> members;  ///< of a map, in order
  Place at;

  [[nodiscard]] Node const* find(std::string_view key) const;
};

struct Member {
  std::string key;
  Place key_at;
  Node value;
};

struct Limits {
  std::size_t bytes = std::size_t{4} << 20U;
  std::size_t depth = 16;
};

/// The document, or nothing when it is not well-formed; mistakes are in the report.
[[nodiscard]] std::optional<Node> read(SourceSet const& sources, FileId file, Limits const& limits,
                                       Report& report);

}  // namespace flinch::yaml
