// Which questions are put about what was swallowed: from the whole to the kind to the amount.
#include <gtest/gtest.h>

#include <algorithm>

#include "flinch/care/plan.hpp"
#include "support/small_pack.hpp"

namespace flinch {
namespace {

using Names = std::vector<std::string>;

char const* const poisons = R"(
sign poison "poison"
  ask "?"
  answer yes or no
  seen by anyone
sign smoke "tobacco"
  ask "?"
  answer yes or no
  part of poison
  seen by anyone
sign kind "kind"
  ask "?"
  answer one of food, sweets, drug, medicine
  seen by anyone
sign drug "which drug"
  ask "?"
  answer one of none, leaf, resin
  seen by anyone
sign pill "which pill"
  ask "?"
  answer steps none, red, blue
  applies if poison
  seen by anyone
sign sweets_g "sweets"
  ask "?"
  answer number in g from 0 to 1000
  seen by anyone
sign drug_mg "drug"
  ask "?"
  answer number in mg from 0 to 1000
  seen by anyone
sign pill_mg "pill"
  ask "?"
  answer number in mg from 0 to 1000
  seen by anyone
alarm poisoned "Poisoned"
  if poison
  see now
  because "x"
  cite judgement
means drugged: poison and kind is drug
care sweets "Sweets"
  taken sweets_g
  level 1 g per kg "sick"
  fit if poison and kind is sweets
  how "x"
  grade C
  because "x"
  cite judgement
care leaf "Leaf"
  taken drug_mg
  level 0 mg per kg "sick"
  fit if smoke or (drugged and drug is leaf)
  how "x"
  grade C
  because "x"
  cite judgement
care resin "Resin"
  taken drug_mg
  level 1 mg per kg "sick"
  fit if drugged and drug is resin
  how "x"
  grade C
  because "x"
  cite judgement
care red "Red pill"
  taken pill_mg
  level 0 mg per kg "sick"
  fit if poison and kind is medicine and pill is red
  how "x"
  grade C
  because "x"
  cite judgement
)";

struct Asked {
  Names questions;
  Names listed;
};

Asked asked(std::string const& answers) {
  auto const pack = test::pack_of(poisons);
  Tables const tables(pack);
  Assessor assessor(tables);
  auto const result = assessor.assess(
      test::case_of(*pack, "dog: {species: dog, weight: 10 kg}\nanswers: {" + answers + "}"));
  auto const plan = plan_care(tables, result, Reader::keeper);
  Asked out;
  for (auto const sign : plan.taken_questions) out.questions.push_back((*pack)[sign].name);
  for (auto const& exposure : result.judgement.exposures)
    out.listed.push_back(pack->care[exposure.care].name);
  return out;
}

TEST(TakenQuestions, NothingIsAskedWhereNothingWasSwallowed) {
  EXPECT_EQ(asked("").questions, Names{});
  EXPECT_EQ(asked("poison: no").questions, Names{});
}

TEST(TakenQuestions, TheKindComesBeforeTheAmount) {
  EXPECT_EQ(asked("poison: yes").questions, Names{"kind"});
  EXPECT_EQ(asked("poison: yes, kind: sweets").questions, Names{"sweets_g"});
  EXPECT_EQ(asked("poison: yes, kind: drug").questions, Names{"drug"});
  EXPECT_EQ(asked("poison: yes, kind: medicine").questions, Names{"pill"});
  EXPECT_EQ(asked("poison: yes, kind: medicine, pill: red").questions, Names{"pill_mg"});
  EXPECT_EQ(asked("poison: yes, kind: medicine, pill: blue").questions, Names{});
}

TEST(TakenQuestions, WhatIsKnownByAPartIsAskedItsAmount) {
  auto const of_part = asked("smoke: yes");
  EXPECT_EQ(of_part.listed, Names{"leaf"});
  EXPECT_EQ(of_part.questions, (Names{"kind", "drug_mg"}));
}

// It could raise no tier, and a list of all poisons that it may have been helps nobody.
TEST(TakenQuestions, WhatItMayHaveBeenIsNotListedUnlessALevelSetsATier) {
  EXPECT_EQ(asked("poison: yes").listed, Names{});
  EXPECT_EQ(asked("poison: yes, kind: medicine, pill_mg: 5 mg").listed, Names{"red"})
      << "an amount that was told is counted";
}

}  // namespace
}  // namespace flinch
