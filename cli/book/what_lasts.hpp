#pragma once
// What a new call may begin with, of what was said at earlier visits.
#include <ctime>
#include <string>
#include <vector>

#include "book/book.hpp"
#include "flinch/model/case.hpp"
#include "flinch/model/pack.hpp"

namespace flinch::cli {

/// What lasts from one visit to the next.
struct WhatLasts {
  Case patient;
  std::vector<SignId> signs;  ///< what it holds answers to
  CallId from{};              ///< the last call that said some of it
};

/// Name, caller and number; breed and sex; neutered where it was; the age as it now is; the signs
/// that the pack marks `lasts`, where a yes was said and never taken back. Of what may have changed
/// (weight, size, every other answer) nothing. `visits` in the order of time.
[[nodiscard]] WhatLasts what_lasts(std::vector<CallLine> const& visits, Pack const& pack,
                                   std::time_t now);

}  // namespace flinch::cli
