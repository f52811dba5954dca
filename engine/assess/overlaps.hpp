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
  explicit OverlapShares(Tables const& tables) : tables_(tables) {}
  /// `contributions` come by rule, in the order of the pack.
  void set(std::vector<Contribution>& contributions);

 private:
  /// A contribution of a rule in an overlap; `group` packs overlap, cause and direction.
  struct Overlapping {
    std::uint64_t group = 0;
    double strength = 0;
    std::uint32_t place = 0;
  };
  Tables const& tables_;
  std::vector<Overlapping> overlapping_;
};

}  // namespace flinch
