// What must hold for every pack and every case: the engine against a slow evaluator, and against
// itself.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <thread>

#include "pack/shipped_pack.hpp"
#include "property/random_packs.hpp"
#include "property/slow_evaluator.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

std::optional<std::size_t> tier_index(std::optional<TierId> tier) {
  return tier ? std::optional(index(*tier)) : std::nullopt;
}

std::set<std::string> names_of_taken(Pack const& pack, Judgement const& judged) {
  std::set<std::string> out;
  for (auto const& exposure : judged.exposures) out.insert(pack.care[exposure.care].name);
  return out;
}

TEST(Properties, TheEngineEqualsTheSlowEvaluator) {
  for_random_cases(Alarms::on_purpose, 1000, 100, [](Drawn const& drawn) {
    auto patient = random_case(drawn.pack, drawn.random);
    if (drawn.number % 2 == 0) add_complaint(drawn.pack, patient, drawn.random);
    auto const fast = drawn.assessor.assess(patient);
    auto const slow = evaluate_slowly(drawn.pack, patient);
    for (auto const& ranked : fast.ranking)
      EXPECT_NEAR(ranked.posterior,
                  static_cast<double>(
                      slow.posterior.at(ranked.cause ? drawn.pack[*ranked.cause].name : "")),
                  1e-12);
    EXPECT_EQ(fast.judgement.told_signs, slow.told_signs);
    EXPECT_EQ(names_of_taken(drawn.pack, fast.judgement), slow.taken);
    EXPECT_EQ(tier_index(fast.judgement.alarm_tier), slow.alarm_tier);
    if (slow.nearest_threshold > 1e-9L) {
      EXPECT_EQ(tier_index(fast.judgement.ranking_tier), slow.ranking_tier);
      EXPECT_EQ(tier_index(fast.judgement.ceiling), slow.ceiling);
    }
    for (auto const& alarm : fast.alarms)
      EXPECT_EQ(static_cast<int>(alarm.truth) - 1, slow.alarms.at(drawn.pack[alarm.alarm].name));
  });
}

TEST(Properties, FamiliesAndFloorsCountAsWhatTheyStandForWrittenOut) {
  unsigned by_family = 0;
  unsigned floors = 0;
  for_random_packs(
      Alarms::on_purpose, 1000, 100, [&](std::shared_ptr<Pack const> const& pack, unsigned seed) {
        auto const loaded = load_random_pack(seed, Alarms::on_purpose, Wording::written_out);
        ASSERT_TRUE(loaded.outcome) << loaded.messages();
        for (auto const& rule : pack->rules)
          by_family += static_cast<unsigned>(
              std::count_if(rule.entries.begin(), rule.entries.end(),
                            [](RuleEntry const& entry) { return entry.family.has_value(); }));
        auto const& alarms = (*loaded.outcome.value)->alarms;
        ASSERT_EQ(pack->alarms.size(), alarms.size());
        for (std::size_t a = 0; a < alarms.size(); ++a) {
          EXPECT_EQ(pack->alarms[a].name, alarms[a].name);
          EXPECT_EQ(pack->alarms[a].trigger().test, alarms[a].trigger().test);
          floors += pack->alarms[a].floor_of ? 1 : 0;
        }
        Tables const tables(pack);
        Tables const written_out(*loaded.outcome.value);
        Assessor assessor(tables);
        Assessor other(written_out);
        std::mt19937 random(seed);
        for (int i = 0; i < 5; ++i) {
          auto const patient = random_case(*pack, random);
          auto const judged = assessor.judge(patient);
          auto const expected = other.judge(patient);
          for (std::size_t cause = 0; cause < expected.posteriors.size(); ++cause)
            EXPECT_NEAR(judged.posteriors[cause], expected.posteriors[cause], 1e-12) << seed;
          EXPECT_EQ(judged.fired, expected.fired);
          EXPECT_EQ(judged.tier, expected.tier);
          EXPECT_EQ(judged.ceiling, expected.ceiling);
        }
      });
  EXPECT_GT(by_family, 100U);
  EXPECT_GT(floors, 100U);
}

// The judgement comes out of tables that put rules and answers together; the reasons are taken rule
// by rule.
void expect_what_the_reasons_add_up_to(Tables const& tables, Judgement const& judged,
                                       Assessment const& reasoned) {
  double sum = 0;
  for (auto const& ranked : reasoned.ranking) sum += ranked.prior * std::exp(ranked.evidence);
  std::vector<std::uint32_t> order;
  judged.most_probable(judged.posteriors.size(), order);
  ASSERT_EQ(order.size(), reasoned.ranking.size());
  for (std::size_t i = 0; i < order.size(); ++i) {
    auto const& ranked = reasoned.ranking[i];
    EXPECT_EQ(ranked.cause ? index(*ranked.cause) : tables.pack().causes.size(), order[i]);
    EXPECT_EQ(ranked.posterior, judged.posteriors[order[i]]);
    EXPECT_NEAR(ranked.posterior, ranked.prior * std::exp(ranked.evidence) / sum, 1e-12);
  }
  for (std::size_t count = 0; count <= order.size() + 1; ++count) {
    std::vector<std::uint32_t> head;
    judged.most_probable(count, head);
    auto const wanted = std::min(count, order.size());
    EXPECT_EQ(head, std::vector(order.begin(), order.begin() + static_cast<int>(wanted)));
  }
  std::vector<AlarmId> fired;
  for (auto const& alarm : reasoned.alarms)
    if (alarm.truth == Truth::yes) fired.push_back(alarm.alarm);
  EXPECT_EQ(judged.fired, fired);
  EXPECT_EQ(judged.contradictions, reasoned.judgement.contradictions);
  EXPECT_EQ(judged.tier, reasoned.judgement.tier);
  EXPECT_EQ(judged.ceiling, reasoned.judgement.ceiling);
}

TEST(Properties, AJudgementIsWhatTheReasonsAddUpToWhateverWasJudgedBefore) {
  for_random_cases(Alarms::on_purpose, 7000, 100, [](Drawn const& drawn) {
    auto patient = random_case(drawn.pack, drawn.random);
    if (drawn.number % 2 == 0) add_complaint(drawn.pack, patient, drawn.random);
    auto const judged = drawn.assessor.judge(patient);
    EXPECT_EQ(judged.posteriors, Assessor(drawn.tables).judge(patient).posteriors);
    expect_what_the_reasons_add_up_to(drawn.tables, judged, drawn.assessor.assess(patient));
  });
}

TEST(Properties, TheShippedPackIsJudgedAsTheReasonsAddUp) {
  auto const pack = shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  std::mt19937 random(1915);
  for (int i = 0; i < 300; ++i) {
    SCOPED_TRACE(i);
    auto const patient = random_case(*pack, random);
    auto const judged = assessor.judge(patient);
    expect_what_the_reasons_add_up_to(tables, judged, assessor.assess(patient));
  }
}

// 120 rules that say nearly the same in full: more states than can be numbered, and weights whose
// product is far beyond what a double holds. Alone, and in one overlap.
TEST(Properties, WeightsBeyondTheNumbersOfTheMachineAreWeighed) {
  std::string text;
  for (auto const* sign : {"a", "b"})
    text +=
        fmt::format("sign {0} \"{0}\"\n  ask \"?\"\n  answer yes or no\n  seen by anyone\n", sign);
  for (auto const* cause : {"grave", "mild"})
    text += fmt::format(
        "cause {0} \"{0}\"\n  affects belly\n  base 10 per 1000\n  see now\n  because \"x\"\n  "
        "cite "
        "judgement\n",
        cause);
  std::string shared = "overlap all shares 100%: far0";
  for (int i = 0; i < 120; ++i) {
    text += fmt::format(
        "rule far{0} \"far{0}\"\n  if {1}\n  usual 0.5%\n  in grave 99.5%, mild 99.4%\n  because "
        "\"x\"\n  cite judgement\n",
        i, i % 2 == 0 ? "a" : "a or b");
    if (i > 0) shared += fmt::format(", far{}", i);
  }
  for (auto const& rest : {std::string(), shared + "\n"}) {
    auto const pack = pack_of(text + rest);
    Tables const tables(pack);
    Assessor assessor(tables);
    for (auto const* yaml : {"answers: {a: yes}", "answers: {a: no, b: no}", "answers: {b: no}"}) {
      auto const patient = case_of(*pack, yaml);
      auto const fast = assessor.assess(patient);
      auto const slow = evaluate_slowly(*pack, patient);
      for (auto const& ranked : fast.ranking)
        EXPECT_NEAR(
            ranked.posterior,
            static_cast<double>(slow.posterior.at(ranked.cause ? (*pack)[*ranked.cause].name : "")),
            1e-12)
            << yaml << rest;
    }
  }
}

// What was not mentioned moves the ranking and nothing else.
TEST(Properties, SilenceMovesTheRankingAlone) {
  int moved = 0;
  for_random_packs(Alarms::on_purpose, 6600, 100,
                   [&](std::shared_ptr<Pack const> const& pack, unsigned seed) {
                     Tables const tables(pack);
                     Tables const deaf(pack, Silence::ignored);
                     Assessor assessor(tables);
                     Assessor deaf_assessor(deaf);
                     std::mt19937 random(seed);
                     for (int i = 0; i < cases_each; ++i) {
                       SCOPED_TRACE(fmt::format("pack seed {}, case {}", seed, i));
                       auto patient = random_case(*pack, random);
                       add_complaint(*pack, patient, random);
                       auto const with = assessor.judge(patient);
                       auto const without = deaf_assessor.judge(patient);
                       EXPECT_EQ(with.by_answers.empty() ? with.posteriors : with.by_answers,
                                 without.posteriors);
                       EXPECT_EQ(with.tier, without.tier);
                       EXPECT_EQ(with.ranking_tier, without.ranking_tier);
                       EXPECT_EQ(with.ceiling, without.ceiling);
                       EXPECT_EQ(with.fired, without.fired);
                       moved += with.posteriors != without.posteriors ? 1 : 0;
                       patient.came_for.clear();
                       EXPECT_EQ(assessor.judge(patient).posteriors, without.posteriors);
                     }
                   });
  EXPECT_GT(moved, 500) << "too little was left unsaid";
}

TEST(Properties, PosteriorsSumToOne) {
  for_random_cases(Alarms::on_purpose, 2000, 100, [](Drawn const& drawn) {
    double sum = 0;
    for (auto const& ranked : drawn.assessor.assess(random_case(drawn.pack, drawn.random)).ranking)
      sum += ranked.posterior;
    EXPECT_NEAR(sum, 1, 1e-12);
  });
}

bool same(Assessment const& a, Assessment const& b) {
  auto const same_ranking = std::equal(a.ranking.begin(), a.ranking.end(), b.ranking.begin(),
                                       b.ranking.end(), [](Ranked const& x, Ranked const& y) {
                                         return x.cause == y.cause && x.posterior == y.posterior;
                                       });
  return same_ranking && a.judgement.tier == b.judgement.tier &&
         a.judgement.ceiling == b.judgement.ceiling &&
         a.judgement.told_signs == b.judgement.told_signs &&
         a.judgement.contradictions.size() == b.judgement.contradictions.size();
}

TEST(Properties, TheOrderOfAnswersNeverMatters) {
  for_random_cases(Alarms::on_purpose, 3000, 100, [](Drawn const& drawn) {
    auto patient = random_case(drawn.pack, drawn.random);
    auto const before = drawn.assessor.assess(patient);
    std::shuffle(patient.answers.begin(), patient.answers.end(), drawn.random);
    std::shuffle(patient.cannot_tell.begin(), patient.cannot_tell.end(), drawn.random);
    EXPECT_TRUE(same(before, drawn.assessor.assess(patient)));
  });
}

TEST(Properties, UnknownChangesNothing) {
  for_random_cases(Alarms::on_purpose, 4000, 100, [](Drawn const& drawn) {
    auto patient = random_case(drawn.pack, drawn.random);
    auto const before = drawn.assessor.assess(patient);
    for (std::uint32_t s = patient_sign::count; s < drawn.pack.signs.size(); ++s) {
      SignId const sign{s};
      bool const answered = std::any_of(patient.answers.begin(), patient.answers.end(),
                                        [&](auto const& a) { return a.first == sign; });
      bool const asked =
          std::count(patient.cannot_tell.begin(), patient.cannot_tell.end(), sign) > 0;
      if (!answered && !asked) patient.cannot_tell.push_back(sign);
    }
    auto after = drawn.assessor.assess(patient);
    // But what was asked for in vain may have been taken, and that makes more urgent alone.
    EXPECT_LE(before.judgement.exposures.size(), after.judgement.exposures.size());
    EXPECT_TRUE(!before.judgement.tier || *after.judgement.tier <= *before.judgement.tier);
    if (before.judgement.exposures.size() != after.judgement.exposures.size())
      after.judgement.tier = before.judgement.tier;
    EXPECT_TRUE(same(before, after));
  });
}

TEST(Properties, TablesServeManyThreads) {
  unsigned seed = 1001;
  auto loaded = load_random_pack(seed, Alarms::on_purpose);
  while (!loaded.outcome) loaded = load_random_pack(++seed, Alarms::on_purpose);
  auto const& pack = *loaded.outcome.value;
  Tables const tables(pack);
  std::vector<Case> cases;
  std::mt19937 random(7);
  for (int i = 0; i < 200; ++i) cases.push_back(random_case(*pack, random));
  std::vector<Assessment> alone;
  Assessor assessor(tables);
  for (auto const& patient : cases) alone.push_back(assessor.assess(patient));
  std::vector<int> differing(4);
  std::vector<std::thread> threads;
  for (std::size_t t = 0; t < differing.size(); ++t)
    threads.emplace_back([&, t] {
      Assessor own(tables);
      for (std::size_t i = 0; i < cases.size(); ++i)
        if (!same(own.assess(cases[i]), alone[i])) ++differing[t];
    });
  for (auto& thread : threads) thread.join();
  EXPECT_EQ(differing, std::vector<int>(4, 0));
}

}  // namespace
}  // namespace flinch::test
