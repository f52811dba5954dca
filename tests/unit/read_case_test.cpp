#include "flinch/casefile/read_case.hpp"

#include <gtest/gtest.h>

#include "support/small_pack.hpp"

namespace flinch {
namespace {

std::shared_ptr<Pack const> pack() {
  static auto const made = test::pack_of(R"(
sign lame "lame"
  ask "Lame?"
  answer yes or no
  seen by anyone
sign tender "tender"
  ask "Where?"
  answer sites
  seen by hands
sign sore_leg "sore leg"
  ask "Which?"
  answer sites in foreleg
  seen by hands
sign appetite "appetite"
  ask "Eating?"
  answer steps normal, less, nothing
  seen by anyone
sign fever "temperature"
  ask "Temperature?"
  answer number in C from 30 to 44
  seen by clinic
sign vomits "vomits"
  ask "How often?"
  answer number from 0 to 50
  seen by anyone
)");
  return made;
}

std::string mistakes(std::string const& yaml) {
  SourceSet sources;
  auto const file = sources.add("case.yaml", yaml);
  auto const read = read_case(sources, file, *pack());
  EXPECT_FALSE(read) << yaml;
  std::string codes;
  for (auto const& d : read.diagnostics)
    codes += (codes.empty() ? "" : " ") + std::string(code_text(d.code));
  return codes;
}

Answer answer(std::string const& line) {
  auto const patient = test::case_of(*pack(), "answers:\n  " + line + "\n");
  EXPECT_EQ(patient.answers.size(), 1U);
  return patient.answers.at(0).second;
}

TEST(ReadCase, ReadsEachKindOfAnswer) {
  EXPECT_EQ(answer("lame: yes"), Answer(true));
  EXPECT_EQ(answer("lame: no"), Answer(false));
  EXPECT_EQ(answer("appetite: less"), Answer(Choice{1}));
  EXPECT_EQ(answer("fever: 39.8 C"), Answer(39.8));
  EXPECT_EQ(answer("vomits: 3"), Answer(3.0));
  EXPECT_EQ(answer("tender: no"), Answer(Findings{false, true, {}, {}}));
  EXPECT_EQ(answer("tender: yes"), Answer(Findings{true, false, {}, {}}));
  SiteMark const left_elbow{*pack()->find_site("elbow"), Side::left};
  SiteMark const belly{*pack()->find_site("belly"), Side::any};
  EXPECT_EQ(answer("tender: left elbow"), Answer(Findings{true, false, {left_elbow}, {}}));
  EXPECT_EQ(answer("tender: [left elbow, belly]"),
            Answer(Findings{true, false, {left_elbow, belly}, {}}));
  EXPECT_EQ(answer("tender: {found: [left elbow], clear: [belly]}"),
            Answer(Findings{true, false, {left_elbow}, {belly}}));
}

TEST(ReadCase, APlaceIsUnderstoodAsPeopleCallIt) {
  SiteMark const left_leg{*pack()->find_site("foreleg"), Side::left};
  EXPECT_EQ(answer("tender: left front leg"), Answer(Findings{true, false, {left_leg}, {}}));
  EXPECT_EQ(answer("tender: [left Front Leg]"), Answer(Findings{true, false, {left_leg}, {}}));
  EXPECT_EQ(mistakes("answers:\n  tender: front left\n"), "unknown-name");
}

TEST(ReadCase, WhatItCameForIsKeptInOrder) {
  SourceSet sources;
  auto const file = sources.add("case.yaml",
                                "came for: [appetite, lame, tender]\n"
                                "answers: {lame: yes, tender: yes, appetite: nothing}\n");
  auto const read = read_case(sources, file, *pack());
  ASSERT_TRUE(read);
  std::vector<SignId> const wanted = {*pack()->find_sign("appetite"), *pack()->find_sign("lame"),
                                      *pack()->find_sign("tender")};
  EXPECT_EQ(read.value->came_for, wanted);
}

TEST(ReadCase, OnlyWhatIsThereCanBeWhatItCameFor) {
  EXPECT_EQ(mistakes("came for: [lame]\nanswers: {lame: no}"), "case-complaint");
  EXPECT_EQ(mistakes("came for: [lame]\nanswers: {lame: can't tell}"), "case-complaint");
  EXPECT_EQ(mistakes("came for: [lame]"), "case-complaint");
  EXPECT_EQ(mistakes("came for: [appetite]\nanswers: {appetite: normal}"), "case-complaint");
  EXPECT_EQ(mistakes("came for: [age]\ndog: {age: 3 years}"), "case-complaint");
  EXPECT_EQ(mistakes("came for: [lame, lame]\nanswers: {lame: yes}"), "case-complaint");
  EXPECT_EQ(mistakes("came for: lame\nanswers: {lame: yes}"), "case-shape");
}

TEST(ReadCase, ConvertsUnits) {
  EXPECT_NEAR(std::get<double>(answer("fever: 103.1 F")), 39.5, 1e-9);
  EXPECT_EQ(answer("fever: 39.8 \xC2\xB0"
                   "C"),
            Answer(39.8));
  auto const patient = test::case_of(*pack(), "dog: {age: 18 months, weight: 68 lb}\n");
  EXPECT_EQ(patient.answers.at(0).second, Answer(1.5));
  EXPECT_NEAR(std::get<double>(patient.answers.at(1).second), 30.844281, 1e-6);
}

TEST(ReadCase, CantTellIsKeptApartFromNo) {
  auto const patient = test::case_of(*pack(), "answers:\n  lame: can't tell\n");
  EXPECT_TRUE(patient.answers.empty());
  EXPECT_EQ(patient.cannot_tell.size(), 1U);
}

TEST(ReadCase, NothingIsGuessed) {
  EXPECT_EQ(mistakes("answers:\n  lame: true\n"), "answer-misfit");
  EXPECT_EQ(mistakes("answers:\n  lame: Yes\n"), "answer-misfit");
  EXPECT_EQ(mistakes("answers:\n  lame:\n"), "case-shape");
  EXPECT_EQ(mistakes("answers:\n  lamee: yes\n"), "unknown-name");
  EXPECT_EQ(mistakes("answers:\n  fever: 39.8\n"), "unit-misfit");
  EXPECT_EQ(mistakes("answers:\n  fever: 39.8 kg\n"), "unit-misfit");
  EXPECT_EQ(mistakes("answers:\n  fever: 398 C\n"), "answer-range");
  EXPECT_EQ(mistakes("answers:\n  fever: nan\n"), "answer-misfit");
  EXPECT_EQ(mistakes("answers:\n  vomits: 3 C\n"), "unit-misfit");
  EXPECT_EQ(mistakes("answers:\n  appetite: most\n"), "unknown-value");
  EXPECT_EQ(mistakes("answers:\n  tender: left belly\n"), "no-sides");
  EXPECT_EQ(mistakes("answers:\n  tender: upper elbow\n"), "unknown-name");
  EXPECT_EQ(mistakes("answers:\n  sore_leg: belly\n"), "site-outside");
  EXPECT_EQ(mistakes("answers:\n  tender: [{a: b}]\n"), "case-shape");
  EXPECT_EQ(mistakes("answers: [lame]\n"), "case-shape");
  EXPECT_EQ(mistakes("dog: {species: cat}\n"), "case-species");
  EXPECT_EQ(mistakes("answers:\n  purrs: yes\ndog: {whiskers: 4, species: cat}\n"), "case-species");
  EXPECT_EQ(mistakes("answers:\n  purrs: yes\ncat: {age: 2 years}\n"), "case-species");
  EXPECT_EQ(mistakes("dog: {colour: brown}\n"), "case-key");
  EXPECT_EQ(mistakes("lame: yes\n"), "case-key");
  EXPECT_EQ(mistakes("- lame\n"), "case-shape");
  EXPECT_EQ(mistakes(""), "case-shape");
}

TEST(ReadCase, EveryMistakeIsReportedAtOnce) {
  EXPECT_EQ(mistakes("nme: X\ndog: {age: 400 years}\nanswers:\n  lame: perhaps\n  fever: hot\n"),
            "case-key answer-range answer-misfit answer-misfit");
}

TEST(ReadCase, YamlThatHidesThingsIsRefused) {
  EXPECT_EQ(mistakes("answers: {lame: yes, lame: no}\n"), "yaml-key-twice");
  EXPECT_EQ(mistakes("a: &x 1\nb: *x\n"), "yaml-alias");
  EXPECT_EQ(mistakes("answers: {lame: !!bool yes}\n"), "yaml-tag");
  EXPECT_EQ(mistakes("answers: {[lame]: yes}\n"), "yaml-key");
  EXPECT_EQ(mistakes("answers: {}\n---\nanswers: {}\n"), "yaml-documents");
  EXPECT_EQ(mistakes("answers: {lame: yes\n"), "yaml-syntax");
  EXPECT_EQ(mistakes("answers: \xFF\n"), "bad-utf8");
  EXPECT_EQ(mistakes("a: " + std::string(100000, '[') + "\n"), "yaml-depth");
}

TEST(ReadCase, AClosedCaseHasAnOutcome) {
  auto const closed = test::pack_of(R"(
sign lame "lame"
  ask "Lame?"
  answer yes or no
  seen by anyone
cause torn "Torn"
  base 10 per 1000
  see soon
  because "x"
  cite judgement
rule limps "Limps"
  if lame
  usual 10%
  in torn 90%
  because "x"
  cite judgement
)");
  auto const outcome = [&](std::string const& text) {
    return test::case_of(*closed, "outcome: " + text + "\n").outcome;
  };
  EXPECT_EQ(outcome("{cause: torn, needed: now}"), (CaseOutcome{true, CauseId{0}, TierId{0}}));
  EXPECT_EQ(outcome("{cause: none}"), (CaseOutcome{true, std::nullopt, std::nullopt}));
  EXPECT_EQ(outcome("{needed: watch}"), (CaseOutcome{false, std::nullopt, TierId{2}}));
  EXPECT_FALSE(test::case_of(*closed, "name: still open\n").outcome);
}

TEST(ReadCase, AnOutcomeThatIsNotWantedMayNameAnything) {
  SourceSet sources;
  auto const file = sources.add("case.yaml", "answers: {lame: yes}\noutcome: {cause: unheard_of}");
  EXPECT_FALSE(read_case(sources, file, *pack()));
  auto const read = read_case(sources, file, *pack(), Outcomes::ignored);
  ASSERT_TRUE(read);
  EXPECT_EQ(read.value->answers.size(), 1U);
  EXPECT_FALSE(read.value->outcome);
}

TEST(ReadCase, AnOutcomeThatCannotBeReadIsAMistake) {
  EXPECT_EQ(mistakes("outcome: {cause: tron}"), "unknown-name");
  EXPECT_EQ(mistakes("outcome: {needed: yesterday}"), "unknown-name");
  EXPECT_EQ(mistakes("outcome: {tier: now}"), "case-key");
  EXPECT_EQ(mistakes("outcome: {}"), "case-shape");
  EXPECT_EQ(mistakes("outcome: torn"), "case-shape");
  EXPECT_EQ(mistakes("outcome: {needed: [now]}"), "case-shape");
}

// A place that nobody named may lie between those that were checked: only wholes count.
TEST(ReadCase, ClearWhereverItIsAskedOfIsNowhere) {
  auto const is_nowhere = [](std::string const& line) {
    auto const patient = test::case_of(*pack(), "answers:\n  " + line + "\n");
    return std::get<Findings>(patient.answers.front().second).clear_everywhere;
  };
  EXPECT_TRUE(is_nowhere("sore_leg: {clear: [foreleg]}"));
  EXPECT_TRUE(is_nowhere("sore_leg: {clear: [left foreleg, right foreleg]}"));
  EXPECT_TRUE(is_nowhere("tender: {clear: [belly, foreleg]}"));
  EXPECT_FALSE(is_nowhere("sore_leg: {clear: [left foreleg]}"));
  EXPECT_FALSE(is_nowhere("sore_leg: {clear: [elbow, carpus]}"));
  EXPECT_FALSE(is_nowhere("tender: {clear: [foreleg]}"));
  EXPECT_FALSE(is_nowhere("sore_leg: {found: [left foreleg], clear: [right foreleg]}"));
}

}  // namespace
}  // namespace flinch
