#pragma once
// What comes out for one dog, with every number that an explanation needs.
//
//   Tables tables(pack);
//   Assessor assessor(tables);
//   Assessment result = assessor.assess(dog);
//
// An `Assessor` holds scratch memory: one a thread, over shared tables.
#include <cstdint>
#include <optional>
#include <vector>

#include "flinch/assess/exposure.hpp"
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

/// Two answers that cannot both be right; the more dangerous one, `counted`, counts.
struct Contradiction {
  enum class Kind : std::uint8_t {
    part_without_whole,  ///< yes to the part `counted`, no to the whole `against`
    does_not_apply,      ///< yes to `counted`, though it cannot apply, by `against`
    found_and_clear      ///< found at a site of `counted` that was given as clear
  };
  Kind kind{};
  SignId counted{};
  SignId against{};
  friend bool operator==(Contradiction const&, Contradiction const&) = default;
};

/// A rule on which at least one known answer bears.
struct RuleOutcome {
  RuleId rule{};
  Truth truth = Truth::unknown;  ///< for `over` rules: yes when the band is known
  std::uint32_t band = 0;        ///< for `over` rules; for others 0 when true, 1 when false
  std::uint32_t first_contribution = 0;
  std::uint32_t contribution_count = 0;
};

/// What one rule did to one cause.
struct Contribution {
  RuleId rule{};
  CauseId cause{};
  double weight = 0;  ///< ln(p/u) or ln((1-p)/(1-u)), as if it stood alone
  double share = 1;   ///< what was left of it in its overlap
  [[nodiscard]] double counted() const { return weight * share; }
};

struct Ranked {
  std::optional<CauseId> cause;  ///< none: none of the listed causes
  double prior = 0;
  double evidence = 0;  ///< sum of the counted weights, in natural logarithms
  double posterior = 0;
};

struct AlarmOutcome {
  AlarmId alarm{};
  Truth truth = Truth::unknown;
};

/// One tier seen from the ranking.
struct TierChance {
  double probability = 0;           ///< of a cause that needs this tier or a higher one
  std::optional<double> threshold;  ///< 1 / (1 + harm)
  bool is_reached = false;
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
  std::uint32_t counted_answers = 0;        ///< given answers on which some rule hangs
  bool too_few_answers = false;             ///< to read a tier from the ranking
  std::optional<TierId> alarm_tier;         ///< highest of the alarms that fired and of `exposures`
  std::optional<TierId>
      ranking_tier;            ///< highest whose threshold is reached; none with too few answers
  std::optional<TierId> tier;  ///< the higher of both; none when nothing can be said
  /// The highest tier that an alarm, or something taken, may still ask for, whatever the unknown
  /// answers are.
  std::optional<TierId> ceiling;

  [[nodiscard]] Known const* find(SignId sign) const;
};

class Assessor {
 public:
  explicit Assessor(Tables const& tables);
  [[nodiscard]] Assessment assess(Case const& dog);

 private:
  void take_answers(Case const& dog);
  void learn(SignId sign, Answer answer, Origin origin, SignId from);
  void follow_yes_to_wholes(Case const& dog);
  void follow_size();
  void follow_consequences();
  void follow_no_to_parts(SignId sign);
  void check_applies(std::uint32_t root, SignId from);
  [[nodiscard]] Truth leaf(Tables::Leaf const& leaf) const;
  [[nodiscard]] Truth evaluate(Tables::Root const& root);
  void evaluate_touched();
  void evaluate_rule(Tables::Root const& root);
  void count_overlaps();
  void rank();
  void set_tiers();
  [[nodiscard]] Swallowed swallowed() const;
  void find_contradictory_sites();

  Tables const& tables_;
  Assessment out_;
  std::vector<std::int32_t> known_at_;  ///< place of a sign's answer in out_.known, or -1
  std::vector<bool> touched_;           ///< of each root
  std::vector<std::uint32_t> touched_roots_;
  std::vector<SignId> news_;  ///< signs whose consequences are still to be followed
  std::vector<Truth> stack_;
  std::vector<double> evidence_;
  /// A contribution of a rule in an overlap; `group` packs overlap, cause and direction.
  struct Overlapping {
    std::uint64_t group = 0;
    double strength = 0;
    std::uint32_t place = 0;
  };
  std::vector<Overlapping> overlapping_;
};

}  // namespace flinch
