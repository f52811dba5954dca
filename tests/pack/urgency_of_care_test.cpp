// What is said to do never is more urgent than how soon the dog is said to be seen, at any desk;
// and what was swallowed sets the tier for all of them.
#include <gtest/gtest.h>

#include <random>

#include "flinch/care/plan.hpp"
#include "flinch/interview/interview.hpp"
#include "pack/made_patients.hpp"
#include "pack/shipped_pack.hpp"

namespace flinch::test {
namespace {

class UrgencyOfCare : public ::testing::Test {
 protected:
  std::shared_ptr<Pack const> pack = shipped_pack();
  Tables tables{pack};
  Assessor assessor{tables};
  Author author{*pack};

  [[nodiscard]] SignId sign(char const* name) const { return *pack->find_sign(name); }
  [[nodiscard]] Assessment assess(Answers const& answers) {
    Case patient;
    patient.answers.assign(answers.begin(), answers.end());
    return assessor.assess(patient);
  }
  [[nodiscard]] bool is_now(std::optional<TierId> tier) const {
    return tier && (*pack)[*tier].name == "now";
  }
};

// The published levels reckoned apart from the engine.
TEST_F(UrgencyOfCare, EachLevelAtEachWeightSetsTheTierOfThePlanAndOfTheAssessment) {
  struct Substance {
    char const* sign;
    double now_from_mg_per_kg;
  };
  std::size_t tried = 0;
  // A US teaching page (ibuprofen 16, the lowest of three), Merck Veterinary Manual and IASRI
  // (paracetamol 50), a poison centre's cases (naproxen 1, vomiting), aspirin 50 mg per kg; of
  // others no safe amount is known.
  for (auto const& substance : {Substance{"had_ibuprofen", 16},
                                {"had_paracetamol", 50},
                                {"had_naproxen", 1},
                                {"had_aspirin", 50},
                                {"had_diclofenac", 0}})
    for (double const kg :
         {0.3, 0.5, 0.9, 2.0, 4.5, 7.0, 12.0, 20.0, 36.0, 58.0, 99.9, 100.0, 140.0})
      for (double const per_kg :
           {0.5, 2.9, 4.99, 5.0, 9.0, 24.9, 25.0, 28.6, 49.9, 50.0, 180.0, 500.0})
        for (bool const is_weighed : {true, false}) {
          Answers answers{{sign(substance.sign), true}, {sign("human_painkiller_mg"), per_kg * kg}};
          if (is_weighed) answers[patient_sign::weight] = kg;
          auto const result = assess(answers);
          bool const is_believed = is_weighed && kg >= 0.5 && kg <= 100;
          auto const counted = is_believed ? per_kg : per_kg * kg / 0.5;
          EXPECT_EQ(is_now(result.judgement.tier),
                    counted >= substance.now_from_mg_per_kg * (1 - 1e-9))
              << substance.sign << ' ' << kg << " kg " << per_kg << " mg per kg";
          EXPECT_EQ(plan_care(tables, result, Reader::keeper).tier, result.judgement.tier);
          EXPECT_TRUE(result.judgement.tier) << "today at the least";
          ++tried;
        }
  EXPECT_EQ(tried, 5U * 13 * 12 * 2);
}

TEST_F(UrgencyOfCare, AnAmountThatNobodyKnowsIsNoSmallOne) {
  for (auto const* name :
       {"had_ibuprofen", "had_paracetamol", "had_naproxen", "had_aspirin", "had_diclofenac"})
    for (double const kg : {3.0, 30.0}) {
      Answers const answers{{sign(name), true}, {patient_sign::weight, kg}};
      EXPECT_TRUE(is_now(assess(answers).judgement.tier)) << name;
    }
}

// "A pill, no idea which" is no less urgent than one with a name, and is asked after at once.
TEST_F(UrgencyOfCare, OneThatNobodyKnowsCountsAsTheMostHarmfulAndIsAskedAfter) {
  auto answers = well_patient(*pack);
  for (auto const* name :
       {"had_ibuprofen", "had_paracetamol", "had_naproxen", "had_aspirin", "had_diclofenac",
        "painkiller_repeated", "human_painkiller_mg", "human_painkiller_hours"})
    answers.erase(sign(name));
  answers[sign("human_painkiller")] = true;
  auto const result = assess(answers);
  EXPECT_TRUE(is_now(result.judgement.tier));
  ASSERT_EQ(result.judgement.exposures.size(), 1U);
  EXPECT_EQ(result.judgement.exposures[0].is_this, Truth::unknown);
  EXPECT_EQ(pack->care[result.judgement.exposures[0].care].name, "other_painkiller_taken");
  Interview interview(tables, Reader::keeper);
  auto const outlook = interview.next(result);
  ASSERT_TRUE(outlook.screen);
  std::set<std::string> asked;
  for (auto const& question : outlook.screen->questions) asked.insert((*pack)[question.sign].name);
  EXPECT_EQ(asked, (std::set<std::string>{"had_ibuprofen", "had_paracetamol", "had_naproxen",
                                          "had_aspirin", "had_diclofenac"}));
  std::vector<SignId> untold;
  for (auto const& question : outlook.screen->questions) untold.push_back(question.sign);
  auto const then = interview.next(result, untold);
  ASSERT_TRUE(then.screen);
  EXPECT_EQ((*pack)[then.screen->questions.front().sign].name, "human_painkiller_mg");
  auto const questions = plan_care(tables, result, Reader::keeper).taken_questions;
  for (auto const* name : {"had_ibuprofen", "human_painkiller_mg", "human_painkiller_hours"})
    EXPECT_NE(std::find(questions.begin(), questions.end(), sign(name)), questions.end()) << name;
}

TEST_F(UrgencyOfCare, OneThatIsNoneOfTheNamedCountsAsHarmful) {
  auto answers = well_patient(*pack);
  for (auto const* name :
       {"had_ibuprofen", "had_paracetamol", "had_naproxen", "had_aspirin", "had_diclofenac"})
    answers[sign(name)] = false;
  EXPECT_FALSE(is_now(assess(answers).judgement.tier));
  answers[sign("human_painkiller")] = true;
  EXPECT_TRUE(is_now(assess(answers).judgement.tier));
}

// With the same amount, a name for one of two that nobody can tell must not calm.
TEST_F(UrgencyOfCare, OneThatCannotBeToldStillCountsBesideOneThatIsKnown) {
  auto answers = well_patient(*pack);
  for (auto const* name :
       {"had_ibuprofen", "had_paracetamol", "had_naproxen", "had_aspirin", "had_diclofenac"})
    answers.erase(sign(name));
  answers[sign("human_painkiller")] = true;
  answers[sign("human_painkiller_mg")] = 325.0;
  answers[sign("had_aspirin")] = true;
  Case patient;
  for (auto const& [id, answer] : answers) patient.answers.emplace_back(id, answer);
  EXPECT_FALSE(is_now(assessor.assess(patient).judgement.tier)) << "the others are not guessed at";
  patient.cannot_tell = {sign("had_diclofenac")};
  EXPECT_TRUE(is_now(assessor.assess(patient).judgement.tier));
  EXPECT_TRUE(is_now(assessor.judge(patient).tier));
}

// Whatever else is known: yes, no and unknown at random, and what makes the measure fit.
TEST_F(UrgencyOfCare, WhoIsToldToLeaveNowIsToBeSeenNow) {
  std::mt19937 random(20261126);
  auto const one_of = [&](int n) { return std::uniform_int_distribution(0, n - 1)(random); };
  std::size_t told = 0;
  for (int round = 0; round < 60; ++round)
    for (auto const& care : pack->care) {
      if (care.taken || !care.avoid.empty() || !care.watch.empty() || !care.fit_if) continue;
      auto answers = well_patient(*pack);
      for (std::uint32_t i = patient_sign::count; i < pack->signs.size(); ++i) {
        if (one_of(3) != 0) answers.erase(SignId{i});
        if (round > 0 && pack->signs[i].kind == AnswerKind::yes_or_no && one_of(60) == 0)
          answers[SignId{i}] = true;
      }
      author.make(*care.fit_if, true, answers);
      auto const result = assess(answers);
      auto const plan = plan_care(tables, result, Reader::keeper);
      EXPECT_EQ(plan.tier, result.judgement.tier);
      for (auto const& measure : plan.measures) {
        auto const& shown = pack->care[measure.care];
        bool const is_shown = measure.advice == Advice::offered && measure.fits == Truth::yes;
        bool const says_leave = shown.how.find("Leave now") != std::string::npos ||
                                shown.title.find("leave now") != std::string::npos;
        if (!is_shown || !says_leave) continue;
        ++told;
        EXPECT_TRUE(is_now(plan.tier)) << shown.name << " beside a less urgent tier";
      }
    }
  EXPECT_GE(told, 100U);
}

// Each sign of a twisted stomach, and each of overheating, alone: today at the least, and none of
// the comforts that wait.
TEST_F(UrgencyOfCare, ASwollenBellyOrAHotDogIsSeenTodayAtTheLeastAndNothingElseIsBegun) {
  for (auto const* name : {"belly_swollen", "retching_dry", "does_not_cool"}) {
    auto answers = well_patient(*pack);
    answers[sign(name)] = true;
    answers[sign("known_arthritis")] = true;
    answers[sign("stiff_after_rest")] = true;
    auto const result = assess(answers);
    ASSERT_TRUE(result.judgement.tier) << name;
    EXPECT_LE((*pack)[*result.judgement.tier].within_s, 86400) << name;
    for (auto const& measure : plan_care(tables, result, Reader::keeper).measures) {
      auto const& care = pack->care[measure.care];
      bool const may_begin = care.first_aid || care.while_waiting;
      EXPECT_TRUE(may_begin || measure.advice != Advice::offered) << name << ": " << care.name;
    }
  }
}

}  // namespace
}  // namespace flinch::test
