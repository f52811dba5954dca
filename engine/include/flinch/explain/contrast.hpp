#pragma once
// What separates two causes: which answers speak for one over the other, and which still could.
#include <optional>
#include <vector>

#include "flinch/explain/cause.hpp"

namespace flinch {

/// What one rule counted for each of the two.
struct RuleContrast {
  RuleId rule{};
  Truth truth = Truth::unknown;
  std::uint32_t band = 0;
  double for_first = 0;
  double for_second = 0;
  std::vector<SignId> behind;
  [[nodiscard]] double difference() const { return for_first - for_second; }
};

/// A rule still unknown that would set them apart. What an overlap would take is taken off.
struct OpenContrast {
  RuleId rule{};
  double bits = 0;             ///< expected of its outcome about which of the two it is
  double most_for_first = 0;   ///< the largest difference of weights over its outcomes
  double most_for_second = 0;  ///< the same the other way round
  std::vector<SignId> signs;
};

struct Contrast {
  std::optional<CauseId> first;  ///< none: none of the listed causes; so below
  std::optional<CauseId> second;
  double base_difference = 0;  ///< ln of the ratio of their bases
  /// ln of the ratio of their posteriors: `base_difference` and the differences of all rules.
  double total = 0;
  std::vector<RuleContrast> rules;  ///< largest difference first; those without are left out
  std::vector<OpenContrast> open;   ///< most bits first
};

/// All numbers are natural logarithms of ratios; above 0 they speak for `first`.
[[nodiscard]] Contrast contrast(Tables const& tables, Assessment const& result,
                                std::optional<CauseId> first, std::optional<CauseId> second);

}  // namespace flinch
