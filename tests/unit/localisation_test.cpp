#include "flinch/assess/localisation.hpp"

#include <gtest/gtest.h>

#include <map>

#include "flinch/casefile/write_case.hpp"
#include "flinch/explain/reasons.hpp"
#include "support/small_pack.hpp"

namespace flinch {
namespace {

char const* const text = R"(
sign tender "tender"
  ask "?"
  answer sites
  seen by hands
sign swollen "swollen"
  ask "?"
  answer sites
  seen by hands
cause sore_elbow "Sore elbow"
  affects elbow
  base 30 per 1000
  see watch
  because "x"
  cite judgement
cause sore_belly "Sore belly"
  affects belly
  base 70 per 1000
  see watch
  because "x"
  cite judgement
)";

Localisation place(std::string const& yaml, std::string* words = nullptr) {
  auto const pack = test::pack_of(text);
  Tables const tables(pack);
  auto const result = Assessor(tables).assess(test::case_of(*pack, yaml));
  auto out = localise(tables, result);
  if (words != nullptr)
    for (auto const& found : out.found) *words += site_text(*pack, found.mark) + "; ";
  return out;
}

TEST(Localisation, PlacesWithMoreSignsComeFirst) {
  std::string words;
  (void)place("answers:\n  tender: [belly, left elbow]\n  swollen: [left elbow]\n", &words);
  EXPECT_EQ(words, "left elbow; belly; ");
}

TEST(Localisation, APlainYesSaysThatItIsThereAndNotWhere) {
  auto const pack = test::pack_of(std::string(text) + R"(
alarm somewhere "Somewhere"
  if tender
  see now
  because "x"
  cite judgement
alarm in_the_leg "In the leg"
  if tender at foreleg
  see now
  because "x"
  cite judgement
example told_on_the_telephone
  yes tender
  expect alarm somewhere, not alarm in_the_leg, ceiling now
)");
  auto const truths = [&](Case const& patient) {
    std::vector<Truth> out(2, Truth::no);
    Tables const tables(pack);
    auto const result = Assessor(tables).assess(patient);
    for (auto const& alarm : result.alarms) out[index(alarm.alarm)] = alarm.truth;
    return out;
  };
  auto const yes = test::case_of(*pack, "answers: {tender: yes}");
  EXPECT_EQ(pack->examples[0].patient.answers, yes.answers);
  EXPECT_EQ(yes.answers[0].second, Answer(Findings{true, false, {}, {}}));
  EXPECT_EQ(truths(yes), (std::vector{Truth::yes, Truth::unknown}));
  auto const clear = test::case_of(*pack, "answers: {tender: {found: yes, clear: [foreleg]}}");
  EXPECT_EQ(truths(clear), (std::vector{Truth::yes, Truth::no}));
  for (auto const& patient : {yes, clear})
    EXPECT_EQ(test::case_of(*pack, write_case(patient, *pack)).answers, patient.answers);
  std::string words;
  (void)place("answers: {tender: yes}", &words);
  EXPECT_EQ(words, "");
}

TEST(Localisation, ASiteThatOnlyRepeatsOneInsideItIsLeftOut) {
  std::string words;
  (void)place("answers:\n  tender: [left foreleg, left elbow]\n", &words);
  EXPECT_EQ(words, "left elbow; ");
  words.clear();
  (void)place("answers:\n  tender: [left elbow]\n  swollen: [right foreleg]\n", &words);
  EXPECT_EQ(words, "right front leg; left elbow; ");
}

TEST(Localisation, ACauseOfSeveralPlacesIsWhereSomethingWasFound) {
  auto const pack = test::pack_of(std::string(text) + R"(
cause bite "Bite"
  affects elbow, belly
  base 800 per 1000
  see watch
  because "x"
  cite judgement
)");
  Tables const tables(pack);
  auto const regions = [&](std::string const& yaml) {
    auto const result = Assessor(tables).assess(test::case_of(*pack, yaml));
    std::map<std::string, double> out;
    for (auto const& region : localise(tables, result).regions)
      out[(*pack)[region.region].name] = region.probability;
    return out;
  };
  // Bases 30, 70, 800 and 100: 3 %, 7 % and 80 %.
  auto const nowhere = regions("answers:\n");
  EXPECT_DOUBLE_EQ(nowhere.at("foreleg"), 0.83);
  EXPECT_DOUBLE_EQ(nowhere.at("belly"), 0.87);
  auto const on_the_leg = regions("answers:\n  swollen: [left elbow]\n");
  EXPECT_DOUBLE_EQ(on_the_leg.at("foreleg"), 0.83);
  EXPECT_DOUBLE_EQ(on_the_leg.at("belly"), 0.07);
}

// Bases 30, 70 and 100 (unlisted): 15 % and 35 %.
TEST(Localisation, RegionsCarryTheProbabilityOfTheirCauses) {
  auto const out = place("answers:\n");
  ASSERT_EQ(out.regions.size(), 2U);
  EXPECT_DOUBLE_EQ(out.regions[0].probability, 0.35);
  EXPECT_DOUBLE_EQ(out.regions[1].probability, 0.15);
}

}  // namespace
}  // namespace flinch
