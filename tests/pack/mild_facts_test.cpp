// What an `unless` of the shipped pack lets wait, held against the worst that could hide behind it.
#include <gtest/gtest.h>

#include <map>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "flinch/assess/assessment.hpp"
#include "pack/made_patients.hpp"
#include "pack/shipped_pack.hpp"
#include "support/source_tree.hpp"

namespace flinch::test {
namespace {

// The worst causes behind each, and the signs of these that are left below the alarm's tier:
// judgement of the authors.
struct Hidden {
  std::set<std::string> causes;
  std::set<std::string> left;
};

std::set<std::string> names_in(std::string const& cell) {
  std::set<std::string> out;
  std::istringstream in(cell == "-" ? std::string() : cell);
  for (std::string name; std::getline(in >> std::ws, name, ',');) out.insert(name);
  return out;
}

// By the alarm's name; below the head of mild_facts.tsv.
std::map<std::string, Hidden> read_hidden() {
  std::istringstream in(source_file("tests/pack/published/mild_facts.tsv"));
  std::map<std::string, Hidden> out;
  std::string line;
  std::getline(in, line);
  while (std::getline(in, line)) {
    std::istringstream cells(line);
    std::string alarm, mild, causes, left;
    std::getline(cells, alarm, '\t');
    std::getline(cells, mild, '\t');
    std::getline(cells, causes, '\t');
    std::getline(cells, left, '\t');
    out[alarm] = {names_in(causes), names_in(left)};
  }
  return out;
}

class MildFacts : public testing::Test {
 protected:
  // Told alone: an answer, and the causes that it makes three times as likely, by the rules that
  // hang on the sign alone.
  struct Told {
    SignId sign{};
    Answer answer;
    std::set<std::string> causes;
  };
  [[nodiscard]] Case patient(Answers const& answers) const {
    Case out;
    for (auto const& [sign, answer] : answers) out.answers.emplace_back(sign, answer);
    return out;
  }
  // Every answer but measured numbers that is seen within a day by itself.
  [[nodiscard]] std::vector<Told> dangers() const {
    std::vector<std::pair<SignId, Answer>> all;
    for (std::uint32_t i = patient_sign::count; i < pack->signs.size(); ++i) {
      SignId const sign{i};
      auto const kind = (*pack)[sign].kind;
      if (kind == AnswerKind::yes_or_no) all.emplace_back(sign, true);
      if (kind == AnswerKind::sites) all.emplace_back(sign, Findings{true, false, {}, {}});
      if (kind == AnswerKind::steps || kind == AnswerKind::one_of)
        for (std::uint32_t value = 0; value < (*pack)[sign].values.size(); ++value)
          all.emplace_back(sign, Choice{value});
    }
    Assessor assessor(tables);
    std::vector<Told> out;
    for (auto const& [sign, answer] : all) {
      Case alone;
      alone.answers.emplace_back(sign, answer);
      auto const result = assessor.assess(alone);
      auto const seen = result.judgement.alarm_tier;
      if (!seen || pack->tiers[index(*seen)].within_s > within_a_day) continue;
      Told told{sign, answer, {}};
      constexpr double clearly = 1.0986;  // ln 3
      for (auto const& one : result.contributions)
        if (one.counted() >= clearly) told.causes.insert((*pack)[one.cause].name);
      out.push_back(std::move(told));
    }
    return out;
  }

  static constexpr double within_a_day = 24 * 3600;
  std::shared_ptr<Pack const> pack = shipped_pack();
  Tables tables{pack};
  std::map<std::string, Hidden> hidden = read_hidden();
};

TEST_F(MildFacts, EachNamesTheWorstThatCouldHideBehindIt) {
  std::set<std::string> with_unless;
  for (auto const& alarm : pack->alarms)
    if (alarm.unless() != nullptr) with_unless.insert(alarm.name);
  std::set<std::string> named;
  for (auto const& [alarm, its] : hidden) {
    named.insert(alarm);
    for (auto const& cause : its.causes)
      EXPECT_TRUE(std::any_of(pack->causes.begin(), pack->causes.end(), [&](Cause const& one) {
        return one.name == cause;
      })) << cause;
  }
  EXPECT_EQ(with_unless, named);
}

// The danger sign, the mild fact, and any danger sign of the worst causes, whichever alarm uses it:
// as urgent as before.
TEST_F(MildFacts, ADangerSignOfTheWorstCausesBesideOneIsAsUrgentAsBefore) {
  Author const author(*pack);
  Assessor assessor(tables);
  auto const told_alone = dangers();
  std::size_t tried = 0;
  for (auto const& alarm : pack->alarms) {
    if (alarm.unless() == nullptr) continue;
    auto const& its = hidden.at(alarm.name);
    Answers mild;
    author.make(alarm.trigger(), true, mild);
    author.make(*alarm.unless(), true, mild);
    if (alarm.floor_of && (*pack)[*alarm.floor_of].applies_if)
      author.make(*(*pack)[*alarm.floor_of].applies_if, true, mild);
    std::set<std::string> left;
    for (auto const& [sign, answer, goes_with] : told_alone) {
      if (mild.count(sign) != 0) continue;
      if (std::none_of(
              its.causes.begin(), its.causes.end(),
              [&, &with = goes_with](auto const& cause) { return with.count(cause) != 0; }))
        continue;
      auto both = mild;
      both[sign] = answer;
      auto const& judged = assessor.judge(patient(both));
      if (!judged.contradictions.empty()) continue;  // a bitch has no testicles
      ++tried;
      if (!judged.tier || *judged.tier > alarm.see) left.insert((*pack)[sign].name);
    }
    EXPECT_EQ(left, its.left) << alarm.name;
  }
  EXPECT_GT(tried, 100U);
}

// Beside any answer at all: what other alarms say stands.
TEST_F(MildFacts, HoldsBackNoAlarmButItsOwn) {
  Author const author(*pack);
  Assessor assessor(tables);
  std::size_t tried = 0;
  for (std::uint32_t i = 0; i < pack->alarms.size(); ++i) {
    auto const& alarm = pack->alarms[i];
    if (alarm.unless() == nullptr) continue;
    Answers told;
    author.make(alarm.trigger(), true, told);
    auto mild = told;
    author.make(*alarm.unless(), true, mild);
    for (auto const& danger : dangers()) {
      if (mild.count(danger.sign) != 0) continue;
      auto with_it = told;
      with_it[danger.sign] = danger.answer;
      auto calmed = mild;
      calmed[danger.sign] = danger.answer;
      ++tried;
      auto const before = assessor.judge(patient(with_it)).fired;
      auto const& after = assessor.judge(patient(calmed));
      for (auto const fired : before)
        EXPECT_TRUE(fired == AlarmId{i} || after.has_fired(fired) ||
                    (*pack)[fired].unless() != nullptr)
            << alarm.name << " " << (*pack)[danger.sign].name << " " << (*pack)[fired].name;
    }
  }
  EXPECT_GT(tried, 300U);
}

TEST_F(MildFacts, UnknownOrDeniedTheyChangeNothing) {
  Author const author(*pack);
  Assessor assessor(tables);
  for (std::uint32_t i = 0; i < pack->alarms.size(); ++i) {
    auto const& alarm = pack->alarms[i];
    if (alarm.unless() == nullptr) continue;
    Answers told;
    author.make(alarm.trigger(), true, told);
    EXPECT_TRUE(assessor.judge(patient(told)).has_fired(AlarmId{i})) << alarm.name;
    auto denied = told;
    author.make(*alarm.unless(), false, denied);
    EXPECT_TRUE(assessor.judge(patient(denied)).has_fired(AlarmId{i})) << alarm.name;
    auto known = told;
    author.make(*alarm.unless(), true, known);
    EXPECT_FALSE(assessor.judge(patient(known)).has_fired(AlarmId{i})) << alarm.name;
  }
}

}  // namespace
}  // namespace flinch::test
