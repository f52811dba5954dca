#pragma once
// What is answered about a place in a document. Each throws `InvalidParams` for faulty parameters
// and gives null where there is nothing to say.
#include "serve/hover.hpp"
#include "serve/protocol.hpp"
#include "serve/workspace.hpp"

namespace flinch::cli::serve {

[[nodiscard]] Json answer_hover(Workspace const& workspace, Json const& params, Markup markup);
[[nodiscard]] Json answer_definition(Workspace const& workspace, Json const& params);
[[nodiscard]] Json answer_completion(Workspace const& workspace, Json const& params);
/// One edit that replaces the whole text; none when it is tidy or has errors.
[[nodiscard]] Json answer_fixes(Workspace const& workspace, Json const& params);
[[nodiscard]] Json answer_formatting(Workspace const& workspace, Json const& params);

}  // namespace flinch::cli::serve
