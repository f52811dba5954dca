// Doses and portions that no example promises, and times and limits of doses that are likelier a
// slip than meant.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "flinch/care/dose.hpp"
#include "flinch/care/promises.hpp"
#include "flinch/model/units.hpp"
#include "flinch/syntax/print.hpp"
#include "proofread/remarks.hpp"

namespace flinch {
namespace {

// Judgements: hardly any dose of a drug is given again sooner, or goes on for longer.
constexpr double soonest_again_s = 30.0 * 60;
constexpr double longest_s = 400.0 * 86400;
// Judgement: a limit this many times over what the heaviest gets was never meant to hold anything.
constexpr double far_over = 3;
// Judgement: fluid under the skin goes up to a tenth of the weight, by mouth to a twentieth; what
// is drawn up at one time for more than this share is a slip in a strength.
constexpr double most_ml_per_kg = 150;
constexpr std::size_t weights_tried = 64;
constexpr double lightest_tried_kg = 0.001;

double seconds(syntax::Quantity const& quantity, std::string_view unit) {
  auto const found = find_unit(quantity.unit.empty() ? unit : quantity.unit);
  return found && found->dimension == Dimension::time
             ? convert(quantity.value, *found, *find_unit("seconds"))
             : 0;
}

std::string written(syntax::Quantity const& quantity, std::string_view unit) {
  return fmt::format("{} {}", syntax::print_number(quantity.value),
                     quantity.unit.empty() ? unit : quantity.unit);
}

class OddDoses {
 public:
  OddDoses(Pack const& pack, Remarks& remarks) : pack_(pack), remarks_(remarks) {}

  void find() {
    for (std::uint32_t i = 0; i < pack_.care.size(); ++i) {
      auto const& care = pack_.care[i];
      if (!care.give) continue;
      times(care);
      if (!depends_on_weight(*care.give)) continue;
      promises(i);
      if (can_be_given(care))
        for (auto const& form : care.forms) portion_promised(i, form);
      if (care.give->per == syntax::PerWeight::no) continue;
      if (care.at_most) idle_limit(care);
      flood(care);
    }
  }

 private:
  void add(Care const& care, Code code, Place at, std::string what, std::string why,
           std::string remedy) {
    remarks_.add(code, at, {care.at}, std::move(what), std::move(why), std::move(remedy));
  }

  void promises(std::uint32_t i) {
    auto const& care = pack_.care[i];
    bool const is_range = care.give->up_to.has_value();
    bool is_most_promised = false;
    for (auto const& example : pack_.examples)
      for (auto const& promise : example.promises) {
        using Kind = syntax::Promise::Kind;
        bool const is_of_it = (promise.kind == Kind::offered || promise.kind == Kind::ask_first) &&
                              promise.subject == i && promise.amount;
        if (is_of_it && (!is_range || promise.amount->least)) return;
        is_most_promised = is_most_promised || is_of_it;
      }
    auto const& shown = care.give->up_to ? *care.give->up_to : care.give->amount;
    add(care, Code::untested_dose, care.give->amount.at,
        is_most_promised
            ? fmt::format("no example promises the least of `{}`, only the most", care.name)
            : fmt::format("no example promises how much of `{}` is given", care.name),
        "a slip of ten in its amount, its unit or its `per kg` would be told as a dose",
        fmt::format("reckon it by hand from the source for the weight of an example, and write it "
                    "there: `expect offered {} {}` with the amount in {}",
                    care.name, is_range ? "LEAST to MOST" : "AMOUNT",
                    shown.unit.empty() ? "the dose's unit" : shown.unit));
  }

  // An amount says nothing of the strength: ten times too weak, ten times as much is drawn up.
  void portion_promised(std::uint32_t i, syntax::Form const& form) {
    auto const& care = pack_.care[i];
    for (auto const& example : pack_.examples)
      for (auto const& promise : example.promises) {
        using Kind = syntax::Promise::Kind;
        bool const is_of_it = (promise.kind == Kind::offered || promise.kind == Kind::ask_first) &&
                              promise.subject == i && promise.portion;
        if (is_of_it && holds(care, form, example.patient, *promise.portion)) return;
      }
    constexpr std::array<std::string_view, 4> units = {"tablets", "capsules", "mL", "spoons"};
    auto const unit = units.at(static_cast<std::size_t>(form.kind));
    add(care, Code::untested_form, form.strength.at,
        fmt::format("no example promises how many {} of this `form` of `{}` are given", unit,
                    care.name),
        "a slip of ten in its strength would be drawn up or counted as it stands",
        fmt::format("reckon it by hand, the amount by the strength, and write it in an example: "
                    "`expect offered {} in NUMBER {}`",
                    care.name, unit));
  }

  [[nodiscard]] bool holds(Care const& care, syntax::Form const& form, Case const& patient,
                           PromisedPortion const& promised) const {
    for (auto const& [sign, answer] : patient.answers) {
      auto const* kg = std::get_if<double>(&answer);
      if (sign != patient_sign::weight || kg == nullptr) continue;
      auto const dose = at_weight(care, *kg);
      auto const* given = std::get_if<GivenDose>(&dose);
      if (given == nullptr) return false;
      return std::any_of(given->portions.begin(), given->portions.end(),
                         [&](Portion const& portion) {
                           return portion.form == form && is_promised(portion, promised);
                         });
    }
    return false;
  }

  void times(Care const& care) {
    auto const& give = *care.give;
    auto const last_unit = give.every_up_to ? give.every_up_to->unit : std::string();
    auto const every_s = give.every ? seconds(*give.every, last_unit) : 0;
    auto const duration_s = give.duration ? seconds(*give.duration, {}) : 0;
    auto const at_once_s = seconds(give.up_to ? *give.up_to : give.amount, {});
    auto const odd = [&](syntax::Quantity const& at, std::string what, std::string why) {
      add(care, Code::odd_dose, at.at, std::move(what), std::move(why),
          "mend the figure or its unit; or say with `accept odd-dose` why it is meant");
    };
    if (every_s > 0 && every_s < soonest_again_s && depends_on_weight(give))
      odd(*give.every,
          fmt::format("`{}` is given again after {}", care.name, written(*give.every, last_unit)),
          "hardly any dose is given again within half an hour: this is likelier a wrong unit");
    if (every_s > longest_s)
      odd(*give.every,
          fmt::format("`{}` is given only every {}", care.name, written(*give.every, last_unit)),
          "more than a year lies between two: this is likelier a wrong figure or unit");
    if (at_once_s > 0 && every_s > 0 && at_once_s >= every_s)
      odd(*give.every, fmt::format("`{}` begins anew before it has ended", care.name),
          "what lasts as long as its interval, or longer, never stops");
    if (duration_s >= longest_s)
      odd(*give.duration,
          fmt::format("`{}` is given for {}", care.name, written(*give.duration, {})),
          "more than a year of one dose is likelier a wrong figure or unit; what goes on for life "
          "has no `for`");
    constexpr double day_s = 86400;
    if (duration_s > day_s && !give.every && !give.often && at_once_s <= 0)
      odd(*give.duration,
          fmt::format("`{}` is given for {}, and nothing says how often", care.name,
                      written(*give.duration, {})),
          "it may be read as given once, or again and again: write the interval before `for`");
    if (duration_s > 0 && every_s > duration_s)
      odd(*give.duration, fmt::format("`{}` ends before it is given a second time", care.name),
          "its `for` is shorter than its `every`, so the interval says nothing");
  }

  [[nodiscard]] ComputedDose at_weight(Care const& care, double kg) const {
    return compute_dose(*care.give, care.at_most, care.forms, kg, pack_.doses, pack_.syringe_marks);
  }

  // Of a liquid a thousand times too weak the dose would be drawn up as it stands.
  void flood(Care const& care) {
    auto const kg = std::max(pack_.doses.lightest_kg, lightest_tried_kg);
    auto const dose = at_weight(care, kg);
    auto const* given = std::get_if<GivenDose>(&dose);
    if (given == nullptr) return;
    auto const remark = [&](Place at, double ml) {
      if (ml <= most_ml_per_kg * kg) return;
      add(care, Code::odd_dose, at,
          fmt::format("`{}` comes to {:.4g} mL at one time for {:g} kg", care.name, ml, kg),
          fmt::format("hardly any patient gets more than {:g} mL per kg at once", most_ml_per_kg),
          "mend the amount, or the strength and the unit of the `form`");
    };
    auto const unit = find_unit(given->unit);
    if (unit && unit->dimension == Dimension::volume)
      remark(care.give->amount.at, convert(given->high, *unit, *find_unit("mL")));
    for (auto const& portion : given->portions)
      if (portion.form.kind == syntax::FormKind::liquid)
        remark(portion.form.strength.at, portion.count);
  }

  // A limit ten times too high lets a slip in the weight through.
  void idle_limit(Care const& care) {
    auto const dose = compute_dose(*care.give, {}, {}, pack_.doses.heaviest_kg, pack_.doses);
    auto const* given = std::get_if<GivenDose>(&dose);
    auto const limit_unit = find_unit(care.at_most->unit);
    if (given == nullptr || !limit_unit) return;
    auto const unit = find_unit(given->unit);
    if (!unit || unit->dimension != limit_unit->dimension) return;
    if (convert(care.at_most->value, *limit_unit, *unit) <= far_over * given->high) return;
    add(care, Code::odd_dose, care.at_most->at,
        fmt::format("`at most` is more than {:g} times what the heaviest gets of `{}`", far_over,
                    care.name),
        fmt::format("at {:g} kg it is {:.6g} {}, so the limit never holds anything back",
                    pack_.doses.heaviest_kg, given->high, given->unit),
        "mend the figure and the unit of `at most`, or leave it out");
  }

  // Over the weights that are dosed, in equal steps of their logarithm.
  // Whether it can be, to anybody.
  bool can_be_given(Care const& care) {
    bool is_ever_given = false;
    bool is_always_capped = care.at_most && care.give->per != syntax::PerWeight::no;
    // A pack that says no weights believes any above 0.
    auto const from_kg = std::max(pack_.doses.lightest_kg, lightest_tried_kg);
    auto const ratio = pack_.doses.heaviest_kg / from_kg;
    for (std::size_t i = 0; i < weights_tried && (!is_ever_given || is_always_capped); ++i) {
      auto const share = static_cast<double>(i) / (weights_tried - 1);
      auto const dose = at_weight(care, from_kg * std::pow(ratio, share));
      auto const* given = std::get_if<GivenDose>(&dose);
      if (given == nullptr) continue;
      is_ever_given = true;
      is_always_capped = is_always_capped && given->is_capped;
    }
    if (!is_ever_given && !care.forms.empty())
      add(care, Code::odd_dose, care.forms.front().strength.at,
          fmt::format("`{}` can be measured for no weight of `doses`", care.name),
          "each `form` holds far more, or far less, than the dose: nobody is ever told an amount",
          "mend the amount, or the strength and the unit of the `form`");
    else if (is_ever_given && is_always_capped)
      add(care, Code::odd_dose, care.at_most->at,
          fmt::format("`at most` is less than every dose of `{}`", care.name),
          "even the lightest that is dosed gets the most there is, so its weight never counts",
          "mend the amount, or the figure and the unit of `at most`");
    return is_ever_given;
  }

  Pack const& pack_;
  Remarks& remarks_;
};

}  // namespace

void find_odd_doses(Pack const& pack, Remarks& remarks) { OddDoses(pack, remarks).find(); }

}  // namespace flinch
