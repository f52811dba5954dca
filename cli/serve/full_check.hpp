#pragma once
// What `flinch check` would say of a pack that is open in an editor. It may take seconds.
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "serve/pack_files.hpp"
#include "serve/protocol.hpp"

namespace flinch::cli::serve {

/// A pack as it stood after an edit. One with errors has nothing to check further.
struct CheckJob {
  std::string entry;  ///< the path of its entry, by which packs are told apart
  std::shared_ptr<PackView const> view;
};

/// The warnings, and the promises of examples that are not kept, of each file by its path.
struct CheckResult {
  CheckJob job;
  std::map<std::string, Json> remarks;
};

/// Nothing when `is_outdated`, asked now and then, says that nobody waits for it any more.
[[nodiscard]] std::optional<CheckResult> full_check(CheckJob const& job,
                                                    std::function<bool()> const& is_outdated);

}  // namespace flinch::cli::serve
