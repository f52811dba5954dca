#pragma once
// What is open in the editor, seen as packs: changes go in, mistakes to show come out.
#include <map>
#include <memory>
#include <set>
#include <string>
#include <vector>

#include "serve/documents.hpp"
#include "serve/full_check.hpp"
#include "serve/pack_files.hpp"
#include "serve/protocol.hpp"

namespace flinch::cli::serve {

class Workspace {
 public:
  explicit Workspace(FileAccess disk);
  Workspace(Workspace const&) = delete;
  Workspace& operator=(Workspace const&) = delete;

  /// Each gives the notifications that bring the editor's list of mistakes up to date.
  [[nodiscard]] std::vector<std::string> open(std::string const& uri, Document document);
  [[nodiscard]] std::vector<std::string> change(std::string const& uri, Json const& changes,
                                                std::optional<std::int64_t> version);
  [[nodiscard]] std::vector<std::string> close(std::string const& uri);
  [[nodiscard]] std::vector<std::string> refresh();

  /// The packs to be checked in full since this was last asked, each as it stands now.
  [[nodiscard]] std::vector<CheckJob> due();
  /// Shows what a full check found; nothing when a text has changed since.
  [[nodiscard]] std::vector<std::string> finish(CheckResult const& result);
  /// What may be written in the place of the mistakes that are shown in a range of an open
  /// document.
  [[nodiscard]] Json fixes(std::string const& uri, Json const& range) const;

  [[nodiscard]] Document const* document(std::string_view uri) const {
    return documents_.find(uri);
  }
  /// The pack of the document, which is among its files.
  [[nodiscard]] PackView view(std::string const& uri) const;

 private:
  [[nodiscard]] std::vector<std::string> publish(std::string const& uri);
  [[nodiscard]] std::string published(std::string const& uri, Json mistakes) const;
  [[nodiscard]] std::string address(std::string const& path) const;

  Documents documents_;
  FileAccess disk_;
  FileAccess access_;  // the disk, with what is open laid over it
  std::set<std::string> with_mistakes_;
  std::map<std::string, std::shared_ptr<PackView const>> shown_;  // of each open document
  std::vector<CheckJob> due_;
};

/// The path of a document; its address for one that is no file.
[[nodiscard]] std::string path_of_document(std::string const& uri);
/// The other way round.
[[nodiscard]] std::string document_of_path(std::string const& path);

}  // namespace flinch::cli::serve
