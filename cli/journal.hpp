#pragma once
// Where an interview is written after every answer, so that nothing is lost.
#include <memory>
#include <optional>
#include <string>

#include "flinch/model/case.hpp"
#include "flinch/model/pack.hpp"

namespace flinch::cli {

/// A file that always holds the whole case so far; without a path it keeps nothing.
class Journal {
 public:
  /// The file that the user named.
  explicit Journal(std::string path) : path_(std::move(path)) {}
  Journal(Journal const&) = delete;
  Journal& operator=(Journal const&) = delete;
  ~Journal();

  /// In the state folder ($XDG_STATE_HOME/flinch, or ~/.local/state/flinch): the first file that no
  /// other running interview holds. Without such a folder: a journal that keeps nothing.
  [[nodiscard]] static std::unique_ptr<Journal> recovery();

  [[nodiscard]] std::string const& path() const { return path_; }
  [[nodiscard]] bool keeps() const { return !path_.empty(); }
  /// Writes the case; nothing when it went well, otherwise why not.
  [[nodiscard]] std::optional<std::string> write(Case const& dog, Pack const& pack) const;
  /// The interview is over: a recovery file is no longer needed. A file that the user named stays.
  void close();

 private:
  Journal(std::string path, int lock) : path_(std::move(path)), lock_(lock) {}

  std::string path_;
  int lock_ = -1;  ///< held while a recovery file is ours
};

}  // namespace flinch::cli
