// What explanations promise, on random packs: weights add up, ways to fire fire, what-ifs are what
// comes out, and the search for smallest changes finds what trying everything finds.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>

#include "flinch/assess/weight_doubt.hpp"
#include "flinch/explain/cause.hpp"
#include "flinch/explain/contrast.hpp"
#include "flinch/explain/ladder.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/explain/rule.hpp"
#include "flinch/explain/tier.hpp"
#include "flinch/explain/what_if.hpp"
#include "property/random_pack.hpp"
#include "support/small_pack.hpp"
#include "support/tries.hpp"

namespace flinch::test {
namespace {

using Shared = std::shared_ptr<Pack const>;

// Calls `check(pack, tables, assessor, dog)` for some cases of each sound random pack.
template <class Check>
void for_random_cases(unsigned first_seed, unsigned packs, int cases, Check const& check) {
  unsigned sound = 0;
  for (unsigned seed = first_seed; sound < packs && seed < first_seed + 50 * packs; ++seed) {
    auto const loaded = load_random_pack(seed, Alarms::on_purpose);
    if (!loaded.outcome) continue;
    ++sound;
    auto const& pack = *loaded.outcome.value;
    Tables const tables(pack);
    Assessor assessor(tables);
    std::mt19937 random(seed);
    std::mt19937 complaints(seed);
    for (int i = 0; i < cases; ++i) {
      SCOPED_TRACE(fmt::format("pack seed {}, case {}", seed, i));
      auto patient = random_case(*pack, random);
      if (i % 2 == 0) add_complaint(*pack, patient, complaints);
      check(*pack, tables, assessor, patient);
      if (testing::Test::HasFailure()) return;
    }
  }
  EXPECT_EQ(sound, packs) << "too few random packs are sound to say anything";
}

TEST(ExplainProperties, ShownWeightsWithTheBaseGiveThePosteriorShown) {
  std::size_t shared = 0;
  for_random_cases(20000, 100, 10,
                   [&](Pack const& pack, Tables const& tables, Assessor& assessor, Case patient) {
                     auto const result = assessor.assess(patient);
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
                         // What nobody mentioned weighs, and is not known.
                         for (auto const sign : weight.behind)
                           EXPECT_EQ(result.find(sign) == nullptr, weight.truth == Truth::unknown);
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
  for_random_cases(21000, 60, 10,
                   [](Pack const&, Tables const& tables, Assessor& assessor, Case const& patient) {
                     auto const result = assessor.assess(patient);
                     auto const c = contrast(tables, result, CauseId{0}, CauseId{1});
                     auto total = c.base_difference;
                     for (auto const& rule : c.rules) total += rule.difference();
                     EXPECT_NEAR(total, c.total, 1e-9);
                     EXPECT_NEAR(
                         total,
                         std::log(explain_cause(tables, result, CauseId{0}).numbers.posterior /
                                  explain_cause(tables, result, CauseId{1}).numbers.posterior),
                         1e-9);
                   });
}

TEST(ExplainProperties, TreesHaveTheTruthThatTheAssessmentGave) {
  for_random_cases(
      22000, 60, 10,
      [](Pack const& pack, Tables const& tables, Assessor& assessor, Case const& patient) {
        auto const result = assessor.assess(patient);
        for (auto const& outcome : result.rules) {
          auto const& rule = pack[outcome.rule];
          if (!rule.condition) continue;
          EXPECT_EQ(Evaluator(tables, result.knowledge).truth(*rule.condition), outcome.truth);
        }
        for (auto const& alarm : result.alarms)
          EXPECT_EQ(Evaluator(tables, result.knowledge).truth(pack[alarm.alarm].condition),
                    alarm.truth);
        auto const tier = explain_tier(tables, result);
        EXPECT_EQ(tier.is_by_alarm || tier.is_by_ranking, result.judgement.tier.has_value());
        for (auto const& reason : tier.tiers) {
          double sum = 0;
          for (auto const& cause : reason.causes) sum += cause.posterior;
          EXPECT_NEAR(sum, reason.chance.probability, 1e-12);
        }
      });
}

TEST(ExplainProperties, LaddersLeadFromTheBaseRateToThePosterior) {
  for_random_cases(
      26000, 60, 10,
      [](Pack const& pack, Tables const& tables, Assessor& assessor, Case const& patient) {
        auto const result = assessor.assess(patient);
        for (auto const& ranked : result.ranking) {
          if (!ranked.cause) continue;
          auto const rungs = ladder(tables, result, *ranked.cause);
          double bases = pack.unlisted;
          for (auto const& cause : pack.causes) bases += cause.base;
          EXPECT_NEAR(rungs.front().probability, pack[*ranked.cause].base / bases, 1e-12);
          EXPECT_NEAR(rungs.back().probability, ranked.posterior, 1e-12);
          double counted = 0;
          for (auto const& rung : rungs) counted += rung.counted;
          EXPECT_NEAR(counted, ranked.evidence, 1e-9);
        }
      });
}

// A site as such, and where it has sides each of them.
void add_sides(Pack const& pack, SiteId site, std::vector<SiteMark>& out) {
  bool sides = false;
  for (std::optional<SiteId> at = site; at; at = pack[*at].inside) sides |= pack[*at].paired;
  out.push_back({site, Side::any});
  if (sides) out.push_back({site, Side::left});
  if (sides) out.push_back({site, Side::right});
}

// The sites that a condition asks for, each once.
std::vector<SiteMark> marks_in(Pack const& pack, Condition const& condition, SignId sign) {
  std::vector<SiteMark> out;
  std::function<void(Condition const&)> const look = [&](Condition const& c) {
    for (auto const& part : c.parts) look(part);
    if (c.kind == Condition::Kind::meaning) look(pack[c.meaning].condition);
    if (c.kind == Condition::Kind::test && c.test.kind == Test::Kind::at_site &&
        c.test.sign == sign && std::find(out.begin(), out.end(), c.test.mark) == out.end())
      out.push_back(c.test.mark);
  };
  look(condition);
  return out;
}

// The limits of the tests on a number, and the amounts at which a level of something taken is
// reached by this dog.
std::vector<double> limits_of(Pack const& pack, Case const& patient, SignId id) {
  std::vector<double> out;
  std::function<void(Condition const&)> const look = [&](Condition const& c) {
    for (auto const& part : c.parts) look(part);
    if (c.kind == Condition::Kind::test && c.test.sign == id)
      out.insert(out.end(), {c.test.low, c.test.high});
  };
  for (auto const& means : pack.means) look(means.condition);
  for (auto const& rule : pack.rules) {
    if (rule.condition) look(*rule.condition);
    for (auto const& band : rule.bands)
      if (band.test.sign == id) out.insert(out.end(), {band.test.low, band.test.high});
  }
  for (auto const& alarm : pack.alarms) look(alarm.condition);
  auto const kg = weight_for_amounts(pack, patient).value_or(0.5);
  for (auto const& care : pack.care)
    if (care.taken == id)
      for (auto const& level : care.levels)
        out.push_back(level.mg_per_kg * kg / (pack[id].unit.name == "g" ? 1000 : 1));
  return out;
}

// Everything that could be answered to a sign: every value, numbers at each limit, a little beside
// it and at the ends, every site that some condition names, any two that one condition names, and
// all of these.
std::vector<Answer> all_answers(Pack const& pack, Case const& patient, SignId id) {
  auto const& sign = pack[id];
  std::vector<Answer> out;
  if (sign.kind == AnswerKind::yes_or_no) return {true, false};
  for (std::uint32_t i = 0; i < sign.values.size(); ++i) out.emplace_back(Choice{i});
  if (sign.kind == AnswerKind::breed)
    for (std::uint32_t i = 0; i < pack.breeds.breeds.size(); ++i) out.emplace_back(Choice{i});
  if (sign.kind == AnswerKind::number) {
    std::set<double> numbers{sign.low, sign.high};
    for (auto const limit : limits_of(pack, patient, id))
      for (auto const n : {limit * (1 - 1e-6), limit, limit * (1 + 1e-6)})
        if (n >= sign.low && n <= sign.high) numbers.insert(n);
    out.insert(out.end(), numbers.begin(), numbers.end());
  }
  if (sign.kind != AnswerKind::sites) return out;
  Findings present;
  for (auto const& [answered, answer] : patient.answers)
    if (answered == id) present = std::get<Findings>(answer);
  present.clear_everywhere = false;
  present.found_somewhere = true;
  auto const found = [&](std::vector<SiteMark> const& marks) {
    auto findings = present;
    for (auto const& mark : marks) {
      findings.found.push_back(mark);
      std::erase_if(findings.clear, [&](SiteMark const& clear) {
        return pack.covers(clear.site, mark.site) &&
               (clear.side == Side::any || clear.side == mark.side);
      });
    }
    out.emplace_back(findings);
  };
  out.emplace_back(Findings{false, true, {}, {}});
  out.emplace_back(present);
  auto const of_condition = [&](Condition const& condition) {
    auto const marks = marks_in(pack, condition, id);
    for (std::size_t i = 0; i < marks.size(); ++i) {
      std::vector<SiteMark> sides;
      add_sides(pack, marks[i].site, sides);
      for (auto const& mark : sides) found({mark});
      for (std::size_t j = 0; j < i; ++j) found({marks[j], marks[i]});
    }
    if (marks.size() > 2) found(marks);
  };
  for (auto const& rule : pack.rules)
    if (rule.condition) of_condition(*rule.condition);
  for (auto const& alarm : pack.alarms) of_condition(alarm.condition);
  return out;
}

// The signs changed, the tier and the first cause that come of it: sets that differ only in an
// answer that no condition tells apart are one.
using Outcomes =
    std::set<std::tuple<std::vector<SignId>, std::optional<TierId>, std::optional<CauseId>>>;

struct BruteForce {
  Outcomes higher, lower, first;
  void note(Assessment const& before, Assessment const& after, std::vector<SignId> signs) {
    for (auto const& c : after.judgement.contradictions)
      if (std::count(before.judgement.contradictions.begin(), before.judgement.contradictions.end(),
                     c) == 0)
        return;
    std::tuple const outcome{std::move(signs), after.judgement.tier, after.ranking.front().cause};
    if (after.judgement.tier &&
        (!before.judgement.tier || *after.judgement.tier < *before.judgement.tier))
      higher.insert(outcome);
    if (after.judgement.tier && before.judgement.tier &&
        *after.judgement.tier > *before.judgement.tier)
      lower.insert(outcome);
    if (!before.judgement.nothing_told &&
        after.ranking.front().cause != before.ranking.front().cause)
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

// Bits between "is it the first" and an outcome that is there with `p` in the first and `q` else.
long double bits_of_two(long double first, long double p, long double q) {
  auto const entropy = [](long double x) {
    return x <= 0 || x >= 1 ? 0 : -x * std::log2(x) - (1 - x) * std::log2(1 - x);
  };
  return entropy(first * p + (1 - first) * q) - first * entropy(p) - (1 - first) * entropy(q);
}

// Straight from the frequencies as written. Rules of the overlap are left to the next test.
TEST(ExplainProperties, BitsThatAreExpectedAreTheMutualInformation) {
  std::size_t checked = 0;
  for_random_cases(
      28000, 60, 5,
      [&](Pack const& pack, Tables const& tables, Assessor& assessor, Case const& patient) {
        auto const result = assessor.assess(patient);
        std::vector<long double> chance(pack.causes.size());
        for (auto const& ranked : result.ranking)
          if (ranked.cause) chance[index(*ranked.cause)] = ranked.posterior;
        // Of a sign that nobody mentioned, as often as it is there all the same.
        auto const frequency = [&](Rule const& rule, std::size_t cause) {
          auto share = rule.usual.front();
          for (auto const& entry : rule.entries)
            if (index(entry.cause) == cause) share = entry.frequencies.front();
          auto const p = static_cast<long double>(std::clamp(share, pack.hold_low, pack.hold_high));
          bool const is_silent = std::any_of(
              result.rules.begin(), result.rules.end(), [&](RuleOutcome const& outcome) {
                return &pack[outcome.rule] == &rule && outcome.truth == Truth::unknown &&
                       outcome.contribution_count > 0;
              });
          if (!is_silent) return p;
          auto const m = static_cast<long double>(*pack[rule.condition->test.sign].mentioned);
          return p * (1 - m) / (1 - m * p);
        };
        for (auto const& open : explain_cause(tables, result, CauseId{0}).open) {
          auto const& rule = pack[open.rule];
          if (!rule.condition || tables.overlap_of(open.rule) >= 0) continue;
          auto left = 1 - chance[0];
          auto others = left * frequency(rule, pack.causes.size());  // of none of the listed
          for (std::size_t c = 1; c < pack.causes.size(); ++c)
            others += chance[c] * (frequency(rule, c) - frequency(rule, pack.causes.size()));
          EXPECT_NEAR(
              open.bits,
              static_cast<double>(bits_of_two(chance[0], frequency(rule, 0), others / left)), 1e-9);
          ++checked;
        }
        for (auto const& open : contrast(tables, result, CauseId{0}, CauseId{1}).open) {
          auto const& rule = pack[open.rule];
          if (!rule.condition || tables.overlap_of(open.rule) >= 0) continue;
          EXPECT_NEAR(open.bits,
                      static_cast<double>(bits_of_two(chance[0] / (chance[0] + chance[1]),
                                                      frequency(rule, 0), frequency(rule, 1))),
                      1e-9);
          ++checked;
        }
      });
  EXPECT_GT(checked, 450U);
}

// What an open rule could add or take is what a way to make it fire adds or takes.
TEST(ExplainProperties, ReachOfOpenRulesIsWhatComesOutOverlapsIncluded) {
  std::size_t overlapping = 0;
  for_random_cases(
      29000, 100, 4,
      [&](Pack const& pack, Tables const& tables, Assessor& assessor, Case const& patient) {
        auto const before = assessor.assess(patient);
        for (auto const& open : explain_cause(tables, before, CauseId{0}).open) {
          if (!pack[open.rule].condition) continue;
          for (auto const& way : explain_rule(tables, assessor, patient, open.rule).ways) {
            auto const after = assessor.assess(with_changes(patient, way.changes));
            // Only where nothing else that bears on the cause came out otherwise.
            auto const shifts = what_if(assessor, patient, way.changes).rules;
            if (std::any_of(shifts.begin(), shifts.end(), [&](RuleShift const& shift) {
                  auto const entries = tables.entries(shift.rule);
                  return shift.rule != open.rule &&
                         std::any_of(entries.begin(), entries.end(),
                                     [](auto const& e) { return e.cause == CauseId{0}; });
                }))
              continue;
            auto const evidence = [](Assessment const& result) {
              for (auto const& ranked : result.ranking)
                if (ranked.cause == CauseId{0}) return ranked.evidence;
              return 0.0;
            };
            auto const moved = evidence(after) - evidence(before);
            EXPECT_NEAR(moved > 0 ? open.most_for : open.most_against, moved, 1e-9);
            overlapping += tables.overlap_of(open.rule) >= 0 ? 1 : 0;
          }
        }
      });
  EXPECT_GT(overlapping, 50U);
}

TEST(ExplainProperties, SmallestChangesAreThoseThatTryingEverythingFinds) {
  std::size_t pairs_found = 0;
  for_random_cases(
      24000, static_cast<unsigned>(tries(300)), 3,
      [&](Pack const& pack, Tables const& tables, Assessor& assessor, Case const& patient) {
        auto const before = assessor.assess(patient);
        std::vector<Change> all;
        for (auto s = patient_sign::count; s < pack.signs.size(); ++s) {
          SignId const sign{static_cast<std::uint32_t>(s)};
          for (auto& answer : all_answers(pack, patient, sign)) all.push_back({sign, answer});
        }
        BruteForce one;
        for (auto const& change : all)
          one.note(before, assessor.assess(with_changes(patient, std::vector{change})),
                   {change.sign});
        BruteForce two;
        for (std::size_t i = 0; i < all.size(); ++i)
          for (std::size_t j = i + 1; j < all.size(); ++j)
            if (all[i].sign != all[j].sign)
              two.note(before, assessor.assess(with_changes(patient, std::vector{all[i], all[j]})),
                       {all[i].sign, all[j].sign});
        auto const found = smallest_changes(tables, assessor, patient, 1'000'000);
        EXPECT_EQ(outcomes_of(found.higher_tier), one.higher.empty() ? two.higher : one.higher);
        EXPECT_EQ(outcomes_of(found.lower_tier), one.lower.empty() ? two.lower : one.lower);
        EXPECT_EQ(outcomes_of(found.other_first), one.first.empty() ? two.first : one.first);
        for (auto const* sets : {&found.higher_tier, &found.lower_tier, &found.other_first})
          for (auto const& set : *sets) {
            pairs_found += set.changes.size() == 2 ? 1 : 0;
            auto const after = assessor.assess(with_changes(patient, set.changes));
            EXPECT_EQ(after.judgement.tier, set.tier);
            EXPECT_EQ(after.ranking.front().cause, set.first);
            EXPECT_EQ(after.ranking.front().posterior, set.first_posterior);
          }
      });
  EXPECT_GT(pairs_found, tries(100)) << "the search for pairs was hardly tried";
}

// Whether some answers to the signs that a condition hangs on would make it true, tried one and
// all; if so the fewest that do. Signs that could only pass on what others say are asked as well.
class EveryAnswer {
 public:
  EveryAnswer(Pack const& pack, Assessor& assessor, Case const& patient, Condition const& condition)
      : pack_(pack), assessor_(assessor), patient_(patient), before_(assessor.assess(patient)) {
    add(condition);
    tried_ = 1;
    for (auto const sign : signs_) {
      answers_.push_back(all_answers(pack, patient, sign));
      if (pack[sign].kind == AnswerKind::sites) add_clear(marks_in(pack, condition, sign));
      tried_ *= answers_.back().size() + 1;
    }
  }

  [[nodiscard]] std::size_t tried() const { return tried_; }

  template <class Fires>
  std::optional<std::vector<Change>> fewest(Fires const& fires) {
    std::optional<std::vector<Change>> out;
    std::vector<Change> changes;
    std::function<void(std::size_t)> const take = [&](std::size_t at) {
      if (out && changes.size() >= out->size()) return;
      if (at == signs_.size()) {
        auto const after = assessor_.assess(with_changes(patient_, changes));
        if (fires(after) && !adds_contradiction(before_.judgement, after.judgement)) out = changes;
        return;
      }
      take(at + 1);
      for (auto const& answer : answers_[at]) {
        changes.push_back({signs_[at], answer});
        take(at + 1);
        changes.pop_back();
      }
    };
    take(0);
    return out;
  }

 private:
  // Each of the answers so far, with each of the marks clear as well.
  void add_clear(std::vector<SiteMark> const& marks) {
    auto const plain = answers_.back();
    for (auto const& answer : plain)
      for (auto const& mark : marks) {
        auto findings = std::get<Findings>(answer);
        if (findings.clear_everywhere) continue;
        findings.clear.push_back(mark);
        std::erase_if(findings.found, [&](SiteMark const& found) {
          return pack_.covers(mark.site, found.site) &&
                 (mark.side == Side::any || mark.side == found.side);
        });
        answers_.back().emplace_back(findings);
      }
  }
  void add(Condition const& condition) {
    if (condition.kind == Condition::Kind::test) add(condition.test.sign);
    if (condition.kind == Condition::Kind::meaning) add(pack_[condition.meaning].condition);
    for (auto const& part : condition.parts) add(part);
  }
  void add(SignId sign) {
    bool const is_fact = pack_[sign].of_the_patient && before_.find(sign) != nullptr;
    if (is_fact || std::count(signs_.begin(), signs_.end(), sign) > 0) return;
    signs_.push_back(sign);
    if (pack_[sign].part_of) add(*pack_[sign].part_of);
    for (std::uint32_t i = 0; i < pack_.signs.size(); ++i)
      if (pack_.signs[i].part_of == sign) add(SignId{i});
    if (pack_[sign].applies_if) add(*pack_[sign].applies_if);
  }

  Pack const& pack_;
  Assessor& assessor_;
  Case const& patient_;
  Assessment before_;
  std::vector<SignId> signs_;
  std::vector<std::vector<Answer>> answers_;
  std::size_t tried_ = 0;
};

TEST(ExplainProperties, WaysToFireAreFoundWhereTryingEverythingFindsOne) {
  constexpr std::size_t most_tried = 20'000;
  std::size_t ways = 0;
  std::size_t impossible = 0;
  std::size_t tried = 0;
  auto const check = [&](Pack const& pack, Assessor& assessor, Case const& patient,
                         Condition const& condition, std::vector<WayToFire> const& found,
                         auto const& fires) {
    auto const before = assessor.assess(patient);
    for (std::size_t i = 0; i < found.size(); ++i) {
      ++ways;
      auto const after = assessor.assess(with_changes(patient, found[i].changes));
      EXPECT_TRUE(fires(after));
      EXPECT_FALSE(adds_contradiction(before.judgement, after.judgement));
      if (i > 0) {
        EXPECT_LE(found[i - 1].changes.size(), found[i].changes.size());
      }
    }
    // A breed that becomes known changes a size that followed from the weight: ways leave what is
    // known of the dog as it is, and do not look for that.
    if (before.find(patient_sign::breed) == nullptr && before.find(patient_sign::size) != nullptr)
      return;
    EveryAnswer every(pack, assessor, patient, condition);
    if (every.tried() > most_tried) return;
    ++tried;
    auto const fewest = every.fewest(fires);
    std::string text;
    for (auto const& change : fewest.value_or(std::vector<Change>{}))
      text += change_text(pack, change) + "; ";
    EXPECT_EQ(fewest.has_value(), !found.empty()) << text;
    if (fewest && !found.empty()) {
      EXPECT_EQ(found.front().changes.size(), fewest->size()) << text;
    }
    impossible += fewest ? 0 : 1;
  };
  for_random_cases(
      23000, 60, 4,
      [&](Pack const& pack, Tables const& tables, Assessor& assessor, Case const& patient) {
        for (std::uint32_t r = 0; r < pack.rules.size(); ++r) {
          auto const why = explain_rule(tables, assessor, patient, RuleId{r});
          if (!pack.rules[r].condition || why.truth == Truth::yes) continue;
          SCOPED_TRACE(fmt::format("rule {}", r));
          check(pack, assessor, patient, *pack.rules[r].condition, why.ways,
                [&](auto const& after) {
                  return Evaluator(tables, after.knowledge).truth(*pack.rules[r].condition) ==
                         Truth::yes;
                });
        }
        for (std::uint32_t a = 0; a < pack.alarms.size(); ++a) {
          auto const why = explain_alarm(tables, assessor, patient, AlarmId{a});
          if (why.truth == Truth::yes) continue;
          SCOPED_TRACE(fmt::format("alarm {}", a));
          check(pack, assessor, patient, pack.alarms[a].condition, why.ways,
                [&](auto const& after) {
                  return Evaluator(tables, after.knowledge).truth(pack.alarms[a].condition) ==
                         Truth::yes;
                });
        }
      });
  fmt::print("{} ways, {} conditions tried with every answer, {} of them impossible\n", ways, tried,
             impossible);
  EXPECT_GT(ways, 800U);
  EXPECT_GT(tried, 400U);
  EXPECT_GE(impossible, 3U);
}

TEST(ExplainProperties, WhatIfIsWhatComesOut) {
  std::size_t rules = 0;
  std::size_t alarms = 0;
  std::mt19937 random(7);
  for_random_cases(25000, 60, 5,
                   [&](Pack const& pack, Tables const&, Assessor& assessor, Case const& patient) {
                     std::vector<Change> changes;
                     for (std::uint32_t s = patient_sign::count; s < pack.signs.size(); s += 3)
                       changes.push_back({SignId{s}, random_answer(pack, SignId{s}, random)});
                     auto const what = what_if(assessor, patient, changes);
                     auto const before = assessor.assess(patient);
                     auto const after = assessor.assess(with_changes(patient, changes));
                     auto const rule_state = [](Assessment const& result, RuleId id) {
                       for (auto const& o : result.rules)
                         if (o.rule == id && o.truth != Truth::unknown)
                           return RuleState{o.truth, o.band};
                       return RuleState{};
                     };
                     auto const alarm_truth = [](Assessment const& result, AlarmId id) {
                       for (auto const& o : result.alarms)
                         if (o.alarm == id) return o.truth;
                       return Truth::unknown;
                     };
                     // Listed is what came out otherwise, as it came out; and nothing else.
                     std::set<RuleId> shifted;
                     for (auto const& shift : what.rules) {
                       shifted.insert(shift.rule);
                       EXPECT_EQ(shift.before, rule_state(before, shift.rule));
                       EXPECT_EQ(shift.after, rule_state(after, shift.rule));
                     }
                     for (std::uint32_t r = 0; r < pack.rules.size(); ++r)
                       EXPECT_EQ(shifted.contains(RuleId{r}),
                                 !(rule_state(before, RuleId{r}) == rule_state(after, RuleId{r})));
                     std::set<AlarmId> alarmed;
                     for (auto const& shift : what.alarms) {
                       alarmed.insert(shift.alarm);
                       EXPECT_EQ(shift.before, alarm_truth(before, shift.alarm));
                       EXPECT_EQ(shift.after, alarm_truth(after, shift.alarm));
                     }
                     for (std::uint32_t a = 0; a < pack.alarms.size(); ++a)
                       EXPECT_EQ(alarmed.contains(AlarmId{a}),
                                 alarm_truth(before, AlarmId{a}) != alarm_truth(after, AlarmId{a}));
                     EXPECT_EQ(what.before.judgement.tier, before.judgement.tier);
                     EXPECT_EQ(what.after.judgement.tier, after.judgement.tier);
                     rules += shifted.size();
                     alarms += alarmed.size();
                   });
  EXPECT_GT(rules, 100U);
  EXPECT_GT(alarms, 50U);
}

}  // namespace
}  // namespace flinch::test
