#pragma once
// Which answers tell of something that is there, rather than of something that is not.
#include <cstdint>
#include <vector>

#include "flinch/model/pack.hpp"

namespace flinch {

/// A sign is *told* by a yes, by having been found somewhere, by a step beyond the first; by a
/// choice or number that brings the condition of some alarm or rule nearer to holding; and by an
/// amount above 0 of something swallowed. The patient's own signs (age, weight, breed and the like)
/// tell nothing, nor do a no, a clear site, "can't tell".
class Told {
 public:
  explicit Told(Pack const& pack);

  [[nodiscard]] bool operator()(SignId sign, Answer const& answer) const;

 private:
  struct Stretch {
    Test test;
    bool is_negated = false;
  };
  void add(Condition const& condition);

  Pack const& pack_;                             ///< must outlive it
  std::vector<std::uint64_t> values_;            ///< of each sign; bit v: value v tells
  std::vector<std::vector<Stretch>> stretches_;  ///< of each number
  std::vector<bool> is_taken_;                   ///< of each sign: an amount of something swallowed
};

}  // namespace flinch
