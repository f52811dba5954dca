#include "desk/as_typed.hpp"

#include <fmt/format.h>

#include "flinch/explain/reasons.hpp"
#include "flinch/interview/answer_entry.hpp"

namespace flinch::cli {

std::string text_as_typed(Pack const& pack, SignId sign, Answer const& answer,
                          std::string_view typed) {
  auto text = answer_text(pack, sign, answer);
  auto const* value = std::get_if<double>(&answer);
  auto const as_typed =
      value == nullptr ? std::nullopt : amount_as_typed(pack[sign], *value, typed);
  return as_typed ? fmt::format("{} ({})", *as_typed, text) : text;
}

}  // namespace flinch::cli
