// Audits of a small pack, each figure worked out by hand.
#include "flinch/audit/audit.hpp"

#include <gtest/gtest.h>

#include "support/small_pack.hpp"

namespace flinch {
namespace {

std::shared_ptr<Pack const> pack() {
  static auto const made = test::pack_of(test::yes_or_no_signs({"retching", "lame"}) + R"(
cause torsion "Torsion"
  base 10 per 1000
  see now
  because "x"
  cite judgement
cause sprain "Sprain"
  base 100 per 1000
  see watch
  because "x"
  cite judgement
rule retches "Retches"
  if retching
  usual 5%
  in torsion 80%
  because "x"
  cite judgement
rule limps "Limps"
  if lame
  usual 5%
  in sprain 90%
  because "x"
  cite judgement
alarm retching_and_lame "Retching and lame"
  if retching and lame
  see now
  because "x"
  cite judgement
)");
  return made;
}

NamedCase named(std::string const& name, std::string const& yaml) {
  return {name, test::case_of(*pack(), yaml)};
}

Audit run(std::vector<NamedCase> const& cases) { return audit(Tables(pack()), cases); }

TEST(Audit, CountsTierNeededAgainstTierGiven) {
  auto const result = run({
      named("as needed", "answers: {retching: yes}\noutcome: {needed: now, cause: torsion}"),
      named("too low", "answers: {lame: yes}\noutcome: {needed: now, cause: torsion}"),
      named("too high", "answers: {retching: yes, lame: yes}\noutcome: {needed: soon}"),
      named("open", "answers: {lame: yes}"),
  });
  EXPECT_EQ(result.cases, 3U);
  EXPECT_EQ(result.left_open, 1U);
  EXPECT_EQ(result.triage.cells, (GradeTable{{1, 0, 1}, {1, 0, 0}, {0, 0, 0}}));
  EXPECT_EQ(result.triage.exact.count, 1U);
  EXPECT_EQ(result.triage.under.count, 1U);
  EXPECT_EQ(result.triage.over.count, 1U);
  EXPECT_EQ(result.triage.under.of, 3U);
  EXPECT_EQ(result.hits.first.of, 2U) << "the third has no known cause";
  EXPECT_EQ(result.hits.first.count, 1U);
}

TEST(Audit, SilenceCountsAsTheLeastUrgentTier) {
  auto const result = run({named("silent", "outcome: {needed: soon}")});
  EXPECT_EQ(result.triage.without_tier, 1U);
  EXPECT_EQ(result.triage.cells[1][2], 1U);
  EXPECT_EQ(result.triage.under.count, 1U);
  ASSERT_EQ(result.misses.size(), 1U);
  EXPECT_FALSE(result.misses[0].given);
}

TEST(Audit, ARankingThatIsNotShownHitsNothing) {
  // None of the listed causes stands first by its base rate alone.
  auto const result = run({named("nothing said", "outcome: {cause: none}")});
  EXPECT_EQ(result.hits.first.of, 1U);
  EXPECT_EQ(result.hits.first.count, 0U);
  EXPECT_EQ(result.hits.top_three.count, 0U);
}

TEST(Audit, TheWorstMissStandsFirstAndSaysWhy) {
  auto const result = run({
      named("wrong cause", "answers: {retching: yes}\noutcome: {needed: now, cause: sprain}"),
      named("seen too late", "answers: {lame: yes}\noutcome: {needed: now, cause: torsion}"),
      named("right", "answers: {lame: yes}\noutcome: {needed: watch, cause: sprain}"),
  });
  ASSERT_EQ(result.misses.size(), 2U);
  EXPECT_EQ(result.misses[0].name, "seen too late");
  EXPECT_EQ(result.misses[0].tiers_too_low, 2U);
  EXPECT_EQ(result.misses[1].name, "wrong cause");
  auto const& why = result.misses[0].why;
  EXPECT_NE(why.find("Sprain was preferred"), std::string::npos) << why;
  EXPECT_NE(why.find("Limps (strongly for)"), std::string::npos) << why;
  EXPECT_NE(why.find("no alarm asked for \"Now\""), std::string::npos) << why;
}

TEST(Audit, AnAlarmRanksAboveEveryChance) {
  // By the chance alone the dog with the alarm stands below the one that only retches.
  auto const result = run({
      named("alarm", "answers: {retching: yes, lame: yes}\noutcome: {needed: now}"),
      named("retching", "answers: {retching: yes, lame: no}\noutcome: {needed: soon}"),
  });
  EXPECT_EQ(result.now_area.value(), 0);
  EXPECT_EQ(result.now_area_with_alarms.value(), 1);
}

TEST(Audit, ByCauseFollowsThePackAndNoneComesLast) {
  auto const result = run({
      named("a", "answers: {lame: no, retching: no}\noutcome: {cause: none, needed: watch}"),
      named("b", "answers: {lame: yes}\noutcome: {cause: sprain, needed: watch}"),
      named("c", "answers: {retching: yes}\noutcome: {cause: torsion, needed: now}"),
  });
  ASSERT_EQ(result.by_cause.size(), 3U);
  EXPECT_EQ(result.by_cause[0].cause, CauseId{0});
  EXPECT_EQ(result.by_cause[1].cause, CauseId{1});
  EXPECT_FALSE(result.by_cause[2].cause);
  EXPECT_EQ(result.by_cause[2].hits.first.count, 0U) << "nothing was told to rank by";
  EXPECT_TRUE(result.misses.empty());
}

}  // namespace
}  // namespace flinch
