#include "flinch/model/outline.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "flinch/model/pack.hpp"
#include "flinch/text/nearest.hpp"
#include "flinch/yaml/document.hpp"

namespace flinch {
namespace {

using yaml::Node;

constexpr std::size_t most_paths = 64;
constexpr std::size_t longest_path = 20000;
constexpr double largest_sheet = 10000;

// How many numbers a command of path data takes. Source: SVG 1.1, section 8.3.9, from memory.
std::optional<std::size_t> numbers_of(char command) {
  switch (command) {
    case 'Z':
    case 'z':
      return 0;
    case 'H':
    case 'h':
    case 'V':
    case 'v':
      return 1;
    case 'M':
    case 'm':
    case 'L':
    case 'l':
    case 'T':
    case 't':
      return 2;
    case 'S':
    case 's':
    case 'Q':
    case 'q':
      return 4;
    case 'C':
    case 'c':
      return 6;
    case 'A':
    case 'a':
      return 7;
    default:
      return std::nullopt;
  }
}

// A plain number: digits with one point at most, perhaps a minus before them.
std::optional<double> read_number(std::string_view text) {
  double value = 0;
  auto const [end, error] =
      std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
  bool const is_whole = error == std::errc{} && end == text.data() + text.size();
  if (!is_whole || !std::isfinite(value) || std::abs(value) > largest_sheet) return std::nullopt;
  return value;
}

// Numbers may stand close: in `2-.5.5` there are three.
std::size_t number_end(std::string_view path, std::size_t at) {
  auto const digits = [&] {
    while (at < path.size() && path[at] >= '0' && path[at] <= '9') ++at;
  };
  if (at < path.size() && (path[at] == '-' || path[at] == '+')) ++at;
  digits();
  if (at < path.size() && path[at] == '.') ++at;
  digits();
  return at;
}

// What is wrong with path data, and nothing where it can be drawn.
std::string fault_of_path(std::string_view path) {
  if (path.size() > longest_path)
    return fmt::format("it is longer than {} characters", longest_path);
  std::optional<std::size_t> needed;
  std::size_t given = 0;
  auto const is_complete = [&] {
    return !needed || (*needed == 0 ? given == 0 : given > 0 && given % *needed == 0);
  };
  for (std::size_t at = 0; at < path.size();) {
    auto const c = path[at];
    if (c == ' ' || c == ',' || c == '\n' || c == '\t') {
      ++at;
      continue;
    }
    if (auto const count = numbers_of(c)) {
      if (!is_complete()) return fmt::format("numbers are missing before character {}", at + 1);
      if (!needed && c != 'M' && c != 'm') return "it does not begin with `M`";
      needed = count;
      given = 0;
      ++at;
      continue;
    }
    auto const end = number_end(path, at);
    auto const from = at + (c == '+' ? 1 : 0);
    if (!read_number(path.substr(from, end - from)))
      return fmt::format("character {} is no command and begins no number", at + 1);
    if (!needed) return "it does not begin with `M`";
    ++given;
    at = end;
  }
  if (!needed) return "it is empty";
  return is_complete() ? "" : "numbers are missing at its end";
}

class OutlineReader {
 public:
  OutlineReader(Pack const& pack, Report& report) : pack_(pack), report_(report) {}

  Outline read(Node const& root) {
    if (root.kind != Node::Kind::map) {
      fault(root.at, "an outline is a map with `width`, `height` and `left`");
      return {};
    }
    bool const is_known = all_known(root);
    auto const* width = root.find("width");
    auto const* height = root.find("height");
    if (width == nullptr || height == nullptr || root.find("left") == nullptr) {
      if (is_known) fault(root.at, "an outline has `width`, `height` and `left`");
      return {};
    }
    out_.width = length(*width);
    out_.height = length(*height);
    for (auto const& [key, at, value] : root.members) {
      if (key == "left")
        out_.left = view(value);
      else if (key == "right")
        out_.right.push_back(view(value));
    }
    return std::move(out_);
  }

 private:
  // A part that is misspelt is reported, and then not as one that is missing.
  bool all_known(Node const& root) {
    std::vector<std::string_view> const known = {"width", "height", "left", "right"};
    bool out = true;
    for (auto const& [key, at, value] : root.members) {
      if (std::find(known.begin(), known.end(), key) != known.end()) continue;
      unknown(key, at, known);
      out = false;
    }
    return out;
  }

  void fault(Place at, std::string message) {
    report_.error(Code::outline, at, std::move(message));
  }

  void unknown(std::string const& key, Place at, std::vector<std::string_view> const& known) {
    auto& error = report_.error(
        Code::outline, at,
        fmt::format("`{}` is not a part of an outline; there are {}", key, fmt::join(known, ", ")));
    if (auto const near = nearest(key, known))
      error.notes.push_back({fmt::format("did you mean `{}`?", *near), {}});
  }

  double length(Node const& node) {
    auto const value = node.kind == Node::Kind::scalar ? read_number(node.scalar) : std::nullopt;
    if (value && *value > 0) return *value;
    fault(node.at, fmt::format("a sheet measures more than 0 and at most {:g}", largest_sheet));
    return largest_sheet;
  }

  OutlineView view(Node const& node) {
    OutlineView out;
    if (node.kind != Node::Kind::map) {
      fault(node.at, "a side has `body`, `sites`, and perhaps `behind` and `dots`");
      return out;
    }
    for (auto const& [key, at, value] : node.members) {
      if (key == "behind")
        out.behind = paths(value);
      else if (key == "body")
        out.body = paths(value);
      else if (key == "dots")
        dots(value, out);
      else if (key == "sites")
        sites(value, out);
      else
        unknown(key, at, {"behind", "body", "dots", "sites"});
    }
    if (node.find("body") == nullptr) fault(node.at, "this side has no `body`");
    if (node.find("sites") == nullptr) fault(node.at, "this side has no `sites`");
    return out;
  }

  std::vector<std::string> paths(Node const& node) {
    std::vector<std::string> out;
    if (node.kind != Node::Kind::list || node.items.size() > most_paths) {
      fault(node.at, fmt::format("paths are a list of at most {} texts", most_paths));
      return out;
    }
    for (auto const& item : node.items) {
      auto const wrong =
          item.kind == Node::Kind::scalar ? fault_of_path(item.scalar) : "it is no text";
      if (wrong.empty())
        out.push_back(item.scalar);
      else
        fault(item.at, "this is no path data: " + wrong);
    }
    return out;
  }

  // So many numbers, the first two of them a place on the sheet.
  std::vector<double> numbers(Node const& node, std::size_t count, std::string_view what) {
    std::vector<double> out;
    for (auto const& item : node.items)
      if (auto const value =
              item.kind == Node::Kind::scalar ? read_number(item.scalar) : std::nullopt)
        out.push_back(*value);
    bool const is_sound = node.kind == Node::Kind::list && node.items.size() == count &&
                          out.size() == count && out[0] >= 0 && out[0] <= out_.width &&
                          out[1] >= 0 && out[1] <= out_.height;
    if (is_sound) return out;
    fault(node.at, fmt::format("{}, on the sheet", what));
    return {};
  }

  void dots(Node const& node, OutlineView& out) {
    if (node.kind != Node::Kind::list || node.items.size() > most_paths)
      return fault(node.at, fmt::format("dots are a list of at most {}", most_paths));
    for (auto const& item : node.items) {
      auto const dot = numbers(item, 3, "a dot is `[x, y, radius]`");
      if (dot.empty()) continue;
      if (dot[2] > 0)
        out.dots.push_back({dot[0], dot[1], dot[2]});
      else
        fault(item.at, "the radius of a dot is above zero");
    }
  }

  void sites(Node const& node, OutlineView& out) {
    if (node.kind != Node::Kind::map) return fault(node.at, "sites are `name: [x, y]`");
    for (auto const& [key, at, value] : node.members) {
      auto const point = numbers(value, 2, "a site lies at `[x, y]`");
      if (auto const site = pack_.find_site(key)) {
        if (!point.empty()) out.points.push_back({*site, point[0], point[1]});
        continue;
      }
      std::vector<std::string_view> names;
      for (auto const& known : pack_.sites) names.push_back(known.name);
      // Where statements could not be read, this may be the site of one of them.
      if (report_.has_errors() && !nearest(key, names)) continue;
      auto& error = report_.error(Code::unknown_name, at, fmt::format("unknown site `{}`", key));
      if (auto const near = nearest(key, names))
        error.did_you_mean(*near);
      else if (auto others = other_names(key, names))
        error.notes.push_back({std::move(*others), {}});
    }
  }

  Pack const& pack_;
  Report& report_;
  Outline out_;
};

}  // namespace

OutlinePoint const* find_point(Pack const& pack, OutlineView const& view, SiteId site) {
  for (std::optional<SiteId> at = site; at; at = pack[*at].inside)
    for (auto const& point : view.points)
      if (point.site == *at) return &point;
  return nullptr;
}

Outline read_outline(SourceSet const& sources, FileId file, Pack const& pack, Report& report) {
  auto const root = yaml::read(sources, file, {}, report);
  if (!root) return {};
  return OutlineReader(pack, report).read(*root);
}

}  // namespace flinch
