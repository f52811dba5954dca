#pragma once
// What comes out for one patient, with every number that an explanation needs.
//
//   Tables tables(pack);
//   Assessor assessor(tables);
//   Assessment result = assessor.assess(patient);
//
// An `Assessor` holds scratch memory: one a thread, over shared tables. Where many patients are to
// be judged and no reasons are wanted, `judge` does the same work and leaves them out.
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "flinch/assess/exposure.hpp"
#include "flinch/assess/judgement.hpp"
#include "flinch/assess/knowledge.hpp"
#include "flinch/assess/tables.hpp"
#include "flinch/assess/truth.hpp"
#include "flinch/model/case.hpp"

namespace flinch {

/// A rule on which at least one known answer bears.
struct RuleOutcome {
  RuleId rule{};
  Truth truth = Truth::unknown;  ///< for `over` rules: yes when the band is known
  /// For `over` rules; for others 0 when true, 1 when false or unknown, and where it is unknown and
  /// yet weighs, since nobody mentioned its sign, `Tables::band_not_mentioned`.
  std::uint32_t band = 0;
  std::uint32_t first_contribution = 0;
  std::uint32_t contribution_count = 0;
};

/// What one rule did to one cause.
struct Contribution {
  RuleId rule{};
  CauseId cause{};
  double weight = 0;  ///< see `Tables::weight`; as if it stood alone
  double share = 1;   ///< what was left of it in its overlap
  [[nodiscard]] double counted() const { return weight * share; }
};

struct Ranked {
  std::optional<CauseId> cause;  ///< none: none of the listed causes
  double prior = 0;
  double evidence = 0;  ///< sum of the counted weights, in natural logarithms
  double posterior = 0;
  double by_answers = 0;  ///< the same without what was not mentioned: the tiers go by it
};

struct AlarmOutcome {
  AlarmId alarm{};
  Truth truth = Truth::unknown;
};

struct Assessment {
  Judgement judgement;
  Knowledge knowledge;
  std::vector<RuleOutcome> rules;           ///< in the order of the pack
  std::vector<Contribution> contributions;  ///< by rule
  std::vector<Ranked> ranking;              ///< most probable first, ties in the order of the pack
  std::vector<AlarmOutcome> alarms;         ///< those that known answers bear on, in pack order

  /// Null: unknown.
  [[nodiscard]] Known const* find(SignId sign) const { return knowledge.find(sign); }
  /// Null where no known answer bears on the rule.
  [[nodiscard]] RuleOutcome const* find(RuleId rule) const;
  /// Unknown where no known answer bears on it.
  [[nodiscard]] Truth truth(RuleId rule) const;
  [[nodiscard]] Truth truth(AlarmId alarm) const;
  /// What the rule did to each cause that it names; empty where it did nothing.
  [[nodiscard]] std::span<Contribution const> contributions_of(RuleId rule) const;
  [[nodiscard]] std::span<Contribution const> contributions_of(RuleOutcome const& rule) const;
  /// The place of a cause in `ranking`, from 0; none: of none of the listed causes.
  [[nodiscard]] std::size_t place(std::optional<CauseId> cause) const;
  [[nodiscard]] Ranked const& ranked(std::optional<CauseId> cause) const {
    return ranking[place(cause)];
  }
};

class Assessor {
 public:
  explicit Assessor(Tables const& tables);
  ~Assessor();
  Assessor(Assessor&&) noexcept;
  Assessor& operator=(Assessor&&) noexcept;

  /// Good until the next case.
  [[nodiscard]] Judgement const& judge(Case const& patient);
  /// The same, with all that explains it.
  [[nodiscard]] Assessment assess(Case const& patient);

 private:
  class Judge;
  std::unique_ptr<Judge> judge_;
};

}  // namespace flinch
