// The intervals of an assessment against draws: every figure of the pack is drawn from its
// distribution, and the ranking reckoned anew from the draw alone.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "flinch/assess/uncertainty.hpp"
#include "pack/shipped_pack.hpp"
#include "property/random_pack.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

constexpr int draws = 2000;

// Draws the logarithms of all figures that count in one assessment.
class Drawn {
 public:
  Drawn(Pack const& pack, Assessment const& result, unsigned seed)
      : pack_(pack), result_(result), random_(seed) {}

  // The posteriors of a draw, none of the listed causes last.
  std::vector<double> posteriors() {
    std::vector<double> scores;
    for (auto const& cause : pack_.causes) scores.push_back(std::log(cause.base) + of_base());
    scores.push_back(std::log(pack_.unlisted) + of_base());
    for (auto const& outcome : result_.rules) {
      if (outcome.contribution_count == 0) continue;
      auto const& rule = pack_[outcome.rule];
      auto const usual = figure(rule.usual, rule.usual_sample_size, outcome.band);
      for (std::uint32_t i = 0; i < outcome.contribution_count; ++i) {
        auto const& entry = rule.entries[i];
        auto const share = result_.contributions[outcome.first_contribution + i].share;
        scores[index(entry.cause)] +=
            share * (figure(entry.frequencies, entry.sample_size, outcome.band) - usual);
      }
    }
    double sum = 0;
    for (auto& score : scores) sum += score = std::exp(score);
    for (auto& score : scores) score /= sum;
    return scores;
  }

 private:
  double gamma(double shape) { return std::gamma_distribution<double>(shape, 1)(random_); }
  double of_base() { return std::log(gamma(judged_worth + 0.5) / judged_worth); }

  // The logarithm of a drawn share of the outcome.
  double figure(std::vector<double> const& shares, std::optional<double> patients,
                std::uint32_t band) {
    auto const whole = shares.size() > 1;
    auto share = whole ? shares[band] : band == 0 ? shares[0] : 1 - shares[0];
    auto prior = 0.5;
    if (patients && whole) prior = 0.5 * static_cast<double>(shares.size() - 1);
    if (!patients) {
      share = std::min(std::max(share, pack_.hold_low), pack_.hold_high);
      patients = judged_worth / std::min(share, 1 - share);
    }
    auto const with = gamma(share * *patients + 0.5);
    auto const without = gamma((1 - share) * *patients + prior);
    return std::log(with / (with + without));
  }

  Pack const& pack_;
  Assessment const& result_;
  std::mt19937 random_;
};

struct Coverage {
  double within = 0;
  double intervals = 0;
  void take(Interval const& interval, std::vector<double> const& drawn) {
    double inside = 0;
    for (auto const one : drawn) inside += interval.holds(one) ? 1 : 0;
    within += inside / static_cast<double>(drawn.size());
    ++intervals;
  }
  [[nodiscard]] double mean() const { return within / intervals; }
};

struct Coverages {
  Coverage differences, chances, tiers;
};

void draw(Tables const& tables, Assessment const& result, unsigned seed, Coverages& out) {
  auto const& pack = tables.pack();
  Uncertainty const uncertainty(tables, result);
  auto const place = [&](std::size_t rank) {
    auto const cause = result.ranking[rank].cause;
    return cause ? index(*cause) : pack.causes.size();
  };
  std::vector<double> difference, first, second;
  std::vector<std::vector<double>> tiers(pack.tiers.size());
  Drawn drawn(pack, result, seed);
  for (int i = 0; i < draws; ++i) {
    auto const posteriors = drawn.posteriors();
    first.push_back(posteriors[place(0)]);
    second.push_back(posteriors[place(1)]);
    difference.push_back(std::log(first.back() / second.back()));
    for (std::uint32_t tier = 0; tier < pack.tiers.size(); ++tier) {
      double chance = 0;
      for (std::size_t c = 0; c < pack.causes.size(); ++c)
        if (pack.causes[c].see <= TierId{tier}) chance += posteriors[c];
      tiers[tier].push_back(chance);
    }
  }
  auto const one = result.ranking[0].cause;
  auto const other = result.ranking[1].cause;
  out.differences.take(uncertainty.difference(one, other), difference);
  out.chances.take(uncertainty.chance(one), first);
  out.chances.take(uncertainty.chance(other), second);
  for (std::uint32_t tier = 0; tier < pack.tiers.size(); ++tier)
    if (pack.tiers[tier].harm) out.tiers.take(uncertainty.tier_chance(TierId{tier}), tiers[tier]);
}

// Of 95 in 100: sums of logarithms come near to normal, so ratios of two causes keep to it; chances
// and tiers go by their linear part, which is rougher.
TEST(UncertaintyProperties, DrawsOfTheShippedPackFallWithinTheIntervals) {
  auto const pack = shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  Coverages coverages;
  for (std::size_t i = 0; i < pack->examples.size(); i += 20)
    draw(tables, assessor.assess(pack->examples[i].patient), static_cast<unsigned>(i), coverages);
  fmt::print("within: differences {:.4f}, chances {:.4f}, tiers {:.4f}\n",
             coverages.differences.mean(), coverages.chances.mean(), coverages.tiers.mean());
  EXPECT_NEAR(coverages.differences.mean(), 0.95, 0.01);
  EXPECT_NEAR(coverages.chances.mean(), 0.95, 0.03);
  EXPECT_NEAR(coverages.tiers.mean(), 0.95, 0.03);
}

TEST(UncertaintyProperties, DrawsOfRandomPacksFallWithinTheIntervals) {
  Coverages coverages;
  for (unsigned seed = 27000; coverages.differences.intervals < 25 && seed < 28000; ++seed) {
    auto const loaded = load_random_pack(seed, Alarms::on_purpose);
    if (!loaded.outcome) continue;
    auto const& pack = *loaded.outcome.value;
    Tables const tables(pack);
    std::mt19937 random(seed);
    draw(tables, Assessor(tables).assess(random_case(*pack, random)), seed, coverages);
  }
  fmt::print("within: differences {:.4f}, chances {:.4f}, tiers {:.4f}\n",
             coverages.differences.mean(), coverages.chances.mean(), coverages.tiers.mean());
  EXPECT_EQ(coverages.differences.intervals, 25);
  EXPECT_NEAR(coverages.differences.mean(), 0.95, 0.01);
  EXPECT_NEAR(coverages.chances.mean(), 0.95, 0.03);
  EXPECT_NEAR(coverages.tiers.mean(), 0.95, 0.03);
}

// More evidence of the same kind can only be added to what is unsure, and a cause is always told
// apart from itself by nothing.
TEST(UncertaintyProperties, IntervalsHoldWhatIsShown) {
  auto const pack = shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  for (auto const& example : pack->examples) {
    auto const result = assessor.assess(example.patient);
    Uncertainty const uncertainty(tables, result);
    auto const alike = uncertainty.alike_with_first();
    for (auto const& ranked : result.ranking) {
      auto const chance = uncertainty.chance(ranked.cause);
      EXPECT_TRUE(chance.holds(ranked.posterior)) << example.name;
      EXPECT_GE(chance.low, 0);
      EXPECT_LE(chance.high, 1);
      bool const is_listed = std::find(alike.begin(), alike.end(), ranked.cause) != alike.end();
      bool const is_first = ranked.cause == result.ranking[0].cause;
      EXPECT_EQ(is_listed || is_first,
                !uncertainty.are_told_apart(ranked.cause, result.ranking[0].cause));
    }
    for (std::uint32_t tier = 0; tier < pack->tiers.size(); ++tier)
      EXPECT_TRUE(
          uncertainty.tier_chance(TierId{tier}).holds(result.judgement.tiers[tier].probability) ||
          result.judgement.tiers[tier].probability > 1 - 1e-9);
  }
}

}  // namespace
}  // namespace flinch::test
