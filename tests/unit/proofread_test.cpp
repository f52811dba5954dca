#include "flinch/proofread/proofread.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "flinch/proofread/coverage.hpp"
#include "support/small_pack.hpp"

namespace flinch {
namespace {

using test::load;
using test::preamble;

std::string sign(std::string const& name, std::string const& answer = "yes or no") {
  return fmt::format("sign {} \"{}\"\n  ask \"{}?\"\n  answer {}\n  seen by anyone\n", name, name,
                     name, answer);
}
std::string cause(std::string const& name, double per_1000, std::string const& see = "watch") {
  return fmt::format(
      "cause {} \"{}\"\n  base {} per 1000\n  see {}\n  because \"x\"\n"
      "  cite judgement\n",
      name, name, per_1000, see);
}
// `when` is `if ...` or `over ...`.
std::string rule(std::string const& name, std::string const& when, std::string const& usual,
                 std::string const& in, std::string const& more = "") {
  return fmt::format(
      "rule {} \"{}\"\n  {}\n  usual {}\n  in {}\n  because \"x\"\n"
      "  cite judgement\n{}",
      name, name, when, usual, in, more);
}
std::string alarm(std::string const& name, std::string const& condition,
                  std::string const& more = "") {
  return fmt::format("alarm {} \"{}\"\n  if {}\n  see now\n  because \"x\"\n  cite judgement\n{}",
                     name, name, condition, more);
}

std::string messages(std::vector<Diagnostic> const& warnings, std::string_view code) {
  std::string out;
  for (auto const& warning : warnings)
    if (code_text(warning.code) == code) out += (out.empty() ? "" : "; ") + warning.message;
  return out;
}

Proof proof_of(std::string const& rest) { return proofread(Tables(test::pack_of(rest))); }

// The messages of the warnings with this code.
std::string remarks(std::string_view code, std::string const& rest) {
  return messages(proof_of(rest).warnings, code);
}

std::string const two_causes = cause("sprain", 20) + cause("strain", 20);

TEST(Proofread, EquivalentRulesThatMoveACauseTheSameWayAreRemarkedOn) {
  auto const signs = two_causes + sign("a") + sign("b");
  EXPECT_EQ(remarks("said-twice",
                    signs + rule("r", "if a and b", "10%", "sprain 30%") +
                        rule("s", "if not (not a or not b)", "10%", "sprain 20%, strain 40%")),
            "rule `s` is true exactly when `r` is, and both move `sprain` the same way");
  // In opposite directions, for other causes, or with other conditions they say different things.
  EXPECT_EQ(remarks("said-twice", signs + rule("r", "if a", "10%", "sprain 30%") +
                                      rule("s", "if a", "10%", "sprain 5%")),
            "");
  EXPECT_EQ(remarks("said-twice", signs + rule("r", "if a", "10%", "sprain 30%") +
                                      rule("s", "if a", "10%", "strain 30%")),
            "");
  EXPECT_EQ(remarks("said-twice", signs + rule("r", "if a", "10%", "sprain 30%") +
                                      rule("s", "if a and b", "10%", "sprain 30%")),
            "");
}

TEST(Proofread, AnOverlapSettlesRulesThatSayTheSame) {
  auto const pair = two_causes + sign("a") + rule("r", "if a", "10%", "sprain 30%") +
                    rule("s", "if not not a", "10%", "sprain 30%");
  EXPECT_NE(remarks("said-twice", pair), "");
  EXPECT_EQ(remarks("said-twice", pair + "overlap o shares 50%: r, s\n"), "");
}

TEST(Proofread, AWholeAndItsPartMakeConditionsEquivalent) {
  auto const signs = two_causes + sign("whole") + sign("piece") + "  part of whole\n";
  EXPECT_NE(remarks("said-twice", signs + rule("r", "if piece", "10%", "sprain 30%") +
                                      rule("s", "if piece and whole", "10%", "sprain 30%")),
            "");
}

TEST(Proofread, ComplementaryRulesWithACommonCauseAreRemarkedOn) {
  auto const signs = two_causes + sign("a") + sign("x", "steps normal, less, nothing");
  EXPECT_EQ(remarks("opposite-twice", signs + rule("r", "if x is normal", "60%", "sprain 30%") +
                                          rule("s", "if x at least less", "40%", "sprain 70%")),
            "rule `s` is true exactly when `r` is false, and both name `sprain`");
  EXPECT_EQ(remarks("opposite-twice", signs + rule("r", "if x is normal", "60%", "sprain 30%") +
                                          rule("s", "if x at least less", "40%", "strain 70%")),
            "");
  EXPECT_EQ(remarks("opposite-twice", signs + rule("r", "if x is normal", "60%", "sprain 30%") +
                                          rule("s", "if x is nothing", "10%", "sprain 70%")),
            "");
}

TEST(Proofread, OneAnswerThatMovesACauseThroughTwoRulesIsRemarkedOn) {
  auto const signs = two_causes + sign("t", "number in C from 30 to 44") + sign("p", "sites");
  auto const warm = rule("warm", "if t >= 39 C", "20%", "sprain 50%");
  EXPECT_EQ(
      remarks("same-sign-twice", signs + warm + rule("hot", "if t >= 40 C", "10%", "sprain 40%")),
      "one answer about `t` counts in rules `warm` and `hot`, both for `sprain`");
  EXPECT_NE(
      remarks("same-sign-twice", signs + warm +
                                     rule("bands", "over t: under 38 C, 38 to 39.5 C, over 39.5 C",
                                          "20 60 20", "sprain 10 40 50")),
      "");
  // Barely, or the other way round, is another thing.
  EXPECT_EQ(
      remarks("same-sign-twice", signs + warm + rule("hot", "if t >= 40 C", "10%", "sprain 12%")),
      "");
  EXPECT_EQ(
      remarks("same-sign-twice", signs + warm + rule("hot", "if t >= 40 C", "10%", "sprain 5%")),
      "");
  // Two places are two findings, unless one lies inside the other.
  auto const elbow = rule("elbow", "if p at elbow", "10%", "sprain 40%");
  EXPECT_EQ(remarks("same-sign-twice",
                    signs + elbow + rule("belly", "if p at belly", "10%", "sprain 40%")),
            "");
  EXPECT_NE(remarks("same-sign-twice",
                    signs + elbow + rule("leg", "if p at foreleg", "20%", "sprain 60%")),
            "");
}

TEST(Proofread, ACauseThatAnotherAlwaysPrecedesIsRemarkedOn) {
  auto const rare_and_common = cause("rare", 1) + cause("common", 20) + sign("a") + sign("b");
  EXPECT_EQ(remarks("never-first", rare_and_common + rule("r", "if a", "10%", "rare 50%") +
                                       rule("s", "if b", "20%", "common 30%")),
            "`rare` can never come first: `common` is more probable whatever the answers");
  // 20 to 1, against 5 times 8 for the rare one.
  EXPECT_EQ(remarks("never-first", rare_and_common + rule("r", "if a", "10%", "rare 50%") +
                                       rule("s", "if b", "10%", "rare 80%")),
            "");
  // The figures against the common one count for the rare one.
  EXPECT_EQ(remarks("never-first", rare_and_common + rule("r", "if a", "10%", "rare 50%") +
                                       rule("s", "if b", "80%", "common 10%")),
            "");
  // Both rules hang on one answer: 5 for the rare one and 2.25 against the common one never meet.
  EXPECT_NE(remarks("never-first", rare_and_common + rule("r", "if a", "10%", "rare 50%") +
                                       rule("s", "if a", "60%", "common 65%")),
            "");
}

TEST(Proofread, AnAlarmThatNoExampleSetsOffIsRemarkedOn) {
  auto const pack =
      two_causes + sign("a") + sign("b") + alarm("tried", "a") + alarm("untried", "b");
  EXPECT_EQ(remarks("untested-alarm", pack + "example e\n  yes a\n  no b\n  expect alarm tried\n"),
            "no example sets off the alarm `untried`");
}

TEST(Proofread, TiersThatBaseRatesReachAreRemarkedOn) {
  auto const with_base = [](double base) {
    return cause("bleeding", base, "now") + cause("sprain", 100 - base) + sign("a") +
           rule("r", "if a", "10%", "bleeding 50%") +
           rule("old", "if age over 8 years", "20%", "bleeding 80%");
  };
  // Of 200 in all 10 are the threshold, 1 in 20; 11 are 5.5 %.
  EXPECT_EQ(remarks("tier-by-base-rates", with_base(11)),
            "the base rates alone reach the tier `now`: 5.5 % where 5.0 % are enough");
  // 4 of 200; old dogs four times as many: 16 of 212.
  EXPECT_EQ(remarks("tier-by-base-rates", with_base(4)),
            "the base rates of some dogs reach the tier `now` alone: 7.5 % where 5.0 % are enough");
  EXPECT_EQ(remarks("tier-by-base-rates", with_base(2)), "");
}

TEST(Proofread, JudgedFiguresThatWeighMuchAreRemarkedOnAndOthersAreNot) {
  auto const start = two_causes + sign("a") + "source lee\n  text \"Lee\"\n";
  EXPECT_EQ(
      remarks("strong-judgement", start + rule("r", "if a", "0.5%", "sprain 60%, strain 55%")),
      "rule `r` moves `sprain`, `strain` 120-fold by judgement alone");
  EXPECT_EQ(remarks("strong-judgement", start + rule("r", "if a", "0.5%", "sprain 49%")), "");
  EXPECT_EQ(
      remarks("strong-judgement", start + rule("r", "if a", "0.5%", "sprain 60% of 70 from lee")),
      "");
  EXPECT_EQ(
      remarks("strong-judgement", start + rule("r", "if a", "0.5%", "sprain 60% derived from lee")),
      "");
  // Its absence may weigh as much: 0.6 against 0.005.
  EXPECT_EQ(remarks("strong-judgement", start + rule("r", "if a", "40%", "sprain 99.5%")),
            "rule `r` moves `sprain` 120-fold by judgement alone");
}

TEST(Proofread, FiguresAndOverlapsThatChangeNothingAreRemarkedOn) {
  auto const start = two_causes + sign("a") + sign("b");
  EXPECT_EQ(remarks("idle-figure", start + rule("r", "if a", "10%", "sprain 10%, strain 20%")),
            "the frequency of rule `r` in `sprain` is the usual one");
  auto const three = start + rule("r", "if a", "10%", "sprain 20%") +
                     rule("s", "if b", "10%", "sprain 20%") +
                     rule("t", "if a and b", "10%", "strain 20%");
  EXPECT_EQ(remarks("idle-overlap", three + "overlap o shares 50%: r, s, t\n"),
            "rule `t` shares no cause with the others of overlap `o`");
  EXPECT_EQ(remarks("idle-overlap", three + "overlap o shares 50%: r, s\n"), "");
}

TEST(Proofread, ThingsThatNothingUsesAreRemarkedOn) {
  auto const used = cause("sprain", 20) + sign("a") + rule("r", "if a", "10%", "sprain 20%");
  EXPECT_EQ(remarks("unused-sign", used + sign("b")), "no rule, alarm or care uses the sign `b`");
  EXPECT_EQ(remarks("unused-meaning", used + "means m: a\n"), "nothing uses the meaning `m`");
  EXPECT_EQ(remarks("silent-cause", used + cause("mute", 1)),
            "no rule speaks for the cause `mute`");
  EXPECT_EQ(remarks("unused-source", used + "source s\n  text \"x\"\n"),
            "nothing cites the source `s`");
  EXPECT_EQ(
      remarks("unused-tier", used),
      "no cause or alarm asks for the tier `now`; no cause or alarm asks for the tier `soon`");
  auto const found = used + "sign p\n  ask \"p?\"\n  answer sites in foreleg\n  seen by hands\n" +
                     rule("s", "if p at elbow", "10%", "sprain 20%");
  EXPECT_EQ(remarks("unused-site", found), "nothing uses the site `belly`");
  auto twice = sign("b");
  twice.replace(twice.find("b?"), 2, "a?");
  EXPECT_EQ(remarks("asked-twice", used + twice + rule("s", "if b", "10%", "sprain 20%")),
            "`b` asks the same as `a`, word for word");
}

TEST(Proofread, AWarningIsAcceptedInItsStatementOrForThePack) {
  auto const strong = two_causes + sign("a") + rule("r", "if a", "0.5%", "sprain 60%");
  std::string const accept = "  accept strong-judgement \"Seen nowhere else.\"\n";
  auto const local = proof_of(strong + accept);
  EXPECT_EQ(messages(local.warnings, "strong-judgement"), "");
  ASSERT_EQ(local.accepted.size(), 1U);
  EXPECT_EQ(local.accepted[0].reason, "Seen nowhere else.");
  EXPECT_EQ(messages(local.warnings, "unused-accept"), "");

  auto text = preamble + strong;
  text.insert(text.find("source judgement"), accept);
  auto const loaded = load({{"pack.flinch", text}});
  ASSERT_TRUE(loaded.outcome) << loaded.messages();
  auto const whole = proofread(Tables(*loaded.outcome.value));
  EXPECT_EQ(messages(whole.warnings, "strong-judgement"), "");
  EXPECT_EQ(whole.accepted.size(), 1U);

  // A warning about two rules may be accepted in either; another statement's acceptance is not it.
  auto const pair = [](std::string const& in_first, std::string const& in_second) {
    return two_causes + sign("a") + rule("r", "if a", "10%", "sprain 30%", in_first) +
           rule("s", "if a", "10%", "sprain 30%", in_second);
  };
  std::string const twice = "  accept said-twice \"They are to be compared.\"\n";
  EXPECT_EQ(remarks("said-twice", pair(twice, "")), "");
  EXPECT_EQ(remarks("said-twice", pair("", twice)), "");
  EXPECT_NE(remarks("said-twice", pair("", "") + rule("t", "if not a", "50%", "strain 60%", twice)),
            "");
}

TEST(Proofread, AnAcceptOfWhatDoesNotAriseIsRemarkedOn) {
  EXPECT_EQ(remarks("unused-accept",
                    two_causes + sign("a") +
                        rule("r", "if a", "10%", "sprain 20%", "  accept never-first \"x\"\n")),
            "there is no `never-first` here to accept");
}

TEST(Proofread, WarningsStandInTheOrderOfTheText) {
  auto const proof =
      proof_of(two_causes + sign("unused_one") + sign("a") +
               rule("r", "if a", "0.5%", "sprain 60%, strain 0.5%") + "source s\n  text \"x\"\n");
  std::uint32_t before = 0;
  EXPECT_GE(proof.warnings.size(), 4U);
  for (auto const& warning : proof.warnings) {
    EXPECT_GE(warning.at.span.begin, before);
    before = warning.at.span.begin;
    EXPECT_EQ(warning.severity, Severity::warning);
    EXPECT_GE(warning.notes.size(), 2U) << "a reason and a remedy";
  }
}

TEST(Coverage, CountsTheDogsThatSetOffEachRuleAndAlarm) {
  auto const pack =
      test::pack_of(two_causes + sign("a") + sign("b") + rule("r", "if a", "10%", "sprain 20%") +
                    rule("s", "if b", "10%", "sprain 20%") +
                    rule("t", "over age: under 2 years, over 2 years", "30 70", "sprain 50 50") +
                    alarm("both", "a and b") + "example e\n  yes a\n  expect not alarm both\n");
  Tables const tables(pack);
  auto coverage = cover_examples(tables);
  EXPECT_EQ(coverage.patients(), 1U);
  EXPECT_EQ(coverage.fired(RuleId{0}), 1U);
  EXPECT_EQ(coverage.silent_rules(), (std::vector<RuleId>{RuleId{1}, RuleId{2}}));
  EXPECT_EQ(coverage.silent_alarms(), (std::vector<AlarmId>{AlarmId{0}}));
  Assessor assessor(tables);
  coverage.add(
      assessor.assess(test::case_of(*pack, "dog: {age: 3 years}\nanswers: {a: yes, b: yes}\n")));
  EXPECT_EQ(coverage.patients(), 2U);
  EXPECT_EQ(coverage.fired(RuleId{0}), 2U);
  EXPECT_TRUE(coverage.silent_rules().empty());
  EXPECT_TRUE(coverage.silent_alarms().empty());
}

std::string pairs(std::string_view code, std::string const& rest) {
  return messages(proof_of(rest).pairs, code);
}

TEST(Proofread, APartMoreFrequentThanItsWholeIsImpossible) {
  auto const signs = two_causes + sign("whole") + sign("part", "yes or no\n  part of whole");
  EXPECT_EQ(pairs("impossible-pair", signs + rule("w", "if whole", "10%", "sprain 30%") +
                                         rule("p", "if part", "5%", "sprain 40%, strain 8%")),
            "in `sprain` rule `p` 40%, more than rule `w` 30%");
  EXPECT_EQ(pairs("impossible-pair", signs + rule("w", "if whole", "10%", "sprain 30%") +
                                         rule("p", "if part", "5%", "strain 12%")),
            "in `strain` rule `p` 12%, more than rule `w` 10% (its usual)");
  EXPECT_EQ(pairs("impossible-pair", signs + rule("w", "if whole", "10%", "sprain 30%") +
                                         rule("p", "if part", "20%", "sprain 30%")),
            "usually rule `p` 20%, more than rule `w` 10%");
}

TEST(Proofread, BothTogetherMoreFrequentThanOneIsImpossible) {
  auto const signs = two_causes + sign("a") + sign("b");
  EXPECT_EQ(pairs("impossible-pair", signs + rule("one", "if a", "10%", "sprain 30%") +
                                         rule("both", "if a and b", "5%", "sprain 50%")),
            "in `sprain` rule `both` 50%, more than rule `one` 30%");
  EXPECT_EQ(pairs("impossible-pair", signs + rule("one", "if a", "10%", "sprain 30%") +
                                         rule("both", "if a or b", "20%", "sprain 50%")),
            "");
}

TEST(Proofread, AnswersThatExcludeEachOtherShareAWhole) {
  auto const sudden = rule("s", "if onset is sudden", "40%", "sprain 90%");
  auto const two = two_causes + sign("onset", "one of sudden, gradual") + sudden;
  EXPECT_EQ(pairs("impossible-pair", two + rule("g", "if onset is gradual", "60%", "sprain 10%")),
            "");
  EXPECT_EQ(pairs("impossible-pair", two + rule("g", "if onset is gradual", "60%", "sprain 20%")),
            "in `sprain` rule `s` 90%, beside rule `g` 20%");
  EXPECT_EQ(pairs("impossible-pair", two + rule("g", "if onset is gradual", "50%", "strain 60%")),
            "usually rule `s` 40%, beside rule `g` 50%; "
            "in `sprain` rule `s` 90%, beside rule `g` 50% (its usual)");
  auto const three = two_causes + sign("onset", "one of sudden, gradual, unclear") + sudden;
  EXPECT_EQ(pairs("impossible-pair", three + rule("g", "if onset is gradual", "50%", "sprain 5%")),
            "");
  EXPECT_EQ(pairs("impossible-pair", three + rule("g", "if onset is gradual", "50%", "sprain 30%")),
            "in `sprain` rule `s` 90%, beside rule `g` 30%");
}

TEST(Proofread, SilenceOnACompetingCauseIsListedHeaviestFirst) {
  auto const text = two_causes + cause("rare", 1) + sign("a") + sign("b") +
                    rule("light", "if b", "10%", "sprain 40%") +
                    rule("heavy", "if a", "1%", "strain 60%, rare 50%") +
                    rule("faint", "if b", "10%", "strain 12%") +
                    "example both\n  yes a, b\n  expect not first rare\n";
  EXPECT_EQ(pairs("silent-pair", text),
            "rule `heavy` speaks for `strain` (+17.8 dB) and is silent on `sprain`; "
            "rule `light` speaks for `sprain` (+6.0 dB) and is silent on `strain`; "
            "rule `light` speaks for `sprain` (+6.0 dB) and is silent on `rare`");
  EXPECT_EQ(pairs("silent-pair", two_causes + sign("a") + rule("r", "if a", "1%", "strain 60%")),
            "")
      << "no example has the two compete";
}

TEST(Proofread, APairMayBeAccepted) {
  auto const proof =
      proof_of(two_causes + sign("a") +
               rule("r", "if a", "1%", "strain 60%", "  accept silent-pair \"by coincidence\"\n") +
               "example one\n  yes a\n  expect first strain\n");
  EXPECT_EQ(messages(proof.pairs, "silent-pair"), "");
  EXPECT_EQ(messages(proof.warnings, "unused-accept"), "");
  ASSERT_EQ(proof.accepted.size(), 1U);
  EXPECT_EQ(proof.accepted.front().reason, "by coincidence");
}

TEST(Proofread, ATierThatSpeaksOfFoodIsRemarkedOn) {
  auto const said = [](std::string const& words) {
    std::string text = test::preamble;
    text.replace(text.find("Go now."), 7, words);
    auto const loaded = load({{"pack.flinch", text}});
    return messages(proofread(Tables(*loaded.outcome.value)).warnings, "food-in-tier");
  };
  EXPECT_EQ(said("Go now."), "");
  EXPECT_EQ(said("Go now. Give no Food."),
            "the words of the tier `now` speak of food or drink (`food`)");
  EXPECT_NE(said("Nothing by mouth."), "");
  EXPECT_EQ(said("Drive fast, and keep it out of the feedlot."), "") << "whole words alone";
}

TEST(Proofread, WordsThatSendThePatientAwayAreRemarkedOnWhereTheVetComes) {
  auto const said = [](std::string const& words, bool vet_comes = true) {
    std::string text = test::preamble;
    text.replace(text.find("Go now."), 7, words);
    if (vet_comes) text.insert(text.find("  unlisted"), "  seen at home\n");
    auto const loaded = load({{"pack.flinch", text}});
    return messages(proofread(Tables(*loaded.outcome.value)).warnings, "sent-away");
  };
  EXPECT_EQ(said("Leave for the nearest clinic."),
            "the words of the tier `now` send the patient away (`leave for`)");
  EXPECT_EQ(said("Leave for the nearest clinic.", false), "") << "it is brought";
  for (auto const* words : {"Keep it warm. Come to us now.", "Telephone, then go straight there.",
                            "Bring it to the clinic.", "Keep it dark on the way.",
                            "Begin before you leave.", "Drive carefully."})
    EXPECT_NE(said(words), "") << words;
  for (auto const* words :
       {"Leave it in peace.", "Keep it warm until the vet is on the way.", "Let it come to you.",
        "Ask for a vet to come at once.", "Bring it into the shade.", "Telephone the vet now."})
    EXPECT_EQ(said(words), "") << words;
}

TEST(Proofread, AnAnswerThatNothingTellsFromAnotherIsRemarkedOn) {
  auto const gums = two_causes + sign("gums", "one of pink, pale, mottled");
  EXPECT_EQ(remarks("unused-answer", gums + rule("r", "if gums is pale", "10%", "sprain 30%")),
            "nothing tells the answer `mottled` to the sign `gums` from `pink`");
  EXPECT_EQ(
      remarks("unused-answer", gums + rule("r", "if gums is pale or mottled", "10%", "sprain 30%")),
      "");
}

TEST(Proofread, WhatAsksForTheLastTierRaisesNothing) {
  EXPECT_EQ(remarks("last-tier", two_causes + sign("a") +
                                     "alarm late \"Late\"\n  if a\n  see watch\n  because \"x\"\n"
                                     "  cite judgement\n"),
            "the alarm `late` asks for the last tier, `watch`, and raises nothing");
  EXPECT_EQ(remarks("last-tier",
                    two_causes + sign("a") + "  alone see watch because \"x\" cite judgement\n"),
            "the floor `a_alone_watch` asks for the last tier, `watch`, and raises nothing");
  EXPECT_EQ(remarks("last-tier", two_causes + sign("a") + alarm("soon_enough", "a")), "");
}

TEST(Proofread, ACauseThatCannotWaitHasAnAlarmOfItsSigns) {
  auto const told = cause("torsion", 5, "now") + sign("a") + sign("part") + "  part of a\n" +
                    rule("r", "if a", "5%", "torsion 60%");
  EXPECT_EQ(remarks("unalarmed-cause", told),
            "`torsion` cannot wait, and no sign that speaks for it stands in an alarm or floor of "
            "the tier `now`");
  EXPECT_EQ(remarks("unalarmed-cause", told + alarm("x", "a")), "");
  EXPECT_EQ(remarks("unalarmed-cause", told + alarm("x", "part")), "");  // a yes to it is one to a
  // What speaks against it, or is no question, does not look out for it.
  EXPECT_NE(remarks("unalarmed-cause",
                    told + sign("b") + rule("s", "if b", "50%", "torsion 5%") + alarm("x", "b")),
            "");
  // A cause that no rule names has a warning of its own, and one that can wait needs none.
  EXPECT_EQ(remarks("unalarmed-cause", cause("torsion", 5, "now")), "");
  EXPECT_EQ(remarks("unalarmed-cause", cause("torsion", 5, "soon") + sign("a") +
                                           rule("r", "if a", "5%", "torsion 60%")),
            "");
}

TEST(Proofread, StepsBeginWithTheUsual) {
  EXPECT_EQ(remarks("step-order", sign("x", "steps nothing, less, normal")),
            "`normal` is not the first step of `x`");
  EXPECT_EQ(remarks("step-order", sign("x", "steps none, few") + alarm("r", "x is none")),
            "`none`, the first step of `x`, sets off the alarm `r`");
  EXPECT_EQ(remarks("step-order",
                    sign("x", "steps normal, less, nothing") + alarm("r", "x at least less")),
            "");
}

TEST(Proofread, BandsStandInTheOrderOfTheSteps) {
  auto const bands = [](std::string const& order) {
    return remarks("step-order", two_causes + sign("x", "steps normal, less, nothing") +
                                     rule("r", "over x: " + order, "70 20 10", "sprain 10 30 60"));
  };
  EXPECT_EQ(bands("normal, nothing, less"),
            "the bands of rule `r` stand in another order than the steps of `x`: normal, less, "
            "nothing");
  EXPECT_EQ(bands("normal, less, nothing"), "");
  EXPECT_EQ(bands("nothing, less, normal"), "");  // all turned round is a way of writing
}

TEST(Proofread, NobodyIsAskedFirstWhatOnlyAClinicCanTell) {
  auto const for_clinic = [](std::string const& seen_by) {
    return "sign p \"p\"\n  ask \"p?\"\n  answer yes or no\n  seen by " + seen_by +
           "\n  asked first\n";
  };
  EXPECT_EQ(remarks("first-for-clinic", for_clinic("clinic")),
            "`p` is asked first of every patient, and only a clinic can tell it");
  EXPECT_EQ(remarks("first-for-clinic", for_clinic("hands")), "");
}

TEST(Proofread, NamesThatDifferByOneLetterAreRemarkedOn) {
  for (auto const* other :
       {"swollen_jaw", "swollenpaw", "swollen_pawn", "swolen_paw", "swollen_pwa"})
    EXPECT_EQ(remarks("names-alike", sign("swollen_paw") + sign(other)),
              fmt::format("the signs `swollen_paw` and `{}` differ by one letter", other));
  for (auto const* other : {"swollen_eye", "swollen_paw_2", "swollen_2", "s_paw"})
    EXPECT_EQ(remarks("names-alike", sign("swollen_paw") + sign("swollen_3") + sign(other)), "")
        << other;
  EXPECT_EQ(remarks("names-alike", sign("leg") + sign("log")), "");  // short
  auto const grams = sign("leaf_g", "number in g from 1 to 500");
  EXPECT_EQ(remarks("names-alike", grams + sign("leaf_h", "number in hours from 1 to 72")), "");
  EXPECT_EQ(remarks("names-alike", grams + sign("leaf_mg", "number in mg from 1 to 500")),
            "the signs `leaf_g` and `leaf_mg` differ by one letter");
  EXPECT_EQ(remarks("names-alike", cause("sprain_a", 5) + cause("sprain_b", 5)),
            "the causes `sprain_a` and `sprain_b` differ by one letter");
}

TEST(Proofread, NobodyJudgesAlwaysOrNever) {
  auto const signs = two_causes + sign("a");
  EXPECT_EQ(
      remarks("absolute-judgement", signs + rule("r", "if a", "0%", "sprain 100%, strain 9%")),
      "rule `r` judges that it is always so, or never: `usual`, `sprain`");
  EXPECT_EQ(remarks("absolute-judgement",
                    signs + rule("r", "if a", "1%", "sprain 100% of 7 from judgement")),
            "");
  EXPECT_EQ(remarks("absolute-judgement", signs + rule("r", "if a", "1%", "sprain 99%")), "");
}

TEST(Proofread, AFindingThatSpeaksAgainstAllItsCausesMayBeSwapped) {
  auto const signs = two_causes + sign("a") + sign("x", "steps normal, less, nothing");
  EXPECT_EQ(remarks("swapped-figures", signs + rule("r", "if a", "60%", "sprain 4%, strain 9%")),
            "rule `r` speaks against every cause that it names: `usual` is higher than each figure "
            "behind `in`");
  EXPECT_NE(remarks("swapped-figures", signs + rule("r", "if x at least less", "60%", "sprain 4%")),
            "");
  // Well and good may speak against all.
  for (auto const* well : {"if not a", "if x is normal", "if age under 2 years"})
    EXPECT_EQ(remarks("swapped-figures", signs + rule("r", well, "60%", "sprain 4%")), "") << well;
  EXPECT_EQ(remarks("swapped-figures", signs + rule("r", "if a", "10%", "sprain 4%, strain 30%")),
            "");
  // One figure as high as `usual`, and the others lower: `usual` is to be mended, and nobody is
  // told to take the cause out.
  auto const most = signs + rule("r", "if a", "70%", "sprain 70%, strain 30%");
  EXPECT_EQ(remarks("swapped-figures", most),
            "rule `r` speaks for no cause that it names: `usual` is as high as the highest figure "
            "behind `in`");
  EXPECT_EQ(remarks("idle-figure", most), "");
}

TEST(Proofread, ALevelIsShownByAnExampleThatJustReachesIt) {
  auto const pills =
      two_causes + sign("pills", "number in mg from 0 to 90000") +
      "care taken_pills \"Pills\"\n  taken pills\n  level 10 mg per kg see soon \"a\"\n"
      "  level 50 mg per kg see now \"b\"\n  level 900 mg per kg see now \"c\"\n"
      "  how \"Ring.\"\n  grade C\n  because \"x\"\n  cite judgement\n";
  auto const taken = [](int mg) {
    return fmt::format("example e{0}\n  dog weight 10 kg\n  with pills {0} mg\n  expect tier now\n",
                       mg);
  };
  auto const untested = [](int mg_per_kg) {
    return fmt::format("no example shows what `taken_pills` asks for at {} mg per kg", mg_per_kg);
  };
  EXPECT_EQ(remarks("untested-level", pills + taken(120) + taken(600) + taken(10000)), "");
  EXPECT_EQ(remarks("untested-level", pills + taken(600) + taken(10000)), untested(10));
  EXPECT_EQ(remarks("untested-level", pills + taken(120) + taken(5500) + taken(89000)),
            untested(50));
}

}  // namespace
}  // namespace flinch
