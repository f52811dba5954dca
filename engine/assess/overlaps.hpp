#pragma once
// What is left of a contribution beside others that say the same.
#include <cstdint>
#include <vector>

#include "flinch/assess/assessment.hpp"

namespace flinch {

/// Sets the shares: within an overlap, for each cause and each direction, the strongest counts in
/// full, the next by the overlap's share, the next by its square. Equal weights keep the order of
/// the pack. Holds scratch memory.
class OverlapShares {
 public:
  explicit OverlapShares(Tables const& tables);
  /// `contributions` come by rule, in the order of the pack.
  void set(std::vector<Contribution>& contributions);

 private:
  void insert(std::vector<Contribution> const& contributions, std::uint32_t place,
              std::uint32_t group);

  Tables const& tables_;
  /// A group is what one overlap holds for one cause in one direction: the place of its strongest
  /// contribution, and of each contribution the next weaker of its group.
  std::vector<std::uint32_t> strongest_, weaker_;
  std::vector<std::uint32_t> groups_;  ///< those that hold anything
};

}  // namespace flinch
