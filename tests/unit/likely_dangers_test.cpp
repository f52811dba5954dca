#include "flinch/explain/likely_dangers.hpp"

#include <gtest/gtest.h>

#include "flinch/explain/ladder.hpp"
#include "support/small_pack.hpp"

namespace flinch {
namespace {

using test::case_of;
using test::pack_of;

std::string sign(std::string const& name) {
  return "sign " + name + " \"" + name + "\"\n  ask \"?\"\n  answer yes or no\n  seen by anyone\n";
}

std::string rule(std::string const& name, std::string const& of, std::string const& in) {
  return "rule " + name + " \"" + name + "\"\n  if " + of + "\n  usual 10%\n  in " + in +
         "\n  because \"x\"\n  cite judgement\n";
}

std::string cause(std::string const& name, std::string const& base) {
  return "cause " + name + " \"" + name + "\"\n  base " + base +
         " per 1000\n  see now\n  because \"x\"\n  cite judgement\n";
}

std::string alarm(std::string const& name, std::string const& of) {
  return "alarm " + name + " \"" + name + "\"\n  if " + of +
         "\n  see now\n  because \"x\"\n  cite judgement\n";
}

// Two dangers of one tier; `hint` makes the second cause the likelier.
std::shared_ptr<Pack const> two_dangers(std::string const& base = "5") {
  return pack_of(sign("early") + sign("late") + sign("hint") + sign("other") +
                 cause("first", base) + cause("second", base) +
                 rule("early_rule", "early", "first 50%") +
                 rule("late_rule", "late", "second 50%") + rule("hint_rule", "hint", "second 90%") +
                 rule("other_rule", "other", "first 20%") + alarm("early_alarm", "early") +
                 alarm("late_alarm", "late"));
}

std::vector<std::string> order(Pack const& pack, std::vector<OpenQuestion> const& questions) {
  std::vector<std::string> out;
  for (auto const& one : questions) out.push_back(pack[one.sign].name);
  return out;
}

TEST(LikelyDangers, ComeFirstWhereTheAnswersPointToThem) {
  // Too rare for the ranking to ask for the tier by itself.
  auto const pack = two_dangers("0.1");
  Tables const tables(pack);
  Assessor assessor(tables);
  auto const nothing = assessor.assess(case_of(*pack, "answers: {}"));
  EXPECT_EQ(order(*pack, likely_dangers(tables, nothing)),
            (std::vector<std::string>{"early", "late"}));
  auto const hinted = assessor.assess(case_of(*pack, "answers: {hint: yes}"));
  EXPECT_EQ(order(*pack, likely_dangers(tables, hinted)),
            (std::vector<std::string>{"late", "early"}));
}

// The chance told is what comes out when the answer is given.
TEST(LikelyDangers, ChanceIsThatOfTheAnswerGiven) {
  auto const pack = two_dangers();
  Tables const tables(pack);
  Assessor assessor(tables);
  auto const before = assessor.assess(case_of(*pack, "answers: {hint: yes}"));
  auto const after = assessor.assess(case_of(*pack, "answers: {hint: yes, late: yes}"));
  EXPECT_NEAR(chance_if_found(tables, before, *pack->find_sign("late"), TierId{0}),
              test::posterior(*pack, after, "second"), 1e-12);
  EXPECT_EQ(chance_if_found(tables, after, *pack->find_sign("late"), TierId{0}), 0)
      << "it is answered";
}

TEST(Ladder, NamesTheStrongestOfWhatSpeaksForOthers) {
  auto const pack = two_dangers();
  Tables const tables(pack);
  Assessor assessor(tables);
  auto const result =
      assessor.assess(case_of(*pack, "answers: {early: yes, late: yes, hint: yes, other: yes}"));
  auto const rungs = ladder(tables, result, result.ranking.front().cause.value());
  auto const& cause = (*pack)[*result.ranking.front().cause].name;
  ASSERT_EQ(cause, "second");
  auto const& last = rungs.back();
  ASSERT_EQ(last.strongest.size(), 2U);
  EXPECT_EQ((*pack)[last.strongest[0].rule].name, "early_rule");
  EXPECT_EQ((*pack)[last.strongest[1].rule].name, "other_rule");
  EXPECT_NEAR(last.probability, result.ranking.front().posterior, 1e-12);
}

}  // namespace
}  // namespace flinch
