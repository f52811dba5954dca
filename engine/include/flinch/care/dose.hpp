#pragma once
// How much to give this patient: from the dose of a care statement to what can be measured or
// split, always rounded down.
//
//   auto const dose = compute_dose(*care.give, care.at_most, care.forms, 22.7, pack.doses);
//   if (auto const* given = std::get_if<GivenDose>(&dose)) use(given->portions);
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

#include "flinch/model/body_weight.hpp"
#include "flinch/syntax/tree.hpp"

namespace flinch {

enum class DoseRefusal : std::uint8_t {
  weight_unknown,
  weight_out_of_range,  ///< outside the pack's `doses`, or not a number
  weight_doubted,       ///< far outside what breed or size lets expect, and not confirmed
  too_small_to_measure  ///< no form can be split or measured so finely, within the range
};

/// One way to measure the dose: tablets (in halves or quarters), capsules, mL, or spoons.
struct Portion {
  syntax::Form form;
  double count = 0;   ///< tablets, capsules, mL of a liquid, or spoons: the most
  double amount = 0;  ///< what that holds, in the dose's unit; never over the maximum
  /// The fewest that reach the low end of a range; equals `count` without a range.
  double least_count = 0;
  double least_amount = 0;
};

struct GivenDose {
  double low = 0;  ///< what the statement asks for at this weight; equals `high` without a range
  double high = 0;
  std::string unit;               ///< of every amount here: `mg`, `mL`, `minutes`, `g` for shares
  bool is_capped = false;         ///< `at most` took something away
  double amount = 0;              ///< the most that can be measured without passing `high`
  std::vector<Portion> portions;  ///< one for each form that can measure it
  std::optional<double> per_kg;   ///< `amount` a kg, where the weight is known
};

/// Less than this part of a single amount is no dose any more; a judgement.
inline constexpr double least_share = 0.9;

using ComputedDose = std::variant<GivenDose, DoseRefusal>;

/// Doses per kg, per kg^0.75, shares of body weight and every mass or volume need the weight; times
/// and plain counts do not.
[[nodiscard]] bool depends_on_weight(syntax::Dose const& dose);

/// The dose for a patient of `weight_kg`, if it is among the weights that are `dosed`; it is taken
/// at its word: `plan_care` asks whether it is doubted. Rounded down: tablets to whole ones, halves
/// or quarters; liquids and volumes to a mark of a syringe (the pack's finest up to 1 mL, 0.1 up to
/// 3, 0.2 up to 10, 1 up to 30, then 5; a judgement); spoons to quarters; what has no form to three
/// digits. A portion below the range is left out, and so is one that holds less than `least_share`
/// of a single amount by weight. Comparisons allow for binary rounding of one part in 10^9.
[[nodiscard]] ComputedDose compute_dose(syntax::Dose const& dose,
                                        std::optional<syntax::Quantity> const& at_most,
                                        std::span<syntax::Form const> forms,
                                        std::optional<double> weight_kg, DosedWeights const& dosed,
                                        SyringeMarks const& marks = {});

}  // namespace flinch
