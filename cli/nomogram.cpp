#include "nomogram.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "html.hpp"

namespace flinch::cli {
namespace nomogram {
namespace {

constexpr double top = 30;
constexpr double height = 400;
constexpr double least = 0.001;

double log_odds(double probability) { return std::log(probability / (1 - probability)); }
double scale() { return height / (2 * log_odds(1 - least)); }

}  // namespace

double left_y(double probability) { return top + height / 2 + scale() * log_odds(probability); }
double right_y(double probability) { return top + height / 2 - scale() * log_odds(probability); }
double middle_y(double ratio) { return top + height / 2 - scale() * std::log(ratio) / 2; }
double right_probability(double y) { return 1 / (1 + std::exp((y - top - height / 2) / scale())); }

}  // namespace nomogram

namespace {

using namespace nomogram;

constexpr std::array probabilities = {0.001, 0.002, 0.005, 0.01, 0.02,  0.05, 0.1,
                                      0.2,   0.3,   0.4,   0.5,  0.6,   0.7,  0.8,
                                      0.9,   0.95,  0.98,  0.99, 0.995, 0.999};
constexpr std::array ratios = {0.001, 0.01, 0.1, 0.5, 1.0, 2.0, 10.0, 100.0, 1000.0};

std::string axis(double x) {
  return fmt::format("<line class=\"line\" x1=\"{0}\" y1=\"{1}\" x2=\"{0}\" y2=\"{2}\"/>\n", x, 30,
                     430);
}

std::string tick(double x, double y, std::string_view text, bool is_left) {
  auto const out = is_left ? -1 : 1;
  return fmt::format(
      "<line class=\"line\" x1=\"{:.1f}\" y1=\"{:.2f}\" x2=\"{:.1f}\" y2=\"{:.2f}\"/>"
      "<text class=\"tick{}\" x=\"{:.1f}\" y=\"{:.2f}\">{}</text>\n",
      x, y, x + out * 5, y, is_left ? " end" : "", x + out * 8, y + 3.5, text);
}

std::string axes() {
  auto out = axis(left_x) + axis(middle_x) + axis(right_x);
  for (auto const p : probabilities) {
    auto const text = fmt::format("{:.3g}", 100 * p);
    out += tick(left_x, left_y(p), text, true) + tick(right_x, right_y(p), text, false);
  }
  for (auto const ratio : ratios)
    out += tick(middle_x, middle_y(ratio), fmt::format("{:g}", ratio), true);
  out +=
      "<text class=\"middle\" x=\"70\" y=\"16\">before, %</text>"
      "<text class=\"middle\" x=\"190\" y=\"16\">likelihood ratio</text>"
      "<text class=\"middle\" x=\"310\" y=\"16\">after, %</text>\n";
  return out;
}

}  // namespace

std::string nomogram_picture(std::string_view cause, double before, double after) {
  constexpr double least_shown = 0.001;
  auto const from = std::clamp(before, least_shown, 1 - least_shown);
  auto const to = std::clamp(after, least_shown, 1 - least_shown);
  bool const is_held = from != before || to != after;
  auto const ratio = to / (1 - to) / (from / (1 - from));
  auto const point = [](double x, double y) {
    return fmt::format("<circle class=\"full\" cx=\"{:.1f}\" cy=\"{:.2f}\" r=\"4\"/>", x, y);
  };
  return fmt::format(
      "<svg viewBox=\"0 0 380 446\" role=\"img\" aria-labelledby=\"nomogram-title "
      "nomogram-desc\">\n<title id=\"nomogram-title\">Nomogram for {}</title>\n"
      "<desc id=\"nomogram-desc\">A straight line from {:.2g} per cent before the answers, through "
      "a likelihood ratio of {:.4g} for all answers together, to {:.2g} per cent after "
      "them.{}</desc>\n{}"
      "<line class=\"path\" x1=\"{:.1f}\" y1=\"{:.2f}\" x2=\"{:.1f}\" "
      "y2=\"{:.2f}\"/>{}{}{}\n</svg>\n",
      escaped(cause), 100 * from, ratio, 100 * to,
      is_held ? " The axes end at 0.1 and 99.9 per cent." : "", axes(), left_x, left_y(from),
      right_x, right_y(to), point(left_x, left_y(from)), point(middle_x, middle_y(ratio)),
      point(right_x, right_y(to)));
}

}  // namespace flinch::cli
