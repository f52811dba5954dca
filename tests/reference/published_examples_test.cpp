// Worked examples and tables that others printed, run through packs and the engine.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>

#include "flinch/explain/reasons.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

// A pack with one disease at `prior`, and one test that is positive in `sensitivity` of the
// diseased and in 1 - `specificity` of the others.
std::shared_ptr<Pack const> test_pack(double prior, double sensitivity, double false_positive,
                                      double harm = 19) {
  auto const text = fmt::format(
      "pack one \"One disease\"\n  unlisted {:.17f}%\n  hold 0.0001% to 99.9999%\n"
      "source judgement\n  text \"x\"\n"
      "tier now \"Now\"\n  within 1 hour\n  harm {}\n  say \"x\"\ntier watch \"Watch\"\n  within 1 "
      "day\n  say \"x\"\n"
      "sign test \"test\"\n  ask \"?\"\n  answer yes or no\n  seen by clinic\n"
      "cause disease \"Disease\"\n  base {:.17f}%\n  see now\n  because \"x\"\n  cite judgement\n"
      "rule r \"r\"\n  if test\n  usual {:.17f}%\n  in disease {:.17f}%\n  because \"x\"\n  cite "
      "judgement\n",
      100 * (1 - prior), harm, 100 * prior, 100 * false_positive, 100 * sensitivity);
  return sound_pack({{"pack.flinch", text}});
}

double after(double prior, double sensitivity, double false_positive, bool positive) {
  auto const pack = test_pack(prior, sensitivity, false_positive);
  return posterior(*pack,
                   assess(pack, positive ? "answers: {test: yes}\n" : "answers: {test: no}\n"),
                   "disease");
}

// A ratio as a test: above one by a positive result, below one by the same test turned round.
double after_ratio(double prior, double ratio) {
  constexpr double false_positive = 0.04;
  return ratio >= 1 ? after(prior, ratio * false_positive, false_positive, true)
                    : after(prior, false_positive * ratio, false_positive, true);
}

// The relation behind the nomogram of Fagan TJ (1975) Nomogram for Bayes's theorem, N Engl J Med
// 293:257 (citation seen in a pocket guide; this grid is computed from the relation).
TEST(Nomogram, GridOfPriorAndLikelihoodRatio) {
  constexpr std::array ratios = {0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0};
  struct Row {
    double prior;
    std::array<double, 8> after;
  };
  for (auto const& row :
       {Row{0.01, {0.001009, 0.002016, 0.005025, 0.010000, 0.019802, 0.048077, 0.091743, 0.168067}},
        Row{0.05, {0.005236, 0.010417, 0.025641, 0.050000, 0.095238, 0.208333, 0.344828, 0.512821}},
        Row{0.10, {0.010989, 0.021739, 0.052632, 0.100000, 0.181818, 0.357143, 0.526316, 0.689655}},
        Row{0.25, {0.032258, 0.062500, 0.142857, 0.250000, 0.400000, 0.625000, 0.769231, 0.869565}},
        Row{0.50, {0.090909, 0.166667, 0.333333, 0.500000, 0.666667, 0.833333, 0.909091, 0.952381}},
        Row{0.75, {0.230769, 0.375000, 0.600000, 0.750000, 0.857143, 0.937500, 0.967742, 0.983607}},
        Row{0.90,
            {0.473684, 0.642857, 0.818182, 0.900000, 0.947368, 0.978261, 0.989011, 0.994475}}})
    for (std::size_t i = 0; i < ratios.size(); ++i)
      EXPECT_NEAR(after_ratio(row.prior, ratios[i]), row.after[i], 1e-6)
          << row.prior << " " << ratios[i];
}

// Ferritin for iron deficiency, sensitivity 0.90, specificity 0.85. Source: Therapeutic Guidelines,
// worked examples of post-test probability (seen): 2 % gives about 11 %, 50 % about 86 %.
TEST(Nomogram, FerritinExample) {
  EXPECT_NEAR(after(0.02, 0.90, 0.15, true), 0.11, 0.005);
  EXPECT_NEAR(after(0.50, 0.90, 0.15, true), 0.86, 0.005);
  EXPECT_NEAR(after(0.02, 0.90, 0.15, true), 0.109091, 1e-6);
  EXPECT_NEAR(after(0.15, 0.90, 0.15, true), 0.514286, 1e-6);
  EXPECT_NEAR(after(0.50, 0.90, 0.15, false), 0.105263, 1e-6);
}

// The same test in counts, 731 + 270 + 78 + 1500 patients. Source: Centre for Evidence-Based
// Medicine, teaching worksheet on diagnosis (seen): 73 % after a positive, 95 % free after a
// negative.
TEST(Nomogram, FerritinWorksheet) {
  EXPECT_NEAR(after(809.0 / 2579, 731.0 / 809, 270.0 / 1770, true), 0.730270, 1e-6);
  EXPECT_NEAR(1 - after(809.0 / 2579, 731.0 / 809, 270.0 / 1770, false), 0.950570, 1e-6);
}

// McGee S (2002) Simplifying likelihood ratios. J Gen Intern Med 17(8):647-650, table 1 (seen): a
// ratio of 2, 5, 10 changes the probability by about +15, +30, +45 points, 0.5, 0.2, 0.1 by as much
// downwards, for probabilities between 10 and 90 %. Exact changes agree within 10 points in the
// ranges computed for each ratio below.
TEST(McGee, TheBedsideRuleAgreesWhereItClaimsTo) {
  struct Row {
    double ratio;
    double points;
    int from;
    int to;
  };
  for (auto const& row : {Row{2, 15, 6, 89}, Row{5, 30, 7, 73}, Row{10, 45, 7, 58},
                          Row{0.5, -15, 11, 94}, Row{0.2, -30, 27, 93}, Row{0.1, -45, 42, 93}})
    for (int percent = row.from; percent <= row.to; ++percent) {
      auto const prior = percent / 100.0;
      EXPECT_NEAR(100 * (after_ratio(prior, row.ratio) - prior), row.points, 10.0)
          << row.ratio << " " << percent;
    }
}

// Pauker SG, Kassirer JP (1975) N Engl J Med 293:229-234 and (1980) 302:1109-1117: treat from
// C/(C+B) = 1/(B/C + 1). Formula seen in Kalliakmanis AG (2004) Arch Hellen Med 21(3):289-306; the
// figures of the original worked patient could not be confirmed and are not used.
TEST(PaukerKassirer, ThresholdsOfTheFormula) {
  struct Row {
    double benefit_per_harm;
    double threshold;
  };
  for (auto const& row : {Row{1.0 / 3, 0.75}, Row{1, 0.5}, Row{2, 1.0 / 3}, Row{4, 0.2},
                          Row{9, 0.1}, Row{19, 0.05}, Row{24, 0.04}, Row{99, 0.01}}) {
    Tier tier;
    tier.harm = row.benefit_per_harm;
    EXPECT_NEAR(*tier.threshold(), row.threshold, 1e-6);
    // And the tier that the engine gives changes just there.
    auto const tier_at = [&](double probability) {
      auto const pack = test_pack(probability, 0.5, 0.5, row.benefit_per_harm);
      return tier_name(*pack, assess(pack, "answers: {test: yes}\n").judgement.tier);
    };
    EXPECT_EQ(tier_at(row.threshold + 1e-6), "now");
    EXPECT_EQ(tier_at(row.threshold - 1e-6), "watch");
  }
}

// Pauker and Kassirer (1980), testing and test-treatment thresholds: with harm R = 1, benefit B =
// 9, test harm 0.05, sensitivity 0.90, specificity 0.85 the formulas give 0.024242 and 0.457143
// (constructed inputs). Without test harm the treatment threshold 0.1 must be what a positive
// result lifts the lower one to, and a negative one lowers the upper one to.
TEST(PaukerKassirer, ATestMattersBetweenItsThresholds) {
  constexpr double treat = 0.1;
  double const lower = 0.15 * 1 / (0.15 * 1 + 0.90 * 9);
  double const upper = 0.85 * 1 / (0.85 * 1 + 0.10 * 9);
  EXPECT_NEAR(after(lower, 0.90, 0.15, true), treat, 1e-9);
  EXPECT_NEAR(after(upper, 0.90, 0.15, false), treat, 1e-9);
  EXPECT_NEAR((0.15 + 0.05) / (0.15 + 0.90 * 9), 0.024242, 1e-6);
  EXPECT_NEAR((0.85 - 0.05) / (0.85 + 0.10 * 9), 0.457143, 1e-6);
}

// Decibans, 10 log10 of the ratio. Source: Good IJ (1985) Weight of evidence: a brief survey.
// Bayesian Statistics 2:249-270 (definition seen).
TEST(Decibans, ValuesOfTheDefinition) {
  struct Row {
    double ratio;
    double decibans;
  };
  for (auto const& row : {Row{1.25, 0.969100}, Row{2, 3.010300}, Row{3, 4.771213}, Row{5, 6.989700},
                          Row{6, 7.781513}, Row{10, 10}, Row{20, 13.010300}, Row{100, 20},
                          Row{0.5, -3.010300}, Row{0.2, -6.989700}, Row{0.1, -10}})
    EXPECT_NEAR(decibans(std::log(row.ratio)), row.decibans, 1e-6);
}

TEST(Decibans, WeightsAddToTheLogOdds) {
  // Prior 0.02 is -16.901961 dB; a ratio of 6 adds 7.781513: -9.120448 dB is 0.109091.
  auto const pack = test_pack(0.02, 0.90, 0.15);
  auto const result = assess(pack, "answers: {test: yes}\n");
  auto const weight = decibans(result.contributions.at(0).counted());
  EXPECT_NEAR(weight, 7.781513, 1e-6);
  auto const p = posterior(*pack, result, "disease");
  EXPECT_NEAR(decibans(std::log(p / (1 - p))), -16.901961 + 7.781513, 1e-5);
}

// Mammogram: prior 0.01, sensitivity 0.792, false positives 0.096 give 7.7 %. Source: Eddy DM
// (1982) in Judgment under Uncertainty, 249-267 (from memory).
TEST(BaseRates, Mammogram) { EXPECT_NEAR(after(0.01, 0.792, 0.096, true), 0.076923, 1e-6); }

// Liver scan, 231 + 27 + 32 + 54 patients: predictive values 0.88 and 0.67. Source: Altman DG,
// Bland JM (1994) Diagnostic tests 2, BMJ 309:102 (from memory).
TEST(BaseRates, LiverScan) {
  EXPECT_NEAR(after(258.0 / 344, 231.0 / 258, 32.0 / 86, true), 0.878327, 1e-6);
  EXPECT_NEAR(1 - after(258.0 / 344, 231.0 / 258, 32.0 / 86, false), 0.666667, 1e-6);
}

// The play-tennis data and query. Data: Quinlan JR (1986) Induction of decision trees. Machine
// Learning 1:81-106; query and answer (no, 0.795): Mitchell TM (1997) Machine Learning,
// section 6.9.1 (both from memory). Frequencies out of 9 days with play and 5 without, counted from
// the 14 rows.
TEST(NaiveBayes, PlayTennis) {
  auto const text =
      std::string(
          "pack tennis \"Tennis\"\n  unlisted 0%\n  hold 0.0001% to 99.9999%\n"
          "source judgement\n  text \"x\"\ntier watch \"W\"\n  within 1 day\n  say \"x\"\n"
          "sign outlook \"o\"\n  ask \"?\"\n  answer one of sunny, overcast, rain\n  seen by "
          "anyone\n"
          "sign air \"t\"\n  ask \"?\"\n  answer one of hot, mild, cool\n  seen by anyone\n"
          "sign humid \"h\"\n  ask \"?\"\n  answer yes or no\n  seen by anyone\n"
          "sign windy \"w\"\n  ask \"?\"\n  answer yes or no\n  seen by anyone\n"
          "cause play \"Play\"\n  base 9 per 14\n  see watch\n  because \"x\"\n  cite judgement\n"
          "cause stay \"Stay\"\n  base 5 per 14\n  see watch\n  because \"x\"\n  cite "
          "judgement\n") +
      // 1/1000000 stands for the empty cell (overcast, no play), which the query does not touch.
      "rule outlook \"o\"\n  over outlook: sunny, overcast, rain\n"
      "  usual 22.222222222222222 44.444444444444444 33.333333333333333\n"
      "  in stay 60 0.0001 39.9999\n  because \"x\"\n  cite judgement\n"
      "rule air \"t\"\n  over air: hot, mild, cool\n"
      "  usual 22.222222222222222 44.444444444444444 33.333333333333333\n"
      "  in stay 40 40 20\n  because \"x\"\n  cite judgement\n"
      "rule humid \"h\"\n  if humid\n  usual 3 per 9\n  in stay 4 per 5\n  because \"x\"\n  cite "
      "judgement\n"
      "rule windy \"w\"\n  if windy\n  usual 3 per 9\n  in stay 3 per 5\n  because \"x\"\n  cite "
      "judgement\n";
  auto const loaded = load({{"pack.flinch", text}});
  ASSERT_TRUE(loaded.outcome) << loaded.messages();
  auto const& pack = *loaded.outcome.value;
  auto const result =
      assess(pack, "answers: {outlook: sunny, air: cool, humid: yes, windy: yes}\n");
  EXPECT_NEAR(posterior(*pack, result, "stay"), 0.795417, 1e-6);
  EXPECT_NEAR(posterior(*pack, result, "play"), 0.204583, 1e-6);
}

// Three diseases and two findings, by hand: priors 0.6 0.3 0.1; P(f1) 0.2 0.6 0.9; P(f2) 0.5 0.5
// 0.1.
TEST(NaiveBayes, ThreeDiseasesTwoFindings) {
  auto const cause = [](char const* name, char const* base) {
    return fmt::format(
        "cause {} \"{}\"\n  base {}\n  see watch\n  because \"x\"\n  cite judgement\n", name, name,
        base);
  };
  auto const text =
      "pack three \"Three\"\n  unlisted 0%\nsource judgement\n  text \"x\"\n"
      "tier watch \"W\"\n  within 1 day\n  say \"x\"\n"
      "sign f1 \"f1\"\n  ask \"?\"\n  answer yes or no\n  seen by anyone\n"
      "sign f2 \"f2\"\n  ask \"?\"\n  answer yes or no\n  seen by anyone\n" +
      cause("a", "60%") + cause("b", "30%") + cause("c", "10%") +
      "rule r1 \"f1\"\n  if f1\n  usual 50%\n  in a 20%, b 60%, c 90%\n  because \"x\"\n  cite "
      "judgement\n"
      "rule r2 \"f2\"\n  if f2\n  usual 50%\n  in a 50%, b 50%, c 10%\n  because \"x\"\n  cite "
      "judgement\n";
  auto const loaded = load({{"pack.flinch", text}});
  ASSERT_TRUE(loaded.outcome) << loaded.messages();
  auto const& pack = *loaded.outcome.value;
  auto const both = assess(pack, "answers: {f1: yes, f2: yes}\n");
  EXPECT_NEAR(posterior(*pack, both, "a"), 0.377358, 1e-6);
  EXPECT_NEAR(posterior(*pack, both, "b"), 0.566038, 1e-6);
  EXPECT_NEAR(posterior(*pack, both, "c"), 0.056604, 1e-6);
  auto const one = assess(pack, "answers: {f1: yes, f2: no}\n");
  EXPECT_NEAR(posterior(*pack, one, "a"), 0.259740, 1e-6);
  EXPECT_NEAR(posterior(*pack, one, "b"), 0.389610, 1e-6);
  EXPECT_NEAR(posterior(*pack, one, "c"), 0.350649, 1e-6);
}

}  // namespace
}  // namespace flinch::test
