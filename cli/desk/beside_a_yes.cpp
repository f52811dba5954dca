#include "desk/beside_a_yes.hpp"

#include <fmt/format.h>

#include "flinch/interview/interview.hpp"

namespace flinch::cli {

std::string beside_a_yes(Tables const& tables, Assessment const& result, SignId sign,
                         Answer const& answer) {
  auto const& pack = tables.pack();
  auto const* value = std::get_if<Choice>(&answer);
  if (value == nullptr || value->index != 0) return "";
  auto const found = found_for_degree(tables, result, sign);
  if (!found) return "";
  return fmt::format("Told before: {}: yes. Can both be so? If not, take one back",
                     pack[*found].label);
}

}  // namespace flinch::cli
