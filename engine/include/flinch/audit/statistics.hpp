#pragma once
// How good forecasts and grades were, from plain vectors: nothing here knows of patients.
//
//   wilson_interval(81, 263)                   // 0.2553 to 0.3662
//   brier_score({{0.7, false}, {0.9, true}})   // 0.25
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace flinch {

/// A share and the range that its true value lies in with 95% confidence; all from 0 to 1.
struct Proportion {
  std::size_t count = 0;
  std::size_t of = 0;
  double low = 0;
  double high = 1;
  /// 0 when nothing was counted.
  [[nodiscard]] double share() const;
};

/// `count` of `of` with the score interval: centre (p + z^2/2n) / (1 + z^2/n), half width
/// z sqrt(p(1-p)/n + z^2/4n^2) / (1 + z^2/n), z = 1.959964. With nothing counted it is 0 to 1.
/// Source: Wilson EB (1927) Probable inference, the law of succession, and statistical inference.
/// J Am Stat Assoc 22:209-212.
[[nodiscard]] Proportion wilson_interval(std::size_t count, std::size_t of);

/// How many cases fell into each pair of ordered grades: `cells[a][b]`, square.
using GradeTable = std::vector<std::vector<std::size_t>>;

/// What a disagreement costs: the distance of the grades, or its square.
enum class KappaWeights { linear, quadratic };

/// Agreement beyond chance, weighted: 1 - sum(w o) / sum(w e), with the observed shares o, those
/// expected from the margins e, and the costs w. 1 is full agreement, 0 is chance, below 0 is
/// worse. Nothing when chance alone would always agree (an empty table, one grade).
/// Source: Cohen J (1968) Weighted kappa. Psychol Bull 70:213-220.
[[nodiscard]] std::optional<double> weighted_kappa(GradeTable const& cells, KappaWeights weights);

/// A probability (0 to 1) that was given to something, and whether it came true. Where only the
/// order counts, as for the ROC curve, any number will do.
struct Forecast {
  double probability = 0;
  bool came_true = false;
};

/// Mean of (probability - outcome)^2, from 0 (perfect) to 1; nothing without forecasts.
/// Source: Brier GW (1950) Verification of forecasts expressed in terms of probability. Mon Weather
/// Rev 78:1-3 (half of his two-class score).
[[nodiscard]] std::optional<double> brier_score(std::span<Forecast const> forecasts);

/// Mean of -ln of the probability given to what happened, in natural units; probabilities are held
/// 2.2e-16 (the spacing of numbers at 1) away from 0 and 1. Nothing without forecasts.
[[nodiscard]] std::optional<double> log_loss(std::span<Forecast const> forecasts);

/// Chance that what came true had the higher probability than what did not, ties counted half:
/// the area under the ROC curve. Nothing unless both kinds occur.
/// Source: Hanley JA, McNeil BJ (1982) The meaning and use of the area under a receiver operating
/// characteristic (ROC) curve. Radiology 143:29-36.
[[nodiscard]] std::optional<double> roc_area(std::span<Forecast const> forecasts);

/// One cut of the ROC curve: what share of those that came true, and of the others, lies at or
/// above `cut`.
struct RocPoint {
  double cut = 0;
  double hit_share = 0;
  double false_alarm_share = 0;
};

/// One point for each distinct probability, highest first, so from near (0, 0) to (1, 1). Empty
/// unless both kinds occur.
[[nodiscard]] std::vector<RocPoint> roc_curve(std::span<Forecast const> forecasts);

/// The forecasts within one tenth of the scale: how high they were, and how many came true.
struct ReliabilityBand {
  double from = 0;
  double to = 0;
  double mean_forecast = 0;  ///< 0 when the band is empty
  Proportion came_true;
};

/// Ten bands, each from its lower end up to but not including the upper; the last includes 1.
[[nodiscard]] std::vector<ReliabilityBand> reliability(std::span<Forecast const> forecasts);

}  // namespace flinch
