#pragma once
// The pack that a file belongs to, as its files stand in the editor or else on the disk.
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "flinch/model/load.hpp"
#include "flinch/syntax/names.hpp"

namespace flinch::cli::serve {

/// How files are reached; open texts come before those on the disk.
struct FileAccess {
  /// All bytes of a file, by its absolute path, or nothing.
  std::function<std::optional<std::string>(std::string const& path)> read;
  /// The absolute paths of the rule files (`*.flinch`) in a folder, ordered, at most a few hundred.
  std::function<std::vector<std::string>(std::string const& folder)> rule_files;
};

/// Files of the disk: regular ones of at most 64 MiB.
[[nodiscard]] FileAccess files_on_disk();

struct PackFile {
  std::string path;
  FileId id{};
  syntax::File tree;
};

/// A pack as far as it could be read, mistakes included.
struct PackView {
  SourceSet sources;
  std::vector<PackFile> files;
  std::vector<Diagnostic> diagnostics;
  std::shared_ptr<Pack const> pack;  ///< null when there are errors
  bool is_whole = false;             ///< false for a file that no pack includes

  [[nodiscard]] PackFile const* file(std::string_view path) const;
};

/// The entry of the pack that includes the file: the file itself when it has a `pack` statement,
/// otherwise the first rule file beside it or in a folder above (`pack.flinch` before others) that
/// has one and includes it, however far round. Nothing when there is none.
[[nodiscard]] std::optional<std::string> find_entry(std::string const& path,
                                                    FileAccess const& access);

/// The pack of the file; without one, the file alone, and of its mistakes only those of syntax.
[[nodiscard]] PackView view_pack(std::string const& path, FileAccess const& access);

struct FoundName {
  syntax::NamedPlace place;
  PackFile const* file = nullptr;
  syntax::Statement const* statement = nullptr;
};

/// The name whose place holds the byte offset, its end included.
[[nodiscard]] std::optional<FoundName> name_at(PackFile const& file, std::size_t offset);

/// Where what is called so is defined.
[[nodiscard]] std::optional<FoundName> definition_of(PackView const& view,
                                                     syntax::NamedPlace const& name);

/// Every definition of this kind, in the order of the files.
[[nodiscard]] std::vector<FoundName> definitions(PackView const& view, syntax::NameKind kind);

}  // namespace flinch::cli::serve
