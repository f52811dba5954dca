#include "call/handover.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "flinch/telling/caution.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

// One line of Markdown that holds no markup: what could be HTML is written as a reference, what
// could be markup or the beginning of a link is escaped.
std::string inert_markdown(std::string_view text) {
  auto const clean = inert(text);
  std::string out;
  for (std::size_t i = 0; i < clean.size(); ++i) {
    auto const rest = std::string_view(clean).substr(i);
    char const c = clean[i];
    if (c == '<' || c == '>' || c == '&') {
      out += c == '<' ? "&lt;" : c == '>' ? "&gt;" : "&amp;";
      continue;
    }
    bool const is_link =
        rest.starts_with("://") || (c == '.' && i >= 3 && clean.compare(i - 3, 3, "www") == 0);
    if (is_link || std::string_view("\\`*_{}[]#!|~@").find(c) != std::string_view::npos)
      out += '\\';
    out += c == '\t' ? ' ' : c;
  }
  return out;
}

}  // namespace

std::string note_text(std::vector<NotePart> const& note, Look const& look) {
  Page page(look);
  page.heading("HAND-OVER NOTE");
  for (auto const& part : note) {
    auto title = part.title;
    std::transform(title.begin(), title.end(), title.begin(), [](char c) {
      return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    });
    page.heading(title);
    for (auto const& item : part.items)
      page.paragraph(item.label.empty() ? item.text : item.label + ": " + item.text, 2,
                     page.bullet());
  }
  page.paragraph(caution, 0);
  return page.take();
}

std::string note_markdown(std::vector<NotePart> const& note) {
  std::string out = "# Hand-over note\n";
  for (auto const& part : note) {
    out += fmt::format("\n## {}\n\n", part.title);
    for (auto const& item : part.items)
      out += item.label.empty()
                 ? fmt::format("- {}\n", inert_markdown(item.text))
                 : fmt::format("- **{}:** {}\n", item.label, inert_markdown(item.text));
  }
  return out + fmt::format("\n{}\n", caution);
}

}  // namespace flinch::cli
