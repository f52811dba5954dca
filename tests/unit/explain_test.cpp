// Explanations of small cases that can be checked by eye.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "flinch/assess/uncertainty.hpp"
#include "flinch/explain/cause.hpp"
#include "flinch/explain/condition.hpp"
#include "flinch/explain/contrast.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/explain/rule.hpp"
#include "flinch/explain/what_if.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

char const* const legs = R"(
sign limp "limp"
  ask "?"
  answer yes or no
  seen by anyone
sign tender "tender"
  ask "?"
  answer sites
  seen by hands
sign fever "fever"
  ask "?"
  answer yes or no
  seen by clinic
sign pale "pale"
  ask "?"
  answer yes or no
  seen by anyone
cause worn "Worn joints"
  affects elbow
  base 100 per 1000
  see watch
  because "x"
  cite judgement
cause germs "Germs"
  affects elbow
  base 100 per 1000
  see soon
  because "x"
  cite judgement
rule both "Both elbows"
  if tender at left elbow and tender at right elbow
  usual 10%
  in worn 60%
  because "x"
  cite judgement
rule old "Old and limping"
  if limp and age >= 8 years
  usual 10%
  in worn 50%
  because "x"
  cite judgement
rule hot "Fever"
  if fever
  usual 1%
  in germs 90%
  because "x"
  cite judgement
rule lame "Limp"
  if limp
  usual 30%
  in worn 60%, germs 70%
  because "x"
  cite judgement
alarm bled "Pale"
  if pale
  see now
  because "x"
  cite judgement
alarm burning "Fever and limp"
  if fever and limp
  see now
  because "x"
  cite judgement
)";

struct Fixture {
  std::shared_ptr<Pack const> pack = pack_of(legs);
  Tables tables{pack};
  Assessor assessor{tables};
  Case patient;
  explicit Fixture(std::string const& yaml) : patient(case_of(*pack, yaml)) {}

  std::vector<std::string> ways(std::uint32_t rule) {
    std::vector<std::string> out;
    for (auto const& way : explain_rule(tables, assessor, patient, RuleId{rule}).ways) {
      std::string text;
      for (auto const& change : way.changes)
        text += (text.empty() ? "" : "; ") + change_text(*pack, change);
      out.push_back(text);
    }
    return out;
  }
  std::vector<SignId> other_facts(std::uint32_t rule) {
    return explain_rule(tables, assessor, patient, RuleId{rule}).other_facts;
  }
};

using Texts = std::vector<std::string>;

TEST(Explain, SeveralSitesOfOneSignCanMakeARuleFire) {
  EXPECT_EQ(Fixture("answers: {limp: no}").ways(0), Texts{"tender: left elbow, right elbow"});
  EXPECT_EQ(Fixture("answers: {tender: {found: [left elbow]}}").ways(0),
            Texts{"tender: left elbow, right elbow"});
}

TEST(Explain, FactsOfTheDogThatAreNotKnownCanMakeARuleFire) {
  auto const ways = Fixture("answers: {limp: yes}").ways(1);
  ASSERT_EQ(ways.size(), 1U);
  EXPECT_EQ(ways.front().substr(0, 5), "age: ");
}

TEST(Explain, OnlyAnotherDogWouldWhereAKnownFactStandsInTheWay) {
  Fixture young("dog: {age: 1 year}\nanswers: {limp: no}");
  EXPECT_TRUE(young.ways(1).empty());
  EXPECT_EQ(young.other_facts(1), std::vector{patient_sign::age});
  Fixture old("dog: {age: 9 years}\nanswers: {limp: no}");
  EXPECT_EQ(old.ways(1), Texts{"limp: yes"});
  EXPECT_TRUE(old.other_facts(1).empty());
}

TEST(Explain, SmallestChangesComeHighestFirstThenEasiest) {
  Fixture f("answers: {limp: yes, tender: no}");
  auto const found = smallest_changes(f.tables, f.assessor, f.patient);
  Texts higher;
  for (auto const& set : found.higher_tier)
    higher.push_back(change_text(*f.pack, set.changes.front()));
  // Both lead to `now`; what anyone sees stands before what takes a clinic.
  ASSERT_GE(higher.size(), 2U);
  EXPECT_EQ(higher[0], "pale: yes");
  EXPECT_EQ(higher[1], "fever: yes");
}

TEST(Explain, SmallestChangesTellSitesThatOneConditionAsksForTogether) {
  Fixture f("answers: {limp: no, pale: yes}");
  auto const found = smallest_changes(f.tables, f.assessor, f.patient, 100);
  bool is_found = false;
  for (auto const& set : found.other_first)
    is_found = is_found || (set.changes.size() == 1 && change_text(*f.pack, set.changes.front()) ==
                                                           "tender: left elbow, right elbow");
  EXPECT_TRUE(is_found);
}

TEST(Explain, NoneOfTheListedCausesMovesAsTheOthersDo) {
  Fixture f("answers: {fever: yes}");
  auto const result = f.assessor.assess(f.patient);
  auto const why = explain_cause(f.tables, result, std::nullopt);
  EXPECT_TRUE(why.weights.empty());
  EXPECT_LT(why.numbers.posterior, why.numbers.prior);
  EXPECT_NEAR(std::exp(why.log_prior - why.log_scale), why.numbers.posterior, 1e-12);
  auto const c = contrast(f.tables, result, CauseId{1}, std::nullopt);
  EXPECT_NEAR(c.total, std::log(90), 1e-12);  // 90% against 1%, equal bases
  EXPECT_EQ(c.rules.size(), 1U);
}

TEST(Explain, WhatIsLikelyToTellStandsBeforeWhatWouldWeighMore) {
  // A limp tells of worn joints either way; a fever would only speak of germs, and hardly comes.
  Fixture f("answers: {pale: no}");
  auto const result = f.assessor.assess(f.patient);
  auto const c = contrast(f.tables, result, CauseId{0}, std::nullopt);
  ASSERT_GE(c.open.size(), 2U);
  for (std::size_t i = 1; i < c.open.size(); ++i) EXPECT_GE(c.open[i - 1].bits, c.open[i].bits);
  auto const about_germs = explain_cause(f.tables, result, CauseId{1}).open;
  ASSERT_EQ(about_germs.size(), 2U);
  EXPECT_EQ((*f.pack)[about_germs.front().rule].name, "hot");
}

TEST(Explain, WeightsThatShowAsZeroSpeakNeitherWay) {
  EXPECT_EQ(weight_in_words(0), "neither way");
  EXPECT_EQ(weight_in_words(0.011), "neither way");      // 0.048 dB
  EXPECT_EQ(weight_in_words(-0.012), "barely against");  // 0.052 dB
}

TEST(Explain, ContradictionsAreToldByName) {
  auto const pack = pack_of(R"(
sign whole "the whole"
  ask "?"
  answer yes or no
  seen by anyone
sign part "the part"
  ask "?"
  answer yes or no
  seen by anyone
  part of whole
cause c "c"
  affects elbow
  base 10 per 1000
  see watch
  because "x"
  cite judgement
rule r "r"
  if part
  usual 10%
  in c 60%
  because "x"
  cite judgement
)");
  auto const result = assess(pack, "answers: {whole: no, part: yes}");
  ASSERT_EQ(result.judgement.contradictions.size(), 1U);
  EXPECT_EQ(contradiction_text(*pack, result.judgement.contradictions.front()),
            "Yes to \"the part\", no to \"the whole\", which includes it.");
}

TEST(Explain, ChancesOnTheEdgeAreReachedOrMissedOnlyJust) {
  Fixture f("answers: {fever: yes}");
  auto const result = f.assessor.assess(f.patient);
  Uncertainty const uncertainty(f.tables, result);
  // `now` has no cause; `soon` is certain enough: germs at 98% where 20% is enough.
  EXPECT_FALSE(uncertainty.is_only_just(TierId{0}));
  EXPECT_FALSE(uncertainty.is_only_just(TierId{1}));
  EXPECT_FALSE(uncertainty.is_only_just(TierId{2}));  // without a threshold
  Fixture edge("answers: {limp: no}");
  auto const near = edge.assessor.assess(edge.patient);
  EXPECT_TRUE(Uncertainty(edge.tables, near).is_only_just(TierId{1}));
}

// As the pack says it: a fraction of a year is for no reader.
TEST(Explain, AnAgeUnderAYearIsToldInMonthsOrWeeks) {
  for (auto const& [written, told] : {std::pair{"age under 7 months", "age under 7 months"},
                                      {"age under 10 weeks", "age under 10 weeks"},
                                      {"age over 8 years", "age over 8 years"}}) {
    auto const pack =
        pack_of(std::string("sign fits \"fits\"\n  ask \"Does it fit?\"\n  answer yes or no\n"
                            "  seen by anyone\nalarm x \"X\"\n  if fits and ") +
                written + "\n  see now\n  because \"It fits.\"\n  cite judgement\n");
    EXPECT_EQ(test_text(*pack, pack->alarms.front().condition.parts.back().test), told);
  }
}

}  // namespace
}  // namespace flinch::test
