// When a question of the form is shown: never hidden where its answer is not known to be no.
#include "exchange/enable_when.hpp"

#include <gtest/gtest.h>

#include <random>

#include "exchange/questionnaire.hpp"
#include "exchange/shared_case.hpp"
#include "flinch/model/yes_and_no.hpp"
#include "pack/shipped_pack.hpp"
#include "property/random_pack.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

using namespace flinch::cli;

// "a!=N & b!=small/toy", "| ..." for any, "..." with a "?" where something was left out.
std::string when(std::string const& condition) {
  auto const pack = pack_of(
      "sign unwell\n  ask \"?\"\n  answer yes or no\n  seen by anyone\n"
      "sign sick\n  ask \"?\"\n  answer yes or no\n  seen by anyone\n  part of unwell\n"
      "sign sore\n  ask \"?\"\n  answer sites\n  seen by anyone\n"
      "sign eats\n  ask \"?\"\n  answer steps normal, less, nothing\n  seen by anyone\n"
      "sign heat\n  ask \"?\"\n  answer number in C from 30 to 44\n  seen by anyone\n"
      "means grown: age >= 2 years\n"
      "means ill: unwell or eats at least less\n"
      "sign asked\n  ask \"?\"\n  answer yes or no\n  seen by anyone\n" +
      condition);
  auto const out = enable_when(*pack, (*pack)[*pack->find_sign("asked")]);
  std::string text;
  for (auto const& term : out.terms) {
    if (!text.empty()) text += out.is_any ? " | " : " & ";
    text += term["question"].get<std::string>() + term["operator"].get<std::string>() +
            term["answerCoding"]["code"].get<std::string>();
  }
  return text + (out.is_whole ? "" : " ?");
}

TEST(EnableWhen, APartIsHiddenByANoToAnyWholeAroundIt) {
  EXPECT_EQ(when("  part of sick\n"), "sick!=N & unwell!=N");
  EXPECT_EQ(when(""), "");
}

TEST(EnableWhen, AnUnknownAnswerNeverHidesAQuestion) {
  // Each term is "not answered so": with no answer, and with can't tell, all of them hold.
  EXPECT_EQ(when("  applies if unwell\n"), "unwell!=N");
  EXPECT_EQ(when("  applies if sex is male\n"), "sex!=sex/female");
  EXPECT_EQ(when("  applies if sex is female and not neutered\n"), "sex!=sex/male & neutered!=Y");
  EXPECT_EQ(when("  applies if eats at least less\n"), "eats!=eats/normal");
  EXPECT_EQ(when("  applies if not eats at least less\n"), "eats!=eats/less & eats!=eats/nothing");
  EXPECT_EQ(when("  applies if sore\n"), "sore!=N");
}

TEST(EnableWhen, EitherAndNotOfSeveral) {
  EXPECT_EQ(when("  applies if unwell or sick\n"), "unwell!=N | sick!=N");
  EXPECT_EQ(when("  applies if ill\n"), "unwell!=N | eats!=eats/normal");
  EXPECT_EQ(when("  applies if not (unwell or sick)\n"), "unwell!=Y & sick!=Y");
  EXPECT_EQ(when("  applies if not (unwell and sick)\n"), "unwell!=Y | sick!=Y");
}

TEST(EnableWhen, WhatCannotBeSaidLeavesTheQuestionShown) {
  EXPECT_EQ(when("  applies if grown\n"), " ?");
  EXPECT_EQ(when("  applies if heat >= 39 C\n"), " ?");
  EXPECT_EQ(when("  applies if sore at elbow\n"), " ?");
  EXPECT_EQ(when("  applies if not sore\n"), " ?");
  EXPECT_EQ(when("  applies if at least 2 of (unwell, sick, sore)\n"), " ?");
  EXPECT_EQ(when("  applies if unwell and grown\n"), "unwell!=N ?");
  EXPECT_EQ(when("  applies if unwell or grown\n"), " ?");
  // One behaviour for all terms: a choice beside another term is left out.
  EXPECT_EQ(when("  part of sick\n  applies if unwell or eats at least less\n"),
            "sick!=N & unwell!=N ?");
}

TEST(EnableWhen, TheFormSaysWhichQuestionsItShowsTooOften) {
  auto const pack = pack_of(
      "sign a\n  ask \"?\"\n  answer yes or no\n  seen by anyone\n  applies if age >= 2 years\n"
      "sign b\n  ask \"?\"\n  answer yes or no\n  seen by anyone\n  part of a\n");
  auto const text = questionnaire(*pack)["description"].get<std::string>();
  EXPECT_NE(text.find("`a`"), std::string::npos) << text;
  EXPECT_EQ(text.find("`b`"), std::string::npos) << text;
}

// By the standard's words: `!=` is true where no answer has this value.
bool is_shown(EnableWhen const& when, Json& response) {
  auto const holds = [&](Json const& term) {
    auto const* item = item_of(response, term["question"]);
    if (item == nullptr) return true;
    for (auto const& answer : (*item)["answer"])
      if (answer.contains("valueCoding") &&
          answer["valueCoding"]["code"] == term["answerCoding"]["code"] &&
          answer["valueCoding"]["system"] == term["answerCoding"]["system"])
        return false;
    return true;
  };
  if (when.terms.empty()) return true;
  return when.is_any ? std::any_of(when.terms.begin(), when.terms.end(), holds)
                     : std::all_of(when.terms.begin(), when.terms.end(), holds);
}

TEST(EnableWhen, WhatTheFormHidesTheEngineKnowsToBeNo) {
  std::vector<std::shared_ptr<Pack const>> packs = {shipped_pack()};
  for (unsigned seed = 1; packs.size() < 20; ++seed)
    if (auto const loaded = load_random_pack(seed, Alarms::on_purpose); loaded.outcome)
      packs.push_back(*loaded.outcome.value);
  std::mt19937 random(77);
  std::size_t hidden = 0;
  std::size_t shown = 0;
  std::size_t could_not = 0;
  for (auto const& pack : packs) {
    Tables const tables(pack);
    Assessor assessor(tables);
    std::vector<EnableWhen> form;
    for (auto const& sign : pack->signs) form.push_back(enable_when(*pack, sign));
    for (int i = 0; i < 10; ++i) {
      auto const patient = random_case(*pack, random);
      auto const result = assessor.assess(patient);
      Json response = {{"item", response_items(*pack, patient, Names::withheld)}};
      for (std::uint32_t s = 0; s < pack->signs.size(); ++s) {
        if (is_shown(form[s], response)) {
          ++shown;
          continue;
        }
        // A no that a yes to a part of it overrules counts as that yes: no form can say so.
        auto const& clashes = result.judgement.contradictions;
        auto const is_overruled = [&](Json const& term) {
          auto const question = pack->find_sign(term["question"].get<std::string>());
          return std::any_of(clashes.begin(), clashes.end(),
                             [&](auto const& clash) { return clash.against == *question; });
        };
        if (std::any_of(form[s].terms.begin(), form[s].terms.end(), is_overruled)) continue;
        // A whole that was checked at some places only, below one that was denied: the engine keeps
        // to what was given of it, and leaves its parts open.
        auto const is_partly_told = [&] {
          for (auto whole = pack->signs[s].part_of; whole; whole = (*pack)[*whole].part_of)
            if (auto const* its = result.find(*whole))
              if (!says_yes(its->answer) && !says_no(its->answer)) return true;
          return false;
        };
        if (is_partly_told()) continue;
        ++hidden;
        auto const* known = result.find(SignId{s});
        EXPECT_TRUE(known != nullptr || result.knowledge.could_not_be_told(SignId{s}))
            << pack->signs[s].name << " of " << pack->name;
        could_not += known == nullptr ? 1 : 0;
      }
    }
  }
  EXPECT_GT(hidden, 200U);
  EXPECT_LT(could_not, hidden / 4);
  EXPECT_GT(shown, 1000U);
}

// What hangs on an amount is asked in any case: the standard's operators would hide it while the
// amount is not known.
TEST(EnableWhen, OfTheShippedPackAllButAmountsCanBeSaid) {
  auto const pack = shipped_pack();
  for (auto const& sign : pack->signs) {
    bool const hangs_on_amount =
        sign.applies_if && sign.applies_if->test.kind == flinch::Test::Kind::in_range;
    EXPECT_EQ(enable_when(*pack, sign).is_whole, !hangs_on_amount) << sign.name;
  }
}

}  // namespace
}  // namespace flinch::test
