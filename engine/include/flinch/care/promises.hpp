#pragma once
// Whether a pack keeps what its examples promise.
#include <string>
#include <vector>

#include "flinch/assess/assessment.hpp"
#include "flinch/care/dose.hpp"

namespace flinch {

/// Whether a promise says this portion. Counts are compared with the five digits that are told.
[[nodiscard]] bool is_promised(Portion const& portion, PromisedPortion const& promised);

/// A promise that was not kept, and what came out instead.
struct BrokenPromise {
  std::string promise;  ///< as written
  std::string instead;
};

/// Assesses the example's patient; empty when every promise was kept.
[[nodiscard]] std::vector<BrokenPromise> broken_promises(Tables const& tables, Assessor& assessor,
                                                         Example const& example);

}  // namespace flinch
