// What must hold of the urgency for every pack and every case: nothing told asks for nothing, a
// danger more never calms, a clash holds nothing back, and no answer yet to come reaches above the
// ceiling.
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>

#include "flinch/assess/evaluator.hpp"
#include "flinch/assess/weight_doubt.hpp"
#include "flinch/model/tested_signs.hpp"
#include "pack/shipped_pack.hpp"
#include "property/random_packs.hpp"

namespace flinch::test {
namespace {

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

TEST(UrgencyProperties, WithNothingToldOnlyAlarmsSetATier) {
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

TEST(UrgencyProperties, EachSignToldAloneIsEnoughForATier) {
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

TEST(UrgencyProperties, TheAlarmTierNeverFallsWhenADangerSignIsAdded) {
  std::size_t rose = 0;
  for_random_cases(Alarms::sound, 5000, 60, [&](Drawn const& drawn) {
    auto patient = random_case(drawn.pack, drawn.random);
    auto before = tier_of_alarms(drawn.assessor, drawn.pack, patient);
    for (int step = 0; step < 4; ++step) {
      add_danger(drawn.pack, patient, drawn.random);
      auto const after = tier_of_alarms(drawn.assessor, drawn.pack, patient);
      EXPECT_TRUE(!before || (after && *after <= *before));
      if (after != before) ++rose;
      before = after;
    }
  });
  EXPECT_GT(rose, 100U) << "the additions did nothing";
}

// An alarm that is held back is held back as well without the answers that clash.
TEST(UrgencyProperties, AClashHoldsNoAlarmBack) {
  std::size_t clashes = 0, held = 0;
  for_random_cases(Alarms::sound, 5500, 60, [&](Drawn const& drawn) {
    auto patient = random_case(drawn.pack, drawn.random);
    auto const told = drawn.assessor.assess(patient);
    if (told.judgement.contradictions.empty()) return;
    ++clashes;
    std::erase_if(patient.answers,
                  [&](auto const& one) { return told.knowledge.is_disputed(one.first); });
    auto const sure = drawn.assessor.assess(patient);
    Evaluator const before(drawn.tables, told.knowledge);
    Evaluator const after(drawn.tables, sure.knowledge);
    for (auto const& alarm : drawn.pack.alarms) {
      if (alarm.unless() == nullptr) continue;
      auto const& standing = alarm.condition.parts.back();
      if (before.truth(standing) != Truth::no) continue;
      ++held;
      EXPECT_EQ(after.truth(standing), Truth::no) << alarm.name;
    }
  });
  EXPECT_GT(clashes, 100U);
  EXPECT_GT(held, 10U);
}

TEST(UrgencyProperties, TheCeilingIsNeverBelowWhatACompletionReaches) {
  for_random_cases(Alarms::on_purpose, 6000, 100, [](Drawn const& drawn) {
    auto patient = random_case(drawn.pack, drawn.random);
    auto const before = drawn.assessor.assess(patient);
    for (std::uint32_t s = 0; s < drawn.pack.signs.size(); ++s) {
      SignId const sign{s};
      if (sign == patient_sign::breed || before.find(sign) != nullptr) continue;
      std::erase(patient.cannot_tell, sign);
      patient.answers.emplace_back(sign, random_answer(drawn.pack, sign, drawn.random));
    }
    auto const after = drawn.assessor.assess(patient);
    // A size or an age may make the weight one that can hardly be: the ceiling takes it at
    // its word.
    if (doubt_of_weight(drawn.pack, patient)) return;
    // Contradictory completions may undo what followed from given answers; they complete
    // nothing.
    if (after.judgement.contradictions.size() != before.judgement.contradictions.size()) return;
    EXPECT_TRUE(
        !after.judgement.alarm_tier ||
        (before.judgement.ceiling && *before.judgement.ceiling <= *after.judgement.alarm_tier));
  });
}

}  // namespace
}  // namespace flinch::test
