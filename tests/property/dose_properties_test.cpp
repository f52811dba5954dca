// No weight from 0.5 to 100 kg, form or rounding ever passes the maximum.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>
#include <string>

#include "flinch/care/dose.hpp"
#include "support/dose_text.hpp"

namespace flinch {
namespace {

using syntax::Dose;
using syntax::Form;
using syntax::FormKind;
using syntax::PerWeight;
using syntax::Quantity;
using syntax::Splits;

constexpr double rounding = 1e-9;

double factor_of(PerWeight per, double kg) {
  return per == PerWeight::no ? 1 : per == PerWeight::kg ? kg : std::pow(kg, 0.75);
}

/// How many of the smallest unit here (mg, mL) one of `unit` holds.
double size_of(std::string const& unit) { return unit == "g" || unit == "L" ? 1000 : 1; }

/// A second way to the same limit, in mg or mL, written apart from the engine.
double most(Dose const& dose, std::optional<Quantity> const& at_most, double kg) {
  auto const& upper = dose.up_to ? *dose.up_to : dose.amount;
  // A share of the body weight is in grams.
  auto const asked = upper.unit == "%"
                         ? upper.value / 100 * kg * 1000 * size_of("g")
                         : upper.value * factor_of(dose.per, kg) * size_of(upper.unit);
  return at_most ? std::min(asked, at_most->value * size_of(at_most->unit)) : asked;
}

double held(Form const& form, double count) {
  return form.strength.value * size_of(form.strength.unit) * count;
}

// Masses, volumes and shares of the body weight; each form of each; the maximum in its own unit.
TEST(DoseProperties, NoWeightFormOrRoundingPassesTheMaximum) {
  constexpr std::uint32_t seed = 20261125;
  std::mt19937 random(seed);
  auto const between = [&](double low, double high) {
    return std::exp(std::uniform_real_distribution(std::log(low), std::log(high))(random));
  };
  auto const one_of = [&](int n) { return std::uniform_int_distribution(0, n - 1)(random); };
  int given_doses = 0;
  int capped = 0;
  std::array<int, 4> portions{};
  for (int i = 0; i < 200000; ++i) {
    auto const kg = one_of(20) == 0 ? (one_of(2) == 0 ? 0.5 : 100.0) : between(0.5, 100);
    bool const is_share = one_of(10) == 0;
    bool const is_volume = !is_share && one_of(3) == 0;
    auto const any_unit = [&]() -> std::string {
      if (is_volume) return one_of(2) == 0 ? "mL" : "L";
      return one_of(2) == 0 ? "mg" : "g";
    };
    auto const unit = is_share ? std::string("%") : any_unit();
    auto const scale = size_of(unit);
    Dose dose{{between(0.01, is_share ? 5 : 500) / scale, unit, {}},
              {},
              is_share ? PerWeight::no : static_cast<PerWeight>(one_of(3)),
              {},
              {},
              {},
              {},
              {}};
    if (one_of(2) == 0) dose.up_to = Quantity{dose.amount.value * between(1, 4), unit, {}};
    std::optional<Quantity> at_most;
    if (!is_share && one_of(2) == 0) {
      auto const its = any_unit();
      at_most = Quantity{between(0.1, 5000) / size_of(its), its, {}};
    }
    std::vector<Form> forms;
    for (int f = is_share ? 0 : one_of(4); f > 0; --f) {
      auto const kind = is_volume ? FormKind::spoon : static_cast<FormKind>(one_of(3));
      auto const its = any_unit();
      Form form{
          kind, {between(0.05, 1000) / size_of(its), its, {}}, {}, static_cast<Splits>(one_of(3))};
      if (kind == FormKind::liquid) form.per = syntax::Name{"mL", {}};
      forms.push_back(form);
    }
    auto const computed = compute_dose(dose, at_most, forms, kg, test::dosed);
    auto const* given = std::get_if<GivenDose>(&computed);
    if (given == nullptr) {
      EXPECT_EQ(std::get<DoseRefusal>(computed), DoseRefusal::too_small_to_measure);
      continue;
    }
    ++given_doses;
    capped += given->is_capped ? 1 : 0;
    auto const limit = most(dose, at_most, kg) * (1 + rounding);
    auto const amount = given->amount * size_of(given->unit);
    ASSERT_LE(amount, limit) << "seed " << seed << " case " << i << " weight " << kg;
    ASSERT_GT(amount, 0);
    ASSERT_NEAR(*given->per_kg * kg, given->amount, 1e-9 * given->amount);
    for (auto const& portion : given->portions) {
      ++portions.at(static_cast<std::size_t>(portion.form.kind));
      auto const holds = held(portion.form, portion.count);
      ASSERT_LE(holds, limit) << "seed " << seed << " case " << i << " weight " << kg;
      ASSERT_NEAR(holds, portion.amount * size_of(given->unit), 1e-6 * holds);
      auto const least = held(portion.form, portion.least_count);
      auto const low = given->low * size_of(given->unit) * (dose.up_to ? 1 : least_share);
      ASSERT_LE(least, holds * (1 + rounding)) << "seed " << seed << " case " << i;
      ASSERT_GE(least, low * (1 - rounding)) << "seed " << seed << " case " << i;
    }
  }
  EXPECT_GT(given_doses, 50000);
  EXPECT_GT(capped, 10000);
  for (auto const of_kind : portions) EXPECT_GT(of_kind, 5000);
}

TEST(DoseProperties, OutsideTheRangeNothingIsEverComputed) {
  std::mt19937 random(7);
  std::uniform_real_distribution outside(-50.0, 300.0);
  Dose const dose{{10, "mg", {}}, {}, PerWeight::kg, {}, {}, {}, {}, {}};
  int refused = 0;
  for (int i = 0; i < 20000; ++i) {
    auto const kg = outside(random);
    bool const is_inside = kg >= test::dosed.lightest_kg && kg <= test::dosed.heaviest_kg;
    bool const is_given =
        std::holds_alternative<GivenDose>(compute_dose(dose, std::nullopt, {}, kg, test::dosed));
    ASSERT_EQ(is_given, is_inside) << kg;
    refused += is_given ? 0 : 1;
  }
  EXPECT_GT(refused, 1000);
}

}  // namespace
}  // namespace flinch
