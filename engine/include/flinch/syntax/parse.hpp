#pragma once
// From the text of a rule file to its syntax tree.
//
//   SourceSet sources;
//   Report report;
//   FileId file = sources.add("legs.flinch", bytes);
//   syntax::File tree = syntax::parse(sources, file, {}, report);
//   std::cerr << render(report.take(), sources);
#include <cstddef>

#include "flinch/syntax/tree.hpp"
#include "flinch/text/diagnostic.hpp"

namespace flinch::syntax {

/// How much a rule file may ask for; each limit that is passed is an error of its own.
struct Limits {
  std::size_t bytes = std::size_t{64} << 20U;  ///< of one file
  std::size_t depth = 64;                      ///< nesting of conditions
  std::size_t errors = 100;                    ///< reading of a file stops after so many
};

/// Everything that could be read, in order; every error is in the report. A statement with a wrong
/// clause is kept without that clause and marked as damaged, so that its name stays known.
[[nodiscard]] File parse(SourceSet const& sources, FileId file, Limits const& limits,
                         Report& report);

}  // namespace flinch::syntax
