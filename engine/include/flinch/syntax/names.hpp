#pragma once
// The names in a syntax tree: what each stands for, and whether it is defined or used there.
#include <string_view>
#include <vector>

#include "flinch/syntax/tree.hpp"

namespace flinch::syntax {

/// What a name stands for. `sign` includes what `means` defines, since
/// conditions use both alike, and `cause` the families that rules may name.
enum class NameKind : std::uint8_t {
  pack,
  source,
  tier,
  site,
  group,  ///< of breeds
  sign,
  cause,
  rule,
  alarm,
  overlap,
  care,
  example,
  value  ///< a step or choice of a sign
};

enum class Role : bool { use, definition };

struct NamedPlace {
  NameKind kind{};
  Role role = Role::use;
  Name const* name = nullptr;  ///< in the tree, never null
  std::string_view sign;       ///< whose value it is, for `value`
};

/// Every name of the statement, in no particular order; valid as long as the statement is.
[[nodiscard]] std::vector<NamedPlace> names_in(Statement const& statement);

}  // namespace flinch::syntax
