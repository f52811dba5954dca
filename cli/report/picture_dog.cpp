// The patient from both sides. The outline is our own drawing: facing left, its left side is seen;
// the right side is the same turned round.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>

#include "flinch/explain/reasons.hpp"
#include "look/html.hpp"
#include "report/pictures.hpp"

namespace flinch::cli {
namespace {

constexpr double side_width = 240;
constexpr double side_height = 170;

struct SitePlace {
  std::string_view site;
  double x;
  double y;
};

// Where the sites of the shipped pack lie on the patient that faces left.
constexpr SitePlace places[] = {
    {"forelimb", 90, 112},    {"shoulder", 80, 80},     {"upper_arm", 87, 93},
    {"elbow", 96, 104},       {"forearm", 91, 118},     {"carpus", 91, 131},
    {"forepaw", 88, 145},     {"fore_toes", 82, 149},   {"hindlimb", 178, 103},
    {"hip", 178, 69},         {"thigh", 177, 86},       {"stifle", 166, 102},
    {"lower_leg", 180, 112},  {"tarsus", 195, 119},     {"hindpaw", 186, 146},
    {"hind_toes", 179, 149},  {"spine", 134, 56},       {"neck", 72, 54},
    {"back", 122, 56},        {"chest_spine", 112, 56}, {"loin", 151, 57},
    {"lumbosacral", 170, 59}, {"chest", 108, 82},       {"flank", 156, 78},
    {"belly", 138, 91},       {"front_belly", 126, 94}, {"mid_belly", 139, 94},
    {"rear_belly", 152, 91},  {"udder", 146, 96},       {"rear", 188, 74},
    {"anal_area", 191, 68},   {"genitals", 160, 93},    {"tail", 208, 50},
    {"head", 46, 44},         {"mouth", 26, 64},        {"throat", 60, 68},
    {"nose", 20, 58},         {"jaw", 40, 67},          {"eye", 38, 50},
    {"ear", 58, 48},
};

constexpr std::string_view far_legs =
    "M98 100 L112 96 L112 126 L115 146 L114 151 L100 151 L100 147 L105 143 L103 124 Z "
    "M172 88 L198 88 L206 108 L211 119 L205 145 L204 151 L191 151 L191 147 L199 141 L200 122 "
    "L180 106 Z";
constexpr std::string_view outline =
    "M17 57 C20 50 28 47 34 44 C38 37 46 33 54 34 C62 38 68 44 76 47 C86 49 92 50 98 51 "
    "C116 53 134 53 150 52 C164 51 176 54 187 60 C198 58 206 50 214 38 C219 38 221 42 219 46 "
    "C214 58 205 66 194 70 C196 82 194 92 195 100 C198 107 202 113 201 119 L194 143 C195 147 195 "
    "150 194 152 L176 152 C175 148 178 145 183 143 L188 122 C180 116 170 112 164 104 C161 99 160 "
    "95 158 91 C150 94 142 97 134 98 C122 102 110 105 102 106 L98 122 L96 132 L95 146 C96 149 96 "
    "151 95 152 L79 152 C78 148 81 145 86 143 L86 130 L84 114 C82 104 76 97 73 90 C68 84 64 78 60 "
    "73 C52 73 44 72 38 72 C30 71 22 70 20 66 C17 64 16 60 17 57 Z";
constexpr std::string_view ear =
    "M54 35 C62 38 67 48 65 60 C60 62 55 56 53 49 C52 44 52 39 54 35 Z";

std::optional<SitePlace> place_of(Pack const& pack, SiteId site) {
  auto const found = std::find_if(std::begin(places), std::end(places),
                                  [&](SitePlace const& p) { return p.site == pack[site].name; });
  if (found == std::end(places)) return std::nullopt;
  return *found;
}

bool is_seen_from(Side view, Side mark) { return mark == Side::any || mark == view; }

std::string marks_on(Pack const& pack, std::vector<PatientMark> const& marks, Side view) {
  std::string out;
  std::vector<std::pair<double, double>> taken;
  for (auto const& one : marks) {
    auto const place = place_of(pack, one.mark.site);
    if (!place || !is_seen_from(view, one.mark.side)) continue;
    auto const x = view == Side::left ? place->x : side_width - place->x;
    auto y = place->y;
    // Marks that would cover each other move apart.
    for (auto const& [other_x, other_y] : taken)
      if (std::abs(other_x - x) < 15 && std::abs(other_y - y) < 15) y = other_y + 15.5;
    taken.emplace_back(x, y);
    if (one.number == 0)
      out +=
          fmt::format("<circle class=\"hollow\" cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"5.5\"/>\n", x, y);
    else
      out += fmt::format(
          "<circle class=\"full\" cx=\"{0:.1f}\" cy=\"{1:.1f}\" r=\"8\"/>"
          "<text class=\"on\" x=\"{0:.1f}\" y=\"{2:.1f}\">{3}</text>\n",
          x, y, y + 4.2, one.number);
  }
  return out;
}

std::string_view side_word(Side side) { return side == Side::left ? "left" : "right"; }

// What the picture of one side shows, in words.
std::string seen_in_words(Pack const& pack, std::vector<PatientMark> const& marks, Side view) {
  std::string found;
  std::string clear;
  for (auto const& one : marks) {
    if (!place_of(pack, one.mark.site) || !is_seen_from(view, one.mark.side)) continue;
    auto const site = site_text(pack, one.mark);
    if (one.number == 0)
      clear += (clear.empty() ? "" : ", ") + site;
    else
      found += fmt::format("{}{} at the {}", found.empty() ? "" : ", ", one.number, site);
  }
  if (found.empty() && clear.empty()) return "Nothing is marked on this side.";
  return (found.empty() ? "" : "Numbers: " + found + ". ") +
         (clear.empty() ? "" : "Rings: " + clear + ".");
}

std::string side_picture(Pack const& pack, std::vector<PatientMark> const& marks, Side view) {
  bool const is_left = view == Side::left;
  auto const turned = is_left
                          ? std::string()
                          : fmt::format(" transform=\"translate({} 0) scale(-1 1)\"", side_width);
  return fmt::format(
      "<svg viewBox=\"0 0 {0} {1}\" role=\"img\" aria-labelledby=\"dog-{2}-title dog-{2}-desc\">\n"
      "<title id=\"dog-{2}-title\">The dog seen from the {2}</title>\n"
      "<desc id=\"dog-{2}-desc\">{3}</desc>\n"
      "<text x=\"{4}\" y=\"14\"{5}>{2} side</text>\n"
      "<g{6}><path class=\"far\" d=\"{7}\"/><path class=\"body\" d=\"{8}\"/>"
      "<path class=\"body\" d=\"{9}\"/><circle class=\"full\" cx=\"37\" cy=\"51\" r=\"1.5\"/>"
      "<circle class=\"full\" cx=\"19\" cy=\"58\" r=\"2\"/></g>\n{10}</svg>\n",
      side_width, side_height, side_word(view), escaped(seen_in_words(pack, marks, view)),
      is_left ? 4.0 : side_width - 4, is_left ? "" : " class=\"end\"", turned, far_legs, outline,
      ear, marks_on(pack, marks, view));
}

}  // namespace

bool patient_picture_shows(Pack const& pack, SiteId site) {
  return place_of(pack, site).has_value();
}

std::string patient_pictures(Pack const& pack, std::vector<PatientMark> const& marks) {
  return side_picture(pack, marks, Side::left) + side_picture(pack, marks, Side::right);
}

}  // namespace flinch::cli
