#include "check/check_findings.hpp"

namespace flinch::cli {

std::vector<BrokenExample> broken_examples(Tables const& tables,
                                           std::function<bool()> const& is_outdated) {
  Assessor assessor(tables);
  std::vector<BrokenExample> broken;
  for (auto const& example : tables.pack().examples) {
    if (is_outdated && is_outdated()) break;
    auto promises = broken_promises(tables, assessor, example);
    if (!promises.empty()) broken.push_back({&example, std::move(promises)});
  }
  return broken;
}

}  // namespace flinch::cli
