#include "serve/mistakes.hpp"

#include "serve/ranges.hpp"

namespace flinch::cli::serve {

Json mistake(Diagnostic const& d, std::string_view code, PackView const& view) {
  auto message = d.message;
  Json related = Json::array();
  for (auto const& note : d.notes) {
    if (note.at)
      related.push_back({{"location", location(view, *note.at)}, {"message", note.message}});
    else
      message += "\n" + note.message;
  }
  Json out = {{"range", location(view, d.at)["range"]},
              {"severity", d.severity == Severity::error ? 1 : 2},
              {"code", code},
              {"source", "flinch"},
              {"message", std::move(message)}};
  if (!related.empty()) out["relatedInformation"] = std::move(related);
  return out;
}

Json quick_fixes(PackView const& view, std::string const& path, std::string const& uri,
                 std::size_t begin, std::size_t end) {
  Json out = Json::array();
  for (auto const& d : view.diagnostics) {
    bool const is_here =
        view.sources[d.at.file].name() == path && d.at.span.begin <= end && d.at.span.end >= begin;
    if (!is_here || !d.instead || out.size() >= most_mistakes) continue;
    auto shown = mistake(d, code_text(d.code), view);
    Json edit = {{"range", shown["range"]}, {"newText", *d.instead}};
    out.push_back({{"title", d.instead->empty() ? "Take it out" : "Change to `" + *d.instead + "`"},
                   {"kind", "quickfix"},
                   {"isPreferred", true},
                   {"edit", {{"changes", {{uri, Json::array({std::move(edit)})}}}}},
                   {"diagnostics", Json::array({std::move(shown)})}});
  }
  return out;
}

}  // namespace flinch::cli::serve
