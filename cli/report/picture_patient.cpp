// The patient from both sides, as the pack draws it, or a plain sheet where the pack draws nothing.
#include <fmt/format.h>

#include <cmath>
#include <optional>

#include "flinch/explain/reasons.hpp"
#include "flinch/text/display.hpp"
#include "look/html.hpp"
#include "report/pictures.hpp"

namespace flinch::cli {
namespace {

bool is_seen_from(Side view, Side mark) { return mark == Side::any || mark == view; }

std::string_view side_word(Side side) { return side == Side::left ? "left" : "right"; }

bool is_found(PatientMark const& mark) { return mark.number > 0; }

// Without an outline: one labelled spot a line.
constexpr double plain_width = 240;
constexpr double plain_line = 20;
constexpr std::size_t longest_label = 32;  // of a spot, in characters; the list beside it says all

class SidePicture {
 public:
  SidePicture(Pack const& pack, std::vector<PatientMark> const& marks, Side view)
      : pack_(pack), view_(view) {
    for (auto const& one : marks)
      if (is_seen_from(view, one.mark.side) && picture_shows(pack, one)) marks_.push_back(one);
  }

  [[nodiscard]] std::string write() const {
    return fmt::format(
        "<svg viewBox=\"0 0 {0:g} {1:g}\" role=\"img\" "
        "aria-labelledby=\"side-{2}-title side-{2}-desc\">\n"
        "<title id=\"side-{2}-title\">The {3} seen from the {2}</title>\n"
        "<desc id=\"side-{2}-desc\">{4}</desc>\n"
        "<text x=\"{5:g}\" y=\"14\"{6}>{2} side</text>\n{7}</svg>\n",
        width(), height(), side_word(view_), escaped(pack_.words.one), escaped(in_words()),
        is_left() ? 4.0 : width() - 4, is_left() ? "" : " class=\"end\"",
        pack_.outline ? body() + marks_on_body() : labelled_spots());
  }

 private:
  [[nodiscard]] bool is_left() const { return view_ == Side::left; }
  // The right side is drawn as the left one turned round where it has no drawing of its own.
  [[nodiscard]] bool is_turned() const { return !is_left() && pack_.outline->right.empty(); }
  [[nodiscard]] OutlineView const& drawn() const {
    return is_left() || is_turned() ? pack_.outline->left : pack_.outline->right.front();
  }
  [[nodiscard]] double width() const { return pack_.outline ? pack_.outline->width : plain_width; }
  [[nodiscard]] double height() const {
    return pack_.outline ? pack_.outline->height
                         : plain_line * (static_cast<double>(marks_.size()) + 2);
  }

  [[nodiscard]] std::string body() const {
    auto out = is_turned() ? fmt::format("<g transform=\"translate({:g} 0) scale(-1 1)\">", width())
                           : std::string("<g>");
    for (auto const& path : drawn().behind)
      out += fmt::format("<path class=\"far\" d=\"{}\"/>", escaped(path));
    for (auto const& path : drawn().body)
      out += fmt::format("<path class=\"body\" d=\"{}\"/>", escaped(path));
    for (auto const& dot : drawn().dots)
      out += fmt::format("<circle class=\"full\" cx=\"{:g}\" cy=\"{:g}\" r=\"{:g}\"/>", dot.x,
                         dot.y, dot.radius);
    return out + "</g>\n";
  }

  static std::string spot(PatientMark const& one, double x, double y) {
    if (!is_found(one))
      return fmt::format("<circle class=\"hollow\" cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"5.5\"/>\n", x,
                         y);
    return fmt::format(
        "<circle class=\"full\" cx=\"{0:.1f}\" cy=\"{1:.1f}\" r=\"8\"/>"
        "<text class=\"on\" x=\"{0:.1f}\" y=\"{2:.1f}\">{3}</text>\n",
        x, y, y + 4.2, one.number);
  }

  [[nodiscard]] std::string marks_on_body() const {
    std::string out;
    std::vector<std::pair<double, double>> taken;
    for (auto const& one : marks_) {
      auto const* const point = find_point(pack_, drawn(), one.mark.site);
      auto const x = is_turned() ? width() - point->x : point->x;
      auto y = point->y;
      // Marks that would cover each other move apart.
      for (auto const& [other_x, other_y] : taken)
        if (std::abs(other_x - x) < 15 && std::abs(other_y - y) < 15) y = other_y + 15.5;
      taken.emplace_back(x, y);
      out += spot(one, x, y);
    }
    return out;
  }

  [[nodiscard]] std::string labelled_spots() const {
    std::string out;
    double y = plain_line * 1.75;
    for (auto const& one : marks_) {
      auto label = site_text(pack_, one.mark);
      if (label.size() > longest_label)
        label = label.substr(0, whole_character(label, longest_label)) + "...";
      out += spot(one, 14, y) +
             fmt::format("<text x=\"28\" y=\"{:.1f}\">{}</text>\n", y + 4.2, escaped(label));
      y += plain_line;
    }
    return out;
  }

  // What the picture shows, in words.
  [[nodiscard]] std::string in_words() const {
    std::string found;
    std::string clear;
    for (auto const& one : marks_) {
      auto const site = site_text(pack_, one.mark);
      if (is_found(one))
        found += fmt::format("{}{} at the {}", found.empty() ? "" : ", ", one.number, site);
      else
        clear += (clear.empty() ? "" : ", ") + site;
    }
    if (found.empty() && clear.empty()) return "Nothing is marked on this side.";
    return (found.empty() ? "" : "Numbers: " + found + ". ") +
           (clear.empty() ? "" : "Rings: " + clear + ".");
  }

  Pack const& pack_;
  Side view_;
  std::vector<PatientMark> marks_;
};

}  // namespace

bool picture_shows(Pack const& pack, PatientMark const& mark) {
  if (!pack.outline) return true;
  auto const has_place = [&](OutlineView const& view) {
    auto const* const point = find_point(pack, view, mark.mark.site);
    // A ring at the site that covers it would say that all of that is clear.
    return point != nullptr && (is_found(mark) || point->site == mark.mark.site);
  };
  auto const& right =
      pack.outline->right.empty() ? pack.outline->left : pack.outline->right.front();
  return (mark.mark.side == Side::right || has_place(pack.outline->left)) &&
         (mark.mark.side == Side::left || has_place(right));
}

std::optional<SiteId> picture_covers_by(Pack const& pack, PatientMark const& mark) {
  if (!pack.outline || !picture_shows(pack, mark)) return std::nullopt;
  auto const* const point = find_point(pack, pack.outline->left, mark.mark.site);
  if (point == nullptr || point->site == mark.mark.site) return std::nullopt;
  return point->site;
}

std::string patient_pictures(Pack const& pack, std::vector<PatientMark> const& marks) {
  return SidePicture(pack, marks, Side::left).write() +
         SidePicture(pack, marks, Side::right).write();
}

}  // namespace flinch::cli
