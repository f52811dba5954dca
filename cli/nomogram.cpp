#include "nomogram.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "chance_words.hpp"
#include "html.hpp"

namespace flinch::cli {
namespace nomogram {
namespace {

constexpr double top = 30;
constexpr double height = 400;

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

constexpr std::array probabilities = {
    0.0001, 0.0002, 0.0005, 0.001, 0.002, 0.005, 0.01,  0.02,  0.05,  0.1,    0.2,    0.3,   0.5,
    0.7,    0.8,    0.9,    0.95,  0.98,  0.99,  0.995, 0.998, 0.999, 0.9995, 0.9998, 0.9999};
struct RatioTick {
  double ratio;
  std::string_view text;
};
constexpr std::array ratios = {RatioTick{0.0001, "0.0001"},
                               RatioTick{0.001, "0.001"},
                               RatioTick{0.01, "0.01"},
                               RatioTick{0.1, "0.1"},
                               RatioTick{1, "1"},
                               RatioTick{10, "10"},
                               RatioTick{100, "100"},
                               RatioTick{1000, "1,000"},
                               RatioTick{10000, "10,000"},
                               RatioTick{100000, "100,000"},
                               RatioTick{1000000, "1,000,000"}};

std::string axis(double x) {
  return fmt::format("<line class=\"line\" x1=\"{0}\" y1=\"{1}\" x2=\"{0}\" y2=\"{2}\"/>\n", x, top,
                     top + height);
}

std::string tick(double x, double y, std::string_view text, bool is_left) {
  auto const out = is_left ? -1 : 1;
  return fmt::format(
      "<line class=\"line\" x1=\"{:.1f}\" y1=\"{:.2f}\" x2=\"{:.1f}\" y2=\"{:.2f}\"/>"
      "<text class=\"tick label{}\" x=\"{:.1f}\" y=\"{:.2f}\">{}</text>\n",
      x, y, x + out * 5, y, is_left ? " end" : "", x + out * 8, y + 3.5, text);
}

std::string axes() {
  auto out = axis(left_x) + axis(middle_x) + axis(right_x);
  for (auto const p : probabilities) {
    auto const text = fmt::format("{:.4g}", 100 * p);
    out += tick(left_x, left_y(p), text, true) + tick(right_x, right_y(p), text, false);
  }
  for (auto const& one : ratios) out += tick(middle_x, middle_y(one.ratio), one.text, true);
  return out;
}

double held(double probability) { return std::clamp(probability, least, 1 - least); }
bool is_held(double probability) { return held(probability) != probability; }

// A dot, or an arrow out of the axis where it is too short.
std::string end_mark(double x, double y, bool is_beyond) {
  if (!is_beyond)
    return fmt::format("<circle class=\"full\" cx=\"{:.1f}\" cy=\"{:.2f}\" r=\"4\"/>", x, y);
  auto const out = y < top + height / 2 ? -1 : 1;
  return fmt::format("<path class=\"full\" d=\"M{:.1f} {:.2f} L{:.1f} {:.2f} L{:.1f} {:.2f} Z\"/>",
                     x - 5, y, x + 5, y, x, y + out * 9);
}

}  // namespace

double likelihood_ratio(double before, double after) {
  return after / (1 - after) / (before / (1 - before));
}

std::string nomogram_words(double before, double after) {
  return fmt::format(
      "From {} before the answers to {} after them; all answers together weigh like one test with "
      "a likelihood ratio of {}.{}",
      per_cent(before), per_cent(after), ratio_in_words(likelihood_ratio(before, after)),
      is_held(before) || is_held(after)
          ? " The axes end at 0.01% and 99.99%: an arrow says that it lies beyond, and the line is "
            "drawn to the end of the axis."
          : "");
}

std::string nomogram_picture(std::string_view cause, double before, double after) {
  auto const from = left_y(held(before));
  auto const to = right_y(held(after));
  // The line of what is held does not pass the true ratio; then no dot claims that it does.
  auto const middle = is_held(before) || is_held(after)
                          ? std::string()
                          : end_mark(middle_x, middle_y(likelihood_ratio(before, after)), false);
  return fmt::format(
      "<svg viewBox=\"0 0 380 446\" role=\"img\" aria-labelledby=\"nomogram-title "
      "nomogram-desc\">\n<title id=\"nomogram-title\">Nomogram for {}</title>\n"
      "<desc id=\"nomogram-desc\">{}</desc>\n"
      "<text class=\"middle\" x=\"{:.0f}\" y=\"14\">before, %</text>"
      "<text class=\"middle\" x=\"{:.0f}\" y=\"14\">likelihood ratio</text>"
      "<text class=\"middle\" x=\"{:.0f}\" y=\"14\">after, %</text>\n"
      "<line class=\"path\" x1=\"{:.1f}\" y1=\"{:.2f}\" x2=\"{:.1f}\" "
      "y2=\"{:.2f}\"/>\n{}{}{}{}\n</svg>\n",
      escaped(cause), escaped(nomogram_words(before, after)), left_x, middle_x, right_x, left_x,
      from, right_x, to, axes(), end_mark(left_x, from, is_held(before)), middle,
      end_mark(right_x, to, is_held(after)));
}

}  // namespace flinch::cli
