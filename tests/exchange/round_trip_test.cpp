// What is shared is taken back as the same case.
#include <gtest/gtest.h>

#include <random>

#include "exchange/shared_case.hpp"
#include "flinch/casefile/write_case.hpp"
#include "pack/shipped_pack.hpp"
#include "property/random_pack.hpp"
#include "support/small_pack.hpp"
#include "support/tries.hpp"

namespace flinch::test {
namespace {

using cli::Names;

Case without_names(Case patient) {
  patient.name.clear();
  patient.caller.clear();
  patient.call_back.clear();
  patient.ring_back_at.clear();
  patient.note.clear();
  return patient;
}

// By sign, and only what a case file can say: answers out of a file are so already.
Case in_order(Case patient) {
  std::sort(patient.answers.begin(), patient.answers.end(),
            [](auto const& a, auto const& b) { return a.first < b.first; });
  std::sort(patient.cannot_tell.begin(), patient.cannot_tell.end());
  return patient;
}

void expect_same(std::shared_ptr<Pack const> const& pack, Case const& patient, Names names) {
  auto const sent = cli::fhir_text(shared(pack, patient, names));
  auto const taken = take(*pack, sent);
  ASSERT_TRUE(taken.patient) << taken.messages << write_case(patient, *pack);
  EXPECT_EQ(taken.messages, "");
  auto const wanted = in_order(names == Names::sent ? patient : without_names(patient));
  ASSERT_EQ(in_order(*taken.patient), wanted) << write_case(wanted, *pack) << "\n--- taken\n"
                                              << write_case(*taken.patient, *pack);
}

// The examples of which each one is tried.
constexpr std::size_t every = sanitised_share * sanitised_share;

TEST(RoundTrip, EveryExampleOfTheShippedPack) {
  auto const pack = shipped_pack();
  for (std::size_t i = 0; i < pack->examples.size(); i += every) {
    auto const& example = pack->examples[i];
    auto patient = example.patient;
    patient.note = example.title;
    expect_same(pack, patient, Names::sent);
    expect_same(pack, patient, Names::withheld);
    if (HasFatalFailure()) FAIL() << example.name;
  }
  EXPECT_GT(pack->examples.size(), 400U);
}

TEST(RoundTrip, DrawnCasesWithAnswersOfEveryKind) {
  auto const pack = shipped_pack();
  std::mt19937 random(20260101);
  std::size_t of_kind[6] = {};
  std::size_t not_told = 0;
  std::size_t clear = 0;
  std::size_t complaints = 0;
  for (int i = 0; i < 100; ++i) {
    auto patient = random_case(*pack, random);
    drop_misplaced(*pack, patient);
    add_complaint(*pack, patient, random);
    patient.name = "\u202e\"Rex\" \U0001f415\n\t\\";
    patient.call_back = "0" + std::to_string(i);
    if (i % 2 == 0)
      patient.outcome =
          CaseOutcome{i % 4 == 0, i % 8 == 0 ? std::optional(CauseId{5}) : std::nullopt,
                      i % 3 == 0 ? std::optional(TierId{1}) : std::nullopt};
    if (patient.outcome && !patient.outcome->is_cause_known) patient.outcome->cause.reset();
    if (patient.outcome && !patient.outcome->is_cause_known && !patient.outcome->needed)
      patient.outcome.reset();
    for (auto const& [sign, answer] : patient.answers) {
      ++of_kind[static_cast<std::size_t>((*pack)[sign].kind)];
      if (auto const* findings = std::get_if<Findings>(&answer)) clear += findings->clear.size();
    }
    not_told += patient.cannot_tell.size();
    complaints += patient.came_for.size();
    expect_same(pack, patient, i % 2 == 0 ? Names::sent : Names::withheld);
    if (HasFatalFailure()) FAIL() << i;
  }
  for (auto const count : of_kind) EXPECT_GT(count, 20U);
  EXPECT_GT(not_told, 100U);
  EXPECT_GT(clear, 100U);
  EXPECT_GT(complaints, 50U);
}

TEST(RoundTrip, DrawnPacks) {
  int packs = 0;
  for (unsigned seed = 1; packs < 30; ++seed) {
    auto const loaded = load_random_pack(seed, Alarms::on_purpose);
    if (!loaded.outcome) continue;
    ++packs;
    auto const& pack = *loaded.outcome.value;
    std::mt19937 random(seed);
    for (int i = 0; i < 5; ++i) {
      auto patient = random_case(*pack, random);
      drop_misplaced(*pack, patient);
      expect_same(pack, patient, Names::sent);
      if (HasFatalFailure()) FAIL() << seed;
    }
  }
}

}  // namespace
}  // namespace flinch::test
