#pragma once
// What a review is asked to show, its names found.
#include <optional>
#include <utility>
#include <vector>

#include "flinch/assess/assessment.hpp"

namespace flinch::cli {

struct ReviewRequest {
  std::optional<CauseId> cause;
  std::optional<RuleId> rule;
  std::optional<AlarmId> alarm;
  std::optional<std::pair<CauseId, CauseId>> between;
  std::optional<std::vector<Change>> what_if;
  bool tier = false;
  bool changes = false;
  [[nodiscard]] bool is_overview() const {
    return !cause && !rule && !alarm && !between && !what_if && !tier && !changes;
  }
};

/// What a review works on.
struct Reviewed {
  Tables const& tables;
  Assessor& assessor;
  Case const& dog;
  Assessment const& result;
};

}  // namespace flinch::cli
