#pragma once
// Frequencies from closed cases, smoothed toward those that the pack has now: a proposal, never
// more.
//
//   Learning found = learn(tables, cases, {});
//   for (auto const& figure : found.figures) ...   // was figure.present, would be figure.proposed
#include <span>
#include <string_view>
#include <vector>

#include "flinch/audit/audit.hpp"
#include "flinch/syntax/tree.hpp"

namespace flinch {

struct LearnLimits {
  /// How many patients a present figure weighs as that was judged or derived, so has no sample of
  /// its own. Ten is a judgement: after ten closed cases, the cases and the judgement weigh the
  /// same.
  double weight_without_sample = 10;
  std::size_t patients_at_least = 5;  ///< fewer, and no figure is proposed
};

/// One frequency of a rule, or its shares by band.
struct LearnedFigure {
  RuleId rule{};
  std::optional<CauseId> cause;     ///< none: the usual frequency
  std::vector<std::size_t> counts;  ///< patients: with the condition true, or by band
  std::size_t patients = 0;         ///< in which it was known whether the condition holds
  double present_weight = 0;        ///< patients that the present figure counts as
  std::size_t sample = 0;       ///< `patients`, and those that the present figure was counted in
  std::vector<double> present;  ///< from 0 to 1
  std::vector<double> proposed;
};

struct Learning {
  std::size_t cases = 0;               ///< closed, with a known cause
  std::size_t left_out = 0;            ///< the others
  std::vector<LearnedFigure> figures;  ///< in the order of the pack, the usual one of a rule first
};

/// For each rule: how often its condition was true among the patients with each cause that it
/// names, and, as the usual frequency, among all others. A patient in which that is unknown is not
/// counted. The proposal is (count + m * present) / (patients + m), m being the sample of the
/// present figure
/// (`of N from ...`), or `weight_without_sample`. With the present figures even and m the number
/// of bands this is Laplace's rule of succession.
[[nodiscard]] Learning learn(Tables const& tables, std::span<NamedCase const> cases,
                             LearnLimits const& limits);

/// The pack with every proposed figure in place of the present one, its sample too.
[[nodiscard]] Pack with_learned(Pack pack, Learning const& learning);

/// A rule as written, with the figures proposed for it: four digits each, as `of N from SOURCE`.
[[nodiscard]] syntax::Rule with_learned(syntax::Rule rule, Pack const& pack,
                                        Learning const& learning, std::string_view source);

/// A figure as the language writes it, with its sample when `source` is not empty.
[[nodiscard]] syntax::Frequencies as_written(std::vector<double> const& shares, std::size_t sample,
                                             std::string_view source);

}  // namespace flinch
