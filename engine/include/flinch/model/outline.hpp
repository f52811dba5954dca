#pragma once
// The drawing on which sites are marked, as read from a pack's YAML file.
#include <string>
#include <vector>

#include "flinch/model/condition.hpp"
#include "flinch/text/diagnostic.hpp"

namespace flinch {

struct Pack;

/// A filled circle of the drawing, such as an eye.
struct OutlineDot {
  double x = 0;
  double y = 0;
  double radius = 0;
};

struct OutlinePoint {
  SiteId site{};
  double x = 0;
  double y = 0;
};

/// One side of the patient. Paths are SVG path data that was read whole: numbers and commands,
/// nothing that could be markup.
struct OutlineView {
  std::vector<std::string> behind;  ///< drawn first, faint
  std::vector<std::string> body;
  std::vector<OutlineDot> dots;
  std::vector<OutlinePoint> points;
};

struct Outline {
  double width = 0;  ///< of the sheet, in the units of all that is drawn
  double height = 0;
  OutlineView left;                ///< the patient faces left
  std::vector<OutlineView> right;  ///< one, or none: then the left side turned round
};

/// Where the site lies on the view, or the nearest site that covers it; null where neither does.
[[nodiscard]] OutlinePoint const* find_point(Pack const& pack, OutlineView const& view,
                                             SiteId site);

/// Reads the outline of the pack, whose sites are known; every mistake is in the report, with its
/// place. docs/packs.md has the format.
[[nodiscard]] Outline read_outline(SourceSet const& sources, FileId file, Pack const& pack,
                                   Report& report);

}  // namespace flinch
