// What stands in the Bundle of a case, and what does not.
#include <gtest/gtest.h>

#include "exchange/shared_case.hpp"
#include "flinch/explain/reasons.hpp"
#include "pack/shipped_pack.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

using cli::Json;
using cli::Names;

Case sample(Pack const& pack) {
  return case_of(pack,
                 "name: Xyzzy\ncaller: Plugh\ncall back: 0999 888\nring back at: frobtime\n"
                 "note: quuxnote\n"
                 "dog: {age: 8 years, weight: 30 kg, breed: boxer, sex: male, neutered: no}\n"
                 "came for: [vomiting]\n"
                 "answers: {vomiting: yes, lame: [left forelimb], appetite: less, "
                 "trembling: can't tell}\n");
}

TEST(Share, WithoutNamesNothingSaysWhoseItIs) {
  auto const pack = shipped_pack();
  auto const text = shared(pack, sample(*pack), Names::withheld).dump();
  for (auto const* word : {"Xyzzy", "Plugh", "0999", "frobtime", "quuxnote", "case.words"})
    EXPECT_EQ(text.find(word), std::string::npos) << word;
}

TEST(Share, WithNamesTheyAreSent) {
  auto const pack = shipped_pack();
  auto sent = shared(pack, sample(*pack), Names::sent);
  auto const text = sent.dump();
  for (auto const* word : {"Xyzzy", "Plugh", "0999 888", "frobtime", "quuxnote"})
    EXPECT_NE(text.find(word), std::string::npos) << word;
  auto const& patient = resource_of(sent, "Patient");
  EXPECT_EQ(patient["name"][0]["text"], "Xyzzy");
  EXPECT_EQ(patient["contact"][0]["telecom"][0]["value"], "0999 888");
}

TEST(Share, ThePatientIsTheAnimalAsItWasTold) {
  auto const pack = shipped_pack();
  auto sent = shared(pack, sample(*pack), Names::withheld);
  auto const& patient = resource_of(sent, "Patient");
  EXPECT_EQ(patient["gender"], "male");
  auto const& parts = patient["extension"][0]["extension"];
  EXPECT_EQ(parts[0]["valueCodeableConcept"]["coding"][0]["code"], "canislf");
  EXPECT_EQ(parts[1]["valueCodeableConcept"]["text"], "Boxer");
  EXPECT_EQ(parts[2]["valueCodeableConcept"]["coding"][0]["code"], "intact");
}

TEST(Share, WhatWasNotAnsweredIsAbsentAndWhatCouldNotBeToldIsCoded) {
  auto const pack = shipped_pack();
  auto sent =
      shared(pack, case_of(*pack, "answers: {trembling: can't tell, heart_rate: can't tell}\n"),
             Names::withheld);
  auto& response = resource_of(sent, "QuestionnaireResponse");
  EXPECT_EQ(item_of(response, "vomiting"), nullptr);
  auto const* trembling = item_of(response, "trembling");
  ASSERT_NE(trembling, nullptr);
  EXPECT_EQ((*trembling)["answer"][0]["valueCoding"]["code"], "asked-unknown");
  auto const& patient = resource_of(sent, "Patient");
  EXPECT_FALSE(patient.contains("gender"));
  EXPECT_EQ(patient["extension"][0]["extension"].size(), 1U);  // the species alone
}

TEST(Share, ProbabilitiesAreThoseOfTheAssessmentInPerCent) {
  auto const pack = shipped_pack();
  auto const patient = sample(*pack);
  Tables const tables(pack);
  Assessor assessor(tables);
  auto const result = assessor.assess(patient);
  auto sent = shared(pack, patient, Names::withheld);
  auto const& predictions = resource_of(sent, "RiskAssessment")["prediction"];
  std::size_t next = 0;
  for (auto const& ranked : result.ranking) {
    if (ranked.cause && ranked.posterior < 0.01) continue;
    ASSERT_LT(next, predictions.size());
    auto const& one = predictions[next++];
    EXPECT_EQ(one["outcome"]["coding"][0]["code"],
              ranked.cause ? (*pack)[*ranked.cause].name : "none");
    EXPECT_NEAR(one["probabilityDecimal"].get<double>(), 100 * ranked.posterior, 0.005 + 1e-9);
  }
  EXPECT_EQ(next, predictions.size());
  EXPECT_GE(next, 2U);
}

TEST(Share, TheTierHasItsPriorityAndItsTime) {
  auto const pack = shipped_pack();
  auto sent = shared(pack, case_of(*pack, "answers: {retching_dry: yes, belly_swollen: yes}\n"),
                     Names::withheld);
  auto const& request = resource_of(sent, "ServiceRequest");
  EXPECT_EQ(request["priority"], "stat");
  EXPECT_EQ(request["intent"], "proposal");
  EXPECT_EQ(request["code"]["coding"][0]["code"], "now");
  EXPECT_EQ(request["occurrencePeriod"]["start"], "2025-11-24T16:00:00Z");
  EXPECT_EQ(request["occurrencePeriod"]["end"], "2025-11-24T17:00:00Z");
}

TEST(Share, WithNothingToldThereIsNoUrgencyAndNoRanking) {
  auto const pack = shipped_pack();
  auto sent = shared(pack, Case{}, Names::withheld);
  EXPECT_THROW((void)resource_of(sent, "ServiceRequest"), std::runtime_error);
  auto const& causes = resource_of(sent, "RiskAssessment");
  EXPECT_FALSE(causes.contains("prediction"));
  EXPECT_NE(causes["note"][0]["text"].get<std::string>().find("Nothing was told"),
            std::string::npos);
  EXPECT_FALSE(resource_of(sent, "QuestionnaireResponse").contains("item"));
}

TEST(Share, OnlyWhatIsOfferedIsAnActivity) {
  auto const pack = shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  std::size_t offered = 0;
  std::size_t kept_back = 0;
  for (std::size_t i = 0; i < pack->examples.size(); i += 10) {
    auto const& example = pack->examples[i];
    auto const plan = plan_care(tables, assessor.assess(example.patient), Reader::keeper);
    std::vector<std::string> wanted;
    for (auto const& measure : plan.measures) {
      bool const is_offered = measure.advice == Advice::offered && measure.fits == Truth::yes;
      (is_offered ? offered : kept_back) += 1;
      if (is_offered) wanted.push_back(pack->care[measure.care].name);
    }
    auto sent = shared(pack, example.patient, Names::withheld);
    std::vector<std::string> found;
    auto const& care = resource_of(sent, "CarePlan");
    if (care.contains("activity"))
      for (auto const& one : care["activity"])
        found.push_back(one["detail"]["code"]["coding"][0]["code"]);
    ASSERT_EQ(found, wanted) << example.name;
  }
  EXPECT_GT(offered, 100U);
  EXPECT_GT(kept_back, 100U);
}

TEST(Share, TheCautionStandsInEveryPieceThatNamesACauseAMeasureOrATier) {
  auto const pack = shipped_pack();
  auto sent = shared(pack, sample(*pack), Names::withheld);
  for (auto const* type : {"RiskAssessment", "ServiceRequest", "CarePlan"})
    EXPECT_EQ(resource_of(sent, type)["note"].back()["text"], caution) << type;
}

}  // namespace
}  // namespace flinch::test
