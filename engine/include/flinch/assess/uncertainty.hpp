#pragma once
// How far an assessment can be off because the pack's figures are.
//
//   Uncertainty const uncertainty(tables, result);
//   uncertainty.chance(cause);               // within 12% to 61%
//   uncertainty.are_told_apart(one, other);
//
// Every figure is taken as a share of patients, drawn from a Beta distribution (of the bands of an
// `over` rule: a Dirichlet one). A figure that was counted, x of n, has Beta(x + 1/2, n - x + 1/2):
// Jeffreys' prior, under which the mean of ln p lies at ln(x / n) but for a term in 1/x^2. Source
// of the prior: Jeffreys H (1946) An invariant form for the prior probability in estimation
// problems. Proc R Soc Lond A 186:453-461 (from memory). A figure without a sample is taken as if
// the rarer of the two answers had come up in `judged_worth` patients; a base rate as if so many
// patients with the cause had.
//
// A score (the logarithm of base times evidence) is a sum of logarithms of such shares, so its
// variance is a sum of trigamma functions, exactly; the shares that overlaps leave are held. The
// logarithm of a ratio of two causes is then taken as normal, and so is the log odds of a cause or
// a tier, whose variance is that of its linear part (delta method). Figures are taken as
// independent: whoever judges a sign may be wrong for all causes alike, which leaves their ratios
// truer than this.
#include <optional>
#include <vector>

#include "flinch/assess/assessment.hpp"

namespace flinch {

/// In how many patients the rarer answer counts as seen when nobody counted. Measured twice:
/// published presenting-sign figures with samples of 20 patients or more, drawn at random and
/// judged afresh and blind, differ from the judgement by a standard deviation of 1.03 (150 figures,
/// median of three readings) and 1.19 (133 figures, two readings) in log odds. The rarer answer in
/// 2 patients makes 0.99 at 50 %. docs/pack/judging.md has the second measurement.
inline constexpr double judged_worth = 2;

/// Where a number lies in 95 of 100 draws of the figures.
struct Interval {
  double low = 0;
  double high = 0;
  [[nodiscard]] bool holds(double number) const { return low <= number && number <= high; }
};

class Uncertainty {
 public:
  /// Keeps both by reference. Costs some tens of microseconds, and each answer below a few: nothing
  /// of it is done unless it is asked for.
  Uncertainty(Tables const& tables, Assessment const& result);

  /// Of the posterior; none: none of the listed causes.
  [[nodiscard]] Interval chance(std::optional<CauseId> cause) const;
  /// Of the chance of a cause that needs this tier or a higher one, by the answers alone.
  [[nodiscard]] Interval tier_chance(TierId tier) const;
  /// Whether that chance could lie on the other side of the tier's threshold; never for a tier
  /// without one.
  [[nodiscard]] bool is_only_just(TierId tier) const;
  /// Of the natural logarithm of the ratio of two posteriors.
  [[nodiscard]] Interval difference(std::optional<CauseId> first,
                                    std::optional<CauseId> second) const;
  /// Whether the figures are good enough to say which of the two is likelier.
  [[nodiscard]] bool are_told_apart(std::optional<CauseId> first,
                                    std::optional<CauseId> second) const;
  /// Those that cannot be told apart from the first of the ranking, in its order.
  [[nodiscard]] std::vector<std::optional<CauseId>> alike_with_first() const;

 private:
  template <class SlopeOf>
  [[nodiscard]] double variance(SlopeOf const& slope_of, Silence silence) const;
  [[nodiscard]] Interval share(std::vector<bool> const& inside, Silence silence) const;

  /// The variance of the logarithm of one figure, and the place of its cause.
  struct Figure {
    std::size_t cause = 0;
    double share = 1;  ///< what its overlap left of it
    double variance = 0;
  };
  /// The figures of a rule that is settled, from `first` on, and the usual one that they share.
  struct SettledRule {
    std::size_t first = 0;
    std::size_t count = 0;
    double usual_variance = 0;
    bool is_silent = false;  ///< weighs because nobody mentioned its sign
  };
  Tables const& tables_;
  Assessment const& result_;
  Judgement const& judgement_;
  std::vector<Figure> figures_;
  std::vector<SettledRule> rules_;
  double base_variance_ = 0;  ///< of the logarithm of a base rate
};

}  // namespace flinch
