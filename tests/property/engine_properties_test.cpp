// What must hold for every pack and every case. Seeds are fixed and printed with each failure.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <thread>

#include "flinch/assess/evaluator.hpp"
#include "flinch/assess/weight_doubt.hpp"
#include "flinch/model/tested_signs.hpp"
#include "pack/shipped_pack.hpp"
#include "property/random_pack.hpp"
#include "property/slow_evaluator.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

constexpr unsigned packs_tried = 600;
constexpr int cases_each = 20;

// Calls `check(pack, seed)` for each sound random pack; most must be.
template <class Check>
void for_random_packs(Alarms alarms, unsigned first_seed, unsigned at_least, Check const& check) {
  unsigned sound = 0;
  for (unsigned seed = first_seed; seed < first_seed + packs_tried; ++seed) {
    auto const loaded = load_random_pack(seed, alarms);
    if (!loaded.outcome) continue;
    ++sound;
    check(*loaded.outcome.value, seed);
    if (testing::Test::HasFailure()) return;
  }
  EXPECT_GE(sound, at_least) << "too few random packs are sound to say anything";
}

std::optional<std::size_t> tier_index(std::optional<TierId> tier) {
  return tier ? std::optional(index(*tier)) : std::nullopt;
}

std::set<std::string> names_of_taken(Pack const& pack, Judgement const& judged) {
  std::set<std::string> out;
  for (auto const& exposure : judged.exposures) out.insert(pack.care[exposure.care].name);
  return out;
}

TEST(Properties, TheEngineEqualsTheSlowEvaluator) {
  for_random_packs(
      Alarms::on_purpose, 1000, 100, [](std::shared_ptr<Pack const> const& pack, unsigned seed) {
        Tables const tables(pack);
        Assessor assessor(tables);
        std::mt19937 random(seed);
        for (int i = 0; i < cases_each; ++i) {
          SCOPED_TRACE(fmt::format("pack seed {}, case {}", seed, i));
          auto patient = random_case(*pack, random);
          if (i % 2 == 0) add_complaint(*pack, patient, random);
          auto const fast = assessor.assess(patient);
          auto const slow = evaluate_slowly(*pack, patient);
          for (auto const& ranked : fast.ranking)
            EXPECT_NEAR(ranked.posterior,
                        static_cast<double>(
                            slow.posterior.at(ranked.cause ? (*pack)[*ranked.cause].name : "")),
                        1e-12);
          EXPECT_EQ(fast.judgement.told_signs, slow.told_signs);
          EXPECT_EQ(names_of_taken(*pack, fast.judgement), slow.taken);
          EXPECT_EQ(tier_index(fast.judgement.alarm_tier), slow.alarm_tier);
          if (slow.nearest_threshold > 1e-9L) {
            EXPECT_EQ(tier_index(fast.judgement.ranking_tier), slow.ranking_tier);
            EXPECT_EQ(tier_index(fast.judgement.ceiling), slow.ceiling);
          }
          for (auto const& alarm : fast.alarms)
            EXPECT_EQ(static_cast<int>(alarm.truth) - 1, slow.alarms.at((*pack)[alarm.alarm].name));
        }
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
  for_random_packs(Alarms::on_purpose, 7000, 100,
                   [](std::shared_ptr<Pack const> const& pack, unsigned seed) {
                     Tables const tables(pack);
                     Assessor assessor(tables);
                     std::mt19937 random(seed);
                     for (int i = 0; i < cases_each; ++i) {
                       SCOPED_TRACE(fmt::format("pack seed {}, case {}", seed, i));
                       auto patient = random_case(*pack, random);
                       if (i % 2 == 0) add_complaint(*pack, patient, random);
                       auto const judged = assessor.judge(patient);
                       EXPECT_EQ(judged.posteriors, Assessor(tables).judge(patient).posteriors);
                       expect_what_the_reasons_add_up_to(tables, judged, assessor.assess(patient));
                     }
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

// Of the answers that a case of the pack may have, those that tell of nothing: no to all that has a
// no, and what the dog is.
Case plain_no(Pack const& pack, std::mt19937& random) {
  Case out;
  for (std::uint32_t i = 0; i < pack.signs.size(); ++i) {
    SignId const sign{i};
    if (sign == patient_sign::breed && pack.breeds.breeds.empty()) continue;
    if (std::uniform_int_distribution(0, 3)(random) == 0) continue;
    auto const kind = pack[sign].kind;
    if (pack[sign].of_the_patient)
      out.answers.emplace_back(sign, random_answer(pack, sign, random));
    else if (kind == AnswerKind::yes_or_no)
      out.answers.emplace_back(sign, false);
    else if (kind == AnswerKind::sites)
      out.answers.emplace_back(sign, Findings{false, true, {}, {}});
    else if (kind == AnswerKind::steps)
      out.answers.emplace_back(sign, Choice{0});
    else
      out.cannot_tell.push_back(sign);
  }
  return out;
}

TEST(Properties, WithNothingToldOnlyAlarmsSetATier) {
  auto const check = [](std::shared_ptr<Pack const> const& pack, unsigned seed) {
    Tables const tables(pack);
    Assessor assessor(tables);
    std::mt19937 random(seed);
    for (int i = 0; i < cases_each; ++i) {
      auto const result = assessor.assess(plain_no(*pack, random));
      EXPECT_TRUE(result.judgement.nothing_told) << "pack seed " << seed;
      EXPECT_FALSE(result.judgement.ranking_tier) << "pack seed " << seed;
      EXPECT_EQ(result.judgement.tier, result.judgement.alarm_tier) << "pack seed " << seed;
    }
  };
  for_random_packs(Alarms::on_purpose, 5500, 100, check);
  auto const shipped = shipped_pack();
  check(shipped, 0);
  // Each sign of the shipped pack, answered no and nothing else.
  Tables const tables(shipped);
  Assessor assessor(tables);
  for (std::uint32_t i = patient_sign::count; i < shipped->signs.size(); ++i) {
    Case patient;
    auto const kind = shipped->signs[i].kind;
    if (kind == AnswerKind::yes_or_no) patient.answers.emplace_back(SignId{i}, false);
    if (kind == AnswerKind::sites)
      patient.answers.emplace_back(SignId{i}, Findings{false, true, {}, {}});
    if (kind == AnswerKind::steps) patient.answers.emplace_back(SignId{i}, Choice{0});
    EXPECT_FALSE(assessor.assess(patient).judgement.tier) << shipped->signs[i].name;
  }
}

TEST(Properties, EachSignToldAloneIsEnoughForATier) {
  auto const pack = shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  for (std::uint32_t i = patient_sign::count; i < pack->signs.size(); ++i) {
    Case patient;
    auto const kind = pack->signs[i].kind;
    if (kind == AnswerKind::yes_or_no) patient.answers.emplace_back(SignId{i}, true);
    if (kind == AnswerKind::sites)
      patient.answers.emplace_back(SignId{i}, Findings{true, false, {}, {}});
    if (kind == AnswerKind::steps) patient.answers.emplace_back(SignId{i}, Choice{1});
    if (patient.answers.empty()) continue;
    EXPECT_TRUE(assessor.assess(patient).judgement.tier) << pack->signs[i].name;
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
  for_random_packs(
      Alarms::on_purpose, 2000, 100, [](std::shared_ptr<Pack const> const& pack, unsigned seed) {
        Tables const tables(pack);
        Assessor assessor(tables);
        std::mt19937 random(seed);
        for (int i = 0; i < cases_each; ++i) {
          double sum = 0;
          for (auto const& ranked : assessor.assess(random_case(*pack, random)).ranking)
            sum += ranked.posterior;
          EXPECT_NEAR(sum, 1, 1e-12) << "pack seed " << seed;
        }
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
  for_random_packs(Alarms::on_purpose, 3000, 100,
                   [](std::shared_ptr<Pack const> const& pack, unsigned seed) {
                     Tables const tables(pack);
                     Assessor assessor(tables);
                     std::mt19937 random(seed);
                     for (int i = 0; i < cases_each; ++i) {
                       auto patient = random_case(*pack, random);
                       auto const before = assessor.assess(patient);
                       std::shuffle(patient.answers.begin(), patient.answers.end(), random);
                       std::shuffle(patient.cannot_tell.begin(), patient.cannot_tell.end(), random);
                       EXPECT_TRUE(same(before, assessor.assess(patient)))
                           << "pack seed " << seed << ", case " << i;
                     }
                   });
}

TEST(Properties, UnknownChangesNothing) {
  for_random_packs(
      Alarms::on_purpose, 4000, 100, [](std::shared_ptr<Pack const> const& pack, unsigned seed) {
        Tables const tables(pack);
        Assessor assessor(tables);
        std::mt19937 random(seed);
        for (int i = 0; i < cases_each; ++i) {
          auto patient = random_case(*pack, random);
          auto const before = assessor.assess(patient);
          for (std::uint32_t s = patient_sign::count; s < pack->signs.size(); ++s) {
            SignId const sign{s};
            bool const answered = std::any_of(patient.answers.begin(), patient.answers.end(),
                                              [&](auto const& a) { return a.first == sign; });
            bool const asked =
                std::count(patient.cannot_tell.begin(), patient.cannot_tell.end(), sign) > 0;
            if (!answered && !asked) patient.cannot_tell.push_back(sign);
          }
          auto after = assessor.assess(patient);
          // But what was asked for in vain may have been taken, and that makes more urgent alone.
          EXPECT_LE(before.judgement.exposures.size(), after.judgement.exposures.size());
          EXPECT_TRUE(!before.judgement.tier || *after.judgement.tier <= *before.judgement.tier);
          if (before.judgement.exposures.size() != after.judgement.exposures.size())
            after.judgement.tier = before.judgement.tier;
          EXPECT_TRUE(same(before, after)) << "pack seed " << seed << ", case " << i;
        }
      });
}

// The most urgent tier that an alarm sets, what was taken left aside: which substance it was is an
// answer that may well calm.
std::optional<TierId> tier_of_alarms(Assessor& assessor, Pack const& pack, Case const& patient) {
  std::optional<TierId> out;
  for (auto const alarm : assessor.judge(patient).fired)
    if (!out || pack[alarm].see < *out) out = pack[alarm].see;
  return out;
}

// The signs that an `unless` asks for, and those whose answers bear on these by meaning: their
// wholes, their parts, and what decides whether one of these applies. An answer to one may calm; to
// another part of a whole it may not.
std::vector<bool> that_may_calm(Pack const& pack) {
  std::vector<bool> asked_for(pack.signs.size());
  for (auto const& alarm : pack.alarms)
    if (alarm.unless() != nullptr) mark_tested_signs(pack, *alarm.unless(), asked_for);
  std::vector<bool> wholes(pack.signs.size());
  for (auto before = std::pair(wholes, std::vector<bool>());
       before != std::pair(wholes, asked_for);) {
    before = {wholes, asked_for};
    for (std::uint32_t i = 0; i < pack.signs.size(); ++i) {
      auto const& sign = pack.signs[i];
      if (sign.part_of && asked_for[index(*sign.part_of)]) asked_for[i] = true;
      if (!asked_for[i] && !wholes[i]) continue;
      if (sign.part_of) wholes[index(*sign.part_of)] = true;
      if (sign.applies_if) mark_tested_signs(pack, *sign.applies_if, asked_for);
    }
  }
  for (std::size_t i = 0; i < wholes.size(); ++i) asked_for[i] = asked_for[i] || wholes[i];
  return asked_for;
}

// A danger sign is one that an alarm uses as true. Adding one: a sign that was unknown or no
// becomes yes; a further site is found; a step goes up; a choice goes to a value that an alarm asks
// for.
void add_danger(Pack const& pack, Case& patient, std::mt19937& random) {
  std::vector<std::pair<SignId, Answer>> additions;
  std::function<void(Condition const&, bool)> const look = [&](Condition const& c, bool positive) {
    if (c.kind == Condition::Kind::negation) return look(c.parts.front(), !positive);
    for (auto const& part : c.parts) look(part, positive);
    if (c.kind != Condition::Kind::test || !positive) return;
    auto const& sign = pack[c.test.sign];
    if (sign.of_the_patient) return;  // what a dog is, is not added
    if (sign.kind == AnswerKind::yes_or_no) additions.emplace_back(c.test.sign, true);
    if (sign.kind == AnswerKind::sites) {
      Findings found{true, false, {}, {}};
      if (c.test.kind == Test::Kind::at_site) found.found.push_back(c.test.mark);
      additions.emplace_back(c.test.sign, found);
    }
    if (sign.kind == AnswerKind::steps || sign.kind == AnswerKind::one_of)
      for (auto const value : c.test.values) additions.emplace_back(c.test.sign, Choice{value});
  };
  for (auto const& alarm : pack.alarms) look(alarm.trigger(), true);
  auto const calms = that_may_calm(pack);
  std::erase_if(additions, [&](auto const& one) { return calms[index(one.first)]; });
  if (additions.empty()) return;
  auto const& [sign, answer] =
      additions[std::uniform_int_distribution<std::size_t>(0, additions.size() - 1)(random)];
  auto const at = std::find_if(patient.answers.begin(), patient.answers.end(),
                               [&, s = sign](auto const& a) { return a.first == s; });
  std::erase(patient.cannot_tell, sign);
  if (at == patient.answers.end()) {
    patient.answers.emplace_back(sign, answer);
  } else if (auto const* step = std::get_if<Choice>(&answer);
             step != nullptr && pack[sign].kind == AnswerKind::steps) {
    at->second = Choice{std::max(step->index, std::get<Choice>(at->second).index)};
  } else if (auto const* more = std::get_if<Findings>(&answer)) {
    auto& findings = std::get<Findings>(at->second);
    findings.found_somewhere = true;
    findings.clear_everywhere = false;
    findings.found.insert(findings.found.end(), more->found.begin(), more->found.end());
  } else if (pack[sign].kind == AnswerKind::one_of) {
    return;  // one choice takes the place of another: nothing is added
  } else {
    at->second = answer;
  }
}

TEST(Properties, TheAlarmTierNeverFallsWhenADangerSignIsAdded) {
  std::size_t rose = 0;
  for_random_packs(Alarms::sound, 5000, 60,
                   [&](std::shared_ptr<Pack const> const& pack, unsigned seed) {
                     Tables const tables(pack);
                     Assessor assessor(tables);
                     std::mt19937 random(seed);
                     for (int i = 0; i < cases_each; ++i) {
                       auto patient = random_case(*pack, random);
                       auto before = tier_of_alarms(assessor, *pack, patient);
                       for (int step = 0; step < 4; ++step) {
                         add_danger(*pack, patient, random);
                         auto const after = tier_of_alarms(assessor, *pack, patient);
                         EXPECT_TRUE(!before || (after && *after <= *before))
                             << "pack seed " << seed << ", case " << i;
                         if (after != before) ++rose;
                         before = after;
                       }
                     }
                   });
  EXPECT_GT(rose, 100U) << "the additions did nothing";
}

// An alarm that is held back is held back as well without the answers that clash.
TEST(Properties, AClashHoldsNoAlarmBack) {
  std::size_t clashes = 0, held = 0;
  for_random_packs(
      Alarms::sound, 5500, 60, [&](std::shared_ptr<Pack const> const& pack, unsigned seed) {
        Tables const tables(pack);
        Assessor assessor(tables);
        std::mt19937 random(seed);
        for (int i = 0; i < cases_each; ++i) {
          auto patient = random_case(*pack, random);
          auto const told = assessor.assess(patient);
          if (told.judgement.contradictions.empty()) continue;
          ++clashes;
          std::erase_if(patient.answers,
                        [&](auto const& one) { return told.knowledge.is_disputed(one.first); });
          auto const sure = assessor.assess(patient);
          Evaluator const before(tables, told.knowledge);
          Evaluator const after(tables, sure.knowledge);
          for (auto const& alarm : pack->alarms) {
            if (alarm.unless() == nullptr) continue;
            auto const& standing = alarm.condition.parts.back();
            if (before.truth(standing) != Truth::no) continue;
            ++held;
            EXPECT_EQ(after.truth(standing), Truth::no)
                << "pack seed " << seed << ", case " << i << ", " << alarm.name;
          }
        }
      });
  EXPECT_GT(clashes, 100U);
  EXPECT_GT(held, 10U);
}

TEST(Properties, TheCeilingIsNeverBelowWhatACompletionReaches) {
  for_random_packs(
      Alarms::on_purpose, 6000, 100, [](std::shared_ptr<Pack const> const& pack, unsigned seed) {
        Tables const tables(pack);
        Assessor assessor(tables);
        std::mt19937 random(seed);
        for (int i = 0; i < cases_each; ++i) {
          auto patient = random_case(*pack, random);
          auto const before = assessor.assess(patient);
          for (std::uint32_t s = 0; s < pack->signs.size(); ++s) {
            SignId const sign{s};
            if (sign == patient_sign::breed || before.find(sign) != nullptr) continue;
            std::erase(patient.cannot_tell, sign);
            patient.answers.emplace_back(sign, random_answer(*pack, sign, random));
          }
          auto const after = assessor.assess(patient);
          // A size or an age may make the weight one that can hardly be: the ceiling takes it at
          // its word.
          if (doubt_of_weight(*pack, patient)) continue;
          // Contradictory completions may undo what followed from given answers; they complete
          // nothing.
          if (after.judgement.contradictions.size() != before.judgement.contradictions.size())
            continue;
          EXPECT_TRUE(!after.judgement.alarm_tier ||
                      (before.judgement.ceiling &&
                       *before.judgement.ceiling <= *after.judgement.alarm_tier))
              << "pack seed " << seed << ", case " << i;
        }
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
