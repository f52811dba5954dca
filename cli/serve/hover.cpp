#include "serve/hover.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "flinch/explain/description.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/syntax/print.hpp"

namespace flinch::cli::serve {
namespace {

constexpr std::size_t most_lines = 60;

// Lines in the markup that the editor shows; what the pack says comes out as it stands.
class Writer {
 public:
  explicit Writer(Markup markup) : markup_(markup) {}

  void title(std::string const& text, std::string_view kind, std::string const& name) {
    out_ += is_markdown() ? fmt::format("**{}** ({} `{}`)\n", escaped(text), kind, name)
                          : fmt::format("{} ({} {})\n", text, kind, name);
  }
  void heading(std::string const& text) {
    out_ +=
        is_markdown() ? fmt::format("\n**{}**\n\n", escaped(text)) : fmt::format("\n{}\n", text);
  }
  void line(std::string const& text, std::size_t depth) {
    if (lines_ == most_lines) out_ += is_markdown() ? "- ...\n" : "  ...\n";
    if (lines_++ >= most_lines) return;
    out_ +=
        std::string(2 * depth, ' ') + (is_markdown() ? "- " + escaped(text) : "  " + text) + '\n';
  }
  void statement(std::string const& text) {
    out_ += is_markdown() ? "```flinch\n" + text + "```\n" : text;
  }
  [[nodiscard]] std::string take() { return std::move(out_); }

 private:
  [[nodiscard]] bool is_markdown() const { return markup_ == Markup::markdown; }
  static std::string escaped(std::string const& text) {
    constexpr std::string_view special = "\\`*_{}[]<>#|!&~";
    std::string out;
    for (char const c : text) {
      if (special.find(c) != std::string_view::npos) out += '\\';
      out += c == '\n' ? ' ' : c;
    }
    return out;
  }

  Markup markup_;
  std::string out_;
  std::size_t lines_ = 0;
};

std::optional<NamedKind> described_as(syntax::NameKind kind) {
  switch (kind) {
    case syntax::NameKind::cause:
      return NamedKind::cause;
    case syntax::NameKind::sign:
      return NamedKind::sign;
    case syntax::NameKind::rule:
      return NamedKind::rule;
    case syntax::NameKind::alarm:
      return NamedKind::alarm;
    case syntax::NameKind::source:
      return NamedKind::source;
    case syntax::NameKind::care:
      return NamedKind::care;
    default:
      return std::nullopt;
  }
}

std::optional<Named> find_exactly(Pack const& pack, NamedKind kind, std::string const& name) {
  for (auto const& thing : all_named(pack, kind))
    if (name_of(pack, thing) == name) return thing;
  return std::nullopt;
}

// A cause within a rule: what this rule says about it.
void weights_here(Writer& out, Tables const& tables, std::string const& rule_name, Named cause) {
  auto const rule = find_exactly(tables.pack(), NamedKind::rule, rule_name);
  if (!rule) return;
  RuleId const id{rule->index};
  auto const& written = tables.pack()[id];
  for (auto const& entry : tables.entries(id)) {
    if (entry.cause != CauseId{cause.index}) continue;
    out.heading("In this rule");
    auto const weigh = [&](std::string const& when, std::uint32_t band) {
      auto const weight = tables.weight(entry, band);
      out.line(weight == 0 ? when + ": no weight"
                           : fmt::format("{}: {:+.1f} decibans, {}", when, decibans(weight),
                                         weight_in_words(weight)),
               0);
    };
    if (written.condition) {
      weigh("if so", 0);
      weigh("if not", 1);
    }
    for (std::uint32_t band = 0; band < written.bands.size(); ++band)
      weigh(written.bands[band].text, band);
  }
}

std::string described(Pack const& pack, std::shared_ptr<Pack const> const& shared, Named thing,
                      FoundName const& found, Markup markup) {
  Tables const tables(shared);
  auto const description = describe(tables, thing);
  Writer out(markup);
  out.title(description.title, kind_text(thing.kind), name_of(pack, thing));
  auto const* rule = std::get_if<syntax::Rule>(found.statement);
  if (rule != nullptr && thing.kind == NamedKind::cause)
    weights_here(out, tables, rule->name.text, thing);
  for (auto const& section : description.sections) {
    out.heading(section.heading);
    for (auto const& line : section.lines) {
      std::string text;
      for (auto const& piece : line.pieces) text += piece.text;
      out.line(text, line.depth);
    }
  }
  return out.take();
}

}  // namespace

std::optional<HoverText> hover(PackView const& view, PackFile const& file, std::size_t offset,
                               Markup markup) {
  auto const found = name_at(file, offset);
  if (!found) return std::nullopt;
  auto const span = found->place.name->at.span;
  auto const kind = described_as(found->place.kind);
  if (view.pack != nullptr && kind) {
    if (auto const thing = find_exactly(*view.pack, *kind, found->place.name->text))
      return HoverText{described(*view.pack, view.pack, *thing, *found, markup), span};
  }
  auto const definition = definition_of(view, found->place);
  if (!definition) return std::nullopt;
  Writer out(markup);
  out.statement(syntax::print(*definition->statement));
  return HoverText{out.take(), span};
}

}  // namespace flinch::cli::serve
