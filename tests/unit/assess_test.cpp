#include "flinch/assess/assessment.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "support/small_pack.hpp"

namespace flinch {
namespace {

using test::assess;
using test::pack_of;
using test::posterior;
using test::tier_name;

std::string const words = test::yes_or_no_signs({"a", "b"}) + R"(
sign breathing "trouble breathing"
  ask "?"
  answer yes or no
  seen by anyone
sign noisy "noisy breathing"
  ask "?"
  answer yes or no
  part of breathing
  seen by anyone
sign only_male "straining male"
  ask "?"
  answer yes or no
  applies if sex is male
  seen by anyone
sign tender "tender"
  ask "?"
  answer sites
  seen by hands
sign appetite "appetite"
  ask "?"
  answer steps normal, less, nothing
  seen by anyone
cause grave "Grave"
  base 10 per 1000
  see now
  because "x"
  cite judgement
cause mild "Mild"
  base 90 per 1000
  see watch
  because "x"
  cite judgement
)";

std::string rule(std::string const& name, std::string const& condition, std::string const& rest) {
  return "rule " + name + " \"" + name + "\"\n  if " + condition + "\n" + rest +
         "  because \"x\"\n  cite judgement\n";
}
std::string alarm(std::string const& name, std::string const& condition, std::string const& tier) {
  return "alarm " + name + " \"" + name + "\"\n  if " + condition + "\n  see " + tier +
         "\n  because \"x\"\n  cite judgement\n";
}

TEST(Ranking, PriorsAreTheBasesScaledToOne) {
  auto const pack = pack_of(words);
  auto const result = assess(pack, "answers:\n");
  EXPECT_DOUBLE_EQ(posterior(*pack, result, "grave"), 0.05);
  EXPECT_DOUBLE_EQ(posterior(*pack, result, "mild"), 0.45);
  EXPECT_DOUBLE_EQ(posterior(*pack, result, ""), 0.5);
}

// By hand: a true, p = 0.8, u = 0.1: odds of grave against each of the others times 8.
// 0.05 * 8 = 0.4; 0.4 / (0.4 + 0.45 + 0.5) = 0.4 / 1.35.
TEST(Ranking, ATrueConditionWeighsByFrequencyOverUsual) {
  auto const pack = pack_of(words + rule("r", "a", "  usual 10%\n  in grave 80%\n"));
  EXPECT_NEAR(posterior(*pack, assess(pack, "answers:\n  a: yes\n"), "grave"), 0.4 / 1.35, 1e-15);
  // False: times 0.2 / 0.9.
  auto const against = 0.05 * 0.2 / 0.9;
  EXPECT_NEAR(posterior(*pack, assess(pack, "answers:\n  a: no\n"), "grave"),
              against / (against + 0.95), 1e-15);
  EXPECT_DOUBLE_EQ(posterior(*pack, assess(pack, "answers:\n  a: can't tell\n"), "grave"), 0.05);
}

TEST(Ranking, FrequenciesAreHeldWithinTheLimits) {
  auto const pack = pack_of(words + rule("r", "a", "  usual 0%\n  in grave 100%\n"));
  auto const result = assess(pack, "answers:\n  a: yes\n");
  ASSERT_EQ(result.contributions.size(), 1U);
  EXPECT_DOUBLE_EQ(result.contributions[0].weight, std::log(0.995 / 0.005));
}

TEST(Ranking, BandsTakeThePlaceOfFrequencies) {
  auto const pack = pack_of(
      words +
      "rule r \"r\"\n  over age: under 1 year, 1 to 7 years, over 7 years\n  usual 20 50 30\n"
      "  in grave 10 30 60\n  because \"x\"\n  cite judgement\n");
  auto const weight = [&](std::string const& age) {
    auto const result = assess(pack, "dog: {age: " + age + "}\n");
    return result.contributions.at(0).weight;
  };
  EXPECT_DOUBLE_EQ(weight("11 months"), std::log(0.1 / 0.2));
  EXPECT_DOUBLE_EQ(weight("1 year"), std::log(0.3 / 0.5));
  EXPECT_DOUBLE_EQ(weight("84 months"), std::log(0.6 / 0.3));
  EXPECT_DOUBLE_EQ(weight("15 years"), std::log(0.6 / 0.3));
}

// By hand: three rules for grave with ratios 8, 4, 2 in an overlap of one half count
// ln 8 + ln 4 / 2 + ln 2 / 4; one against stands alone and counts in full.
TEST(Ranking, OverlapCountsTheStrongestInFullAndTheOthersLess) {
  auto const pack =
      pack_of(words + rule("weak", "a", "  usual 10%\n  in grave 20%\n") +
              rule("strong", "a or b", "  usual 10%\n  in grave 80%\n") +
              rule("middle", "a and not b", "  usual 10%\n  in grave 40%\n") +
              rule("contrary", "appetite is normal", "  usual 50%\n  in grave 25%\n") +
              "overlap o shares 50%: weak, strong, middle, contrary\n");
  auto const result = assess(pack, "answers:\n  a: yes\n  b: no\n  appetite: normal\n");
  auto const expected = std::log(8) + std::log(4) / 2 + std::log(2) / 4 - std::log(2);
  auto const grave =
      std::find_if(result.ranking.begin(), result.ranking.end(),
                   [&](Ranked const& r) { return r.cause && (*pack)[*r.cause].name == "grave"; });
  ASSERT_NE(grave, result.ranking.end());
  EXPECT_NEAR(grave->evidence, expected, 1e-14);
}

TEST(Tiers, TheThresholdIsReachedAtExactlyOneOverOnePlusHarm) {
  // Grave needs `now`, reached at 1/20: its prior is exactly that.
  auto const pack = pack_of(words + rule("r", "a", "  usual 10%\n  in mild 10%\n"));
  auto const result = assess(pack, "answers:\n  a: yes\n");
  EXPECT_EQ(tier_name(*pack, result.judgement.tier), "now");
  EXPECT_DOUBLE_EQ(result.judgement.tiers[0].probability, 0.05);
  EXPECT_FALSE(result.judgement.alarm_tier);
}

TEST(Tiers, OneSignToldIsEnoughAndGivesTheLowestAtLeast) {
  auto const pack = pack_of(words + rule("r", "a", "  usual 10%\n  in grave 60%\n"));
  auto const result = assess(pack, "answers:\n  a: no\n  b: yes\n");
  EXPECT_EQ(result.judgement.told_signs, 1U) << "no rule hangs on b, and yet it is there";
  EXPECT_EQ(result.judgement.tier, TierId{static_cast<std::uint32_t>(pack->tiers.size() - 1)});
}

TEST(Tiers, WithNothingToldTheBaseRatesSayNothing) {
  auto const pack = pack_of(words + rule("r", "a", "  usual 10%\n  in grave 20%\n"));
  for (auto const* answers :
       {"answers:\n", "dog: {age: 3 years, sex: male}\nanswers:\n  a: can't tell\n",
        "answers:\n  a: no\n  b: no\n"}) {
    auto const result = assess(pack, answers);
    EXPECT_TRUE(result.judgement.nothing_told) << answers;
    EXPECT_FALSE(result.judgement.tier) << answers;
    EXPECT_EQ(result.judgement.told_signs, 0U) << answers;
  }
}

TEST(Tiers, AnAlarmSetsItsTierEvenWithNothingTold) {
  auto const pack = pack_of(words + alarm("x", "age over 10 years", "soon"));
  auto const result = assess(pack, "dog: {age: 12 years}\nanswers:\n");
  EXPECT_EQ(tier_name(*pack, result.judgement.tier), "soon");
  EXPECT_TRUE(result.judgement.nothing_told);
}

std::string const mentioned_sign =
    "sign limp \"limp\"\n  ask \"?\"\n  answer sites\n  seen by anyone\n  mentioned 80%\n";

TEST(Silence, ASignThatIsUsuallyMentionedWeighsALittleWhenItIsNot) {
  auto const pack =
      pack_of(words + mentioned_sign + rule("r", "limp", "  usual 20%\n  in mild 70%\n") +
              rule("placed", "limp at elbow", "  usual 5%\n  in mild 50%\n"));
  auto const evidence = [&](char const* yaml) {
    for (auto const& ranked : assess(pack, yaml).ranking)
      if (ranked.cause && (*pack)[*ranked.cause].name == "mild") return ranked.evidence;
    return 0.0;
  };
  // ln((1 - 0.8 * 0.7) / (1 - 0.8 * 0.2)), from the first rule alone.
  EXPECT_NEAR(evidence("came for: [b]\nanswers: {b: yes}"), std::log(0.44 / 0.84), 1e-12);
  EXPECT_EQ(evidence("answers: {b: yes}"), 0) << "no complaint is known";
  EXPECT_EQ(evidence("came for: [b]\nanswers: {b: yes, limp: can't tell}"), 0) << "it was asked";
  EXPECT_NEAR(evidence("came for: [b]\nanswers: {b: yes, limp: yes}"), std::log(0.7 / 0.2), 1e-12);
}

TEST(Silence, ForAlarmsAndTiersWhatWasNotMentionedStaysUnknown) {
  auto const pack = pack_of(words + mentioned_sign + alarm("x", "limp and b", "soon") +
                            rule("r", "limp", "  usual 20%\n  in grave 99%\n"));
  auto const result = assess(pack, "came for: [b]\nanswers: {b: yes}");
  EXPECT_LT(posterior(*pack, result, "grave"), 0.02);
  EXPECT_DOUBLE_EQ(result.judgement.tiers.front().probability, 0.05);
  EXPECT_EQ(tier_name(*pack, result.judgement.tier), "now")
      << "1/20 is enough, and silence takes none of it";
  ASSERT_EQ(result.alarms.size(), 1U);
  EXPECT_EQ(result.alarms.front().truth, Truth::unknown);
}

TEST(Silence, TablesThatIgnoreItRankByTheAnswersAlone) {
  auto const pack =
      pack_of(words + mentioned_sign + rule("r", "limp", "  usual 20%\n  in mild 70%\n"));
  auto const patient = test::case_of(*pack, "came for: [b]\nanswers: {b: yes}");
  Tables const deaf(pack, Silence::ignored);
  EXPECT_DOUBLE_EQ(posterior(*pack, Assessor(deaf).assess(patient), "mild"), 0.45);
}

TEST(Tiers, TheCeilingIsTheHighestThatUnknownAnswersLeaveOpen) {
  auto const pack = pack_of(words + alarm("high", "a and b", "now") + alarm("low", "b", "soon"));
  EXPECT_EQ(tier_name(*pack, assess(pack, "answers:\n  b: no\n").judgement.ceiling), "none");
  EXPECT_EQ(tier_name(*pack, assess(pack, "answers:\n  a: no\n").judgement.ceiling), "soon");
  EXPECT_EQ(tier_name(*pack, assess(pack, "answers:\n").judgement.ceiling), "now");
}

TEST(FollowsFrom, ANoToTheWholeIsANoToItsParts) {
  auto const pack = pack_of(words);
  auto const result = assess(pack, "answers:\n  breathing: no\n");
  auto const* part = result.find(*pack->find_sign("noisy"));
  ASSERT_NE(part, nullptr);
  EXPECT_EQ(part->answer, Answer(false));
  EXPECT_EQ(part->origin, Origin::from_whole);
}

TEST(FollowsFrom, AYesToThePartIsAYesToTheWhole) {
  auto const pack = pack_of(words);
  auto const result = assess(pack, "answers:\n  noisy: yes\n");
  EXPECT_EQ(result.find(*pack->find_sign("breathing"))->answer, Answer(true));
}

TEST(FollowsFrom, ANoToAPartOrAYesToTheWholeSaysNothingOfTheOther) {
  auto const pack = pack_of(words);
  EXPECT_EQ(assess(pack, "answers:\n  noisy: no\n").find(*pack->find_sign("breathing")), nullptr);
  EXPECT_EQ(assess(pack, "answers:\n  breathing: yes\n").find(*pack->find_sign("noisy")), nullptr);
}

// Wholes and parts that say where, and such that do not, in each of the four pairings.
char const* const legs = R"(
sign lame "lame"
  ask "Is it lame, and on which leg?"
  answer sites in foreleg
  seen by anyone
sign carries "carries a leg"
  ask "Does it carry a leg, and which?"
  answer sites in foreleg
  part of lame
  seen by anyone
sign shifts "the lameness shifts"
  ask "?"
  answer yes or no
  part of lame
  seen by anyone
sign knuckles "knuckles"
  ask "?"
  answer sites in foreleg
  part of a
  seen by anyone
sign degree "how lame"
  ask "?"
  answer steps none, slight, bad
  applies if lame
  seen by anyone
)";

struct Follows {
  char const* answers;
  char const* sign;
  std::optional<Answer> answer;
};

TEST(FollowsFrom, WholesAndPartsMaySayWhere) {
  auto const pack = pack_of(words + legs);
  Answer const somewhere = Findings{true, false, {}, {}};
  Answer const nowhere = Findings{false, true, {}, {}};
  for (auto const& row :
       {Follows{"lame: no", "carries", nowhere}, Follows{"lame: no", "shifts", Answer(false)},
        Follows{"a: no", "knuckles", nowhere}, Follows{"lame: no", "degree", Answer(Choice{0})},
        Follows{"carries: yes", "lame", somewhere},
        Follows{"carries: {found: [left elbow]}", "lame", somewhere},
        Follows{"shifts: yes", "lame", somewhere},
        Follows{"knuckles: {found: [left elbow]}", "a", Answer(true)},
        Follows{"knuckles: yes", "a", Answer(true)},
        Follows{"lame: {clear: [left foreleg]}", "carries", std::nullopt},
        Follows{"lame: {found: [left foreleg]}", "carries", std::nullopt},
        Follows{"carries: no", "lame", std::nullopt},
        Follows{"carries: {clear: [left elbow]}", "lame", std::nullopt}}) {
    auto const result = assess(pack, fmt::format("answers: {{{}}}\n", row.answers));
    auto const* known = result.find(*pack->find_sign(row.sign));
    EXPECT_EQ(known == nullptr ? std::nullopt : std::optional(known->answer), row.answer)
        << row.answers << " and " << row.sign;
    EXPECT_TRUE(result.judgement.contradictions.empty());
  }
}

TEST(FollowsFrom, WhatWasSaidOfTheWholesPlaceStays) {
  auto const pack = pack_of(words + legs);
  auto const result =
      assess(pack, "answers: {lame: {found: [left elbow]}, carries: {found: [right foreleg]}}\n");
  auto const* whole = result.find(*pack->find_sign("lame"));
  EXPECT_EQ(whole->origin, Origin::given);
  EXPECT_EQ(std::get<Findings>(whole->answer).found.size(), 1U);
}

TEST(Contradictions, APartFoundSomewhereCountsAgainstAWholeFoundNowhere) {
  auto const pack = pack_of(words + legs + alarm("x", "lame", "now"));
  for (auto const* part : {"carries: yes", "carries: {found: [left elbow]}", "shifts: yes"}) {
    auto const result = assess(pack, fmt::format("answers: {{lame: no, {}}}\n", part));
    EXPECT_EQ(tier_name(*pack, result.judgement.tier), "now");
    ASSERT_EQ(result.judgement.contradictions.size(), 1U) << part;
    EXPECT_EQ(result.judgement.contradictions[0].kind, Contradiction::Kind::part_without_whole);
  }
  auto const clear = assess(pack, "answers: {lame: {clear: [left foreleg]}, carries: yes}\n");
  EXPECT_EQ(tier_name(*pack, clear.judgement.tier), "now")
      << "clear on the left says nothing of the right";
  EXPECT_TRUE(clear.judgement.contradictions.empty());
}

TEST(FollowsFrom, WhatCannotApplyIsANo) {
  auto const pack = pack_of(words);
  auto const female = assess(pack, "dog: {sex: female}\n");
  EXPECT_EQ(female.find(*pack->find_sign("only_male"))->answer, Answer(false));
  EXPECT_EQ(female.find(*pack->find_sign("only_male"))->origin, Origin::inapplicable);
  EXPECT_EQ(assess(pack, "dog: {sex: male}\n").find(*pack->find_sign("only_male")), nullptr);
  EXPECT_EQ(assess(pack, "answers:\n").find(*pack->find_sign("only_male")), nullptr);
}

TEST(Contradictions, TheMoreDangerousAnswerCountsAndIsReported) {
  auto const pack = pack_of(words + alarm("x", "breathing", "now"));
  auto const result = assess(pack, "answers:\n  breathing: no\n  noisy: yes\n");
  EXPECT_EQ(tier_name(*pack, result.judgement.tier), "now");
  ASSERT_EQ(result.judgement.contradictions.size(), 1U);
  EXPECT_EQ(result.judgement.contradictions[0].kind, Contradiction::Kind::part_without_whole);
  auto const odd = assess(pack, "dog: {sex: female}\nanswers:\n  only_male: yes\n");
  ASSERT_EQ(odd.judgement.contradictions.size(), 1U);
  EXPECT_EQ(odd.judgement.contradictions[0].kind, Contradiction::Kind::does_not_apply);
  EXPECT_EQ(odd.find(*pack->find_sign("only_male"))->answer, Answer(true));
  auto const sites = assess(pack, "answers:\n  tender: {found: [left elbow], clear: [foreleg]}\n");
  ASSERT_EQ(sites.judgement.contradictions.size(), 1U);
  EXPECT_EQ(sites.judgement.contradictions[0].kind, Contradiction::Kind::found_and_clear);
}

TEST(Sites, ASiteCoversTheSitesInsideItAndUnknownIsNotNo) {
  struct Row {
    char const* condition;
    char const* answer;
    Truth truth;
  };
  for (auto const& row :
       {Row{"tender at foreleg", "left elbow", Truth::yes},
        Row{"tender at left elbow", "left elbow", Truth::yes},
        Row{"tender at right elbow", "left elbow", Truth::unknown},
        Row{"tender at elbow", "left foreleg", Truth::unknown},
        Row{"tender at belly", "left elbow", Truth::unknown},
        Row{"tender at left elbow", "elbow", Truth::unknown},
        Row{"tender", "left elbow", Truth::yes}, Row{"tender", "yes", Truth::yes},
        Row{"tender at elbow", "yes", Truth::unknown}, Row{"tender at elbow", "no", Truth::no},
        Row{"tender at elbow", "{clear: [foreleg]}", Truth::no},
        Row{"tender at elbow", "{clear: [left elbow]}", Truth::unknown},
        Row{"tender at elbow", "{clear: [left elbow, right foreleg]}", Truth::no},
        Row{"tender at left elbow", "{clear: [left elbow]}", Truth::no},
        Row{"tender at foreleg", "{clear: [elbow]}", Truth::unknown},
        Row{"tender", "{clear: [belly]}", Truth::unknown}}) {
    auto const pack = pack_of(words + alarm("x", row.condition, "now"));
    auto const result = assess(pack, std::string("answers:\n  tender: ") + row.answer + "\n");
    ASSERT_EQ(result.alarms.size(), 1U);
    EXPECT_EQ(result.alarms[0].truth, row.truth) << row.condition << " given " << row.answer;
  }
}

TEST(Steps, AtLeastTakesTheStepAndAllBeyond) {
  auto const pack = pack_of(words + alarm("x", "appetite at least less", "now"));
  EXPECT_EQ(assess(pack, "answers:\n  appetite: normal\n").alarms[0].truth, Truth::no);
  EXPECT_EQ(assess(pack, "answers:\n  appetite: less\n").alarms[0].truth, Truth::yes);
  EXPECT_EQ(assess(pack, "answers:\n  appetite: nothing\n").alarms[0].truth, Truth::yes);
}

TEST(Assessor, IsFreshForEachCase) {
  auto const pack =
      pack_of(words + alarm("x", "b", "soon") + rule("r", "a", "  usual 10%\n  in grave 80%\n"));
  Tables const tables(pack);
  Assessor reused(tables);
  auto const first = test::case_of(*pack, "answers:\n  a: yes\n  noisy: yes\n");
  auto const second = test::case_of(*pack, "answers:\n  b: yes\n");
  (void)reused.assess(first);
  auto const again = reused.assess(second);
  auto const fresh = Assessor(tables).assess(second);
  EXPECT_EQ(again.knowledge.known.size(), fresh.knowledge.known.size());
  EXPECT_EQ(again.judgement.tier, fresh.judgement.tier);
  EXPECT_EQ(posterior(*pack, again, "grave"), posterior(*pack, fresh, "grave"));
}

}  // namespace
}  // namespace flinch
