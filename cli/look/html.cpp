#include "look/html.hpp"

#include <fmt/format.h>

#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

// One hue (teal) in three steps, ink and paper. Every pair that text uses has a contrast of 7 to 1
// or more, so that the page can be copied in black and white.
constexpr std::string_view style = R"css(
:root { color-scheme: light; --ink: #10272a; --hue: #004f54; --tint: #dcebec; --line: #6b8a8d; }
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 1rem; max-width: 46rem; color: var(--ink); background: #fff;
  font: 1rem/1.5 system-ui, "Liberation Sans", Arial, sans-serif; overflow-wrap: break-word; }
h1 { font-size: 1.6rem; line-height: 1.2; margin: 0 0 .3rem; }
h2 { font-size: 1.2rem; margin: 1.6rem 0 .4rem; padding-top: .4rem; border-top: 2px solid var(--hue); }
h3 { font-size: 1.02rem; margin: 1rem 0 .2rem; }
p, ul, ol, dl { margin: .3rem 0 .6rem; }
ul { padding-left: 1.4rem; }
ol { padding-left: 2.2rem; }
li { margin: .15rem 0; }
a { color: var(--hue); }
small, .small { font-size: .875rem; }
.urgency { border: 3px solid var(--hue); padding: .6rem .9rem; margin: .8rem 0; }
.urgency p { margin: .2rem 0; }
h2.tier { font-size: 1.45rem; font-weight: 700; line-height: 1.25; border: 0; margin: 0; padding: 0; }
.marks { letter-spacing: .15em; color: var(--hue); }
.caution { border-left: .4rem solid var(--hue); padding: .2rem .8rem; background: var(--tint); }
.table { overflow-x: auto; margin: .6rem 0; background:
  linear-gradient(#fff, #fff) left / 1.5rem 100% no-repeat local,
  linear-gradient(#fff, #fff) right / 1.5rem 100% no-repeat local,
  linear-gradient(to right, var(--line), #fff) left / .6rem 100% no-repeat scroll,
  linear-gradient(to left, var(--line), #fff) right / .6rem 100% no-repeat scroll; }
table { border-collapse: collapse; width: 100%; font-size: .94rem; }
caption { text-align: left; font-weight: 600; padding: .2rem 0; }
th, td { text-align: left; vertical-align: top; padding: .2rem .6rem .2rem 0;
  border-bottom: 1px solid var(--line); }
tbody th { font-weight: 400; }
td.number, th.number { text-align: right; white-space: nowrap; font-variant-numeric: tabular-nums; }
dt { font-weight: 600; }
dd { margin: 0 0 .4rem 1rem; }
figure { margin: .6rem 0; display: flex; flex-wrap: wrap; gap: .4rem 1rem; }
figure svg { flex: 1 1 18rem; }
figcaption { flex: 1 0 100%; font-size: .875rem; }
svg { display: block; height: auto; max-width: 30rem; }
svg text { font: 12px system-ui, "Liberation Sans", Arial, sans-serif; fill: #10272a; }
svg text.strong { font-weight: 700; }
svg text.label { paint-order: stroke; stroke: #fff; stroke-width: 3px; }
svg text.end { text-anchor: end; }
svg text.middle { text-anchor: middle; }
svg .body { fill: #dcebec; stroke: #004f54; stroke-width: 1.4; stroke-linejoin: round; }
svg .far { fill: #f2f8f8; stroke: #6b8a8d; stroke-width: 1; stroke-linejoin: round; }
svg .line { stroke: #6b8a8d; stroke-width: 1; fill: none; }
svg .axis { stroke: #10272a; stroke-width: 1.2; fill: none; }
svg .path { stroke: #004f54; stroke-width: 2.5; fill: none; }
svg .dashed { stroke-dasharray: 6 4; }
svg .dotted { stroke-dasharray: 2 3; }
svg .framed { stroke: #10272a; stroke-width: 2.5; fill: none; }
svg .full { fill: #004f54; stroke: #004f54; }
svg .hollow { fill: #fff; stroke: #004f54; stroke-width: 1.6; }
svg .track { fill: #fff; stroke: #6b8a8d; stroke-width: 1; }
svg text.on { fill: #fff; font-size: 12px; font-weight: 700; text-anchor: middle; }
svg text.tick { font-size: 10.5px; }
.tree ul { list-style: none; border-left: 2px solid var(--line); padding-left: .8rem; }
nav ul { columns: 2; }
.running { display: none; }
.remarks { border: 1px solid var(--line); min-height: 2.6rem; padding: .1rem .5rem; color: var(--ink); }
footer { margin-top: 1.6rem; border-top: 1px solid var(--line); font-size: .875rem; }
@media (max-width: 34rem) { nav ul { columns: 1; } td.number, th.number { white-space: normal; }
  .stacks thead { position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%); }
  .stacks table, .stacks tbody, .stacks tr, .stacks th, .stacks td, .stacks caption { display: block; }
  .stacks tr { border-bottom: 2px solid var(--line); padding: .3rem 0; }
  .stacks th, .stacks td, .stacks td.number { border: 0; padding: .1rem 0; text-align: left; white-space: normal; }
  .stacks tbody th { font-weight: 600; }
  .stacks th small { font-weight: 400; }
  .stacks td::before { content: attr(data-head) ": "; font-weight: 600; } }
@media print { body { max-width: none; padding: 0; font-size: 9pt; line-height: 1.25; }
  h1 { font-size: 1.35rem; margin: 0; } h2 { font-size: 1.05rem; margin: .25rem 0 .1rem; }
  section { margin-top: .35rem; } p, ul, ol, dl, li { margin: .12rem 0; }
  .urgency { margin: .4rem 0; padding: .3rem .7rem; } footer { margin-top: .4rem; font-size: .85em; }
  footer p { display: inline; } table { font-size: 1em; }
  .runs { display: table; table-layout: fixed; width: 100%; }
  .running { display: table-header-group; break-inside: avoid; font-size: 9pt; line-height: 2.4; }
  h2, h3, dt, caption, thead, .caution { break-after: avoid; }
  figure, tr, li, dd, .urgency, .to-read { break-inside: avoid; }
  .table { overflow-x: visible; } a { color: inherit; text-decoration: none; } svg { max-width: 7cm; } }
)css";

constexpr std::string_view a4 =
    R"css(@page { size: A4; margin: 12mm 14mm; @bottom-right { content: counter(page) " of " counter(pages); font-size: 9pt; } })css";
constexpr std::string_view letter =
    R"css(@page { size: letter; margin: 0.6in; @bottom-right { content: counter(page) " of " counter(pages); font-size: 9pt; } })css";

// SHA-256 of the three texts above, as the policy names them. A test compares them with the page.
constexpr std::string_view style_hash = "knSqUvcnztLZnWmQXCbpOfV9wb5H9tkn33e1L3hjoVw=";
constexpr std::string_view a4_hash = "wf1GLoudnwK91DpfDjACZ0NDMYQrrmlpvO2QilG8Z78=";
constexpr std::string_view letter_hash = "isRSJy6DffPlXp1FNia9ch3q13uNygQzDuwUEEs9e9w=";

// Up to the name of what wrote it, which thereby stands among the first bytes.
std::string first_lines(std::string_view made_by) {
  std::string out = "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n";
  if (!made_by.empty())
    out += fmt::format("<meta name=\"generator\" content=\"{}\">\n", escaped(made_by));
  return out;
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string out;
  for (char const c : inert(text)) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  }
  return out;
}

std::string html_page(PageHead const& head, std::string_view body) {
  auto const is_a4 = head.paper == Paper::a4;
  auto out = first_lines(head.made_by);
  out += fmt::format(
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
      "'sha256-{}' 'sha256-{}'; base-uri 'none'; form-action 'none'\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta name=\"referrer\" content=\"no-referrer\">\n"
      "<title>{}</title>\n<style>{}</style>\n<style>{}</style>\n</head>\n",
      style_hash, is_a4 ? a4_hash : letter_hash, escaped(head.title), style, is_a4 ? a4 : letter);
  // For the eye alone: read aloud it would come once, and say what the heading says.
  if (head.running.empty())
    out += "<body>\n";
  else
    out +=
        fmt::format("<body class=\"runs\">\n<div class=\"running\" aria-hidden=\"true\">{}</div>\n",
                    from_outside(head.running));
  return out + fmt::format("{}</body>\n</html>\n", body);
}

bool is_page_by(std::string_view made_by, std::string_view bytes) {
  return !made_by.empty() && bytes.starts_with(first_lines(made_by));
}

std::string section(std::string_view id, std::string_view heading, std::string_view content) {
  return fmt::format("<section aria-labelledby=\"{0}\">\n<h2 id=\"{0}\">{1}</h2>\n{2}</section>\n",
                     id, escaped(heading), content);
}

std::string from_outside(std::string_view text) { return "<bdi>" + escaped(text) + "</bdi>"; }

std::string paragraph(std::string_view text) { return fmt::format("<p>{}</p>\n", escaped(text)); }

std::string item(std::string_view text) { return fmt::format("<li>{}</li>\n", escaped(text)); }

std::string list(std::string_view items) { return fmt::format("<ul>\n{}</ul>\n", items); }

std::string numbered_list(std::string_view items) { return fmt::format("<ol>\n{}</ol>\n", items); }

std::string figure(std::string_view pictures, std::string_view caption) {
  return fmt::format(
      "<figure>\n{}{}</figure>\n", pictures,
      caption.empty() ? std::string() : fmt::format("<figcaption>{}</figcaption>\n", caption));
}

std::string table(std::string_view caption, std::vector<Column> const& columns,
                  std::vector<std::vector<std::string>> const& rows, Narrow narrow) {
  auto const kind = [&](std::size_t column) {
    return columns[column].is_number ? " class=\"number\"" : "";
  };
  // Said again in each cell where a row becomes a block.
  auto const head = [&](std::size_t column) {
    return narrow == Narrow::stacks
               ? fmt::format(" data-head=\"{}\"", escaped(columns[column].title))
               : std::string();
  };
  auto out = fmt::format(
      "<section class=\"table{0}\" tabindex=\"0\" aria-label=\"{1}\"><table>\n"
      "<caption>{1}</caption>\n<thead><tr>",
      narrow == Narrow::stacks ? " stacks" : "", escaped(caption));
  for (std::size_t i = 0; i < columns.size(); ++i)
    out += fmt::format("<th scope=\"col\"{}>{}</th>", kind(i), escaped(columns[i].title));
  out += "</tr></thead>\n<tbody>\n";
  for (auto const& row : rows) {
    out += "<tr>";
    for (std::size_t i = 0; i < row.size(); ++i)
      out += i == 0 ? fmt::format("<th scope=\"row\"{}>{}</th>", kind(i), row[i])
                    : fmt::format("<td{}{}>{}</td>", kind(i), head(i), row[i]);
    out += "</tr>\n";
  }
  return out + "</tbody></table></section>\n";
}

}  // namespace flinch::cli
