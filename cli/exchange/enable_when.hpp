#pragma once
// When a question of the form is shown, as far as the standard's `enableWhen` can say it.
#include <vector>

#include "exchange/terms.hpp"

namespace flinch::cli {

/// A question is hidden only where it is known that its answer is no. What cannot be said is left
/// out, so that a form may show a question too many, never one too few.
struct EnableWhen {
  std::vector<Json> terms;  ///< empty: always shown
  bool is_any = false;      ///< one term is enough
  bool is_whole = true;     ///< nothing was left out
};

[[nodiscard]] EnableWhen enable_when(Pack const& pack, Sign const& sign);

}  // namespace flinch::cli
