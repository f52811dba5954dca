#include "call/scripted_calls.hpp"

#include <gtest/gtest.h>

#include "call/call_desk.hpp"
#include "pack/shipped_pack.hpp"

namespace flinch::test {
namespace {

TEST(ScriptedCalls, EveryCallReachesItsUrgencyAndASafePlaceToStop) {
  Tables const tables(shipped_pack());
  ASSERT_EQ(scripted_calls().size(), 10U);
  for (auto const& script : scripted_calls())
    for (auto const desk : {Desk::one_by_one, Desk::lists, Desk::search}) {
      auto const taken = take_call(tables, script, desk);
      EXPECT_TRUE(taken.to_tier) << script.title;
      EXPECT_TRUE(taken.to_safe) << script.title;
    }
}

}  // namespace
}  // namespace flinch::test
