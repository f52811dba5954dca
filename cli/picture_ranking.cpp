// The ranked causes as bars, and the ladder from base rate to result.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "flinch/explain/reasons.hpp"
#include "flinch/text/display.hpp"
#include "html.hpp"
#include "pictures.hpp"

namespace flinch::cli {
namespace {

constexpr double width = 380;

std::string per_cent(double share) {
  auto const hundred = 100 * share;
  if (hundred < 0.095) return "under 0.1%";
  if (hundred > 99.9) return "over 99.9%";
  return fmt::format("{:.1f}%", hundred);
}

// Text that a picture has room for; the whole of it stands in the list beside the picture.
std::string shortened(std::string_view text, std::size_t columns) {
  auto out = inert(text);
  if (display_width(out) <= columns) return out;
  while (display_width(out) > columns - 1) out.resize(whole_character(out, out.size() - 1));
  return out + "\u2026";
}

}  // namespace

std::string bars_picture(std::vector<CauseBar> const& bars) {
  constexpr double row = 50;
  std::string description;
  for (auto const& bar : bars) description += fmt::format("{}: {}. ", bar.title, bar.words);
  auto out = fmt::format(
      "<svg viewBox=\"0 0 {} {:.0f}\" role=\"img\" aria-labelledby=\"bars-title bars-desc\">\n"
      "<title id=\"bars-title\">How likely each cause is</title>\n<desc "
      "id=\"bars-desc\">{}</desc>\n",
      width, row * static_cast<double>(bars.size()) + 4, escaped(description));
  double y = 0;
  for (auto const& bar : bars) {
    out += fmt::format(
        "<text class=\"strong\" x=\"0\" y=\"{:.0f}\">{}</text>\n"
        "<rect class=\"track\" x=\"0.5\" y=\"{:.1f}\" width=\"{:.0f}\" height=\"10\"/>"
        "<rect class=\"full\" x=\"0.5\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"10\"/>\n"
        "<text class=\"tick\" x=\"0\" y=\"{:.0f}\">{}</text>\n",
        y + 12, escaped(shortened(bar.title, 52)), y + 16.5, width - 1, y + 16.5,
        std::max(1.0, bar.share * (width - 1)), y + 38, escaped(shortened(bar.words, 72)));
    y += row;
  }
  return out + "</svg>\n";
}

std::string ladder_picture(std::string_view cause, std::vector<Rung> const& rungs,
                           std::vector<std::string> const& titles) {
  constexpr double row = 34;
  constexpr double top = 22;
  constexpr double least = 0.0005;
  constexpr std::array ticks = {0.001, 0.01, 0.1, 0.5, 0.9, 0.99, 0.999};
  auto const x_of = [&](double p) {
    auto const held = std::clamp(p, least, 1 - least);
    auto const end = std::log((1 - least) / least);
    return 10 + (width - 70) * (std::log(held / (1 - held)) + end) / (2 * end);
  };
  auto const bottom = top + row * static_cast<double>(rungs.size());
  std::string id;
  for (char const c : cause) id += std::isalnum(static_cast<unsigned char>(c)) != 0 ? c : '-';
  auto out = fmt::format(
      "<svg viewBox=\"0 0 {} {:.0f}\" role=\"img\" aria-labelledby=\"ladder-{}-title "
      "ladder-{}-desc\">\n<title id=\"ladder-{}-title\">From base rate to result: "
      "{}</title>\n<desc id=\"ladder-{}-desc\">The chance of this cause climbs or falls with each "
      "rule from {} to {}; the list beside the picture says the same.</desc>\n",
      width, bottom + 6, id, id, id, escaped(cause), id, per_cent(rungs.front().probability),
      per_cent(rungs.back().probability));
  for (auto const p : ticks)
    out += fmt::format(
        "<line class=\"line\" x1=\"{0:.1f}\" y1=\"{1}\" x2=\"{0:.1f}\" y2=\"{2:.0f}\"/>"
        "<text class=\"tick middle\" x=\"{0:.1f}\" y=\"10\">{3:.3g}%</text>\n",
        x_of(p), top - 8, bottom, 100 * p);
  std::string labels;
  double before = x_of(rungs.front().probability);
  for (std::size_t i = 0; i < rungs.size(); ++i) {
    auto const y = top + row * static_cast<double>(i);
    auto const x = x_of(rungs[i].probability);
    if (i > 0)
      out += fmt::format(
          "<path class=\"path\" d=\"M{0:.1f} {1:.1f} L{0:.1f} {2:.1f} L{3:.1f} {2:.1f}\"/>\n",
          before, y - row + 24, y + 24, x);
    out += fmt::format("<circle class=\"full\" cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"4\"/>\n", x, y + 24);
    labels += fmt::format(
        "<text class=\"label\" x=\"0\" y=\"{:.0f}\">{}</text>"
        "<text class=\"end strong\" x=\"{}\" y=\"{:.1f}\">{}</text>\n",
        y + 12, escaped(shortened(titles[i], 50)), width, y + 28, per_cent(rungs[i].probability));
    before = x;
  }
  // The labels last, with a rim of paper, so that no line runs through them.
  out += labels;
  return out + "</svg>\n";
}

}  // namespace flinch::cli
