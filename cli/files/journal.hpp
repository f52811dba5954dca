#pragma once
// Where a desk writes its case after every answer, so that nothing is lost.
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "flinch/model/case.hpp"
#include "flinch/model/pack.hpp"

namespace flinch::cli {

/// A file that always holds the whole case so far; as long as this object lives, no other program
/// of ours writes to it. Without a path it keeps nothing.
class Journal {
 public:
  Journal() = default;
  Journal(Journal const&) = delete;
  Journal& operator=(Journal const&) = delete;
  ~Journal();

  /// The file that the user named; nothing when another program that runs has it open.
  [[nodiscard]] static std::unique_ptr<Journal> named(std::string path);

  /// In the state folder ($XDG_STATE_HOME/flinch, or ~/.local/state/flinch), for this desk ("ask",
  /// "call"): the first file that was left behind and that `is_wanted`, else one that is not there
  /// yet. Files that other running programs hold are passed over. Without such a folder, or with
  /// all places taken: a journal that keeps nothing.
  [[nodiscard]] static std::unique_ptr<Journal> recovery(
      std::string_view desk, std::function<bool(std::string const& path)> const& is_wanted,
      int at_once = 20);

  [[nodiscard]] std::string const& path() const { return path_; }
  [[nodiscard]] bool keeps() const { return !path_.empty(); }
  /// Writes the case; nothing when it went well, otherwise why not.
  [[nodiscard]] std::optional<std::string> write(Case const& patient, Pack const& pack) const;
  /// The same of a case with a line of comment before it.
  [[nodiscard]] std::optional<std::string> write(std::string const& comment, Case const& patient,
                                                 Pack const& pack) const;
  /// Removes what was written: a recovery file is needed no more when its desk is done.
  void remove() const;

 private:
  Journal(std::string path, std::string lock_path, int lock)
      : path_(std::move(path)), lock_path_(std::move(lock_path)), lock_(lock) {}

  std::string path_;
  std::string lock_path_;
  int lock_ = -1;
};

}  // namespace flinch::cli
