#include "flinch/model/load.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "model/checks.hpp"
#include "model/resolver.hpp"

namespace flinch {
namespace {

std::string beside(std::string_view from, std::string_view name) {
  auto const slash = from.rfind('/');
  auto const folder =
      slash == std::string_view::npos ? std::string_view() : from.substr(0, slash + 1);
  return std::string(folder) + std::string(name);
}

class Loader {
 public:
  Loader(ReadFile const& read, SourceSet& sources, LoadLimits const& limits, Report& report)
      : read_(read), sources_(sources), limits_(limits), report_(report) {}

  // The entry has no include statement that asks for it: what goes wrong is said of itself.
  void entry(std::string_view path) {
    auto read = read_(path);
    if (!read.bytes) {
      report_.error(Code::include_missing, {sources_.add(std::string(path), ""), {}},
                    std::move(read.why_not));
      return;
    }
    file(std::string(path), std::move(*read.bytes));
  }

  [[nodiscard]] std::vector<syntax::File> const& files() const { return files_; }
  [[nodiscard]] std::vector<std::string> const& paths() const { return paths_; }

  [[nodiscard]] bool has_head() const {
    return std::any_of(files_.begin(), files_.end(), [](syntax::File const& file) {
      return std::any_of(file.statements.begin(), file.statements.end(), [](auto const& statement) {
        return std::holds_alternative<syntax::PackHead>(statement);
      });
    });
  }

  [[nodiscard]] BreedTable breed_table() {
    for (std::size_t i = 0; i < files_.size(); ++i)
      for (auto const& statement : files_[i].statements) {
        auto const* head = std::get_if<syntax::PackHead>(&statement);
        if (head == nullptr || !head->breed_table) continue;
        auto const id = read_data(i, *head->breed_table);
        std::vector<std::string> sizes;
        for (auto const& size : head->sizes) sizes.push_back(size.name.text);
        if (sizes.empty()) sizes = {usual_sizes.begin(), usual_sizes.end()};
        return id ? read_breed_table(sources_, *id, sizes, report_) : BreedTable{};
      }
    return {};
  }

  [[nodiscard]] std::optional<FileId> outline() {
    for (std::size_t i = 0; i < files_.size(); ++i)
      for (auto const& statement : files_[i].statements)
        if (auto const* head = std::get_if<syntax::PackHead>(&statement))
          if (head->outline) return read_data(i, *head->outline);
    return std::nullopt;
  }

 private:
  void file(std::string path, std::string bytes) {
    auto const id = sources_.add(path, std::move(bytes));
    auto tree = syntax::parse(sources_, id, limits_.file, report_);
    std::vector<syntax::Include> includes;
    for (auto const& statement : tree.statements)
      if (auto const* include = std::get_if<syntax::Include>(&statement))
        includes.push_back(*include);
    files_.push_back(std::move(tree));
    paths_.push_back(path);
    open_.push_back(path);
    for (auto const& include : includes) follow(path, include);
    open_.pop_back();
  }

  void follow(std::string const& from, syntax::Include const& include) {
    auto const target = beside(from, include.file.text);
    if (std::find(open_.begin(), open_.end(), target) != open_.end()) {
      std::string chain;
      for (auto const& path : open_) chain += path + " -> ";
      report_.error(Code::include_cycle, include.file.at,
                    fmt::format("this file includes itself: {}{}", chain, target));
      return;
    }
    if (std::find(paths_.begin(), paths_.end(), target) != paths_.end()) {
      report_.error(Code::include_twice, include.file.at,
                    fmt::format("`{}` is included already", target));
      return;
    }
    if (open_.size() >= limits_.include_depth || paths_.size() >= limits_.files) {
      report_.error(Code::include_limit, include.file.at,
                    fmt::format("at most {} files, {} deep, make a pack", limits_.files,
                                limits_.include_depth));
      return;
    }
    if (auto bytes = read_beside(from, include.file)) file(target, std::move(bytes->second));
  }

  // A file of data that the pack statement in file `from` names.
  [[nodiscard]] std::optional<FileId> read_data(std::size_t from, syntax::Text const& name) {
    auto bytes = read_beside(paths_[from], name);
    if (!bytes) return std::nullopt;
    return sources_.add(bytes->first, std::move(bytes->second));
  }

  // Packs come from anywhere: they may read what lies beside them or below, nothing else.
  [[nodiscard]] std::optional<std::pair<std::string, std::string>> read_beside(
      std::string const& from, syntax::Text const& name) {
    auto const& text = name.text;
    bool const leaves = text.empty() || text.front() == '/' ||
                        text.find("..") != std::string::npos ||
                        text.find('\\') != std::string::npos;
    if (leaves) {
      report_.error(Code::include_path, name.at,
                    "a pack reads files beside it or in folders below: no `..`, no leading `/`");
      return std::nullopt;
    }
    auto path = beside(from, text);
    auto read = read_(path);
    if (!read.bytes) {
      report_.error(Code::include_missing, name.at,
                    fmt::format("cannot read `{}`: {}", path, read.why_not));
      return std::nullopt;
    }
    return std::pair(std::move(path), std::move(*read.bytes));
  }

  ReadFile const& read_;
  SourceSet& sources_;
  LoadLimits const& limits_;
  Report& report_;
  std::vector<syntax::File> files_;
  std::vector<std::string> paths_;
  std::vector<std::string> open_;
};

// The pack whose file this is, where it lies beside it and includes it: alone all its names would
// be unknown.
std::optional<std::string> pack_around(std::string_view entry, ReadFile const& read,
                                       LoadLimits const& limits) {
  auto head = beside(entry, "pack.flinch");
  if (head == entry || !read(head).bytes) return std::nullopt;
  SourceSet sources;
  Report ignored;
  Loader loader(read, sources, limits, ignored);
  loader.entry(head);
  auto const& paths = loader.paths();
  bool const is_in = std::find(paths.begin(), paths.end(), entry) != paths.end();
  return is_in ? std::optional(std::move(head)) : std::nullopt;
}

}  // namespace

Outcome<std::shared_ptr<Pack const>> load_pack(std::string_view entry, ReadFile const& read,
                                               SourceSet& sources, LoadLimits const& limits) {
  Report report;
  Loader loader(read, sources, limits, report);
  loader.entry(entry);
  if (!loader.has_head())
    if (auto const whole = pack_around(entry, read, limits)) {
      auto const slash = whole->rfind('/');
      auto const folder = slash == std::string::npos ? std::string(".") : whole->substr(0, slash);
      report
          .error(Code::part_of_pack, {},
                 fmt::format("this file is a part of the pack in the folder `{}`", folder))
          .notes.push_back(
              {fmt::format("a pack is read as a whole: give the folder `{}`", folder), {}});
      return {std::nullopt, report.take()};
    }
  auto breeds = loader.breed_table();
  auto const outline = loader.outline();
  auto pack = std::make_shared<Pack>(Resolver(loader.files(), std::move(breeds), report).resolve());
  if (outline) pack->outline = read_outline(sources, *outline, *pack, report);
  // The checks of the whole would only echo what is wrong with the parts.
  if (!report.has_errors()) check_applies_cycles(*pack, report);
  if (!report.has_errors()) {
    check_conditions_vary(*pack, report);
    check_danger_signs(*pack, report);
  }
  bool const sound = !report.has_errors();
  Outcome<std::shared_ptr<Pack const>> out{std::nullopt, report.take()};
  if (sound) out.value = std::move(pack);
  return out;
}

}  // namespace flinch
