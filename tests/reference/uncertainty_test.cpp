// How far an assessment can be off, against what others print or reckon.
#include "flinch/assess/uncertainty.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "reference/outside.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

// One cause, one rule; the usual frequency stands for dogs without the cause.
std::shared_ptr<Pack const> pack_with(std::string const& usual, std::string const& with_cause) {
  return pack_of(fmt::format(R"(
source counts
  text "A count"
sign found "found"
  ask "?"
  answer yes or no
  seen by anyone
cause lack "Lack of iron"
  affects elbow
  base 100 per 1000
  see watch
  because "x"
  cite judgement
rule clue "Clue"
  if found
  usual {}
  in lack {}
  because "x"
  cite judgement
)",
                             usual, with_cause));
}

Interval of_the_ratio(std::shared_ptr<Pack const> const& pack, std::string const& answers) {
  Tables const tables(pack);
  auto const result = Assessor(tables).assess(case_of(*pack, answers));
  return Uncertainty(tables, result).difference(CauseId{0}, std::nullopt);
}

double variance(Interval const& interval) {
  auto const deviation = (interval.high - interval.low) / 2 / 1.959963984540054;
  return deviation * deviation;
}

// Two base rates, each as if counted in 2 dogs. trigamma(5/2) = pi^2/2 - 4(1 + 1/9):
// Abramowitz M, Stegun IA (1964) Handbook of Mathematical Functions, 6.4.4 and 6.4.6 (from memory).
double of_bases() {
  auto const one = std::numbers::pi * std::numbers::pi / 2 - 4 * (1 + 1.0 / 9);
  return 2 * one;
}

// Ferritin for lack of iron: 731 of 809 with it, 270 of 1770 without. 95% intervals of the
// likelihood ratios by the logarithm: 5.295399 to 6.626101 and 0.092047 to 0.140619.
// Counts: Centre for Evidence-Based Medicine, teaching worksheet on diagnosis; seen. Method: Simel
// DL, Samsa GP, Matchar DB (1991) Likelihood ratios with confidence. J Clin Epidemiol 44:763-770;
// from memory. It takes 1/x for trigamma(x + 1/2), here to a part in a thousand.
TEST(UncertaintyReference, LikelihoodRatiosOfFerritinHaveTheirPublishedIntervals) {
  auto const pack = pack_with(fmt::format("{:.9f}% of 1770 from counts", 27000.0 / 1770),
                              fmt::format("{:.9f}% of 809 from counts", 73100.0 / 809));
  struct Row {
    char const* answer;
    double low, high;
  };
  for (auto const& [answer, low, high] :
       {Row{"yes", 5.295399, 6.626101}, Row{"no", 0.092047, 0.140619}}) {
    auto const all = of_the_ratio(pack, fmt::format("answers: {{found: {}}}", answer));
    auto const reach = 1.959963984540054 * std::sqrt(variance(all) - of_bases());
    // The ratio of the posteriors is the likelihood ratio: the two bases are alike.
    auto const middle = (all.low + all.high) / 2;
    EXPECT_NEAR(std::exp(middle - reach) / low, 1, 2e-3) << answer;
    EXPECT_NEAR(std::exp(middle + reach) / high, 1, 2e-3) << answer;
  }
}

// Half a dog of ten: Beta(1, 10), and the variance of its logarithm is 1 + 1/4 + ... + 1/100.
TEST(UncertaintyReference, AFigureOfABetaWithWholeNumbersIsAsByHand) {
  double sum = 0;
  for (int i = 1; i <= 10; ++i) sum += 1.0 / (i * i);
  auto const sure = "50% of 1000000000 from counts";
  EXPECT_NEAR(
      variance(of_the_ratio(pack_with(sure, "5% of 10 from counts"), "answers: {found: yes}")) -
          of_bases(),
      sum, 1e-7);
}

// Figures drawn by R, the ratio reckoned from each draw: 2.5 and 97.5 in 100 lie beyond the ends.
TEST(UncertaintyReference, DrawsInRFallWithinTheInterval) {
  auto const pack = pack_with("20%", "70% of 40 from counts");
  struct Row {
    char const* answer;
    char const* of_usual;  // how R turns a draw into the frequency of the answer
  };
  for (auto const& [answer, of] : {Row{"yes", "x"}, Row{"no", "1 - x"}}) {
    // 20% judged: the rarer answer in 2 dogs, so 2 of 10.
    auto const script = fmt::format(
        "set.seed(1); n <- 400000; f <- function(x) log({}); b <- function() log(rgamma(n, 2.5) / "
        "2);"
        "q <- quantile(f(rbeta(n, 28.5, 12.5)) - f(rbeta(n, 2.5, 8.5)) + b() - b(),"
        "c(0.025, 0.975)); cat(q)",
        of);
    auto const ends = words(output_of(fmt::format("{} --vanilla -e '{}'", FLINCH_RSCRIPT, script)));
    ASSERT_EQ(ends.size(), 2U) << "R did not answer";
    auto const ours = of_the_ratio(pack, fmt::format("answers: {{found: {}}}", answer));
    // Sums of logarithms are taken as normal: the ends shift by a tenth or so.
    EXPECT_NEAR(ours.low, std::stod(ends[0]), 0.13) << answer;
    EXPECT_NEAR(ours.high, std::stod(ends[1]), 0.13) << answer;
  }
}

}  // namespace
}  // namespace flinch::test
