#pragma once
// A pack compiled for assessing: conditions as flat programs, an index from each sign to what hangs
// on it, and every weight taken once. Immutable; one instance serves any number of threads.
#include <algorithm>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "flinch/assess/truth.hpp"
#include "flinch/assess/weight_doubt.hpp"
#include "flinch/model/case.hpp"
#include "flinch/model/pack.hpp"

namespace flinch {

class Cells;
class Clusters;
class Inputs;
class Told;

/// Whose condition a program is.
enum class RootKind : std::uint8_t { rule, alarm, applies, taken };

/// Whether a sign that keepers usually tell of, and that was neither told nor asked, weighs a
/// little.
enum class Silence : std::uint8_t { counts, ignored };

class Tables {
 public:
  explicit Tables(std::shared_ptr<Pack const> pack, Silence silence = Silence::counts);

  [[nodiscard]] Pack const& pack() const { return *pack_; }

  /// A test made flat.
  struct Leaf {
    Test::Kind kind{};
    bool low_included = true;
    bool high_included = true;
    bool is_below_unless = false;  ///< there an answer that clashes is unknown
    SignId sign{};
    SiteMark mark;
    std::uint64_t values = 0;  ///< bit v: value v will do
    double low = 0;
    double high = 0;
    std::uint32_t group = 0;
    std::uint32_t first_truth = 0;  ///< in the truths by cell of its sign's answer
  };

  /// One step of a program in postfix order.
  struct Step {
    enum class Kind : std::uint8_t { leaf, negation, at_least, unless };
    Kind kind{};
    std::uint32_t parts = 0;   ///< how many truths it takes from the stack
    std::uint32_t detail = 0;  ///< the leaf's index, or how many are needed
  };

  /// A condition of a rule or alarm, of a sign's `applies if`, or of what was taken; for an `over`
  /// rule a run of leaves, one a band.
  struct Root {
    RootKind kind{};
    bool is_banded = false;
    std::uint32_t subject = 0;  ///< the rule, alarm, sign or care
    std::uint32_t first_step = 0;
    std::uint32_t step_count = 0;
    std::uint32_t trigger_count = 0;  ///< of these, before those of an alarm's `unless`
  };

  /// What a rule that holds (or not, or falls in a band) says of a cause: natural logarithms of
  /// p/u, with p and u held within the pack's limits. Two weights for `if` (true, false), otherwise
  /// one a band.
  struct Entry {
    CauseId cause{};
    std::uint32_t first_weight = 0;
  };

  /// A rule whose condition is that a sign of those that keepers mention is there: what it says of
  /// a cause when nobody mentions the sign is its third weight, ln((1 - m p) / (1 - m u)).
  struct Unmentioned {
    RuleId rule{};
    SignId sign{};
    double mentioned = 0;
  };
  static constexpr std::uint32_t band_not_mentioned = 2;

  /// A care statement with `taken`.
  struct Substance {
    std::uint32_t care = 0;
    std::optional<std::uint32_t> root;  ///< of its `fit if`
    std::optional<TierId> see;          ///< the highest tier that its levels ask for
  };

  /// A single test made flat.
  [[nodiscard]] static Leaf leaf_of(Test const& test);

  [[nodiscard]] std::span<Leaf const> leaves() const { return leaves_; }
  [[nodiscard]] std::span<Step const> steps(Root const& root) const {
    return std::span(steps_).subspan(root.first_step, root.step_count);
  }
  /// Those of what sets an alarm off, without its `unless`.
  [[nodiscard]] std::span<Step const> trigger_steps(AlarmId id) const {
    auto const& its = alarm_root(id);
    return std::span(steps_).subspan(its.first_step, its.trigger_count);
  }
  [[nodiscard]] Root const& root(std::size_t i) const { return roots_[i]; }
  [[nodiscard]] std::size_t root_count() const { return roots_.size(); }
  /// The place of its root.
  [[nodiscard]] std::size_t place(RuleId id) const { return index(id); }
  [[nodiscard]] std::size_t place(AlarmId id) const { return first_alarm_ + index(id); }
  [[nodiscard]] Root const& rule_root(RuleId id) const { return roots_[place(id)]; }
  [[nodiscard]] Root const& alarm_root(AlarmId id) const { return roots_[place(id)]; }
  /// The roots in whose condition the sign stands.
  [[nodiscard]] std::span<std::uint32_t const> roots_of(SignId sign) const {
    return row(roots_of_sign_, sign_rows_, index(sign));
  }
  /// The signs whose `applies if` the sign stands in.
  [[nodiscard]] std::span<std::uint32_t const> applies_of(SignId sign) const {
    return row(applies_of_sign_, applies_rows_, index(sign));
  }
  /// The place of the root of a sign's `applies if`.
  [[nodiscard]] std::size_t applies_root(SignId sign) const { return applies_root_[index(sign)]; }
  [[nodiscard]] std::optional<SignId> whole_of(SignId sign) const { return wholes_[index(sign)]; }
  [[nodiscard]] std::span<std::uint32_t const> parts_of(SignId sign) const {
    return row(parts_of_sign_, part_rows_, index(sign));
  }
  [[nodiscard]] std::span<Entry const> entries(RuleId rule) const {
    return std::span(entries_).subspan(entry_rows_[index(rule)],
                                       entry_rows_[index(rule) + 1] - entry_rows_[index(rule)]);
  }
  /// In how many ways a rule can come out: its bands, or true and false.
  [[nodiscard]] std::uint32_t outcomes(RuleId rule) const {
    auto const& written = (*pack_)[rule];
    return written.condition ? 2U : static_cast<std::uint32_t>(written.bands.size());
  }
  /// ln(p/u) of an entry in the outcome `band` (for `if` rules: 0 true, 1 false, and of those among
  /// `unmentioned` 2 not mentioned).
  [[nodiscard]] double weight(Entry const& entry, std::uint32_t band) const {
    return weights_[entry.first_weight + band];
  }
  /// In the order of the pack; none when silence is ignored.
  [[nodiscard]] std::span<Unmentioned const> unmentioned() const { return unmentioned_; }
  [[nodiscard]] bool in_group(std::uint32_t group, std::uint32_t breed) const {
    return group_bits_[group][breed];
  }
  [[nodiscard]] bool covers(SiteId outer, SiteId inner) const {
    return site_bits_[index(outer) * pack_->sites.size() + index(inner)];
  }
  /// The overlap that a rule is in, or -1.
  [[nodiscard]] std::int32_t overlap_of(RuleId rule) const { return overlap_of_rule_[index(rule)]; }
  /// Prior probability of a cause; index past the last cause: none of the listed.
  [[nodiscard]] double prior(std::size_t cause) const { return priors_[cause]; }
  [[nodiscard]] std::span<double const> priors() const { return priors_; }
  [[nodiscard]] double log_prior(std::size_t cause) const { return log_priors_[cause]; }
  /// How many alarms ask for each tier.
  [[nodiscard]] std::span<std::uint32_t const> alarms_by_tier() const { return alarms_by_tier_; }
  /// What a patient may have taken already, and the signs, other than of the patient itself, that
  /// bear on it.
  [[nodiscard]] std::span<Substance const> substances() const { return substances_; }
  [[nodiscard]] std::span<SignId const> signs_of_taken() const { return signs_of_taken_; }
  /// Whether an answer to the sign bears on what was taken; the weight does, and what it is held
  /// against.
  [[nodiscard]] bool bears_on_taken(SignId sign) const {
    return !substances_.empty() &&
           (bears_on_weight(sign) || std::find(signs_of_taken_.begin(), signs_of_taken_.end(),
                                               sign) != signs_of_taken_.end());
  }
  /// The highest tier that something taken can ask for.
  [[nodiscard]] std::optional<TierId> highest_of_taken() const { return highest_of_taken_; }
  [[nodiscard]] std::span<CauseId const> causes_of(TierId tier) const {
    return row(causes_of_tier_, tier_rows_, index(tier));
  }
  [[nodiscard]] TierId tier_of(AlarmId alarm) const { return alarm_tiers_[index(alarm)]; }
  /// Of each tier: see `Tier::threshold`.
  [[nodiscard]] std::span<std::optional<double> const> thresholds() const { return thresholds_; }
  /// Whether an answer tells of something that is there: one such is enough for a tier.
  [[nodiscard]] bool is_told(SignId sign, Answer const& answer) const;
  /// Whether anything hangs on where the sign is found, not only on whether it is.
  [[nodiscard]] bool hangs_on_place(SignId sign) const { return hangs_on_place_[index(sign)]; }
  /// Answers cut into cells, what conditions hang on, and rules put into clusters: for the assessor
  /// alone.
  [[nodiscard]] Cells const& cells() const { return *cells_; }
  [[nodiscard]] Inputs const& inputs() const { return *inputs_; }
  [[nodiscard]] Clusters const& clusters() const { return *clusters_; }
  /// How deep the stack of a program can get.
  [[nodiscard]] std::size_t deepest_stack() const { return deepest_stack_; }

 private:
  template <class T>
  [[nodiscard]] static std::span<T const> row(std::vector<T> const& all,
                                              std::vector<std::uint32_t> const& rows,
                                              std::size_t i) {
    return std::span(all).subspan(rows[i], rows[i + 1] - rows[i]);
  }
  void add_root(RootKind kind, std::uint32_t subject, Condition const& condition);
  void add_alarm_root(std::uint32_t alarm);
  void add_banded_root(std::uint32_t rule);
  void emit(Condition const& condition, std::size_t depth, bool is_below_unless = false);
  std::uint32_t add_leaf(Test const& test, bool is_below_unless = false);
  void add_substances();
  void index_signs();
  void set_tiers();
  void find_unmentioned();
  void weigh_rules();
  void set_priors();
  void cover_sites();

  std::shared_ptr<Pack const> pack_;
  std::vector<Leaf> leaves_;
  std::vector<Step> steps_;
  std::vector<Root> roots_;
  std::vector<std::uint32_t> roots_of_sign_, sign_rows_;
  std::vector<std::uint32_t> parts_of_sign_, part_rows_;
  std::vector<std::uint32_t> applies_of_sign_, applies_rows_;
  std::vector<std::uint32_t> applies_root_;
  std::size_t first_alarm_ = 0;
  std::vector<std::optional<SignId>> wholes_;
  std::vector<Entry> entries_;
  std::vector<std::uint32_t> entry_rows_;
  std::vector<double> weights_;
  std::vector<Unmentioned> unmentioned_;
  std::vector<std::int32_t> overlap_of_rule_;
  std::vector<double> priors_, log_priors_;
  std::vector<std::uint32_t> alarms_by_tier_;
  std::vector<Substance> substances_;
  std::vector<SignId> signs_of_taken_;
  std::optional<TierId> highest_of_taken_;
  std::vector<CauseId> causes_of_tier_;
  std::vector<std::uint32_t> tier_rows_;
  std::vector<TierId> alarm_tiers_;
  std::vector<std::optional<double>> thresholds_;
  std::shared_ptr<Told const> told_;
  std::vector<bool> hangs_on_place_;
  std::vector<std::vector<bool>> group_bits_;
  std::vector<bool> site_bits_;
  std::size_t deepest_stack_ = 0;
  std::shared_ptr<Cells const> cells_;
  std::shared_ptr<Inputs const> inputs_;
  std::shared_ptr<Clusters const> clusters_;
};

}  // namespace flinch
