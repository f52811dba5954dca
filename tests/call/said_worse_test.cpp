#include "desk/said_worse.hpp"

#include <gtest/gtest.h>

namespace flinch::cli {
namespace {

TEST(SaidWorse, SaysThatItIsAndNotWhat) {
  for (auto const* line : {"worse", "he's worse", "much worse than then", "it is getting worse",
                           "a lot worse", "something new", "yes, worse"})
    EXPECT_TRUE(says_only_that_it_is_worse(line)) << line;
}

TEST(SaidWorse, WhatSaysMoreIsReadForWhatItSays) {
  for (auto const* line :
       {"worse limp", "not worse", "no worse", "better", "", "the same", "new lump"})
    EXPECT_FALSE(says_only_that_it_is_worse(line)) << line;
}

}  // namespace
}  // namespace flinch::cli
