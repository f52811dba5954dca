#pragma once
// A case of the command line: a file, or standard input.
#include <iosfwd>
#include <memory>
#include <optional>
#include <string>

#include "files/pack_source.hpp"
#include "flinch/model/case.hpp"

namespace flinch::cli {

struct CaseOfFile {
  std::string file;  ///< for people: the path, or "standard input"
  std::string path;  ///< for commands that read it again; empty: standard input
  Case patient;
};

/// The case at `path` for a pack that is open; what is wrong with it is told on `err`, and then
/// there is nothing.
[[nodiscard]] std::optional<CaseOfFile> open_case(std::string const& path, SourceSet& sources,
                                                  Pack const& pack, std::ostream& err);

struct PackAndCase {
  SourceSet sources;
  std::shared_ptr<Pack const> pack;
  CaseOfFile one;
};

/// The pack and a case for it; what is wrong with either is told on `err`, and then there is
/// nothing.
[[nodiscard]] std::optional<PackAndCase> open_pack_and_case(std::string const& pack,
                                                            std::string const& path,
                                                            std::ostream& err);

}  // namespace flinch::cli
