#pragma once
// What a dog has taken, weighed a second time from the table in docs/care.md ("What it has taken
// already"): slow, obvious, and sharing no code with the engine.
#include <map>
#include <optional>
#include <set>
#include <string>

#include "flinch/model/pack.hpp"

namespace flinch::test {

struct SlowTaken {
  std::set<std::string> counted;           ///< names of the measures that speak of it
  std::optional<std::size_t> tier;         ///< index of the most urgent tier that these ask for
  std::optional<std::size_t> could_reach;  ///< of what it may still turn out to have been
};

/// `answers` are all that is known, `cannot_tell` what was asked in vain.
[[nodiscard]] SlowTaken weigh_taken_slowly(Pack const& pack,
                                           std::map<SignId, Answer> const& answers,
                                           std::set<SignId> const& cannot_tell);

}  // namespace flinch::test
