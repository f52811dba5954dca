// What conditions come to on what is known, and the answers behind it, on conditions that can be
// worked out by hand.
#include "flinch/assess/evaluator.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

std::string const words = yes_or_no_signs({"a", "b", "c", "d"}) + R"(
means both: a and b
cause grave "Grave"
  affects elbow
  base 50 per 1000
  see now
  because "x"
  cite judgement
rule ages "Age"
  over age: under 1 year, 1 to 7 years, over 7 years
  usual 50 40 10
  in grave 20 64 16
  because "x"
  cite judgement
)";

struct Held {
  explicit Held(std::string const& condition, std::string const& yaml)
      : pack(pack_of(words + "alarm it \"it\"\n  if " + condition +
                     "\n  see now\n  because \"x\"\n  cite judgement\n")),
        tables(pack),
        result(Assessor(tables).assess(case_of(*pack, yaml))),
        evaluator(tables, result.knowledge) {}

  [[nodiscard]] Condition const& condition() const { return pack->alarms.front().condition; }
  [[nodiscard]] SignId sign(std::string const& name) const {
    for (std::uint32_t i = 0; i < pack->signs.size(); ++i)
      if (pack->signs[i].name == name) return SignId{i};
    throw std::out_of_range(name);
  }
  [[nodiscard]] std::string behind() const {
    std::string out;
    for (auto const one : evaluator.behind(condition())) out += (*pack)[one].name;
    return out;
  }

  std::shared_ptr<Pack const> pack;
  Tables tables;
  Assessment result;
  Evaluator evaluator;
};

struct Row {
  char const* condition;
  char const* answers;
  Truth truth;
  char const* behind;
};

TEST(Evaluator, TellsTheTruthAndWhoseAnswersMadeItSo) {
  using enum Truth;
  for (auto const& row : {
           Row{"a or b", "{a: yes, b: no}", yes, "a"},
           Row{"a or b", "{a: yes, b: yes}", yes, "ab"},
           Row{"a or b", "{a: no, b: no}", no, "ab"},
           Row{"a and b", "{a: yes, b: no}", no, "b"},
           Row{"a and b", "{a: no}", no, "a"},
           Row{"not (a and b)", "{a: no}", yes, "a"},
           Row{"at least 2 of (a, b, c)", "{a: yes, b: no, c: yes}", yes, "ac"},
           Row{"at least 2 of (a, b, c)", "{a: no, b: no, c: yes}", no, "ab"},
           Row{"both or c", "{a: yes, b: yes}", yes, "ab"},
           // What is pending: not what is under a part that is decided.
           Row{"a and b", "{a: yes}", unknown, "b"},
           Row{"(a and b) or (c and d)", "{a: no}", unknown, "cd"},
           Row{"not both", "{b: yes}", unknown, "a"},
           Row{"at least 2 of (a, b, c)", "{a: no}", unknown, "bc"},
           Row{"a and b", "{a: \"can't tell\"}", unknown, "ab"},
       }) {
    Held const held(row.condition, std::string("answers: ") + row.answers + "\n");
    EXPECT_EQ(held.evaluator.truth(held.condition()), row.truth) << row.condition << row.answers;
    EXPECT_EQ(held.behind(), row.behind) << row.condition << row.answers;
    EXPECT_EQ(held.evaluator.tree(held.condition()).truth, row.truth) << row.condition;
    EXPECT_EQ(held.result.truth(AlarmId{0}), row.truth) << row.condition << row.answers;
    EXPECT_EQ(held.result.judgement.has_fired(AlarmId{0}), row.truth == yes) << row.condition;
  }
}

TEST(Evaluator, SupposesOneAnswerAndLeavesTheRest) {
  Held const held("(a and not b) or c", "answers: {a: yes, c: no}\n");
  auto const b = held.sign("b");
  EXPECT_EQ(held.evaluator.truth_if(held.condition(), b, Truth::no), Truth::yes);
  EXPECT_EQ(held.evaluator.truth_if(held.condition(), b, Truth::yes), Truth::no);
  EXPECT_EQ(held.evaluator.truth_if(held.condition(), held.sign("a"), Truth::no), Truth::no);
  EXPECT_EQ(held.evaluator.truth(held.condition()), Truth::unknown);
}

TEST(Evaluator, ATreeShowsEachPart) {
  Held const held("both or not c", "answers: {a: yes, b: no}\n");
  auto const tree = held.evaluator.tree(held.condition());
  ASSERT_EQ(tree.parts.size(), 2U);
  EXPECT_EQ(tree.parts[0].truth, Truth::no);
  ASSERT_EQ(tree.parts[0].parts.size(), 1U);  // what the meaning says
  EXPECT_EQ(tree.parts[0].parts[0].parts[1].truth, Truth::no);
  EXPECT_EQ(tree.parts[1].truth, Truth::unknown);
  EXPECT_EQ(tree.truth, Truth::unknown);
}

TEST(Evaluator, ARuleOverBandsHangsOnItsSign) {
  Held const held("a", "dog: {age: 3 years}\n");
  auto const& rule = held.pack->rules.front();
  EXPECT_EQ(held.evaluator.behind(rule), std::vector{patient_sign::age});
  EXPECT_EQ(held.evaluator.truth(rule.bands[0].test), Truth::no);
  EXPECT_EQ(held.evaluator.truth(rule.bands[1].test), Truth::yes);
}

TEST(Knowledge, KeepsWhatIsKnownApartFromWhatCannotBeTold) {
  Held const held("a", "dog: {age: 3 years}\nanswers: {a: \"can't tell\", b: no}\n");
  auto const& knowledge = held.result.knowledge;
  EXPECT_EQ(knowledge.number(patient_sign::age), 3.0);
  EXPECT_EQ(knowledge.number(patient_sign::weight), std::nullopt);
  EXPECT_EQ(knowledge.number(held.sign("b")), std::nullopt);
  EXPECT_TRUE(knowledge.could_not_be_told(held.sign("a")));
  EXPECT_FALSE(knowledge.could_not_be_told(held.sign("b")));
  EXPECT_FALSE(knowledge.could_not_be_told(held.sign("c")));
  ASSERT_NE(knowledge.find(held.sign("b")), nullptr);
  EXPECT_EQ(knowledge.find(held.sign("a")), nullptr);
}

// Of a thousand dogs 50 have it, 100 none of the listed; the band is 64 / 40 times as frequent in
// it: 50 * 1.6 = 80 against 100.
TEST(Assessment, TellsOfOneCauseAndOneRule) {
  Held const held("a", "dog: {age: 3 years}\nanswers: {b: yes}\n");
  CauseId const grave{0};
  EXPECT_EQ(held.result.place(std::nullopt), 0U);
  EXPECT_EQ(held.result.place(grave), 1U);
  EXPECT_EQ(held.result.ranked(grave).cause, grave);
  EXPECT_NEAR(held.result.judgement.posterior(grave), 80.0 / 180, 1e-12);
  EXPECT_NEAR(held.result.judgement.posterior(std::nullopt), 100.0 / 180, 1e-12);
  RuleId const ages{0};
  ASSERT_NE(held.result.find(ages), nullptr);
  EXPECT_EQ(held.result.find(ages)->band, 1U);
  ASSERT_EQ(held.result.contributions_of(ages).size(), 1U);
  EXPECT_EQ(held.result.contributions_of(ages)[0].cause, grave);
  Held const bare("a", "answers: {b: yes}\n");
  EXPECT_EQ(bare.result.find(ages), nullptr);
  EXPECT_EQ(bare.result.truth(ages), Truth::unknown);
  EXPECT_TRUE(bare.result.contributions_of(ages).empty());
}

}  // namespace
}  // namespace flinch::test
