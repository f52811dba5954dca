#include "describe/describe_pages.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <set>

#include "files/replace_file.hpp"
#include "flinch/explain/description.hpp"
#include "flinch/explain/statements.hpp"
#include "flinch/telling/caution.hpp"
#include "look/html.hpp"
#include "review/review_text.hpp"

namespace flinch::cli {
namespace {

constexpr std::array kinds = {NamedKind::cause, NamedKind::sign, NamedKind::alarm,
                              NamedKind::rule,  NamedKind::care, NamedKind::source,
                              NamedKind::family};

// By this a later run knows its own pages.
constexpr char const* made_by = "flinch describe";

std::string page_path(Pack const& pack, Named thing) {
  return fmt::format("{}/{}.html", kind_text(thing.kind), name_of(pack, thing));
}

std::string link(std::string_view address, std::string_view text) {
  return fmt::format("<a href=\"{}\">{}</a>", address, escaped(text));
}

class ThingPage {
 public:
  ThingPage(Pack const& pack, Description const& described) : pack_(pack), described_(described) {}

  std::string write() const {
    std::string body = "<header>\n<p>" + link("../index.html", "All of the pack") + "</p>\n";
    body += fmt::format("<h1>{}</h1>\n<p>{} {}</p>\n</header>\n<main>\n", escaped(described_.title),
                        escaped(kind_text(described_.thing.kind)),
                        escaped(name_of(pack_, described_.thing)));
    for (std::size_t i = 0; i < described_.sections.size(); ++i) {
      auto const& one = described_.sections[i];
      body += section(fmt::format("part-{}", static_cast<char>('a' + i)), one.heading,
                      nested(one.lines));
    }
    body += fmt::format("</main>\n<footer>\n<p>{}</p>\n</footer>\n", escaped(caution));
    return html_page({fmt::format("{} - {}", described_.title, pack_.title), Paper::a4, made_by},
                     body);
  }

 private:
  [[nodiscard]] std::string text(DescribedLine const& line) const {
    std::string out;
    for (auto const& piece : line.pieces)
      out += piece.thing ? link("../" + page_path(pack_, *piece.thing), piece.text)
                         : escaped(piece.text);
    return out;
  }

  // Lists in lists, as deep as the lines say.
  [[nodiscard]] std::string nested(std::vector<DescribedLine> const& lines) const {
    std::string out = "<ul>\n";
    std::size_t depth = 0;
    for (std::size_t i = 0; i < lines.size(); ++i) {
      for (; depth > lines[i].depth; --depth) out += "</ul></li>\n";
      out += "<li>" + text(lines[i]);
      bool const goes_deeper = i + 1 < lines.size() && lines[i + 1].depth > lines[i].depth;
      out += goes_deeper ? "<ul>\n" : "</li>\n";
      if (goes_deeper) ++depth;
    }
    for (; depth > 0; --depth) out += "</ul></li>\n";
    return out + "</ul>\n";
  }

  Pack const& pack_;
  Description const& described_;
};

// Each kind by title, in alphabetical order whatever the letter case.
std::string index_page(Pack const& pack) {
  constexpr std::array headings = {"Causes", "Signs",   "Alarms",  "Rules",
                                   "Care",   "Sources", "Families"};
  std::string contents;
  std::string body;
  for (std::size_t k = 0; k < kinds.size(); ++k) {
    auto things = all_named(pack, kinds[k]);
    if (things.empty() && kinds[k] == NamedKind::family) continue;  // few packs have any
    auto const folded = [&](Named thing) {
      auto out = title_of(pack, thing);
      std::transform(out.begin(), out.end(), out.begin(),
                     [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
      return out;
    };
    std::stable_sort(things.begin(), things.end(),
                     [&](Named a, Named b) { return folded(a) < folded(b); });
    std::string items;
    for (std::size_t i = 0; i < things.size(); ++i) {
      auto const is_like = [&](std::size_t other) {
        return other < things.size() && title_of(pack, things[other]) == title_of(pack, things[i]);
      };
      auto text = title_of(pack, things[i]);
      // Sorted, those of one title are neighbours.
      if (is_like(i + 1) || (i > 0 && is_like(i - 1)))
        text += fmt::format(" ({})", name_of(pack, things[i]));
      items += "<li>" + link(page_path(pack, things[i]), text) + "</li>\n";
    }
    std::string id = headings[k];
    id.front() = static_cast<char>(std::tolower(static_cast<unsigned char>(id.front())));
    contents +=
        "<li>" + link("#" + id, fmt::format("{} ({})", headings[k], things.size())) + "</li>\n";
    if (!items.empty()) body += section(id, headings[k], "<ul>\n" + items + "</ul>\n");
  }
  return html_page(
      {fmt::format("{} {}", pack.title, pack.version), Paper::a4, made_by},
      fmt::format("<header>\n<h1>{}</h1>\n<p>Version {}. {}</p>\n<nav aria-label=\"Contents\">\n"
                  "<ul>\n{}</ul>\n</nav>\n</header>\n<main>\n{}</main>\n<footer>\n<p>{}</p>\n"
                  "</footer>\n",
                  escaped(pack.title), escaped(pack.version.empty() ? "not given" : pack.version),
                  escaped(read_sentence(pack)), contents, body, escaped(caution)));
}

bool is_own_page(std::filesystem::path const& path) {
  std::error_code failed;
  if (std::filesystem::symlink_status(path, failed).type() != std::filesystem::file_type::regular)
    return false;
  std::ifstream file(path, std::ios::binary);
  std::string first(200, '\0');
  file.read(first.data(), static_cast<std::streamsize>(first.size()));
  first.resize(static_cast<std::size_t>(file.gcount()));
  return is_page_by(made_by, first);
}

// Pages of an earlier run whose things the pack no longer has; whatever else lies there stays.
void remove_stale_pages(Pack const& pack, std::filesystem::path const& folder, WrittenPages& out) {
  for (auto const kind : kinds) {
    std::set<std::string> current;
    for (auto const thing : all_named(pack, kind)) current.insert(name_of(pack, thing) + ".html");
    std::vector<std::filesystem::path> stale;
    std::error_code failed;
    std::filesystem::directory_iterator entries(folder / kind_text(kind), failed);
    for (; !failed && entries != std::filesystem::directory_iterator(); entries.increment(failed)) {
      auto const& path = entries->path();
      if (path.extension() == ".html" && !current.contains(path.filename().string()) &&
          is_own_page(path))
        stale.push_back(path);
    }
    std::sort(stale.begin(), stale.end());
    for (auto const& path : stale) {
      if (!failed) std::filesystem::remove(path, failed);
      if (failed) {
        out.place = path.string();
        break;
      }
      ++out.removed;
    }
    if (failed) {
      if (out.place.empty()) out.place = (folder / kind_text(kind)).string();
      out.failure = "cannot remove what the pack no longer has: " + failed.message();
      return;
    }
  }
}

}  // namespace

WrittenPages write_pack_pages(Tables const& tables, std::string const& folder) {
  auto const& pack = tables.pack();
  WrittenPages out;
  auto const write = [&](std::string const& path, std::string const& page) {
    auto const place = (std::filesystem::path(folder) / path).string();
    auto const failure = replace_file(place, page, ForceFolder::later, Access::as_usual);
    if (failure) {
      out.place = place;
      out.failure = "cannot write this page: " + *failure;
      return false;
    }
    ++out.pages;
    return true;
  };
  for (auto const kind : kinds) {
    auto const below = std::filesystem::path(folder) / kind_text(kind);
    std::error_code failed;
    std::filesystem::create_directories(below, failed);
    if (failed) {
      out.place = below.string();
      out.failure = "cannot make this folder: " + failed.message();
      return out;
    }
    for (auto const thing : all_named(pack, kind)) {
      auto const described = describe(tables, thing);
      if (!write(page_path(pack, thing), ThingPage(pack, described).write())) return out;
    }
    force_folder((below / "").string());
  }
  // Only once no page leads to them any more.
  if (write("index.html", index_page(pack))) remove_stale_pages(pack, folder, out);
  force_folder((std::filesystem::path(folder) / "").string());
  return out;
}

}  // namespace flinch::cli
