#pragma once
// The input of a batch: standard input or a file, from its beginning or from where a run stopped.
#include <optional>
#include <string>

#include "batch/batch_progress.hpp"

namespace flinch::cli {

class InputFile {
 public:
  InputFile() = default;
  ~InputFile();
  InputFile(InputFile const&) = delete;
  InputFile& operator=(InputFile const&) = delete;

  /// Opens it; empty or `-` is standard input. Why not, if it cannot be opened.
  [[nodiscard]] std::optional<std::string> open(std::string const& path);
  /// Passes over what an earlier run has answered, if the input is still the same as far as its
  /// last bytes before that place tell. Pipes are read up to there.
  [[nodiscard]] std::optional<std::string> skip(Progress const& answered);
  [[nodiscard]] int descriptor() const { return file_; }
  /// In bytes; nothing of a pipe.
  [[nodiscard]] std::optional<std::uint64_t> size() const;
  [[nodiscard]] std::string const& name() const { return name_; }

 private:
  [[nodiscard]] bool pass_over(std::uint64_t bytes);
  [[nodiscard]] std::string read_up_to(std::uint64_t bytes);

  int file_ = -1;
  bool is_ours_ = false;
  std::string name_;
};

}  // namespace flinch::cli
