// What must hold for every pack and every case that an interview may meet.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "flinch/interview/interview.hpp"
#include "property/random_pack.hpp"
#include "property/slow_gain.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

constexpr unsigned packs_tried = 400;

// Calls `check(pack, seed)` for each sound random pack; enough of them must be sound.
template <class Check>
void for_random_packs(unsigned first_seed, Check const& check) {
  unsigned sound = 0;
  for (unsigned seed = first_seed; seed < first_seed + packs_tried; ++seed) {
    auto const loaded = load_random_pack(seed, Alarms::on_purpose);
    if (!loaded.outcome) continue;
    ++sound;
    check(*loaded.outcome.value, seed);
    if (testing::Test::HasFailure()) return;
  }
  EXPECT_GE(sound, 60U) << "too few random packs are sound to say anything";
}

TEST(InterviewProperties, GainsEqualTheSlowMutualInformation) {
  for_random_packs(20000, [](std::shared_ptr<Pack const> const& pack, unsigned seed) {
    Tables const tables(pack);
    Assessor assessor(tables);
    Gains gains(tables);
    std::mt19937 random(seed);
    for (int i = 0; i < 10; ++i) {
      SCOPED_TRACE(fmt::format("pack seed {}, case {}", seed, i));
      auto const patient = random_case(*pack, random);
      auto const result = assessor.assess(patient);
      std::vector<long double> posteriors(pack->causes.size() + 1);
      for (auto const& ranked : result.ranking)
        posteriors[ranked.cause ? index(*ranked.cause) : pack->causes.size()] = ranked.posterior;
      auto const slow = gains_slowly(*pack, patient, posteriors);
      auto const fast = gains.weigh(result);
      for (std::uint32_t sign = 0; sign < pack->signs.size(); ++sign) {
        auto const found = slow.find(SignId{sign});
        EXPECT_EQ(fast[sign].rule.has_value(), found != slow.end()) << pack->signs[sign].name;
        if (found != slow.end()) {
          EXPECT_NEAR(fast[sign].bits, found->second, 1e-12) << pack->signs[sign].name;
        }
      }
    }
  });
}

// The interview of one question after the other, and that of lines, whose facts share a screen.
InterviewLimits limits_of(unsigned seed) {
  return seed % 3 == 0 ? limits_of_lines() : InterviewLimits{};
}

// Whatever is answered, an interview ends, never asks a thing twice, and asks nothing that is
// known, could not be told or cannot be seen; every second one opens with a complaint.
TEST(InterviewProperties, EveryInterviewEnds) {
  for_random_packs(30000, [](std::shared_ptr<Pack const> const& pack, unsigned seed) {
    Tables const tables(pack);
    Assessor assessor(tables);
    Interview interview(tables, Reader::keeper, limits_of(seed));
    std::mt19937 random(seed);
    Case patient;
    std::set<SignId> asked;
    std::vector<SignId> places_asked;
    for (std::size_t screens = 0;; ++screens) {
      ASSERT_LE(screens, 2 * pack->signs.size()) << "pack seed " << seed;
      auto const result = assessor.assess(patient);
      auto const came_for =
          seed % 2 == 0 ? std::nullopt : std::optional(std::span(std::as_const(patient.came_for)));
      auto const outlook = interview.next(result, places_asked, came_for);
      if (!outlook.screen) {
        EXPECT_EQ(outlook.worth_asking(), 0U);
        break;
      }
      if (outlook.screen->kind == Screen::Kind::place) {
        auto const sign = outlook.screen->questions.at(0).sign;
        EXPECT_TRUE(std::get<Findings>(result.find(sign)->answer).found.empty());
        EXPECT_EQ(std::count(places_asked.begin(), places_asked.end(), sign), 0);
        places_asked.push_back(sign);
        continue;
      }
      for (auto const& question : outlook.screen->questions) {
        EXPECT_TRUE(asked.insert(question.sign).second) << "asked twice, pack seed " << seed;
        EXPECT_EQ(result.find(question.sign), nullptr);
        if (random() % 4 == 0)
          patient.cannot_tell.push_back(question.sign);
        else
          patient.answers.emplace_back(question.sign, random_answer(*pack, question.sign, random));
      }
      auto const is_told = [&](auto const& one) { return tables.is_told(one.first, one.second); };
      auto const told = std::find_if(patient.answers.begin(), patient.answers.end(), is_told);
      if (patient.came_for.empty() && told != patient.answers.end())
        patient.came_for.push_back(told->first);
    }
  });
}

// As long as an alarm may still fire for a higher tier, a clinician who was not asked everything is
// not told that it is enough.
TEST(InterviewProperties, EnoughIsSaidOnlyWhenNoAlarmCanRaiseTheTier) {
  for_random_packs(40000, [](std::shared_ptr<Pack const> const& pack, unsigned seed) {
    Tables const tables(pack);
    Assessor assessor(tables);
    Interview interview(tables, Reader::clinician, limits_of(seed));
    std::mt19937 random(seed);
    auto patient = random_case(*pack, random);
    patient.cannot_tell.clear();
    std::erase_if(patient.answers, [&](auto const& answer) {
      return std::holds_alternative<Findings>(answer.second);  // may know one site and not another
    });
    auto const result = assessor.assess(patient);
    auto const outlook = interview.next(result);
    if (result.judgement.ceiling != result.judgement.tier) {
      EXPECT_GT(outlook.danger_left, 0U) << "pack seed " << seed;
      EXPECT_FALSE(outlook.is_enough);
    } else {
      EXPECT_EQ(outlook.danger_left, 0U) << "pack seed " << seed;
    }
  });
}

}  // namespace
}  // namespace flinch::test
