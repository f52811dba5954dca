#pragma once
// The whole pack as pages to browse: an index by cause, sign and source, and a page for each thing.
#include <string>

#include "flinch/assess/tables.hpp"

namespace flinch::cli {

struct WrittenPages {
  std::size_t pages = 0;
  std::size_t removed = 0;  ///< pages of an earlier run, of things that the pack no longer has
  std::string place;        ///< the file or folder that could not be written
  std::string failure;      ///< in words; empty when all went well
};

/// Writes `index.html` and a folder a kind below `folder`, making them where they are missing. Each
/// page replaces its predecessor whole; the index comes last, and then those pages are removed that
/// an earlier run wrote of things that the pack no longer has. They are known by what stands in
/// them: nothing else in the folder is touched.
[[nodiscard]] WrittenPages write_pack_pages(Tables const& tables, std::string const& folder);

}  // namespace flinch::cli
