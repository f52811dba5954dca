#include "flinch/assess/knowledge.hpp"

#include <algorithm>

namespace flinch {

Known const* Knowledge::find(SignId sign) const {
  auto const found = std::lower_bound(known.begin(), known.end(), sign,
                                      [](Known const& k, SignId s) { return k.sign < s; });
  return found != known.end() && found->sign == sign ? &*found : nullptr;
}

std::optional<double> Knowledge::number(SignId sign) const {
  auto const* found = find(sign);
  auto const* value = found == nullptr ? nullptr : std::get_if<double>(&found->answer);
  return value == nullptr ? std::nullopt : std::optional(*value);
}

bool Knowledge::could_not_be_told(SignId sign) const {
  return std::binary_search(cannot_tell.begin(), cannot_tell.end(), sign);
}

bool Knowledge::is_disputed(SignId sign) const {
  return std::binary_search(disputed.begin(), disputed.end(), sign);
}

}  // namespace flinch
