#include "model/wording.hpp"

#include <algorithm>

namespace flinch {

std::string spoken(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

std::string title_or_name(syntax::Head const& head) {
  return head.title ? head.title->text : spoken(head.name.text);
}

}  // namespace flinch
