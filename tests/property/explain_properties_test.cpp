// What explanations promise, on random packs: weights add up, ways to fire fire, what-ifs are what
// comes out, and the search for smallest changes finds what trying everything finds.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>

#include "flinch/explain/cause.hpp"
#include "flinch/explain/contrast.hpp"
#include "flinch/explain/ladder.hpp"
#include "flinch/explain/rule.hpp"
#include "flinch/explain/tier.hpp"
#include "flinch/explain/what_if.hpp"
#include "property/random_pack.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

using Shared = std::shared_ptr<Pack const>;

// Calls `check(pack, tables, assessor, dog)` for some cases of each sound random pack.
template <class Check>
void for_random_cases(unsigned first_seed, unsigned packs, int cases, Check const& check) {
  unsigned sound = 0;
  for (unsigned seed = first_seed; sound < packs && seed < first_seed + 50 * packs; ++seed) {
    auto const loaded = load({{"pack.flinch", random_pack(seed, Alarms::on_purpose)}});
    if (!loaded.outcome) continue;
    ++sound;
    auto const& pack = *loaded.outcome.value;
    Tables const tables(pack);
    Assessor assessor(tables);
    std::mt19937 random(seed);
    for (int i = 0; i < cases; ++i) {
      SCOPED_TRACE(fmt::format("pack seed {}, case {}", seed, i));
      check(*pack, tables, assessor, random_case(*pack, random));
      if (testing::Test::HasFailure()) return;
    }
  }
  EXPECT_EQ(sound, packs) << "too few random packs are sound to say anything";
}

TEST(ExplainProperties, ShownWeightsWithTheBaseGiveThePosteriorShown) {
  std::size_t shared = 0;
  for_random_cases(20000, 100, 10,
                   [&](Pack const& pack, Tables const& tables, Assessor& assessor, Case dog) {
                     auto const result = assessor.assess(dog);
                     // From the bases as written and the weights as shown, nothing else.
                     std::vector<double> scores{std::log(pack.unlisted)};
                     std::vector<double> posteriors;
                     for (std::uint32_t c = 0; c < pack.causes.size(); ++c) {
                       auto const why = explain_cause(tables, result, CauseId{c});
                       auto score = std::log(pack.causes[c].base);
                       for (auto const& weight : why.weights) {
                         score += weight.weight * weight.share;
                         shared += weight.share < 1 ? 1 : 0;
                         EXPECT_EQ(weight.share < 1, weight.stronger.has_value());
                         EXPECT_FALSE(weight.behind.empty());
                         for (auto const sign : weight.behind)
                           EXPECT_NE(result.find(sign), nullptr);
                       }
                       scores.push_back(score);
                       posteriors.push_back(why.numbers.posterior);
                       EXPECT_NEAR(std::exp(why.log_prior + why.numbers.evidence - why.log_scale),
                                   why.numbers.posterior, 1e-12);
                     }
                     double sum = 0;
                     for (auto const score : scores) sum += std::exp(score);
                     for (std::size_t c = 0; c < posteriors.size(); ++c)
                       EXPECT_NEAR(std::exp(scores[c + 1]) / sum, posteriors[c], 1e-12);
                   });
  EXPECT_GT(shared, 100U) << "no overlap was seen";
}

TEST(ExplainProperties, ContrastsAddUpToTheRatioOfPosteriors) {
  for_random_cases(
      21000, 60, 10, [](Pack const&, Tables const& tables, Assessor& assessor, Case const& dog) {
        auto const result = assessor.assess(dog);
        auto const c = contrast(tables, result, CauseId{0}, CauseId{1});
        auto total = c.base_difference;
        for (auto const& rule : c.rules) total += rule.difference();
        EXPECT_NEAR(total, c.total, 1e-9);
        EXPECT_NEAR(total,
                    std::log(explain_cause(tables, result, CauseId{0}).numbers.posterior /
                             explain_cause(tables, result, CauseId{1}).numbers.posterior),
                    1e-9);
      });
}

TEST(ExplainProperties, TreesHaveTheTruthThatTheAssessmentGave) {
  for_random_cases(
      22000, 60, 10,
      [](Pack const& pack, Tables const& tables, Assessor& assessor, Case const& dog) {
        auto const result = assessor.assess(dog);
        for (auto const& outcome : result.rules) {
          auto const& rule = pack[outcome.rule];
          if (!rule.condition) continue;
          EXPECT_EQ(condition_tree(tables, result, *rule.condition).truth, outcome.truth);
        }
        for (auto const& alarm : result.alarms)
          EXPECT_EQ(condition_tree(tables, result, pack[alarm.alarm].condition).truth, alarm.truth);
        auto const tier = explain_tier(tables, result);
        EXPECT_EQ(tier.is_by_alarm || tier.is_by_ranking, result.tier.has_value());
        for (auto const& reason : tier.tiers) {
          double sum = 0;
          for (auto const& cause : reason.causes) sum += cause.posterior;
          EXPECT_NEAR(sum, reason.chance.probability, 1e-12);
        }
      });
}

TEST(ExplainProperties, LaddersLeadFromTheBaseRateToThePosterior) {
  for_random_cases(26000, 60, 10,
                   [](Pack const& pack, Tables const& tables, Assessor& assessor, Case const& dog) {
                     auto const result = assessor.assess(dog);
                     for (auto const& ranked : result.ranking) {
                       if (!ranked.cause) continue;
                       auto const rungs = ladder(tables, result, *ranked.cause);
                       double bases = pack.unlisted;
                       for (auto const& cause : pack.causes) bases += cause.base;
                       EXPECT_NEAR(rungs.front().probability, pack[*ranked.cause].base / bases,
                                   1e-12);
                       EXPECT_NEAR(rungs.back().probability, ranked.posterior, 1e-12);
                       double counted = 0;
                       for (auto const& rung : rungs) counted += rung.counted;
                       EXPECT_NEAR(counted, ranked.evidence, 1e-9);
                     }
                   });
}

TEST(ExplainProperties, EveryWayToFireFires) {
  std::size_t ways = 0;
  for_random_cases(
      23000, 60, 4,
      [&](Pack const& pack, Tables const& tables, Assessor& assessor, Case const& dog) {
        for (std::uint32_t r = 0; r < pack.rules.size(); ++r) {
          auto const why = explain_rule(tables, assessor, dog, RuleId{r});
          for (auto const& way : why.ways) {
            ++ways;
            auto const after = assessor.assess(with_changes(dog, way.changes));
            EXPECT_EQ(condition_tree(tables, after, *pack.rules[r].condition).truth, Truth::yes);
          }
        }
      });
  EXPECT_GT(ways, 100U);
}

bool is_choice_of(Pack const& pack, SiteId site, std::vector<SiteMark>& out) {
  bool sides = false;
  for (std::optional<SiteId> at = site; at; at = pack[*at].inside) sides |= pack[*at].paired;
  out.push_back({site, Side::any});
  if (sides) out.push_back({site, Side::left});
  if (sides) out.push_back({site, Side::right});
  return sides;
}

// Everything that could be answered to a sign: every value, numbers on a grid fine enough for the
// whole-numbered limits of the random packs, every site that some condition names.
std::vector<Answer> all_answers(Pack const& pack, Case const& dog, SignId id) {
  auto const& sign = pack[id];
  std::vector<Answer> out;
  if (sign.kind == AnswerKind::yes_or_no) return {true, false};
  for (std::uint32_t i = 0; i < sign.values.size(); ++i) out.emplace_back(Choice{i});
  if (sign.kind == AnswerKind::number)
    for (double n = sign.low; n <= sign.high; n += 0.25) out.emplace_back(n);
  if (sign.kind != AnswerKind::sites) return out;
  Findings present;
  for (auto const& [answered, answer] : dog.answers)
    if (answered == id) present = std::get<Findings>(answer);
  present.clear_everywhere = false;
  present.found_somewhere = true;
  std::vector<SiteMark> marks;
  std::function<void(Condition const&)> const look = [&](Condition const& c) {
    for (auto const& part : c.parts) look(part);
    if (c.kind == Condition::Kind::test && c.test.kind == Test::Kind::at_site && c.test.sign == id)
      is_choice_of(pack, c.test.mark.site, marks);
  };
  for (auto const& rule : pack.rules)
    if (rule.condition) look(*rule.condition);
  for (auto const& alarm : pack.alarms) look(alarm.condition);
  out.emplace_back(Findings{false, true, {}, {}});
  out.emplace_back(present);
  for (auto const& mark : marks) {
    auto findings = present;
    findings.found.push_back(mark);
    std::erase_if(findings.clear, [&](SiteMark const& clear) {
      return pack.covers(clear.site, mark.site) &&
             (clear.side == Side::any || clear.side == mark.side);
    });
    out.emplace_back(findings);
  }
  return out;
}

// The signs changed, the tier and the first cause that come of it: sets that differ only in an
// answer that no condition tells apart are one.
using Outcomes =
    std::set<std::tuple<std::vector<SignId>, std::optional<TierId>, std::optional<CauseId>>>;

struct BruteForce {
  Outcomes higher, lower, first;
  void note(Assessment const& before, Assessment const& after, std::vector<SignId> signs) {
    for (auto const& c : after.contradictions)
      if (std::count(before.contradictions.begin(), before.contradictions.end(), c) == 0) return;
    std::tuple const outcome{std::move(signs), after.tier, after.ranking.front().cause};
    if (after.tier && (!before.tier || *after.tier < *before.tier)) higher.insert(outcome);
    if (after.tier && before.tier && *after.tier > *before.tier) lower.insert(outcome);
    if (!before.too_few_answers && after.ranking.front().cause != before.ranking.front().cause)
      first.insert(outcome);
  }
};

Outcomes outcomes_of(std::vector<ChangeSet> const& sets) {
  Outcomes out;
  for (auto const& set : sets) {
    std::vector<SignId> signs;
    for (auto const& change : set.changes) signs.push_back(change.sign);
    out.insert({signs, set.tier, set.first});
  }
  return out;
}

TEST(ExplainProperties, SmallestChangesAreThoseThatTryingEverythingFinds) {
  std::size_t pairs_found = 0;
  for_random_cases(
      24000, 200, 2,
      [&](Pack const& pack, Tables const& tables, Assessor& assessor, Case const& dog) {
        auto const before = assessor.assess(dog);
        std::vector<Change> all;
        for (auto s = dog_sign::count; s < pack.signs.size(); ++s) {
          SignId const sign{static_cast<std::uint32_t>(s)};
          for (auto& answer : all_answers(pack, dog, sign)) all.push_back({sign, answer});
        }
        BruteForce one;
        for (auto const& change : all)
          one.note(before, assessor.assess(with_changes(dog, std::vector{change})), {change.sign});
        BruteForce two;
        for (std::size_t i = 0; i < all.size(); ++i)
          for (std::size_t j = i + 1; j < all.size(); ++j)
            if (all[i].sign != all[j].sign)
              two.note(before, assessor.assess(with_changes(dog, std::vector{all[i], all[j]})),
                       {all[i].sign, all[j].sign});
        auto const found = smallest_changes(tables, assessor, dog, 1'000'000);
        EXPECT_EQ(outcomes_of(found.higher_tier), one.higher.empty() ? two.higher : one.higher);
        EXPECT_EQ(outcomes_of(found.lower_tier), one.lower.empty() ? two.lower : one.lower);
        EXPECT_EQ(outcomes_of(found.other_first), one.first.empty() ? two.first : one.first);
        for (auto const* sets : {&found.higher_tier, &found.lower_tier, &found.other_first})
          for (auto const& set : *sets) {
            pairs_found += set.changes.size() == 2 ? 1 : 0;
            auto const after = assessor.assess(with_changes(dog, set.changes));
            EXPECT_EQ(after.tier, set.tier);
            EXPECT_EQ(after.ranking.front().cause, set.first);
            EXPECT_EQ(after.ranking.front().posterior, set.first_posterior);
          }
      });
  EXPECT_GT(pairs_found, 100U) << "the search for pairs was hardly tried";
}

TEST(ExplainProperties, WhatIfIsWhatComesOut) {
  std::size_t shifts = 0;
  for_random_cases(
      25000, 60, 5, [&](Pack const& pack, Tables const&, Assessor& assessor, Case const& dog) {
        std::mt19937 random(7);
        std::vector<Change> changes;
        for (std::uint32_t s = dog_sign::count; s < pack.signs.size(); s += 3)
          changes.push_back({SignId{s}, random_answer(pack, SignId{s}, random)});
        auto const what = what_if(assessor, dog, changes);
        shifts += what.rules.size();
        std::set<RuleId> shifted;
        for (auto const& shift : what.rules) shifted.insert(shift.rule);
        // A rule that is not listed came out the same.
        for (auto const& after : what.after.rules) {
          if (shifted.contains(after.rule) || after.truth == Truth::unknown) continue;
          auto const before = std::find_if(what.before.rules.begin(), what.before.rules.end(),
                                           [&](auto const& o) { return o.rule == after.rule; });
          ASSERT_NE(before, what.before.rules.end());
          EXPECT_EQ(before->truth, after.truth);
          EXPECT_EQ(before->band, after.band);
        }
      });
  EXPECT_GT(shifts, 100U);
}

}  // namespace
}  // namespace flinch::test
