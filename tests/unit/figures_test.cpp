// What stands behind each figure of a pack, and which judged ones weigh too much.
#include "flinch/explain/figures.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "flinch/explain/source_subjects.hpp"
#include "support/small_pack.hpp"

namespace flinch {
namespace {

char const* const text = R"(
source counts
  text "A count"
  read abstract
sign limp "limp"
  ask "?"
  answer yes or no
  seen by anyone
sign drawer "drawer"
  ask "?"
  answer yes or no
  seen by clinic
cause torn "Torn ligament"
  affects elbow
  base 10 per 1000
  see watch
  because "x"
  cite judgement
cause fear "Fear"
  base 10 per 1000
  see watch
  because "x"
  cite judgement
rule limps "Limps"
  if limp
  usual 10%
  in torn 90% of 40 from counts, fear 51%
  because "x"
  cite judgement
rule draws "Drawer"
  if drawer
  usual 2%
  in torn 39%, fear 45% derived from counts
  because "x"
  cite judgement
rule either "Limp or drawer"
  if limp or drawer
  usual 10%
  in torn 49%, fear 60%
  because "x"
  cite judgement
)";

TEST(Figures, AreCountedDerivedOrJudgedByBodyRegion) {
  auto const pack = test::pack_of(text);
  auto const counts = count_figures(*pack);
  ASSERT_EQ(counts.size(), 2U);
  auto const& leg = counts.at("front leg");
  EXPECT_EQ(leg.counted, 1U);
  EXPECT_EQ(leg.derived, 0U);
  EXPECT_EQ(leg.judged, 2U);
  auto const& whole = counts.at("the whole dog");
  EXPECT_EQ(whole.counted, 0U);
  EXPECT_EQ(whole.derived, 1U);
  EXPECT_EQ(whole.judged, 2U);
}

// Beyond five: fear in `limps` (5.1) and in `either` (6), where looking on is enough. Not the
// counted 9, not torn in `draws` (19.5, by hands), not the derived 22.5, not 4.9.
TEST(Figures, JudgedCluesBeyondTheirLimitAreListedStrongestFirst) {
  auto const pack = test::pack_of(text);
  auto const clues = strong_clues(*pack);
  ASSERT_EQ(clues.size(), 2U);
  EXPECT_EQ((*pack)[clues[0].rule].name, "either");
  EXPECT_NEAR(clues[0].ratio, 6, 1e-12);
  EXPECT_EQ((*pack)[clues[1].rule].name, "limps");
  EXPECT_EQ((*pack)[clues[1].cause].name, "fear");
  EXPECT_FALSE(clues[1].takes_hands);
}

TEST(SourceSubjects, ASourceOfOneCauseIsNoReasonAtAnother) {
  auto const pack = test::pack_of(std::string(text) + R"(
source handbook
  text "A handbook"
  read abstract
rule told "Told"
  if limp and drawer
  usual 10%
  in torn 49%, fear 60%
  because "x"
  cite counts_torn, handbook
source counts_torn
  text "A series of torn ligaments"
  read abstract
rule stiff "Stiff"
  if not limp
  usual 10%
  in torn 40% of 30 from counts_torn
  because "x"
  cite judgement
)");
  SourceSubjects const subjects(*pack);
  auto const id_of = [](auto const& things, std::string_view name) {
    auto const found = std::find_if(things.begin(), things.end(),
                                    [&](auto const& thing) { return thing.name == name; });
    return static_cast<std::uint32_t>(found - things.begin());
  };
  auto const names = [&](char const* rule, char const* cause) {
    std::string out;
    for (auto const source :
         subjects.at(RuleId{id_of(pack->rules, rule)}, CauseId{id_of(pack->causes, cause)}))
      out += (*pack)[source].name + " ";
    return out;
  };
  EXPECT_EQ(names("told", "torn"), "counts_torn handbook ");
  EXPECT_EQ(names("told", "fear"), "handbook ");
  EXPECT_EQ(names("stiff", "torn"), "counts_torn judgement ");
}

}  // namespace
}  // namespace flinch
