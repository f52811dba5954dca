#pragma once
// Rules put together so that what they jointly say of the causes hangs on little: the rules of one
// overlap, or one rule alone, are a cluster, whose outcomes are its state. Where all rules of a
// cluster hang on the same single sign, they count among that sign's own rules, whose state is the
// cell of its answer.
#include <cstdint>
#include <span>
#include <vector>

#include "assess/cells.hpp"

namespace flinch {

class Clusters {
 public:
  Clusters(Tables const& tables, Cells const& cells);

  /// How the effects of its states can be kept.
  enum class Keeping : std::uint8_t {
    numbered,  ///< few enough to have a place each, from `first_state`
    coded,     ///< a state is a number
    none       ///< more than numbers: `state` stands for several
  };
  struct Cluster {
    std::uint32_t first_rule = 0;
    std::uint32_t rule_count = 0;
    std::uint32_t first_state = 0;
    Keeping keeping = Keeping::none;
  };
  /// A rule's outcome times its `place` is its part of the state of its cluster. Outcomes: see
  /// `root_outcome`.
  struct Member {
    RuleId rule{};
    std::uint32_t outcomes = 0;
    std::uint64_t place = 1;
    [[nodiscard]] std::uint32_t outcome(std::uint64_t state) const {
      return static_cast<std::uint32_t>(state / place % outcomes);
    }
  };
  /// A cluster some of whose rules hang on a sign alone, and what those add to its state, by the
  /// cell of the answer.
  struct On {
    std::uint32_t cluster = 0;
    std::uint32_t first_part = 0;
  };
  [[nodiscard]] std::size_t size() const { return clusters_.size(); }
  [[nodiscard]] Cluster const& operator[](std::uint32_t cluster) const {
    return clusters_[cluster];
  }
  [[nodiscard]] std::span<Member const> members(Cluster const& cluster) const {
    return std::span(members_).subspan(cluster.first_rule, cluster.rule_count);
  }
  static constexpr std::uint32_t own_of_sign = ~0U;
  /// The cluster that a rule is in, or `own_of_sign`, and its place there.
  struct InCluster {
    std::uint32_t cluster = own_of_sign;
    std::uint64_t place = 0;
  };
  [[nodiscard]] InCluster const& in_cluster(RuleId rule) const { return in_cluster_[index(rule)]; }
  [[nodiscard]] std::span<On const> on(SignId sign) const {
    return std::span(on_sign_).subspan(on_rows_[index(sign)],
                                       on_rows_[index(sign) + 1] - on_rows_[index(sign)]);
  }
  [[nodiscard]] std::uint64_t part(On const& on, std::uint32_t cell) const {
    return parts_[on.first_part + cell];
  }
  /// The sign's own rules; a state is the cell of its answer.
  [[nodiscard]] Cluster const& own(SignId sign) const { return own_[index(sign)]; }
  /// How many states are numbered.
  [[nodiscard]] std::uint32_t states() const { return states_; }

 private:
  void add_own(Tables const& tables, Cells const& cells, std::vector<std::vector<RuleId>>& own);
  void add_cluster(Tables const& tables, std::span<RuleId const> rules);
  void add_parts(Tables const& tables, Cells const& cells,
                 std::span<std::vector<std::uint32_t> const> on);
  void number_states(Cluster& cluster, std::uint64_t states);

  std::vector<Cluster> clusters_;
  std::vector<Cluster> own_;
  std::vector<Member> members_;
  std::vector<InCluster> in_cluster_;  ///< of each rule
  std::vector<On> on_sign_;
  std::vector<std::uint32_t> on_rows_;
  std::vector<std::uint64_t> parts_;
  std::uint32_t states_ = 0;
};

}  // namespace flinch
