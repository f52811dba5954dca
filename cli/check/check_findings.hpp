#pragma once
// Everything that `flinch check` finds out about a pack that loads.
#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "flinch/care/promises.hpp"
#include "flinch/explain/figures.hpp"
#include "flinch/proofread/coverage.hpp"
#include "flinch/proofread/proofread.hpp"

namespace flinch::cli {

struct BrokenExample {
  Example const* example;
  std::vector<BrokenPromise> promises;
};

/// The examples that do not keep all their promises. Asked between two examples, `is_outdated` ends
/// it early.
[[nodiscard]] std::vector<BrokenExample> broken_examples(
    Tables const& tables, std::function<bool()> const& is_outdated = {});

struct CheckFindings {
  Pack const& pack;
  Proof proof;
  BackingCounts figures;
  std::vector<BrokenExample> broken;
  Coverage by_examples;
  std::optional<Coverage> with_cases;  ///< the examples' patients and those of the cases given
};

}  // namespace flinch::cli
