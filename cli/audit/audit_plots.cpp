#include "audit/audit_plots.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "look/html.hpp"

namespace flinch::cli {
namespace {

constexpr double margin_left = 52;
constexpr double margin_top = 12;
constexpr double plot_size = 280;
constexpr double whole_width = margin_left + plot_size + 16;
constexpr double whole_height = margin_top + plot_size + 44;

double x_of(double share) { return margin_left + plot_size * share; }
double y_of(double share) { return margin_top + plot_size * (1 - share); }

std::string opening(std::string const& id, std::string_view title, std::string_view description,
                    double width, double height) {
  return fmt::format(
      "<svg viewBox=\"0 0 {1:.0f} {2:.0f}\" role=\"img\" aria-labelledby=\"{0}-title {0}-desc\">\n"
      "<title id=\"{0}-title\">{3}</title>\n<desc id=\"{0}-desc\">{4}</desc>\n",
      id, width, height, escaped(title), escaped(description));
}

std::string line(double x1, double y1, double x2, double y2, std::string_view look) {
  return fmt::format(
      "<line class=\"{}\" x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\"/>\n", look, x1,
      y1, x2, y2);
}

// `look` is "" for text that begins at its place, "middle" or "end".
std::string label(double x, double y, std::string_view text, std::string_view look = "middle") {
  return fmt::format("<text{} x=\"{:.1f}\" y=\"{:.1f}\">{}</text>\n",
                     look.empty() ? std::string() : fmt::format(" class=\"{}\"", look), x, y,
                     escaped(text));
}

std::string upright_label(double x, double y, std::string_view text) {
  return fmt::format(
      "<text class=\"middle\" x=\"{0:.1f}\" y=\"{1:.1f}\" transform=\"rotate(-90 {0:.1f} "
      "{1:.1f})\">{2}</text>\n",
      x, y, escaped(text));
}

// Both axes from 0 to 100 per cent, and the diagonal.
std::string axes(std::string_view below, std::string_view beside) {
  std::string out;
  for (int tick = 0; tick <= 100; tick += 20) {
    auto const share = tick / 100.0;
    out += line(x_of(0), y_of(share), x_of(1), y_of(share), "line");
    out += label(x_of(share), y_of(0) + 16, fmt::format("{}%", tick));
    out += label(x_of(0) - 6, y_of(share) + 4, fmt::format("{}%", tick), "end");
  }
  out += line(x_of(0), y_of(0), x_of(1), y_of(1), "line dotted");
  out += line(x_of(0), y_of(0), x_of(1), y_of(0), "axis");
  out += line(x_of(0), y_of(0), x_of(0), y_of(1), "axis");
  out += label(x_of(0.5), y_of(0) + 36, below);
  return out + upright_label(12, y_of(0.5), beside);
}

}  // namespace

std::string reliability_plot(std::string const& id, std::string_view title,
                             std::vector<ReliabilityBand> const& bands) {
  auto out =
      opening(id, title,
              "Dots: how often it came true, against the mean chance given, by tenth; lines: "
              "the 95% range. On the dotted diagonal the chances would be right. The table "
              "has the same numbers.",
              whole_width, whole_height);
  out += axes("mean chance given", "came true");
  for (auto const& band : bands) {
    if (band.came_true.of == 0) continue;
    auto const x = x_of(band.mean_forecast);
    out += line(x, y_of(band.came_true.low), x, y_of(band.came_true.high), "path");
    out += fmt::format("<circle class=\"full\" cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"4\"/>\n", x,
                       y_of(band.came_true.share()));
    // How many cases: below the range, or above one that begins at the axis.
    bool const is_at_axis = band.came_true.low < 0.08;
    out += label(x, is_at_axis ? y_of(band.came_true.high) - 5 : y_of(band.came_true.low) + 14,
                 std::to_string(band.came_true.of));
  }
  return out + "</svg>\n";
}

std::string roc_plot(std::string const& id, std::string_view title,
                     std::vector<RocLine> const& lines) {
  auto out =
      opening(id, title,
              "Share of the cases that needed it against the share of the others, both above "
              "each cut of the chance. The dotted diagonal is guessing. The table has the "
              "areas; the points are in lists that open on a screen.",
              whole_width, whole_height);
  out += axes("of the others", "of those that needed it");
  double legend = 0.16;
  bool is_first = true;
  for (auto const& one : lines) {
    std::string points = fmt::format("{:.1f},{:.1f}", x_of(0), y_of(0));
    for (auto const& point : one.points)
      points += fmt::format(" {:.1f},{:.1f}", x_of(point.false_alarm_share), y_of(point.hit_share));
    auto const look = is_first ? "path" : "path dashed";
    out += fmt::format("<polyline class=\"{}\" points=\"{}\"/>\n", look, points);
    out += line(x_of(0.52), y_of(legend) - 4, x_of(0.62), y_of(legend) - 4, look);
    out += label(x_of(0.64), y_of(legend), one.name, "");
    legend -= 0.08;
    is_first = false;
  }
  return out + "</svg>\n";
}

std::string tier_plot(std::string const& id, std::vector<std::string> const& tiers,
                      GradeTable const& cells) {
  constexpr double cell = 56;
  constexpr double left = 82;
  constexpr double top = 44;
  constexpr double holds_a_number = 20;
  auto const count = static_cast<double>(tiers.size());
  auto out = opening(id, "Tier needed and tier given",
                     "Squares: their area is the number of cases. Lines: the tier needed; columns: "
                     "the tier given. Framed: less urgent than needed. The table has the same "
                     "numbers.",
                     left + cell * count + 12, top + cell * count + 12);
  std::size_t most = 1;
  for (auto const& row : cells)
    for (auto const n : row) most = std::max(most, n);
  out += label(left + cell * count / 2, 14, "given");
  out += upright_label(12, top + cell * count / 2, "needed");
  for (std::size_t needed = 0; needed < tiers.size(); ++needed) {
    auto const y = top + cell * static_cast<double>(needed);
    out += label(left - 8, y + cell / 2 + 4, tiers[needed], "end");
    out += label(left + cell * (static_cast<double>(needed) + 0.5), top - 8, tiers[needed]);
    for (std::size_t given = 0; given < tiers.size(); ++given) {
      auto const x = left + cell * static_cast<double>(given);
      auto const n = cells[needed][given];
      auto const square = [&](std::string_view look, double side) {
        return fmt::format(
            "<rect class=\"{}\" x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\"/>\n",
            look, x + (cell - side) / 2, y + (cell - side) / 2, side, side);
      };
      out += square(given > needed ? "framed" : "line", cell - 4);
      if (n == 0) continue;
      auto const side = (cell - 12) * std::sqrt(static_cast<double>(n) / static_cast<double>(most));
      out += square("body", side);
      // A number would strike through a square that is smaller than itself.
      out += side >= holds_a_number
                 ? label(x + cell / 2, y + cell / 2 + 4, std::to_string(n))
                 : label(x + cell / 2 + side / 2 + 4, y + cell / 2 + 4, std::to_string(n), "");
    }
  }
  return out + "</svg>\n";
}

}  // namespace flinch::cli
