#include "serve/pack_files.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <set>

#include "files/read_bytes.hpp"

namespace flinch::cli::serve {
namespace {

constexpr std::size_t folders_up = 8;        // how far above a file its pack is looked for
constexpr std::size_t most_files = 300;      // of one folder
constexpr std::size_t most_included = 1000;  // as many as a pack may have
constexpr std::uintmax_t most_bytes = std::uintmax_t{64} << 20U;

std::string folder_of(std::string const& path) {
  return std::filesystem::path(path).parent_path().string();
}

syntax::File parsed(std::string const& text) {
  SourceSet sources;
  Report report;
  return syntax::parse(sources, sources.add("", text), {}, report);
}

bool has_pack_statement(std::string_view text) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);  // a byte order mark
  return text.starts_with("pack ") || text.find("\npack ") != std::string_view::npos;
}

bool includes(std::string const& entry, std::string const& wanted, FileAccess const& access) {
  std::vector<std::string> waiting = {entry};
  std::set<std::string> seen = {entry};
  while (!waiting.empty()) {
    auto const path = std::move(waiting.back());
    waiting.pop_back();
    auto const text = access.read(path);
    if (!text) continue;
    for (auto const& statement : parsed(*text).statements) {
      auto const* include = std::get_if<syntax::Include>(&statement);
      if (include == nullptr) continue;
      auto const target =
          (std::filesystem::path(folder_of(path)) / include->file.text).lexically_normal().string();
      if (target == wanted) return true;
      if (seen.size() < most_included && seen.insert(target).second) waiting.push_back(target);
    }
  }
  return false;
}

}  // namespace

FileAccess files_on_disk() {
  FileAccess out;
  out.read = [](std::string const& path) -> std::optional<std::string> {
    std::error_code trouble;
    // What never ends, such as a device, is no rule file.
    if (!std::filesystem::is_regular_file(path, trouble)) return std::nullopt;
    if (std::filesystem::file_size(path, trouble) > most_bytes || trouble) return std::nullopt;
    return read_file(path);
  };
  out.rule_files = [](std::string const& folder) {
    std::vector<std::string> files;
    std::error_code trouble;
    std::filesystem::directory_iterator at(folder, trouble);
    for (; !trouble && at != std::filesystem::directory_iterator() && files.size() < most_files;
         at.increment(trouble))
      if (at->path().extension() == ".flinch") files.push_back(at->path().string());
    std::sort(files.begin(), files.end());
    return files;
  };
  return out;
}

PackFile const* PackView::file(std::string_view path) const {
  auto const found = std::find_if(files.begin(), files.end(),
                                  [&](PackFile const& one) { return one.path == path; });
  return found == files.end() ? nullptr : &*found;
}

std::optional<std::string> find_entry(std::string const& path, FileAccess const& access) {
  if (auto const text = access.read(path); text && has_pack_statement(*text)) return path;
  auto folder = folder_of(path);
  for (std::size_t up = 0; up <= folders_up; ++up) {
    auto candidates = access.rule_files(folder);
    std::stable_partition(candidates.begin(), candidates.end(), [](std::string const& candidate) {
      return std::filesystem::path(candidate).filename() == "pack.flinch";
    });
    for (auto const& candidate : candidates) {
      auto const text = access.read(candidate);
      if (text && has_pack_statement(*text) && includes(candidate, path, access)) return candidate;
    }
    auto above = folder_of(folder);
    if (above == folder || above.empty()) break;
    folder = std::move(above);
  }
  return std::nullopt;
}

PackView view_pack(std::string const& path, FileAccess const& access) {
  PackView out;
  auto const entry = find_entry(path, access);
  out.is_whole = entry.has_value();
  if (!entry) {
    Report report;
    auto const id = out.sources.add(path, access.read(path).value_or(""));
    out.files.push_back({path, id, syntax::parse(out.sources, id, {}, report)});
    out.diagnostics = report.take();
    return out;
  }
  auto const read = [&](std::string_view wanted) { return access.read(std::string(wanted)); };
  auto const list = [&](std::string_view) { return access.rule_files(folder_of(*entry)); };
  auto loaded = load_pack(*entry, read, out.sources, {}, list);
  out.diagnostics = std::move(loaded.diagnostics);
  if (loaded) out.pack = std::move(*loaded.value);
  Report ignored;  // the loader has reported the same
  for (std::size_t i = 0; i < out.sources.size(); ++i) {
    FileId const id{static_cast<std::uint32_t>(i)};
    auto const& name = out.sources[id].name();
    if (!name.ends_with(".yaml"))  // the breed table
      out.files.push_back({name, id, syntax::parse(out.sources, id, {}, ignored)});
  }
  return out;
}

namespace {

Place place_of(FoundName const& found) { return found.place.name->at; }

}  // namespace

std::optional<FoundName> name_at(PackFile const& file, std::size_t offset) {
  for (auto const& statement : file.tree.statements)
    for (auto const& place : syntax::names_in(statement)) {
      FoundName found{place, &file, &statement};
      auto const span = place_of(found).span;
      if (span.begin <= offset && offset <= span.end) return found;
    }
  return std::nullopt;
}

std::optional<FoundName> definition_of(PackView const& view, syntax::NamedPlace const& name) {
  for (auto const& found : definitions(view, name.kind))
    if (found.place.name->text == name.name->text && found.place.sign == name.sign) return found;
  return std::nullopt;
}

std::vector<FoundName> definitions(PackView const& view, syntax::NameKind kind) {
  std::vector<FoundName> out;
  for (auto const& file : view.files)
    for (auto const& statement : file.tree.statements)
      for (auto const& place : syntax::names_in(statement))
        if (place.kind == kind && place.role == syntax::Role::definition)
          out.push_back({place, &file, &statement});
  return out;
}

}  // namespace flinch::cli::serve
