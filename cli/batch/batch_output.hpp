#pragma once
// Where the lines of a batch go: a stream, or a file that appears only when it is whole.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "batch/batch_progress.hpp"

namespace flinch::cli {

/// Writes to PATH.partial; PATH.progress says how much of it stands. A run that is killed leaves
/// both, and the next can go on. `finish` puts the whole under PATH.
class OutputFile {
 public:
  explicit OutputFile(std::string path) : path_(std::move(path)) {}
  ~OutputFile();
  OutputFile(OutputFile const&) = delete;
  OutputFile& operator=(OutputFile const&) = delete;

  /// Opens the partial file, and locks it against a second run. With `resume` it is cut back to
  /// what the progress says, if there is any; otherwise it begins anew. Why not, if it cannot be
  /// opened.
  [[nodiscard]] std::optional<std::string> open(bool resume);
  /// Where to go on; all zero for a run that begins.
  [[nodiscard]] Progress const& begun() const { return begun_; }

  [[nodiscard]] std::optional<std::string> write(std::string_view bytes);
  /// Forces what was written to the disk, and says so beside it.
  [[nodiscard]] std::optional<std::string> keep(Progress const& progress);
  [[nodiscard]] std::optional<std::string> finish();

 private:
  [[nodiscard]] std::string partial() const { return path_ + ".partial"; }
  [[nodiscard]] std::string progress() const { return path_ + ".progress"; }

  std::string path_;
  int file_ = -1;
  Progress begun_;
};

}  // namespace flinch::cli
