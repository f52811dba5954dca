#include "serve/answers.hpp"

#include <algorithm>

#include "flinch/syntax/tidy.hpp"
#include "serve/completion.hpp"
#include "serve/ranges.hpp"

namespace flinch::cli::serve {
namespace {

std::string uri_of(Json const& params) {
  return text_member(member(params, "textDocument"), "uri");
}

// A place in an open document, with the pack that it belongs to.
struct Spot {
  PackView view;
  PackFile const* file = nullptr;  // null when the document is not open
  std::size_t offset = 0;
};

Spot spot_of(Workspace const& workspace, Json const& params) {
  auto const uri = uri_of(params);
  auto const position = position_member(params, "position");
  Spot out;
  if (workspace.document(uri) == nullptr) return out;
  out.view = workspace.view(uri);
  out.file = out.view.file(path_of_document(uri));
  if (out.file != nullptr)
    out.offset = TextPositions(out.view.sources[out.file->id].text()).offset(position);
  return out;
}

}  // namespace

Json answer_hover(Workspace const& workspace, Json const& params, Markup markup) {
  auto const spot = spot_of(workspace, params);
  if (spot.file == nullptr) return nullptr;
  auto const found = hover(spot.view, *spot.file, spot.offset, markup);
  if (!found) return nullptr;
  TextPositions const positions(spot.view.sources[spot.file->id].text());
  return {
      {"contents",
       {{"kind", markup == Markup::markdown ? "markdown" : "plaintext"}, {"value", found->text}}},
      {"range", range_json(positions, found->span)}};
}

Json answer_definition(Workspace const& workspace, Json const& params) {
  auto const spot = spot_of(workspace, params);
  if (spot.file == nullptr) return nullptr;
  auto const name = name_at(*spot.file, spot.offset);
  if (!name) return nullptr;
  auto const found = definition_of(spot.view, name->place);
  if (!found) return nullptr;
  return location(spot.view, found->place.name->at);
}

Json answer_completion(Workspace const& workspace, Json const& params) {
  constexpr int keyword_kind = 14;  // of CompletionItemKind
  constexpr int name_kind = 18;     // a reference
  auto const spot = spot_of(workspace, params);
  if (spot.file == nullptr) return nullptr;
  auto const text = spot.view.sources[spot.file->id].text();
  auto const found = complete(spot.view, text, spot.offset);
  TextPositions const positions(text);
  auto const range = range_json(positions.position(found.begin), positions.position(spot.offset));
  Json items = Json::array();
  for (auto const& one : found.items) {
    Json item = {{"label", one.text},
                 {"kind", one.kind == Completion::Kind::keyword ? keyword_kind : name_kind},
                 {"textEdit", {{"range", range}, {"newText", one.text}}}};
    if (!one.detail.empty()) item["detail"] = one.detail;
    items.push_back(std::move(item));
  }
  return {{"isIncomplete", false}, {"items", std::move(items)}};
}

Json answer_fixes(Workspace const& workspace, Json const& params) {
  auto const& context = member(params, "context");
  // `quickfix` belongs to the kinds that are asked for when one of them is it or nothing.
  if (auto const only = context.find("only"); only != context.end() && only->is_array()) {
    bool const is_wanted = std::any_of(only->begin(), only->end(), [](Json const& kind) {
      return kind == "quickfix" || kind == "";
    });
    if (!is_wanted) return Json::array();
  }
  return workspace.fixes(uri_of(params), member(params, "range"));
}

Json answer_formatting(Workspace const& workspace, Json const& params) {
  auto const* document = workspace.document(uri_of(params));
  if (document == nullptr) return nullptr;
  SourceSet sources;
  Report report;
  auto const file = sources.add("", document->text);
  auto tidied = syntax::tidy(sources, file, {}, report);
  bool const is_safe = tidied && syntax::says_the_same(document->text, *tidied);
  if (!is_safe || *tidied == document->text) return Json::array();
  TextPositions const positions(document->text);
  return Json::array(
      {{{"range", range_json({0, 0}, positions.end())}, {"newText", std::move(*tidied)}}});
}

}  // namespace flinch::cli::serve
