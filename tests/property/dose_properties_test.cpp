// No weight from 0.5 to 100 kg, form or rounding ever passes the maximum.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "flinch/care/dose.hpp"

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

/// A second way to the same limit, in mg, written apart from the engine.
double most_mg(Dose const& dose, std::optional<Quantity> const& at_most, double kg) {
  auto const asked = (dose.up_to ? dose.up_to->value : dose.amount.value) * factor_of(dose.per, kg);
  return at_most ? std::min(asked, at_most->value) : asked;
}

double held_mg(syntax::Form const& form, double count) { return form.strength.value * count; }

TEST(DoseProperties, NoWeightFormOrRoundingPassesTheMaximum) {
  constexpr std::uint32_t seed = 20261125;
  std::mt19937 random(seed);
  auto const between = [&](double low, double high) {
    return std::exp(std::uniform_real_distribution(std::log(low), std::log(high))(random));
  };
  auto const one_of = [&](int n) { return std::uniform_int_distribution(0, n - 1)(random); };
  int given_doses = 0;
  int capped = 0;
  int portions = 0;
  for (int i = 0; i < 200000; ++i) {
    auto const kg = one_of(20) == 0 ? (one_of(2) == 0 ? 0.5 : 100.0) : between(0.5, 100);
    Dose dose{{between(0.01, 500), "mg", {}}, {}, static_cast<PerWeight>(one_of(3)), {}, {}, {}};
    if (one_of(2) == 0) dose.up_to = Quantity{dose.amount.value * between(1, 4), "mg", {}};
    std::optional<Quantity> at_most;
    if (one_of(2) == 0) at_most = Quantity{between(0.1, 5000), "mg", {}};
    std::vector<Form> forms;
    for (int f = one_of(4); f > 0; --f) {
      auto const kind = static_cast<FormKind>(one_of(3));
      Form form{kind, {between(0.05, 1000), "mg", {}}, {}, static_cast<Splits>(one_of(3))};
      if (kind == FormKind::liquid) form.per = syntax::Name{"mL", {}};
      forms.push_back(form);
    }
    auto const computed = compute_dose(dose, at_most, forms, kg);
    auto const* given = std::get_if<GivenDose>(&computed);
    if (given == nullptr) {
      EXPECT_EQ(std::get<DoseRefusal>(computed), DoseRefusal::too_small_to_measure);
      continue;
    }
    ++given_doses;
    capped += given->is_capped ? 1 : 0;
    auto const most = most_mg(dose, at_most, kg) * (1 + rounding);
    ASSERT_LE(given->amount, most) << "seed " << seed << " case " << i << " weight " << kg;
    ASSERT_GT(given->amount, 0);
    ASSERT_NEAR(*given->per_kg * kg, given->amount, 1e-9 * given->amount);
    for (auto const& portion : given->portions) {
      ++portions;
      ASSERT_LE(held_mg(portion.form, portion.count), most)
          << "seed " << seed << " case " << i << " weight " << kg;
      ASSERT_NEAR(held_mg(portion.form, portion.count), portion.amount, 1e-6 * portion.amount);
    }
  }
  EXPECT_GT(given_doses, 50000);
  EXPECT_GT(capped, 10000);
  EXPECT_GT(portions, 50000);
}

TEST(DoseProperties, OutsideTheRangeNothingIsEverComputed) {
  std::mt19937 random(7);
  std::uniform_real_distribution outside(-50.0, 300.0);
  Dose const dose{{10, "mg", {}}, {}, PerWeight::kg, {}, {}, {}};
  int refused = 0;
  for (int i = 0; i < 20000; ++i) {
    auto const kg = outside(random);
    bool const is_inside = kg >= lightest_kg && kg <= heaviest_kg;
    bool const is_given =
        std::holds_alternative<GivenDose>(compute_dose(dose, std::nullopt, {}, kg));
    ASSERT_EQ(is_given, is_inside) << kg;
    refused += is_given ? 0 : 1;
  }
  EXPECT_GT(refused, 1000);
}

}  // namespace
}  // namespace flinch
