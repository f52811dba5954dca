#pragma once
// What two changed answers come to together, made of what each does alone. What they do to the
// causes is multiplied; a condition that both bear on is run again, and a cluster of rules that
// both bear on looked up. Pairs that hang together otherwise are judged as a whole.
#include <cstdint>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "assess/effects.hpp"
#include "assess/known_answers.hpp"
#include "flinch/assess/assessment.hpp"

namespace flinch {

/// What a case comes to, as far as changes are looked for.
struct Outlook {
  std::size_t tier = 0;     ///< past the last: none
  std::uint32_t first = 0;  ///< the most probable cause; past the last: none of the listed causes
};

class ChangePairs {
 public:
  /// Judges the case, and each of the changes alone. Of a case that came for something only `first`
  /// is good: what was not mentioned bears on the ranking and not on the tier.
  ChangePairs(Tables const& tables, Assessor& assessor, Case const& patient,
              std::vector<Change> changes);

  [[nodiscard]] std::size_t count() const { return changes_.size(); }
  [[nodiscard]] Change const& operator[](std::size_t i) const { return changes_[i]; }
  [[nodiscard]] Judgement const& before() const { return before_; }
  [[nodiscard]] Outlook const& outlook_before() const { return outlook_before_; }
  /// Of one change alone; none where it adds a contradiction.
  [[nodiscard]] std::optional<Outlook> alone(std::size_t i) const {
    return singles_[i].contradicts ? std::nullopt : std::optional(singles_[i].alone);
  }
  [[nodiscard]] Outlook outlook_of(Judgement const& judgement);
  /// One or two, in the order of the signs.
  [[nodiscard]] std::vector<Change> changes_of(std::size_t one, std::size_t other) const;

  /// Takes the first of the pairs that follow.
  void begin(std::size_t first);
  /// Between what a pair comes to.
  struct Bounds {
    std::size_t highest = 0, lowest = 0;
    bool may_change_first = true;
  };
  /// Takes the second, of another sign. None where the two add a contradiction.
  [[nodiscard]] std::optional<Bounds> meet(std::size_t second);
  /// Of the pair in hand; none where the two add a contradiction.
  [[nodiscard]] std::optional<Outlook> together();

 private:
  using Bits = std::vector<std::uint64_t>;
  /// Odds of needing each tier or a higher one; last, of all other causes against the first.
  using Odds = std::vector<double>;
  /// How conditions stand.
  struct Standing {
    std::vector<Truth> truths;            ///< of each leaf
    std::vector<std::uint32_t> outcomes;  ///< of each root
    std::vector<std::uint64_t> clusters;  ///< the state of each
  };
  /// What of it may be another, by its place.
  template <class T>
  using Others = std::vector<std::pair<std::uint32_t, T>>;
  struct State {
    Others<Truth> truths;
    Others<std::uint32_t> outcomes;
    Others<std::uint64_t> clusters;
    std::vector<double> chances;       ///< of the causes in the order of `order_`
    std::vector<std::int32_t> alarms;  ///< that have fired for each tier
    std::vector<std::int32_t> taken;   ///< things swallowed that ask for each tier
    std::int32_t told_signs = 0;
    bool contradicts = false;
    Outlook alone;
    /// Signs that are known otherwise, and roots and clusters that hang on them; `near` has,
    /// besides, the wholes and parts of these signs.
    Bits touched, near;
    Odds odds, most, least;  ///< with it, and how far at most it moves them, whatever else is so
  };
  [[nodiscard]] State state(Case const& patient, Judgement const& judgement,
                            std::optional<SignId> changed);
  void touch(SignId sign, Answer const* now, State& state);
  void touch_family(SignId sign, State& state) const;
  void set_outcomes(Case const& patient, State& state);
  void set_odds(State& state) const;
  [[nodiscard]] std::optional<Outlook> judged(std::size_t one, std::size_t other);
  [[nodiscard]] bool join_shared();
  [[nodiscard]] bool run_again(std::size_t place);
  void join(std::uint32_t cluster);
  [[nodiscard]] bool multiply(std::uint32_t cluster, std::uint64_t state, bool is_gone);
  template <class Chance>
  [[nodiscard]] std::size_t tier_by(Chance const& chance) const;

  Tables const& tables_;
  Assessor& assessor_;
  Case const& patient_;
  std::vector<Change> changes_;
  KnownAnswers known_;
  Effects effects_;
  std::size_t first_root_, first_cluster_;  ///< among the bits
  std::vector<std::uint32_t> order_;        ///< the causes by tier, none of the listed last
  std::vector<std::size_t> ends_;           ///< of each tier in `order_`
  std::vector<std::size_t> places_;         ///< of each cause in `order_`
  Judgement before_;
  Outlook outlook_before_;
  Knowledge known_before_;
  Standing standing_before_, standing_;
  State base_;
  std::vector<State> singles_;
  std::vector<Truth> stack_;
  // The pair in hand.
  std::size_t one_ = 0, other_ = 0;
  bool is_whole_ = false;        ///< it has to be judged as a whole
  bool is_taken_ = false;        ///< both bear on what was swallowed
  bool is_told_ = false;         ///< some sign is told
  std::vector<double> factors_;  ///< what the first of the pair does to each cause
  std::vector<double> chances_;
  std::vector<std::int32_t> alarms_;
  std::vector<std::uint64_t> shifts_;  ///< of each cluster, by conditions that both bear on
  struct Joined {
    std::uint32_t cluster = 0;
    std::uint64_t one = 0, other = 0, joint = 0;  ///< its states with each, and with both
  };
  std::vector<Joined> joined_;  ///< clusters in a state that is not the sum of both
  std::vector<std::uint32_t> head_;
};

}  // namespace flinch
