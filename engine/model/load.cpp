#include "flinch/model/load.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>

#include "flinch/syntax/reading.hpp"
#include "flinch/text/nearest.hpp"
#include "model/checks.hpp"
#include "model/resolver.hpp"

namespace flinch {
namespace {

// In kg; nothing where the unit is wrong, which is reported elsewhere.
std::optional<double> kilograms(syntax::Quantity const& written, std::string_view unit_name) {
  auto const unit = find_unit(written.unit.empty() ? unit_name : std::string_view(written.unit));
  if (!unit || unit->dimension != Dimension::mass) return std::nullopt;
  return convert(written.value, *unit, *find_unit("kg"));
}

std::optional<WeightRange> believed_of(syntax::PackHead const& head) {
  if (!head.weight) return std::nullopt;
  auto const low = kilograms(head.weight->low, head.weight->high.unit);
  auto const high = kilograms(head.weight->high, {});
  if (!low || !high || *low >= *high) return std::nullopt;
  if (head.doses) {  // where the two do not fit together, one is wrong, and that is told
    auto const lightest = kilograms(head.doses->low, head.doses->high.unit);
    auto const heaviest = kilograms(head.doses->high, {});
    if (!lightest || !heaviest || *lightest < *low || *heaviest > *high) return std::nullopt;
  }
  return WeightRange{*low, *high};
}

// The steps that breeds may have. None where the pack meant to name its own, and they are missing.
std::vector<NamedSize> sizes_of(syntax::PackHead const& head) {
  std::vector<NamedSize> out;
  if (head.sizes.empty() && !head.grown)
    for (auto const size : usual_sizes) out.push_back({std::string(size), std::nullopt});
  double low_kg = 0;
  bool is_sound = true;
  for (auto const& size : head.sizes) {
    bool const is_last = &size == &head.sizes.back();
    auto const high_kg = size.up_to ? kilograms(*size.up_to, {})
                         : is_last  ? std::optional(std::numeric_limits<double>::max())
                                    : std::nullopt;
    is_sound = is_sound && high_kg && *high_kg > low_kg && !(is_last && size.up_to);
    out.push_back(
        {size.name.text, is_sound ? std::optional(WeightRange{low_kg, *high_kg}) : std::nullopt});
    low_kg = high_kg.value_or(low_kg);
  }
  if (!is_sound)
    for (auto& size : out) size.weight.reset();
  return out;
}

constexpr std::string_view head_file = "pack.flinch";
constexpr std::string_view rule_ending = ".flinch";

std::string beside(std::string_view from, std::string_view name) {
  auto const slash = from.rfind('/');
  auto const folder =
      slash == std::string_view::npos ? std::string_view() : from.substr(0, slash + 1);
  return std::string(folder) + std::string(name);
}

class Loader {
 public:
  Loader(ReadFile const& read, ListFiles const& list, SourceSet& sources, LoadLimits const& limits,
         Report& report)
      : read_(read), list_(list), sources_(sources), limits_(limits), report_(report) {}

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

  /// Whether every file that is asked for could be read.
  [[nodiscard]] bool is_whole() const { return is_whole_; }
  [[nodiscard]] std::vector<syntax::File> const& files() const { return files_; }
  [[nodiscard]] std::vector<std::string> const& paths() const { return paths_; }

  // Rule files beside the entry that nothing includes, and what they define; a file with a pack of
  // its own is none of them.
  [[nodiscard]] std::vector<LeftOut> left_out() const {
    std::vector<LeftOut> out;
    bool const is_folder =
        !paths_.empty() && (paths_.front() == head_file ||
                            paths_.front().ends_with(std::string("/").append(head_file)));
    if (!is_folder) return out;
    auto const slash = paths_.front().rfind('/');
    for (auto const& path : files_beside()) {
      if (out.size() == limits_.files) break;
      if (!path.ends_with(rule_ending)) continue;
      if (std::find(paths_.begin(), paths_.end(), path) != paths_.end()) continue;
      auto bytes = read_(path);
      if (!bytes.bytes) continue;
      SourceSet own;
      Report ignored;
      auto const tree =
          syntax::parse(own, own.add(path, std::move(*bytes.bytes)), limits_.file, ignored);
      LeftOut file{path.substr(slash == std::string::npos ? 0 : slash + 1), {}};
      bool has_pack = false;
      for (auto const& statement : tree.statements) {
        has_pack = has_pack || std::holds_alternative<syntax::PackHead>(statement);
        if (auto const* name = syntax::name_of(statement)) file.names.push_back(name->text);
        if (auto const* sign = std::get_if<syntax::Sign>(&statement))
          for (auto const& floor : sign->alone)
            file.names.push_back(fmt::format("{}_alone_{}", sign->name.text, floor.see.text));
      }
      if (!has_pack) out.push_back(std::move(file));
    }
    return out;
  }

  [[nodiscard]] bool has_head() const {
    return std::any_of(files_.begin(), files_.end(), [](syntax::File const& file) {
      return std::any_of(file.statements.begin(), file.statements.end(), [](auto const& statement) {
        return std::holds_alternative<syntax::PackHead>(statement);
      });
    });
  }

  [[nodiscard]] BreedTable breed_table() {
    for (auto const& file : files_)
      for (auto const& lost : file.lost) is_whole_ = is_whole_ && lost.keyword != "pack";
    for (std::size_t i = 0; i < files_.size(); ++i)
      for (auto const& statement : files_[i].statements) {
        auto const* head = std::get_if<syntax::PackHead>(&statement);
        if (head == nullptr) continue;
        // What a table would define is unknown where its clause could not be read.
        if (!head->breed_table && has_lost_breed_table(files_[i])) is_whole_ = false;
        if (!head->breed_table) continue;
        auto const id = read_data(i, *head->breed_table);
        if (!id) {
          is_whole_ = false;
          return {};
        }
        auto table = read_breed_table(sources_, *id, sizes_of(*head), believed_of(*head), report_);
        // A table that could not be read defines nothing, and is not to blame for it twice.
        if (table.breeds.empty() && report_.has_errors()) is_whole_ = false;
        return table;
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
  [[nodiscard]] static bool has_lost_breed_table(syntax::File const& file) {
    return std::any_of(file.damaged.begin(), file.damaged.end(), [](auto const& damage) {
      auto const& lost = damage.clauses;
      return std::find(lost.begin(), lost.end(), "breed table") != lost.end();
    });
  }

  // In the folder of the entry, by the alphabet.
  [[nodiscard]] std::vector<std::string> files_beside() const {
    if (!list_ || paths_.empty()) return {};
    auto const slash = paths_.front().rfind('/');
    auto out =
        list_(slash == std::string::npos ? std::string_view()
                                         : std::string_view(paths_.front()).substr(0, slash));
    std::sort(out.begin(), out.end());
    return out;
  }

  void file(std::string path, std::string bytes) {
    auto const id = sources_.add(path, std::move(bytes));
    auto tree = syntax::parse(sources_, id, limits_.file, report_);
    std::vector<syntax::Include> includes;
    for (auto const& statement : tree.statements)
      if (auto const* include = std::get_if<syntax::Include>(&statement))
        includes.push_back(*include);
    for (auto const& lost : tree.lost) is_whole_ = is_whole_ && lost.keyword != "include";
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
      is_whole_ = false;  // another file was probably meant, and what it defines is missing
      return;
    }
    if (std::find(paths_.begin(), paths_.end(), target) != paths_.end()) {
      report_
          .error(Code::include_twice, include.file.at,
                 fmt::format("`{}` is included already", target))
          .notes.push_back({"once is enough for the whole pack: take one of the two out", {}});
      return;
    }
    if (open_.size() >= limits_.include_depth || paths_.size() >= limits_.files) {
      report_.error(Code::include_limit, include.file.at,
                    fmt::format("at most {} files, {} deep, make a pack", limits_.files,
                                limits_.include_depth));
      return;
    }
    if (auto bytes = read_beside(from, include.file, rule_ending))
      file(target, std::move(bytes->second));
  }

  // A file of data that the pack statement in file `from` names.
  [[nodiscard]] std::optional<FileId> read_data(std::size_t from, syntax::Text const& name) {
    auto bytes = read_beside(paths_[from], name, ".yaml");
    if (!bytes) return std::nullopt;
    return sources_.add(bytes->first, std::move(bytes->second));
  }

  // The file that is probably meant, or else those that are there.
  void name_files_there(std::string const& wanted, std::string_view ending,
                        Diagnostic& error) const {
    auto const beside_entry = files_beside();
    std::vector<std::string_view> names;
    for (auto const& file : beside_entry) {
      auto const own = std::string_view(file).substr(file.rfind('/') + 1);
      if (own.ends_with(ending) && own != head_file) names.push_back(own);
    }
    auto const with_ending = wanted + std::string(ending);
    constexpr std::size_t most = 6;
    if (std::find(names.begin(), names.end(), with_ending) != names.end())
      error.notes.push_back({fmt::format("did you mean `{}`?", with_ending), {}});
    else if (auto const near = nearest(wanted, names))
      error.notes.push_back({fmt::format("did you mean `{}`?", *near), {}});
    else if (!names.empty() && names.size() <= most)
      error.notes.push_back(
          {fmt::format("in the folder of the pack there {}: `{}`", names.size() == 1 ? "is" : "are",
                       fmt::join(names, "`, `")),
           {}});
  }

  // Packs come from anywhere: they may read what lies beside them or below, nothing else.
  [[nodiscard]] std::optional<std::pair<std::string, std::string>> read_beside(
      std::string const& from, syntax::Text const& name, std::string_view ending) {
    auto const& text = name.text;
    bool const leaves = text.empty() || text.front() == '/' ||
                        text.find("..") != std::string::npos ||
                        text.find('\\') != std::string::npos;
    if (leaves) {
      is_whole_ = false;
      report_.error(Code::include_path, name.at,
                    "a pack reads files beside it or in folders below: no `..`, no leading `/`");
      return std::nullopt;
    }
    auto path = beside(from, text);
    auto read = read_(path);
    if (!read.bytes) {
      is_whole_ = false;
      auto& error = report_.error(Code::include_missing, name.at,
                                  fmt::format("cannot read `{}`: {}", path, read.why_not));
      name_files_there(text, ending, error);
      return std::nullopt;
    }
    return std::pair(std::move(path), std::move(*read.bytes));
  }

  ReadFile const& read_;
  ListFiles const& list_;
  SourceSet& sources_;
  LoadLimits const& limits_;
  Report& report_;
  std::vector<syntax::File> files_;
  std::vector<std::string> paths_;
  std::vector<std::string> open_;
  bool is_whole_ = true;
};

// The pack whose file this is, where it lies beside it and includes it: alone all its names would
// be unknown.
std::optional<std::string> pack_around(std::string_view entry, ReadFile const& read,
                                       LoadLimits const& limits) {
  auto head = beside(entry, head_file);
  if (head == entry || !read(head).bytes) return std::nullopt;
  SourceSet sources;
  Report ignored;
  ListFiles const no_list;
  Loader loader(read, no_list, sources, limits, ignored);
  loader.entry(head);
  auto const& paths = loader.paths();
  bool const is_in = std::find(paths.begin(), paths.end(), entry) != paths.end();
  return is_in ? std::optional(std::move(head)) : std::nullopt;
}

}  // namespace

Outcome<std::shared_ptr<Pack const>> load_pack(std::string_view entry, ReadFile const& read,
                                               SourceSet& sources, LoadLimits const& limits,
                                               ListFiles const& list) {
  Report report;
  Loader loader(read, list, sources, limits, report);
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
  auto pack = std::make_shared<Pack>(
      Resolver(loader.files(), std::move(breeds), loader.left_out(), loader.is_whole(), report)
          .resolve());
  if (outline) pack->outline = read_outline(sources, *outline, *pack, report);
  // The checks of the whole would only echo what is wrong with the parts.
  if (!report.has_errors()) check_applies_cycles(*pack, report);
  if (!report.has_errors()) {
    auto const vary = check_conditions_vary(*pack, report);
    check_danger_signs(*pack, vary, report);
  }
  bool const sound = !report.has_errors();
  Outcome<std::shared_ptr<Pack const>> out{std::nullopt, report.take()};
  if (sound) out.value = std::move(pack);
  return out;
}

}  // namespace flinch
