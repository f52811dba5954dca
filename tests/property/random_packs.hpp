#pragma once
// What must hold for every pack and every case is tried on random ones. Seeds are fixed and printed
// with each failure.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <memory>
#include <random>

#include "flinch/assess/assessment.hpp"
#include "property/random_pack.hpp"

namespace flinch::test {

inline constexpr unsigned packs_tried = 600;
inline constexpr int cases_each = 20;

/// Calls `check(pack, seed)` for each sound random pack, until something fails; at least so many
/// must be sound.
template <class Check>
void for_random_packs(Alarms alarms, unsigned first_seed, unsigned at_least, Check const& check) {
  unsigned sound = 0;
  for (unsigned seed = first_seed; seed < first_seed + packs_tried; ++seed) {
    auto const loaded = load_random_pack(seed, alarms);
    if (!loaded.outcome) continue;
    ++sound;
    check(*loaded.outcome.value, seed);
    if (testing::Test::HasFailure()) return;
  }
  EXPECT_GE(sound, at_least) << "too few random packs are sound to say anything";
}

/// A random pack, and what draws cases for it.
struct Drawn {
  Pack const& pack;
  Tables const& tables;
  Assessor& assessor;
  std::mt19937& random;
  int number = 0;  ///< of the case, from 0 for each pack
};

/// Calls `check(drawn)` for `cases_each` cases of each sound random pack.
template <class Check>
void for_random_cases(Alarms alarms, unsigned first_seed, unsigned at_least, Check const& check) {
  for_random_packs(alarms, first_seed, at_least,
                   [&](std::shared_ptr<Pack const> const& pack, unsigned seed) {
                     Tables const tables(pack);
                     Assessor assessor(tables);
                     std::mt19937 random(seed);
                     for (int i = 0; i < cases_each; ++i) {
                       SCOPED_TRACE(fmt::format("pack seed {}, case {}", seed, i));
                       check(Drawn{*pack, tables, assessor, random, i});
                     }
                   });
}

}  // namespace flinch::test
