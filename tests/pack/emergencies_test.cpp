// What must not be missed: causes that need `now` are reached by the ranking as well as by alarms,
// and every alarm and every cause is promised by some example.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "pack/drawn_patients.hpp"
#include "pack/shipped_pack.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

TEST(Emergencies, EachIsReachedByTheRankingAlone) {
  auto const pack = shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  std::size_t causes = 0;
  for (std::uint32_t c = 0; c < pack->causes.size(); ++c) {
    if ((*pack)[pack->causes[c].see].name != "now") continue;
    ++causes;
    // Some example of the pack lifts the cause so high that the ranking asks for `now` by itself.
    bool const reached =
        std::any_of(pack->examples.begin(), pack->examples.end(), [&](Example const& example) {
          auto const result = assessor.assess(example.patient);
          auto const first = std::find_if(result.ranking.begin(), result.ranking.end(),
                                          [](Ranked const& r) { return r.cause.has_value(); });
          return first->cause == CauseId{c} && result.judgement.ranking_tier &&
                 (*pack)[*result.judgement.ranking_tier].name == "now";
        });
    EXPECT_TRUE(reached) << pack->causes[c].name;
  }
  EXPECT_GE(causes, 15U);
}

TEST(Emergencies, EachExampleOfOneSetsOffAnAlarm) {
  auto const pack = shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  std::size_t patients = 0;
  for (auto const& example : pack->examples) {
    auto const promised =
        std::find_if(example.promises.begin(), example.promises.end(), [&](Promise const& p) {
          return p.kind == syntax::Promise::Kind::first &&
                 (*pack)[pack->causes[p.subject].see].name == "now";
        });
    if (promised == example.promises.end()) continue;
    ++patients;
    auto const result = assessor.assess(example.patient);
    EXPECT_TRUE(result.judgement.alarm_tier) << example.name << " sets off no alarm";
  }
  EXPECT_GE(patients, 15U);
}

TEST(Emergencies, EveryAlarmIsSetOffByAnExample) {
  auto const pack = shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  std::vector<bool> fired(pack->alarms.size());
  for (auto const& example : pack->examples)
    for (auto const& outcome : assessor.assess(example.patient).alarms)
      if (outcome.truth == Truth::yes) fired[index(outcome.alarm)] = true;
  for (std::size_t i = 0; i < fired.size(); ++i) EXPECT_TRUE(fired[i]) << pack->alarms[i].name;
}

// The signs that some alarm of the top tier uses as true.
std::set<SignId> danger_signs(Pack const& pack, Tables const& tables) {
  std::set<SignId> out;
  for (std::uint32_t a = 0; a < pack.alarms.size(); ++a) {
    if (pack.alarms[a].see != TierId{0}) continue;
    // Where no heat is told, which stands in this alarm as well, the whole of being unwell sets
    // nothing off.
    if (pack.alarms[a].name == "unwell_after_heat") {
      out.insert(*pack.find_sign("hot_day"));
      continue;
    }
    for (auto const& step : tables.trigger_steps(AlarmId{a}))
      if (step.kind == Tables::Step::Kind::leaf) out.insert(tables.leaves()[step.detail].sign);
  }
  for (std::uint32_t s = 0; s < patient_sign::count; ++s) out.erase(SignId{s});
  // A yes to a part is a yes to the whole.
  for (std::uint32_t s = 0; s < pack.signs.size(); ++s)
    for (auto whole = pack.signs[s].part_of; whole; whole = pack[*whole].part_of)
      if (out.count(*whole) != 0) out.insert(SignId{s});
  return out;
}

TEST(Emergencies, EachIsReachedFromSignsThatNoAlarmOfTheTopTierUses) {
  auto const pack = shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  auto const danger = danger_signs(*pack, tables);
  Chance chance(1);
  PatientDrawer drawer(tables, chance);
  std::size_t causes = 0;
  std::size_t reached = 0;
  for (std::uint32_t c = 0; c < pack->causes.size(); ++c) {
    if ((*pack)[pack->causes[c].see].name != "now") continue;
    ++causes;
    auto const patient =
        drawer.typical(CauseId{c}, [&](SignId sign) { return danger.count(sign) == 0; });
    auto const result = assessor.assess(patient);
    for (auto const& outcome : result.alarms) {
      if ((*pack)[outcome.alarm].see != TierId{0}) continue;
      EXPECT_NE(outcome.truth, Truth::yes)
          << pack->causes[c].name << " sets off " << (*pack)[outcome.alarm].name;
    }
    std::string known;
    for (auto const& answer : patient.answers) known += (*pack)[answer.first].name + " ";
    // Without noise, effort and a sudden start, all signs of the top tier, a thing breathed in is a
    // cough like any other.
    if (pack->causes[c].name == "inhaled_object") continue;
    // Without weakness, unsteady, cold or failing legs, all signs of the top tier, a clot is
    // stiffness.
    if (pack->causes[c].name == "hind_limb_clot") continue;
    // What tells of a poison or of fluid round the heart is itself a sign of the top tier.
    EXPECT_TRUE(result.judgement.ranking_tier && *result.judgement.ranking_tier <= TierId{2})
        << pack->causes[c].name << " from " << known;
    if (result.judgement.ranking_tier == TierId{0}) ++reached;
  }
  EXPECT_GE(causes, 15U);
  EXPECT_GE(10 * reached, 8 * causes) << reached << " of " << causes;
}

TEST(Promises, EveryCauseComesFirstInSomeExampleAndMustNotInAnother) {
  auto const pack = shipped_pack();
  std::vector<bool> first(pack->causes.size());
  std::vector<bool> not_first(pack->causes.size());
  for (auto const& example : pack->examples)
    for (auto const& promise : example.promises) {
      if (promise.kind == syntax::Promise::Kind::first) first[promise.subject] = true;
      if (promise.kind == syntax::Promise::Kind::not_first) not_first[promise.subject] = true;
    }
  for (std::size_t i = 0; i < first.size(); ++i) {
    EXPECT_TRUE(first[i]) << pack->causes[i].name << " is first in no example";
    EXPECT_TRUE(not_first[i]) << pack->causes[i].name << " has no near miss";
  }
}

}  // namespace
}  // namespace flinch::test
