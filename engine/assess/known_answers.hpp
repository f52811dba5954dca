#pragma once
// Everything that is known of one patient: the answers given, what follows from them by meaning,
// and where they clash.
#include <span>
#include <vector>

#include "assess/consequences.hpp"
#include "assess/evaluate.hpp"
#include "assess/inputs.hpp"
#include "assess/zeroed.hpp"
#include "flinch/assess/assessment.hpp"
#include "model/sign_set.hpp"

namespace flinch {

/// Holds scratch memory. Answers are looked at where they are: the case must stay until the next.
class KnownAnswers {
 public:
  explicit KnownAnswers(Tables const& tables);

  struct Learnt {
    SignId sign{};
    Answer const* answer = nullptr;
    Origin origin = Origin::given;
    SignId from{};
  };

  /// Takes the place of what was known.
  void learn_all(Case const& patient);

  /// By sign.
  [[nodiscard]] std::span<Learnt const> all() const { return learnt_; }
  /// The same, with answers of its own.
  /// Cannot be told: what the case says so of, unless it follows from what could.
  [[nodiscard]] Knowledge copied(Case const& patient) const;
  [[nodiscard]] std::vector<Contradiction> const& contradictions() const { return contradictions_; }
  [[nodiscard]] bool knows(SignId sign) const { return cells_[index(sign)] != Cells::unknown; }
  /// Null: unknown.
  [[nodiscard]] Answer const* answer(SignId sign) const {
    return knows(sign) ? learnt_[places_[index(sign)]].answer : nullptr;
  }
  [[nodiscard]] std::uint32_t cell(SignId sign) const { return cells_[index(sign)]; }
  /// As `Knowledge::disputed`.
  [[nodiscard]] bool is_disputed(SignId sign) const {
    return !contradictions_.empty() && disputed_[index(sign)];
  }
  /// Of a test: unknown where its sign is, or is disputed below `unless`.
  [[nodiscard]] Truth truth(Tables::Leaf const& leaf) const {
    if (leaf.is_below_unless && is_disputed(leaf.sign)) return Truth::unknown;
    auto const cell = cells_[index(leaf.sign)];
    if (cell != Cells::undivided) return tables_.cells().truth(leaf, cell);
    return leaf_truth(tables_, leaf, *answer(leaf.sign));
  }
  /// What a known answer adds to the state of a condition, `cell` being its cell.
  [[nodiscard]] std::uint32_t part(Inputs::Input const& input, std::uint32_t cell) const {
    if (cell != Cells::undivided) return tables_.inputs().part(input, cell);
    return tables_.inputs().part(input, [&](Tables::Leaf const& leaf) { return truth(leaf); });
  }
  /// What a condition comes to, as `root_outcome` gives it; `state` is that of its known signs,
  /// from its first.
  [[nodiscard]] std::uint32_t outcome(std::size_t root, std::uint32_t state) {
    if (tables_.inputs().is_run(root) || hangs_on_disputed(root)) return run(root);
    auto& kept = outcomes_[state];
    if (kept == 0) kept = static_cast<std::uint8_t>(1 + run(root));
    return kept - 1U;
  }
  [[nodiscard]] std::uint32_t outcome(std::size_t root) {
    auto state = tables_.inputs().first_state(root);
    for (auto const& input : tables_.inputs().of(root))
      if (auto const cell = cells_[index(input.sign)]; cell != Cells::unknown)
        state += part(input, cell);
    return outcome(root, state);
  }

 private:
  [[nodiscard]] std::uint32_t run(std::size_t root);
  // Then the cells of its signs do not tell the outcome.
  [[nodiscard]] bool hangs_on_disputed(std::size_t root) const {
    auto const& its = tables_.root(root);
    return !contradictions_.empty() && its.trigger_count != its.step_count;
  }
  void learn(SignId sign, Answer const& answer, Origin origin, SignId from);
  void follow_yes_to_wholes(Case const& patient);
  void follow_size();
  void follow_consequences();
  [[nodiscard]] bool is_never_neutered() const;
  [[nodiscard]] Truth truth_of_applying(std::size_t root);
  void check_applies(SignId sign, SignId from);
  void cannot_apply(SignId sign, SignId from);
  void find_contradiction(SignId sign, SignId from);
  [[nodiscard]] SignId fails_by(std::size_t root, SignId from);
  [[nodiscard]] std::uint32_t outcome_by(std::size_t root, SignId sign);
  void find_contradictory_sites();
  void find_disputed();
  void dispute_parts(SignId whole);
  [[nodiscard]] bool hangs_on_a_clash(Learnt const& known) const;
  template <class Visit>
  void visit_gates(SignId sign, Visit const& visit) const;
  void sort_by_sign();

  Tables const& tables_;
  Consequences consequences_;
  std::vector<Learnt> learnt_, sorted_;
  std::vector<Contradiction> contradictions_;
  std::vector<bool> disputed_;         ///< by sign, while there are contradictions
  std::vector<std::uint32_t> cells_;   ///< of each sign
  std::vector<std::uint32_t> places_;  ///< of each known sign in `learnt_`
  bool neutered_gates_ = true;         ///< false: it contradicts the pack
  SignSet known_;
  std::vector<SignId> news_;       ///< signs whose consequences are still to be followed
  Zeroed<std::uint8_t> outcomes_;  ///< by state of a condition: 1 + its outcome, or 0
  std::vector<Truth> stack_;
};

}  // namespace flinch
