#pragma once
// Places of the engine as the editor's ranges, and the other way round.
#include "serve/pack_files.hpp"
#include "serve/protocol.hpp"
#include "serve/text_positions.hpp"

namespace flinch::cli::serve {

[[nodiscard]] Json range_json(LinePosition begin, LinePosition end);
[[nodiscard]] Json range_json(TextPositions const& positions, Span span);
/// A `Location`: the file's address and the range.
[[nodiscard]] Json location(PackView const& view, Place at);
/// The member `name`, a `Position`; throws `InvalidParams`.
[[nodiscard]] LinePosition position_member(Json const& object, char const* name);

}  // namespace flinch::cli::serve
