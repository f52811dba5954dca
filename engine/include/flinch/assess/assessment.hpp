#pragma once
// What comes out for one dog, with every number that an explanation needs.
//
//   Tables tables(pack);
//   Assessor assessor(tables);
//   Assessment result = assessor.assess(dog);
//
// An `Assessor` holds scratch memory: one a thread, over shared tables. Where many dogs are to be
// judged and no reasons are wanted, `judge` does the same work and leaves them out.
#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "flinch/assess/exposure.hpp"
#include "flinch/assess/judgement.hpp"
#include "flinch/assess/tables.hpp"
#include "flinch/assess/truth.hpp"
#include "flinch/model/case.hpp"

namespace flinch {

/// Where an answer comes from.
enum class Origin : std::uint8_t {
  given,         ///< in the case
  from_whole,    ///< a no to the whole, `from`
  from_part,     ///< a yes to a part, `from`
  inapplicable,  ///< `applies if` is false, by `from`
  from_breed,    ///< the size, by the breed
  from_weight    ///< the size, by the weight of a grown dog
};

struct Known {
  SignId sign{};
  Answer answer;
  Origin origin = Origin::given;
  SignId from{};
};

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
  std::vector<Known> known;         ///< in the order of the signs
  std::vector<SignId> cannot_tell;  ///< asked, and still unknown
  std::vector<Contradiction> contradictions;
  std::vector<RuleOutcome> rules;           ///< in the order of the pack
  std::vector<Contribution> contributions;  ///< by rule
  std::vector<Ranked> ranking;              ///< most probable first, ties in the order of the pack
  std::vector<AlarmOutcome> alarms;         ///< those that known answers bear on, in pack order
  std::vector<Exposure> exposures;          ///< what it has taken, in pack order
  std::vector<TierChance> tiers;            ///< one a tier
  std::uint32_t told_signs = 0;             ///< given answers that tell of something that is there
  bool nothing_told = true;                 ///< no such answer: then the ranking says nothing
  std::optional<TierId> alarm_tier;         ///< highest of the alarms that fired and of `exposures`
  /// Highest whose threshold is reached, and so the lowest at least; none with nothing told.
  std::optional<TierId> ranking_tier;
  std::optional<TierId> tier;  ///< the higher of both; none when nothing can be said
  /// The highest tier that an alarm, or something taken, may still ask for, whatever the unknown
  /// answers are.
  std::optional<TierId> ceiling;

  [[nodiscard]] Known const* find(SignId sign) const;
};

class Assessor {
 public:
  explicit Assessor(Tables const& tables);
  ~Assessor();
  Assessor(Assessor&&) noexcept;
  Assessor& operator=(Assessor&&) noexcept;

  /// Good until the next case.
  [[nodiscard]] Judgement const& judge(Case const& dog);
  /// The same, with all that explains it.
  [[nodiscard]] Assessment assess(Case const& dog);

 private:
  class Judge;
  std::unique_ptr<Judge> judge_;
};

}  // namespace flinch
