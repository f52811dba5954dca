#include "flinch/text/diagnostic.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <tuple>
#include <utility>

#include "flinch/text/display.hpp"

namespace flinch {
namespace {

constexpr std::array code_texts = {
#define FLINCH_CODE(name, text) std::string_view(text),
#define FLINCH_WARNING(name, text) std::string_view(text),
#include "flinch/text/diagnostic_codes.def"
#undef FLINCH_WARNING
#undef FLINCH_CODE
};

std::string place_text(SourceSet const& sources, Place at) {
  auto const position = sources[at.file].position(at.span.begin);
  return fmt::format("{}:{}:{}", sources[at.file].name(), position.line, position.column);
}

// The line and, below it, carets under the span (up to the end of the line). Long lines are cut to
// a window around the place, so that a hostile line cannot flood the screen.
std::string excerpt(SourceSet const& sources, Place at) {
  constexpr std::size_t window = 160;
  auto const& source = sources[at.file];
  auto const position = source.position(at.span.begin);
  auto line = source.line(position.line);
  if (source.text().empty()) return {};
  auto offset = static_cast<std::size_t>(source.text().data() + at.span.begin - line.data());
  offset = std::min(offset, line.size());
  auto length = std::min<std::size_t>(at.span.end - at.span.begin, line.size() - offset);
  if (line.size() > window) {
    auto const start = offset > window / 2 ? whole_character(line, offset - window / 2) : 0;
    // Bytes that are not UTF-8 have no whole characters to keep: the place itself must stay in.
    auto const end = std::max(start + whole_character(line.substr(start), window), offset);
    line = line.substr(start, end - start);
    offset -= start;
    length = std::min(length, line.size() - offset);
  }
  std::string const number = fmt::format("{:>3}", position.line);
  std::string carets;
  for (char const c : line.substr(0, offset))
    if (c == '\t') carets += '\t';
  carets += std::string(display_width(line.substr(0, offset)), ' ');
  carets += '^';
  auto const width = display_width(line.substr(offset, length));
  if (width > 1) carets += std::string(width - 1, '~');
  return fmt::format("{} | {}\n{} | {}\n", number, inert(line), std::string(number.size(), ' '),
                     carets);
}

}  // namespace

std::string_view code_text(Code code) { return code_texts.at(static_cast<std::size_t>(code)); }

std::vector<Code> const& acceptable_warnings() {
  static std::vector<Code> const all = {
#define FLINCH_CODE(name, text)
#define FLINCH_WARNING(name, text) Code::name,
#include "flinch/text/diagnostic_codes.def"
#undef FLINCH_WARNING
#undef FLINCH_CODE
  };
  return all;
}

void Diagnostic::did_you_mean(std::string_view name, std::optional<Place> defined_at) {
  notes.push_back({fmt::format("did you mean `{}`?", name), defined_at});
  instead = name;
}

Diagnostic& Report::error(Code code, Place at, std::string message) {
  ++errors_;
  diagnostics_.push_back({code, Severity::error, at, std::move(message), {}});
  return diagnostics_.back();
}

Diagnostic& Report::warning(Code code, Place at, std::string message) {
  diagnostics_.push_back({code, Severity::warning, at, std::move(message), {}});
  return diagnostics_.back();
}

Diagnostic* Report::find(Code code, Place at) {
  auto const found =
      std::find_if(diagnostics_.begin(), diagnostics_.end(), [&](Diagnostic const& one) {
        return one.code == code && one.at.file == at.file && one.at.span == at.span;
      });
  return found == diagnostics_.end() ? nullptr : &*found;
}

std::vector<Diagnostic> Report::take() {
  std::stable_sort(diagnostics_.begin(), diagnostics_.end(), [](auto const& a, auto const& b) {
    return std::tuple(a.at.file, a.at.span.begin) < std::tuple(b.at.file, b.at.span.begin);
  });
  errors_ = 0;
  return std::exchange(diagnostics_, {});
}

std::string render(std::vector<Diagnostic> const& diagnostics, SourceSet const& sources,
                   std::size_t shown_at_most) {
  std::string out;
  std::size_t shown = 0;
  for (auto const& d : diagnostics) {
    if (shown++ == shown_at_most) {
      out += fmt::format("... and {} more\n", diagnostics.size() - shown_at_most);
      break;
    }
    out += fmt::format("{}: {}: {} [{}]\n", place_text(sources, d.at),
                       d.severity == Severity::error ? "error" : "warning", inert(d.message),
                       code_text(d.code));
    out += excerpt(sources, d.at);
    for (auto const& note : d.notes) {
      out += fmt::format("  note: {}", inert(note.message));
      if (note.at) out += fmt::format(" ({})", place_text(sources, *note.at));
      out += '\n';
    }
  }
  return out;
}

}  // namespace flinch
