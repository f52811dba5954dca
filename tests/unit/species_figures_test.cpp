// Figures and everyday words that a pack says of its species: places, syringes, energy, slimming.
#include <gtest/gtest.h>

#include "flinch/assess/assessment.hpp"
#include "flinch/care/energy.hpp"
#include "flinch/care/plan.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/interview/answer_entry.hpp"
#include "flinch/interview/interview.hpp"
#include "flinch/model/shown_weight.hpp"
#include "flinch/telling/care_words.hpp"
#include "support/small_pack.hpp"

namespace flinch {
namespace {

// A bird of some forty grams; every figure is invented.
constexpr char const* head = R"(pack p "P"
  species finch "finch", "finches"
  weight from 0.01 to 0.1 kg
  doses from 0.01 to 0.1 kg
  unlisted 1 per 10
)";
constexpr char const* rest = R"(
source judgement
  text "Judgement"
  grade judgement
tier now "Now"
  within 1 hour
  harm 19
  say "Go."
tier watch "Watch"
  within 1 day
  say "Stay."
site wing "wing" paired
  also called "pinion"
site front_foot "front claw" paired
  also called "front foot"
site hind_foot "hind claw" paired
  also called "hind foot"
site crop "crop"
  also called "under the throat", "stomach"
sign hurts
  ask "Where does it hurt?"
  answer sites
  seen by hands
sign score
  ask "How fat is it?"
  answer number from 1 to 5
  seen by hands
sign lays
  ask "Does it lay?"
  answer yes or no
  applies if sex is female and not neutered
  seen by anyone
alarm laying "Laying"
  if lays
  see now
  because "x"
  cite judgement
)";

std::string messages(std::string const& clauses, std::string const& more = "") {
  return test::load({{"pack.flinch", head + clauses + rest + more}}).messages();
}

std::shared_ptr<Pack const> pack_with(std::string const& clauses, std::string const& more = "") {
  return test::sound_pack({{"pack.flinch", head + clauses + rest + more}});
}

std::string places(char const* typed) {
  auto const pack = pack_with("");
  auto const hurts = *pack->find_sign("hurts");
  auto const entry = read_entry(*pack, hurts, typed, {{2026, 1, 1}, {}});
  return entry.answer ? answer_text(*pack, hurts, *entry.answer) : "!" + entry.remark;
}

TEST(EverydayPlaces, AreThoseOfThePackAndOfNothingElse) {
  EXPECT_EQ(places("left pinion"), "left wing");
  EXPECT_EQ(places("pinions"), "wing");
  EXPECT_EQ(places("stomach"), "crop");
  EXPECT_EQ(places("under its throat"), "crop");
  EXPECT_EQ(places("left back foot"), "left hind claw");
  EXPECT_EQ(places("feet"), "front claw, hind claw");
  EXPECT_EQ(places("all of them"),
            "!all of them of what? Name the places, such as left wing, crop.");
  EXPECT_EQ(places("muzzle"),
            "!No place is called \"muzzle\"; type left, right or middle for a numbered list.");
  EXPECT_EQ(places("foot"), "!No place is called \"foot\"; did you mean front claw, hind claw?");
}

TEST(ShownWeight, IsInGramsWhereNoHeavierPatientIsBelieved) {
  auto const small = pack_with("");
  EXPECT_EQ(weight_text(*small, 0.0385), "38.5 g");
  EXPECT_EQ(answer_text(*small, patient_sign::weight, 0.04), "40 g");
  EXPECT_EQ(
      refusal_text(*small, {}, DoseRefusal::weight_out_of_range),
      "weight outside 10 to 100 g: check the number and its unit (g or kg); no dose is computed");
  try {
    (void)test::case_of(*small, "finch: {weight: 300 g}\n");
    ADD_FAILURE() << "300 g is believed";
  } catch (std::runtime_error const& mistake) {
    EXPECT_NE(std::string(mistake.what()).find("it lies between 10 and 100 g"), std::string::npos);
  }
  auto const typed = read_entry(*small, patient_sign::weight, "38", {{2026, 1, 1}, {}});
  ASSERT_TRUE(typed.answer);
  EXPECT_DOUBLE_EQ(std::get<double>(*typed.answer), 0.038);
  EXPECT_FALSE(read_entry(*small, patient_sign::weight, "3", {{2026, 1, 1}, {}}).answer);
  EXPECT_EQ(weight_text(*test::pack_of(""), 0.5), "0.5 kg");
}

TEST(SyringeMarks, AreThePacks) {
  constexpr char const* drug =
      "care drug\n  give 1 mg per kg by mouth\n  form liquid 1 mg per mL\n  grade D\n"
      "  because \"x\"\n  cite judgement\n"
      "care shot\n  give 1 mg per kg by injection\n  form liquid 1 mg per mL\n  grade D\n"
      "  because \"x\"\n  cite judgement\n";
  auto const amounts = [&](std::string const& clauses) {
    auto const pack = pack_with(clauses, drug);
    std::vector<double> out;
    for (auto const& care : pack->care) {
      auto const dose = compute_dose(*care.give, care.at_most, care.forms, 0.0375, pack->doses,
                                     pack->syringe_marks);
      auto const* given = std::get_if<GivenDose>(&dose);
      out.push_back(given == nullptr ? 0 : given->amount);
    }
    return out;
  };
  auto const usual = amounts("");
  EXPECT_EQ(usual[0], 0) << "less than the mark of 0.05 mL";
  EXPECT_EQ(usual[1], 0) << "0.03 mL is less than nine tenths of 0.0375";
  auto const fine = amounts("  drawn up in 0.0125 mL\n  injected in 0.005 mL\n");
  EXPECT_DOUBLE_EQ(fine[0], 0.0375);
  EXPECT_DOUBLE_EQ(fine[1], 0.035);
  EXPECT_NE(messages("  drawn up in 0.2 mL\n").find("[empty-range]"), std::string::npos);
  EXPECT_NE(messages("  drawn up in 5 mg\n").find("[unit-misfit]"), std::string::npos);
}

constexpr char const* slimming =
    "care less\n  slims by score\n  ideal score 3\n  each point 20%\n  lost a week 1% to 3%\n"
    "  benefit 5% of 12 from judgement \"It flies\"\n  how \"x\"\n  grade D\n  because \"x\"\n"
    "  cite judgement\n";

TEST(Slimming, GoesByTheFiguresOfThePack) {
  auto const pack = pack_with("  resting energy 78 from judgement\n", slimming);
  auto const plan = weight_loss(*pack, pack->care[0].slimming, 0.042, 4);
  ASSERT_TRUE(plan);
  EXPECT_NEAR(plan->aim_kg, 0.035, 1e-12);
  EXPECT_NEAR(*plan->kcal_a_day, 78 * std::pow(0.035, 0.75), 1e-9);
  EXPECT_NEAR(plan->slowest_kg_a_week, 0.00042, 1e-12);
  EXPECT_NEAR(plan->fastest_kg_a_week, 0.00126, 1e-12);
  ASSERT_EQ(plan->benefits.size(), 1U);
  EXPECT_NEAR(plan->benefits[0].from_kg, 0.0021, 1e-12);
  EXPECT_FALSE(weight_loss(*pack, pack->care[0].slimming, 0.042, 3));
  EXPECT_FALSE(weight_loss(*pack_with("", slimming), pack->care[0].slimming, 0.042, 4)->kcal_a_day);
}

TEST(Slimming, FiguresThatCannotBeAreRefused) {
  auto const with = [](std::string const& from, std::string const& to) {
    std::string text = slimming;
    text.replace(text.find(from), from.size(), to);
    return messages("", text);
  };
  EXPECT_EQ(messages("", slimming), "");
  EXPECT_NE(with("  ideal score 3\n", "").find("`ideal score`"), std::string::npos);
  EXPECT_NE(with("  slims by score\n", "").find("`slims by`"), std::string::npos);
  EXPECT_NE(with("score 3", "score 5").find("[number-range]"), std::string::npos);
  EXPECT_NE(with("20%", "0%").find("[frequency-range]"), std::string::npos);
  EXPECT_NE(with("1% to 3%", "3% to 1%").find("[empty-range]"), std::string::npos);
  EXPECT_NE(messages("  resting energy 0\n").find("[empty-range]"), std::string::npos);
  EXPECT_NE(messages("  resting energy 70 from nobody\n").find("[unknown-name]"),
            std::string::npos);
}

TEST(Neutering, IsNeverAskedAboutWhereThePackSaysSo) {
  auto const asked = [](std::string const& clauses, std::string const& told = "sex: female") {
    auto const pack = pack_with(clauses);
    auto const patient = test::case_of(*pack, "finch: {" + told + "}\n");
    Tables const tables(pack);
    Assessor assessor(tables);
    auto const result = assessor.assess(patient);
    auto const facts = signalment_text(*pack, result);
    Interview interview(tables, Reader::keeper);
    auto const outlook = interview.next(result);
    std::string out = facts + ":";
    if (outlook.screen)
      for (auto const& question : outlook.screen->questions)
        out += " " + (*pack)[question.sign].name;
    return out;
  };
  EXPECT_EQ(asked(""), "female: neutered");
  EXPECT_EQ(asked("  never neutered\n"), "female: lays");
  EXPECT_EQ(asked("  never neutered female\n"), "female: lays");
  EXPECT_EQ(asked("  never neutered male\n"), "female: neutered");
  // Of one whose sex nobody has told the two are asked together.
  EXPECT_EQ(asked("  never neutered female\n", ""), ": sex neutered");
  EXPECT_EQ(asked("  never neutered male\n", ""), ": sex neutered");
}

TEST(Neutering, OfTheSexThatNeverIsIsANoThatFollows) {
  auto const facts = [](std::string const& told) {
    auto const pack =
        pack_with("  never neutered female\n  called neutered male \"capon\" or \"cut cock\"\n");
    Tables const tables(pack);
    Assessor assessor(tables);
    auto const result = assessor.assess(test::case_of(*pack, "finch: {" + told + "}\n"));
    auto const* neutered = result.find(patient_sign::neutered);
    auto const how = neutered == nullptr                        ? "unknown"
                     : neutered->origin == Origin::inapplicable ? "follows"
                                                                : "told";
    return signalment_text(*pack, result) + ": " + how;
  };
  EXPECT_EQ(facts("sex: female"), "female: follows");
  EXPECT_EQ(facts("sex: male"), "male: unknown");
  EXPECT_EQ(facts("sex: male, neutered: no"), "male, entire: told");
  EXPECT_EQ(facts("sex: male, neutered: yes"), "male, neutered (capon): told");
  EXPECT_EQ(facts("sex: cut cock"), "male, neutered (capon): told");
  EXPECT_EQ(facts("neutered: no"), "entire: told");
  EXPECT_EQ(facts("sex: female, neutered: yes"), "female, neutered: told") << "told is told";
}

TEST(Neutering, ThatCannotBeTakesNoSignAway) {
  auto const lays = [](std::string const& clauses, std::string const& told) {
    auto const pack = pack_with(clauses);
    Tables const tables(pack);
    Assessor assessor(tables);
    auto const result = assessor.assess(test::case_of(*pack, "finch: {" + told + "}\n"));
    auto const* known = result.find(*pack->find_sign("lays"));
    return std::string(known == nullptr ? "open" : "cannot apply") +
           (result.judgement.contradictions.empty() ? "" : ", contradicted");
  };
  EXPECT_EQ(lays("", "sex: female, neutered: yes"), "cannot apply");
  EXPECT_EQ(lays("  never neutered female\n", "sex: female, neutered: yes"), "open, contradicted");
  EXPECT_EQ(lays("  never neutered female\n", "neutered: yes, sex: male"), "cannot apply");
  EXPECT_EQ(lays("  never neutered female\n", "neutered: yes"), "cannot apply");
  EXPECT_EQ(lays("  never neutered\n", "sex: female, neutered: yes"), "open");
}

TEST(Food, WhatGoesOnWhereNothingFastsIsThePacks) {
  auto const fast = [](std::string const& more) {
    return "care food\n  fasting \"Nothing.\"\n" + more +
           "  grade D\n  because \"x\"\n  cite judgement\n";
  };
  auto const told = [](std::string const& care) {
    auto const pack = pack_with("", care +
                                        "care drops\n  how \"x\"\n  by mouth\n  grade D\n  "
                                        "because \"x\"\n  cite judgement\n");
    Tables const tables(pack);
    Assessor assessor(tables);
    auto const result = assessor.assess(test::case_of(*pack, "answers: {}\n"));
    return mouth_words(*pack, result, plan_care(tables, result, Reader::keeper)).food_and_water;
  };
  EXPECT_EQ(told(fast("  otherwise \"Seed stays.\"\n")), "Seed stays.");
  EXPECT_EQ(told(fast("")), "Ask about food and water when you telephone.");
  EXPECT_NE(messages("",
                     "care a\n  how \"x\"\n  otherwise \"y\"\n  grade D\n  because \"x\"\n  cite "
                     "judgement\n")
                .find("[fasting]"),
            std::string::npos);
  auto again = fast("  otherwise \"y\"\n");
  again.replace(0, 9, "care more");
  EXPECT_NE(messages("", fast("  otherwise \"y\"\n") + again).find("[fasting]"), std::string::npos);
}

}  // namespace
}  // namespace flinch
