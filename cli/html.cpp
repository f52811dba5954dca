#include "html.hpp"

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
ul, ol { padding-left: 1.4rem; }
li { margin: .15rem 0; }
a { color: var(--hue); }
small, .small { font-size: .875rem; }
.urgency { border: 3px solid var(--hue); padding: .6rem .9rem; margin: .8rem 0; }
.urgency p { margin: .2rem 0; }
h2.tier { font-size: 1.45rem; font-weight: 700; line-height: 1.25; border: 0; margin: 0; padding: 0; }
.marks { letter-spacing: .15em; color: var(--hue); }
.caution { border-left: .4rem solid var(--hue); padding: .2rem .8rem; background: var(--tint); }
.table { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; font-size: .94rem; }
caption { text-align: left; font-weight: 600; padding: .2rem 0; }
th, td { text-align: left; vertical-align: top; padding: .2rem .6rem .2rem 0;
  border-bottom: 1px solid var(--line); }
td.number, th.number { text-align: right; white-space: nowrap; font-variant-numeric: tabular-nums; }
dt { font-weight: 600; }
dd { margin: 0 0 .4rem 1rem; }
figure { margin: .6rem 0; }
figcaption { font-size: .875rem; }
svg { display: block; width: 100%; height: auto; max-width: 30rem; }
svg.wide { max-width: 42rem; }
svg text { font: 12px system-ui, "Liberation Sans", Arial, sans-serif; fill: #10272a; }
svg text.strong { font-weight: 700; }
svg text.label { paint-order: stroke; stroke: #fff; stroke-width: 3px; }
svg text.end { text-anchor: end; }
svg text.middle { text-anchor: middle; }
svg .body { fill: #dcebec; stroke: #004f54; stroke-width: 1.4; stroke-linejoin: round; }
svg .far { fill: #f2f8f8; stroke: #6b8a8d; stroke-width: 1; stroke-linejoin: round; }
svg .line { stroke: #6b8a8d; stroke-width: 1; fill: none; }
svg .path { stroke: #004f54; stroke-width: 2.5; fill: none; }
svg .full { fill: #004f54; stroke: #004f54; }
svg .hollow { fill: #fff; stroke: #004f54; stroke-width: 1.6; }
svg .track { fill: #fff; stroke: #6b8a8d; stroke-width: 1; }
svg text.on { fill: #fff; font-size: 9px; font-weight: 700; text-anchor: middle; }
svg text.tick { font-size: 10px; }
.tree ul { list-style: none; border-left: 2px solid var(--line); padding-left: .8rem; }
nav ul { columns: 2; }
footer { margin-top: 1.6rem; border-top: 1px solid var(--line); font-size: .875rem; }
@media (max-width: 34rem) { nav ul { columns: 1; } }
@media print { body { max-width: none; padding: 0; font-size: 10.5pt; }
  h2, h3, .caution { break-after: avoid; } figure, tr, li, .urgency { break-inside: avoid; }
  .table { overflow-x: visible; } a { color: inherit; text-decoration: none; } svg { max-width: 11cm; }
  svg.wide { max-width: 15cm; } }
)css";

constexpr std::string_view a4 = "@page { size: A4; margin: 16mm 15mm; }";
constexpr std::string_view letter = "@page { size: letter; margin: 0.6in; }";

// SHA-256 of the three texts above, as the policy names them. A test compares them with the page.
constexpr std::string_view style_hash = "oJ8dwvD5PJsqLaCqzT6814TakC5wVNhnnV44u4V5msk=";
constexpr std::string_view a4_hash = "v4tmk9UNwBmS/8kjFRUX1qEYiWYovmDHKrEX5NyLSWI=";
constexpr std::string_view letter_hash = "vj3bEzlq3XJtu/D9qptuMigBfrh/k17XU5reykrOJVc=";

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

std::string html_page(std::string_view title, std::string_view body, Paper paper) {
  auto const is_a4 = paper == Paper::a4;
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
      "'sha256-{}' 'sha256-{}'; base-uri 'none'; form-action 'none'\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta name=\"referrer\" content=\"no-referrer\">\n"
      "<title>{}</title>\n<style>{}</style>\n<style>{}</style>\n</head>\n<body>\n{}</body>\n"
      "</html>\n",
      style_hash, is_a4 ? a4_hash : letter_hash, escaped(title), style, is_a4 ? a4 : letter, body);
}

std::string section(std::string_view id, std::string_view heading, std::string_view content) {
  return fmt::format("<section aria-labelledby=\"{0}\">\n<h2 id=\"{0}\">{1}</h2>\n{2}</section>\n",
                     id, escaped(heading), content);
}

}  // namespace flinch::cli
