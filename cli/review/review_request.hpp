#pragma once
// What a review is asked to show, its names found.
#include <optional>
#include <utility>
#include <vector>

#include "flinch/assess/assessment.hpp"

namespace flinch::cli {

/// A cause that was asked for.
struct AskedCause {
  std::optional<CauseId> cause;  ///< none: none of the listed causes
  friend bool operator==(AskedCause const&, AskedCause const&) = default;
};

struct ReviewRequest {
  std::optional<AskedCause> cause;
  std::optional<RuleId> rule;
  std::optional<AlarmId> alarm;
  std::optional<std::pair<AskedCause, AskedCause>> between;
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
  Case const& patient;
  Assessment const& result;
};

}  // namespace flinch::cli
