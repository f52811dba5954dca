#include "flinch/care/dose.hpp"

#include <algorithm>
#include <cmath>

#include "flinch/model/units.hpp"

namespace flinch {
namespace {

// Binary fractions: 81.25 mg of a 325 mg tablet in quarters must come out as one quarter.
constexpr double rounding = 1e-9;

double down_to(double value, double step) { return std::floor(value / step + rounding) * step; }

double three_digits_down(double value) {
  if (value <= 0) return 0;
  return down_to(value, std::pow(10.0, std::floor(std::log10(value)) - 2));
}

double syringe_step_mL(double mL, double finest_mL) {
  return mL <= 1 ? finest_mL : mL <= 3 ? 0.1 : mL <= 10 ? 0.2 : mL <= 30 ? 1 : 5;
}

// A step of the wider syringe may round below a mark of the narrower: 1.04 mL is 1.0 either way.
double syringe_down(double mL, double finest_mL) {
  return down_to(mL, syringe_step_mL(mL, finest_mL));
}

double up_to(double value, double step) { return std::ceil(value / step - rounding) * step; }

Unit unit_of(syntax::Quantity const& quantity) { return find_unit(quantity.unit).value_or(Unit{}); }

double tablet_step(syntax::Splits splits) {
  return splits == syntax::Splits::whole ? 1 : splits == syntax::Splits::halves ? 0.5 : 0.25;
}

/// The most of `form` that holds no more than `high` of `unit`, and the fewest that hold `low`.
Portion portion_of(syntax::Form const& form, double low, double high, Unit const& unit,
                   double finest_mL) {
  auto const strength = convert(form.strength.value, unit_of(form.strength), unit);
  Portion out{form};
  if (strength <= 0) return out;
  if (form.kind == syntax::FormKind::liquid) {
    auto const volume = form.per ? find_unit(form.per->text) : find_unit("mL");
    auto const mL = convert(1, volume.value_or(Unit{}), *find_unit("mL"));
    auto const least_mL = low / strength * mL;
    out.count = syringe_down(high / strength * mL, finest_mL);
    out.least_count = std::min(out.count, up_to(least_mL, syringe_step_mL(least_mL, finest_mL)));
    out.amount = out.count / mL * strength;
    out.least_amount = out.least_count / mL * strength;
    return out;
  }
  constexpr double spoon_step = 0.25;
  auto const step = form.kind == syntax::FormKind::spoon    ? spoon_step
                    : form.kind == syntax::FormKind::tablet ? tablet_step(form.splits)
                                                            : 1.0;
  out.count = down_to(high / strength, step);
  out.least_count = std::min(out.count, up_to(low / strength, step));
  out.amount = out.count * strength;
  out.least_amount = out.least_count * strength;
  return out;
}

Unit unit_of(syntax::Dose const& dose) { return unit_of(dose.up_to ? *dose.up_to : dose.amount); }

std::optional<DoseRefusal> refused_weight(std::optional<double> weight_kg,
                                          DosedWeights const& dosed) {
  if (!weight_kg) return DoseRefusal::weight_unknown;
  bool const fits = is_believable_kg(dosed, *weight_kg);
  return fits ? std::nullopt : std::optional(DoseRefusal::weight_out_of_range);
}

double weight_factor(syntax::PerWeight per, double kg) {
  return per == syntax::PerWeight::no ? 1 : per == syntax::PerWeight::kg ? kg : std::pow(kg, 0.75);
}

/// What the statement asks for at this weight, before anything is rounded.
GivenDose asked_for(syntax::Dose const& dose, Unit const& unit,
                    std::optional<syntax::Quantity> const& at_most,
                    std::optional<double> weight_kg) {
  GivenDose out;
  auto factor = weight_factor(dose.per, weight_kg.value_or(0));
  out.unit = unit.name;
  if (unit.dimension == Dimension::share) {
    constexpr double grams_a_kg = 1000;
    factor = weight_kg.value_or(0) * grams_a_kg / 100;
    out.unit = "g";
  }
  out.low = dose.amount.value * factor;
  out.high = (dose.up_to ? dose.up_to->value : dose.amount.value) * factor;
  if (dose.up_to && !dose.amount.unit.empty())
    out.low = convert(dose.amount.value, unit_of(dose.amount), unit) * factor;
  if (at_most) {
    auto const most = convert(at_most->value, unit_of(*at_most), *find_unit(out.unit));
    out.is_capped = out.high > most;
    out.low = std::min(out.low, most);
    out.high = std::min(out.high, most);
  }
  return out;
}

}  // namespace

bool depends_on_weight(syntax::Dose const& dose) {
  auto const dimension = unit_of(dose).dimension;
  return dose.per != syntax::PerWeight::no || dimension == Dimension::mass ||
         dimension == Dimension::volume || dimension == Dimension::share;
}

ComputedDose compute_dose(syntax::Dose const& dose, std::optional<syntax::Quantity> const& at_most,
                          std::span<syntax::Form const> forms, std::optional<double> weight_kg,
                          DosedWeights const& dosed, SyringeMarks const& marks) {
  auto const unit = unit_of(dose);
  bool const is_by_weight = depends_on_weight(dose);
  if (is_by_weight)
    if (auto const refusal = refused_weight(weight_kg, dosed)) return *refusal;
  auto out = asked_for(dose, unit, at_most, weight_kg);
  auto const shown = find_unit(out.unit).value_or(Unit{});
  if (!is_by_weight) {
    out.amount = out.high;
    return out;
  }
  // Too little is no dose either.
  auto const least = dose.up_to ? out.low : out.low * least_share;
  auto const finest_mL = syntax::is_injected(dose) ? marks.injected_mL : marks.swallowed_mL;
  for (auto const& form : forms) {
    auto portion = portion_of(form, out.low, out.high, shown, finest_mL);
    if (portion.amount <= 0 || portion.amount < least * (1 - rounding)) continue;
    out.amount = std::max(out.amount, portion.amount);
    out.portions.push_back(std::move(portion));
  }
  if (forms.empty())
    out.amount = shown.dimension == Dimension::volume
                     ? convert(syringe_down(convert(out.high, shown, *find_unit("mL")), finest_mL),
                               *find_unit("mL"), shown)
                     : three_digits_down(out.high);
  if (out.amount <= 0 || out.amount < least * (1 - rounding))
    return DoseRefusal::too_small_to_measure;
  out.per_kg = out.amount / *weight_kg;
  return out;
}

}  // namespace flinch
