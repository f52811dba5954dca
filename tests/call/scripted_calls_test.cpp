#include "call/scripted_calls.hpp"

#include <gtest/gtest.h>

#include "call/call_desk.hpp"
#include "call/call_view.hpp"
#include "pack/shipped_pack.hpp"
#include "support/source_tree.hpp"

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

// The page says what comes out now; a failure prints the table as it would be.
TEST(ScriptedCalls, ThePageSaysWhatIsMeasured) {
  auto const table = effort_table(Tables(shipped_pack()));
  auto const page = source_file("docs/call.md");
  EXPECT_TRUE(page.find(table) != std::string::npos) << table;
}

TEST(ScriptedCalls, ThePageShowsAScreenAsItIs) {
  Tables const tables(shipped_pack());
  cli::CallModel call(tables, {}, cli::Keeping::in_memory, desk_clock);
  press(call, "bloated1");
  auto const screen = plain_text(call_view(call, {80, 24}, cli::Letters::unicode));
  EXPECT_EQ(fenced_blocks(source_file("docs/call.md"), "screen"), std::vector<std::string>{screen})
      << screen;
}

}  // namespace
}  // namespace flinch::test
