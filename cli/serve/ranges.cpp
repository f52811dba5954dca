#include "serve/ranges.hpp"

#include "serve/workspace.hpp"

namespace flinch::cli::serve {
namespace {

Json position_json(LinePosition at) { return {{"line", at.line}, {"character", at.character}}; }

}  // namespace

Json range_json(LinePosition begin, LinePosition end) {
  return {{"start", position_json(begin)}, {"end", position_json(end)}};
}

Json range_json(TextPositions const& positions, Span span) {
  return range_json(positions.position(span.begin), positions.position(span.end));
}

Json location(PackView const& view, Place at) {
  auto const& source = view.sources[at.file];
  return {{"uri", document_of_path(source.name())},
          {"range", range_json(TextPositions(source.text()), at.span)}};
}

LinePosition position_member(Json const& object, char const* name) {
  auto const& position = member(object, name);
  return {count_member(position, "line"), count_member(position, "character")};
}

}  // namespace flinch::cli::serve
