#include "flinch/audit/compare.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "support/small_pack.hpp"

namespace flinch {
namespace {

// A pack of one alarm and two rules, its figures open.
std::shared_ptr<Pack const> pack(std::string const& retching, std::string const& alarm_sign,
                                 std::string const& base = "100") {
  return test::pack_of(test::yes_or_no_signs({"retching", "lame", "pale"}) + R"(
cause torsion "Torsion"
  base 10 per 1000
  see now
  because "x"
  cite judgement
cause sprain "Sprain"
  base )" + base + R"( per 1000
  see watch
  because "x"
  cite judgement
rule retches "Retches"
  if retching
  usual 5%
  in torsion )" + retching +
                       R"(%
  because "x"
  cite judgement
rule limps "Limps"
  if lame
  usual 5%
  in sprain 90%
  because "x"
  cite judgement
alarm danger "Danger"
  if )" + alarm_sign + R"(
  see now
  because "x"
  cite judgement
)");
}

Comparison run(std::shared_ptr<Pack const> const& before, std::shared_ptr<Pack const> const& after,
               std::vector<std::string> const& patients) {
  std::vector<CasePair> pairs;
  for (std::size_t i = 0; i < patients.size(); ++i)
    pairs.push_back({std::to_string(i), test::case_of(*before, patients[i]),
                     test::case_of(*after, patients[i])});
  return compare(Tables(before), Tables(after), pairs);
}

TEST(Compare, TheSamePackMovesNothing) {
  auto const same = pack("80", "pale");
  auto const result = run(same, same, {"answers: {retching: yes}", "answers: {pale: yes}"});
  EXPECT_EQ(result.cases, 2U);
  EXPECT_TRUE(result.movements.empty());
}

TEST(Compare, AFigureThatFellExplainsTheDogSeenLater) {
  auto const result = run(pack("80", "pale"), pack("2", "pale"),
                          {"answers: {lame: yes}", "answers: {retching: yes, lame: no}"});
  ASSERT_EQ(result.movements.size(), 1U);
  EXPECT_EQ(result.later, 1U);
  auto const& moved = result.movements[0];
  EXPECT_EQ(moved.name, "1");
  EXPECT_EQ(moved.before.tier, "now");
  EXPECT_EQ(moved.after.tier, "watch");
  EXPECT_EQ(moved.steps_later, 2);
  ASSERT_FALSE(moved.why.empty());
  EXPECT_EQ(moved.why[0].kind, Difference::Kind::rule);
  EXPECT_EQ(moved.why[0].name, "retches");
  EXPECT_EQ(moved.why[0].cause, "torsion");
  EXPECT_NEAR(moved.why[0].before, std::log(0.8 / 0.05), 1e-12);
  EXPECT_NEAR(moved.why[0].after, std::log(0.02 / 0.05), 1e-12);
}

TEST(Compare, AnAlarmThatIsGoneComesBeforeTheRules) {
  auto const result =
      run(pack("80", "pale"), pack("79", "pale and lame"), {"answers: {pale: yes}"});
  ASSERT_EQ(result.movements.size(), 1U);
  EXPECT_EQ(result.movements[0].why.at(0).kind, Difference::Kind::alarm);
  EXPECT_EQ(result.movements[0].why[0].before, 1);
  EXPECT_EQ(result.movements[0].why[0].after, 0);
}

TEST(Compare, DogsSeenTooLateStandOnTop) {
  auto const before = pack("80", "pale");
  auto const after = pack("2", "lame");
  auto const result = run(before, after,
                          {"answers: {lame: yes}",                                // sooner
                           "answers: {retching: yes}\noutcome: {needed: watch}",  // later, fine
                           "answers: {retching: yes}\noutcome: {needed: now}"});  // too late
  ASSERT_EQ(result.movements.size(), 3U);
  EXPECT_EQ(result.movements[0].name, "2");
  EXPECT_TRUE(result.movements[0].is_under_triaged);
  EXPECT_EQ(result.movements[1].name, "1");
  EXPECT_FALSE(result.movements[1].is_under_triaged);
  EXPECT_EQ(result.movements[2].name, "0");
  EXPECT_LT(result.movements[2].steps_later, 0);
}

TEST(Compare, ABaseRateThatGrewExplainsAnotherFirstCause) {
  auto const result = run(pack("80", "pale", "90"), pack("80", "pale", "900"),
                          {"answers: {pale: no}\noutcome: {cause: none}"});
  ASSERT_EQ(result.movements.size(), 1U);
  auto const& moved = result.movements[0];
  EXPECT_EQ(moved.before.first, "");
  EXPECT_EQ(moved.after.first, "sprain");
  EXPECT_TRUE(moved.lost_true_cause);
  EXPECT_EQ(moved.why.at(0).kind, Difference::Kind::base);
  EXPECT_EQ(moved.why[0].name, "sprain");
}

}  // namespace
}  // namespace flinch
