#pragma once
// A case of the command line, read with its pack.
#include <memory>
#include <optional>
#include <string>

#include "commands.hpp"
#include "pack_source.hpp"

namespace flinch::cli {

/// All bytes of a case file; `-` is standard input. Nothing when it cannot be read.
[[nodiscard]] std::optional<std::string> case_bytes(std::string const& path);

struct OpenedCase {
  SourceSet sources;
  std::shared_ptr<Pack const> pack;
  std::string file;  ///< for people: the path, or "standard input"
  Case dog;
};

/// The pack and the case; what is wrong with either is told on `err`, and then there is nothing.
[[nodiscard]] std::optional<OpenedCase> open_case(std::string const& pack, std::string const& path,
                                                  std::ostream& err);

}  // namespace flinch::cli
