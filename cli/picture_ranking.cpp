// The ranked causes as bars, and the ladder from base rate to result.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "chance_words.hpp"
#include "flinch/text/display.hpp"
#include "html.hpp"
#include "pictures.hpp"

namespace flinch::cli {
namespace {

constexpr double width = 380;

// Text that a picture has room for; the whole of it stands in the list beside the picture.
std::string shortened(std::string_view text, std::size_t columns) {
  auto out = inert(text);
  if (display_width(out) <= columns) return out;
  while (display_width(out) > columns - 1) out.resize(whole_character(out, out.size() - 1));
  return out + "\u2026";
}

// A dot, or an arrow out of the scale: -1 to the left, 1 to the right.
std::string rung_mark(double x, double y, int beyond) {
  if (beyond == 0)
    return fmt::format("<circle class=\"full\" cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"4\"/>\n", x, y);
  return fmt::format(
      "<path class=\"full\" d=\"M{0:.1f} {1:.1f} L{0:.1f} {2:.1f} L{3:.1f} {4:.1f} Z\"/>\n", x,
      y - 5, y + 5, x + beyond * 8, y);
}

// Beside the rung, broken into two lines where one is too short.
std::string rung_label(std::string_view title, double y) {
  constexpr std::size_t columns = 27;
  auto const line = [](double at, std::string_view text) {
    return fmt::format("<text class=\"tick\" x=\"0\" y=\"{:.1f}\">{}</text>\n", at, escaped(text));
  };
  auto const text = inert(title);
  if (display_width(text) <= columns) return line(y + 4, text);
  auto broken = std::string::npos;
  for (auto at = text.find(' '); at != std::string::npos; at = text.find(' ', at + 1))
    if (display_width(text.substr(0, at)) <= columns) broken = at;
  if (broken == std::string::npos) return line(y + 4, shortened(text, columns));
  return line(y - 2, text.substr(0, broken)) +
         line(y + 10, shortened(text.substr(broken + 1), columns));
}

std::string short_per_cent(double share) {
  auto const text = per_cent(share);
  if (text.starts_with("under ")) return "&lt;" + text.substr(6);
  if (text.starts_with("over ")) return "&gt;" + text.substr(5);
  return text;
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
  constexpr double row = 30;
  constexpr double top = 22;
  constexpr double first_x = 162;
  constexpr double last_x = 322;
  constexpr double least = 0.0005;
  constexpr std::array ticks = {0.001, 0.01, 0.1, 0.5, 0.9, 0.99, 0.999};
  auto const x_of = [&](double p) {
    auto const held = std::clamp(p, least, 1 - least);
    auto const end = std::log((1 - least) / least);
    return first_x + (last_x - first_x) * (std::log(held / (1 - held)) + end) / (2 * end);
  };
  auto const bottom = top + row * static_cast<double>(rungs.size());
  std::string id;
  for (char const c : cause) id += std::isalnum(static_cast<unsigned char>(c)) != 0 ? c : '-';
  std::string lines;
  for (auto const p : ticks)
    lines += fmt::format(
        "<line class=\"line\" x1=\"{0:.1f}\" y1=\"{1}\" x2=\"{0:.1f}\" y2=\"{2:.0f}\"/>"
        "<text class=\"tick middle\" x=\"{0:.1f}\" y=\"10\">{3:.3g}</text>\n",
        x_of(p), top - 8, bottom, 100 * p);
  bool is_held = false;
  double before = x_of(rungs.front().probability);
  for (std::size_t i = 0; i < rungs.size(); ++i) {
    auto const p = rungs[i].probability;
    auto const y = top + row * static_cast<double>(i) + 15;
    auto const x = x_of(p);
    if (i > 0)
      lines += fmt::format(
          "<path class=\"path\" d=\"M{0:.1f} {1:.1f} L{0:.1f} {2:.1f} L{3:.1f} {2:.1f}\"/>\n",
          before, y - row, y, x);
    lines += rung_mark(x, y, p < least ? -1 : p > 1 - least ? 1 : 0);
    is_held = is_held || p < least || p > 1 - least;
    lines += rung_label(titles[i], y);
    lines += fmt::format("<text class=\"end strong\" x=\"{}\" y=\"{:.1f}\">{}</text>\n", width,
                         y + 4, short_per_cent(p));
    before = x;
  }
  return fmt::format(
             "<svg viewBox=\"0 0 {0} {1:.0f}\" role=\"img\" aria-labelledby=\"ladder-{2}-title "
             "ladder-{2}-desc\">\n<title id=\"ladder-{2}-title\">From base rate to result: "
             "{3}</title>\n<desc id=\"ladder-{2}-desc\">The chance of this cause, in per cent, "
             "climbs or falls with each rule from {4} to {5}; the list beside the picture says the "
             "same.{6}</desc>\n",
             width, bottom + 6, id, escaped(cause), per_cent(rungs.front().probability),
             per_cent(rungs.back().probability),
             is_held ? " An arrow: the chance lies beyond the end of the scale." : "") +
         lines + "</svg>\n";
}

}  // namespace flinch::cli
