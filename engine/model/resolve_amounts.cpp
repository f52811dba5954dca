// How much is given of a measure, and how much of a substance harms.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

#include "flinch/text/nearest.hpp"
#include "model/fit.hpp"
#include "model/resolver.hpp"

namespace flinch {
namespace {

// What is counted tells no amount; else the unit that may be meant.
void suggest_amount(Diagnostic& error, syntax::Quantity const& amount,
                    std::span<Dimension const> kinds) {
  constexpr std::array<std::string_view, 14> pieces = {
      "tablet", "tablets", "pill",   "pills",    "capsule",   "capsules", "drop",
      "drops",  "spoon",   "spoons", "teaspoon", "teaspoons", "puff",     "puffs"};
  if (std::find(pieces.begin(), pieces.end(), amount.unit) != pieces.end())
    error.notes.push_back(
        {"a dose says how much is in it; how many tablets or spoons that makes "
         "follows from its form, as in `form tablet 50 mg in halves`",
         {}});
  else if (amount.unit == "IU" || amount.unit == "iu" || amount.unit == "units")
    error.notes.push_back(
        {"international units are not reckoned with: tell it in mg, or in mL of the product", {}});
  else
    suggest_unit(error, amount.value, amount.unit, kinds);
}

// In which the dose is measured, where it has a sound unit.
std::optional<Unit> dose_unit(syntax::Care const& written) {
  if (!written.give) return std::nullopt;
  return find_unit(written.give->up_to ? written.give->up_to->unit : written.give->amount.unit);
}

}  // namespace

// What was taken already: a sign that is a mass, and the levels from low to high.
void Resolver::care_exposure(Written<syntax::Care> const& entry, Care& out) {
  auto const& written = *entry.statement;
  auto const number_sign = [&](std::optional<syntax::Name> const& name, Dimension dimension,
                               char const* needed, char const* example) -> std::optional<SignId> {
    if (!name) return std::nullopt;
    auto const sign = sign_names_.find(*name, report_);
    if (!sign || is_kind_unknown(*sign)) return std::nullopt;
    bool const fits = *sign < first_means_ && traits(pack_.signs[*sign]).is_number &&
                      pack_.signs[*sign].unit.dimension == dimension;
    if (fits) return SignId{*sign};
    auto& error = report_.error(
        Code::unit_misfit, name->at,
        fmt::format("a number sign {} is needed here; `{}` is none", needed, name->text));
    name_signs_that_fit(dimension, example, error);
    return std::nullopt;
  };
  out.slims_by =
      number_sign(written.slims_by, Dimension::none, "without a unit", "answer number from 1 to 9");
  out.taken = number_sign(written.taken, Dimension::mass, "with a mass",
                          "answer number in mg from 0 to 500");
  if (written.taken || entry.damaged())
    out.since = number_sign(written.since, Dimension::time, "with a time",
                            "answer number in hours from 0 to 72");
  auto const without_taken = [&](Place at, std::string_view clause) {
    report_.error(
        Code::missing_clause, at,
        fmt::format("`{}` stands beside `taken`: say which sign tells the amount that was "
                    "taken, as in `taken chocolate_mg`",
                    clause));
  };
  // Whatever was taken, nothing would come of it.
  if (written.taken && written.levels.empty() && !entry.damaged())
    missing("care", written.name, "level");
  bool const lacks_taken = !written.taken && !entry.damaged();
  if (lacks_taken && !written.levels.empty())
    without_taken(written.levels.front().per_kg.at, "level");
  else if (lacks_taken && written.since)
    without_taken(written.since->at, "since");
  std::vector<std::pair<ToxicLevel, syntax::Level const*>> levels;
  for (auto const& level : written.levels) {
    auto const unit = find_unit(level.per_kg.unit);
    if (!unit || unit->dimension != Dimension::mass) {
      auto& error = report_.error(
          Code::unit_misfit, level.per_kg.at,
          fmt::format("a level is a mass per kg; these fit: {}", units_that_fit(Dimension::mass)));
      suggest_unit(error, level.per_kg.value, level.per_kg.unit, std::array{Dimension::mass});
      continue;
    }
    ToxicLevel resolved{convert(level.per_kg.value, *unit, *find_unit("mg")), {}, level.harm.text};
    if (level.see)
      if (auto const tier = tier_named(*level.see)) resolved.see = TierId{*tier};
    can_be_reached(level, resolved, out);
    levels.emplace_back(std::move(resolved), &level);
  }
  std::stable_sort(levels.begin(), levels.end(), [](auto const& a, auto const& b) {
    return a.first.mg_per_kg < b.first.mg_per_kg;
  });
  for (auto& [level, at] : levels) {
    if (!out.levels.empty()) is_no_less_urgent(*at, level, out.levels.back());
    out.levels.push_back(std::move(level));
  }
}

// Those there are, or how one is written.
void Resolver::name_signs_that_fit(Dimension dimension, std::string_view example,
                                   Diagnostic& error) const {
  constexpr std::size_t most = 6;
  std::vector<std::string_view> names;
  for (std::size_t i = patient_sign::count; i < pack_.signs.size(); ++i) {
    auto const& sign = pack_.signs[i];
    if (sign.kind == AnswerKind::number && sign.unit.dimension == dimension)
      names.push_back(sign.name);
  }
  if (names.empty())
    error.notes.push_back({fmt::format("such a sign is written `{}`", example), {}});
  else if (names.size() <= most)
    error.notes.push_back({fmt::format("these fit: `{}`", fmt::join(names, "`, `")), {}});
}

// More of a substance needs no later visit: one of the two has a wrong figure, unit or tier.
void Resolver::is_no_less_urgent(syntax::Level const& written, ToxicLevel const& level,
                                 ToxicLevel const& less) {
  bool const is_tier_unknown = written.see && !level.see;  // that was reported
  if (is_tier_unknown || !less.see || (level.see && *level.see <= *less.see)) return;
  report_
      .error(Code::tier_order, written.per_kg.at,
             fmt::format("more of it would be less urgent: {:.6g} mg per kg ask for `{}` already",
                         less.mg_per_kg, pack_[*less.see].name))
      .notes.push_back({fmt::format("look at the two figures and their units, or write `see {}` "
                                    "here, or a more urgent tier",
                                    pack_[*less.see].name),
                        {}});
}

void Resolver::can_be_reached(syntax::Level const& written, ToxicLevel const& level,
                              Care const& care) {
  if (!care.taken) return;
  auto const& sign = pack_[*care.taken];
  auto const most_mg = convert(sign.high, sign.unit, *find_unit("mg"));
  if (pack_.doses.lightest_kg <= 0 || level.mg_per_kg * pack_.doses.lightest_kg <= most_mg) return;
  report_
      .error(
          Code::answer_range, written.per_kg.at,
          fmt::format("nobody reaches this level: of `{}` at most {:g} {} is believed, {:.6g} mg "
                      "per kg for the lightest, {:g} kg",
                      sign.name, sign.high, sign.unit.name, most_mg / pack_.doses.lightest_kg,
                      pack_.doses.lightest_kg))
      .notes.push_back({"look at the figure and the unit, or at `from ... to` in the sign", {}});
}

// An amount by weight needs to know which weights are slips of the keyboard.
void Resolver::needs_weights(syntax::Care const& written) {
  bool const is_by_weight =
      (written.give && written.give->per != syntax::PerWeight::no) || !written.levels.empty();
  if (!is_by_weight || written_packs_.empty() || written_packs_.front().damaged() ||
      written_packs_.front().statement->weight)
    return;
  report_.error(Code::missing_clause, written.name.at,
                "amounts per kg need the weights that are believed: say them in the pack, as in "
                "`weight from 0.5 to 12 kg`");
}

// Amounts are masses, volumes, times, plain counts or shares of body weight; intervals and
// durations are times.
void Resolver::care_dose(Written<syntax::Care> const& entry) {
  auto const& written = *entry.statement;
  auto const above_zero = [&](syntax::Quantity const& amount) {
    if (amount.value <= 0)
      report_.error(Code::empty_range, amount.at, "an amount that is given lies above 0");
  };
  auto const check = [&](syntax::Quantity const& amount) {
    auto const unit = find_unit(amount.unit);
    bool const fits =
        unit && (unit->dimension == Dimension::mass || unit->dimension == Dimension::volume ||
                 unit->dimension == Dimension::time || unit->dimension == Dimension::none ||
                 unit->dimension == Dimension::share);
    if (fits) return;
    auto& error = report_.error(
        Code::unit_misfit, amount.at,
        fmt::format("unit `{}` does not fit an amount; these do: {}, {}, {}, {}", amount.unit,
                    units_that_fit(Dimension::mass), units_that_fit(Dimension::volume),
                    units_that_fit(Dimension::time), units_that_fit(Dimension::share)));
    suggest_amount(
        error, amount,
        std::array{Dimension::mass, Dimension::volume, Dimension::time, Dimension::share});
  };
  if (auto const& dose = written.give) {
    if (dose->route) care_way(*dose->route);
    auto const& last = dose->up_to ? *dose->up_to : dose->amount;
    if (dose->per != syntax::PerWeight::no && last.unit.empty() &&
        (written.at_most || !written.forms.empty())) {
      report_.error(
          Code::unit_misfit, last.at,
          fmt::format("an amount per kg needs a unit, for `at most` and `form` measure in "
                      "it; these fit: {}, {}",
                      units_that_fit(Dimension::mass), units_that_fit(Dimension::volume)));
      return;
    }
    above_zero(dose->amount);
    if (!dose->up_to || !dose->amount.unit.empty()) check(dose->amount);
    if (dose->up_to) check(*dose->up_to);
    care_range(*dose);
    if (dose->every) care_interval(*dose);
    if (dose->duration) (void)quantity(*dose->duration, Dimension::time);
  }
  if (!written.give && !entry.damaged() && (written.at_most || !written.forms.empty())) {
    auto const at = written.at_most ? written.at_most->at : written.forms.front().strength.at;
    report_.error(
        Code::missing_clause, at,
        fmt::format("`{}` measures what is given, and stands beside `give`: say the dose, "
                    "as in `give 10 mg per kg by mouth every 8 hours`",
                    written.at_most ? "at most" : "form"));
  }
  if (written.at_most) {
    above_zero(*written.at_most);
    if (!dose_unit(written)) check(*written.at_most);  // else it is compared with the dose's
  }
  care_forms(written);
}

// What is not known as going by mouth would be told where nothing may go by mouth.
void Resolver::care_way(syntax::Name const& way) {
  if (syntax::is_known_way(way.text)) return;
  auto const ways = syntax::ways_known();
  auto const places = syntax::places_known();
  auto& error = report_.error(
      Code::unknown_value, way.at,
      fmt::format("`{}` is no known way, so nobody could tell whether it goes by mouth", way.text));
  constexpr std::array<std::string_view, 2> orally = {"orally", "po"};
  auto const word = std::string_view(way.text).substr(way.text.rfind(' ') + 1);
  auto const near = nearest(way.text, {ways.begin(), ways.end()});
  if (std::find(orally.begin(), orally.end(), word) != orally.end())
    error.did_you_mean("by mouth");
  else if (auto const meant = syntax::meant_way(way.text))
    error.did_you_mean(*meant);
  else if (near)
    error.did_you_mean(*near);
  error.notes.push_back({fmt::format("the ways are `{}`, and `on the`, `onto the`, `into the` or "
                                     "`under the` with one of: {}",
                                     fmt::join(ways, "`, `"), fmt::join(places, ", ")),
                         {}});
}

// Of a range the first takes the unit of the second where it has none.
void Resolver::care_range(syntax::Dose const& dose) {
  if (!dose.up_to) return;
  auto const high = find_unit(dose.up_to->unit);
  auto const low = find_unit(dose.amount.unit.empty() ? dose.up_to->unit : dose.amount.unit);
  if (!low || !high || low->dimension != high->dimension) return;  // said already
  if (convert(dose.amount.value, *low, *high) < dose.up_to->value) return;
  report_.error(Code::empty_range, dose.amount.at,
                "a dose goes from the less to the more, as in `2 to 4 mg`");
}

void Resolver::care_interval(syntax::Dose const& dose) {
  auto least = *dose.every;
  if (dose.every_up_to && least.unit.empty()) least.unit = dose.every_up_to->unit;
  auto const low = quantity(least, Dimension::time);
  if (low && *low <= 0)
    report_.error(Code::empty_range, least.at, "an interval is longer than 0")
        .notes.push_back({"as in `every 8 hours`; what is given once has no interval", {}});
  if (!dose.every_up_to) return;
  auto const high = quantity(*dose.every_up_to, Dimension::time);
  if (low && high && *low >= *high)
    report_.error(Code::empty_range, dose.every_up_to->at,
                  "an interval goes from the shorter to the longer, as in `every 6 to 8 hours`");
}

// Tablets and capsules hold a mass, a liquid holds one per volume, a spoon holds a volume; tablets
// alone can be split.
bool Resolver::is_sound(syntax::Form const& form) {
  constexpr std::array names = {"tablet", "capsule", "liquid", "spoon"};
  auto const name = names.at(static_cast<std::size_t>(form.kind));
  bool const is_liquid = form.kind == syntax::FormKind::liquid;
  bool const is_spoon = form.kind == syntax::FormKind::spoon;
  auto const refuse = [&](Place at, std::string message) {
    report_.error(Code::unit_misfit, at, std::move(message));
    return false;
  };
  auto const held = is_spoon ? Dimension::volume : Dimension::mass;
  if (auto const unit = find_unit(form.strength.unit); !unit || unit->dimension != held) {
    auto& error = report_.error(Code::unit_misfit, form.strength.at,
                                fmt::format("a {} holds a {}; these fit: {}", name,
                                            is_liquid  ? "mass per volume"
                                            : is_spoon ? "volume"
                                                       : "mass",
                                            units_that_fit(held)));
    if (is_liquid && unit && unit->dimension == Dimension::share)
      error.notes.push_back({fmt::format("{0:g} % is {0:g} g in 100 mL, {1:.6g} mg in 1 mL: "
                                         "`liquid {1:.6g} mg per mL`",
                                         form.strength.value, 10 * form.strength.value),
                             {}});
    else if (is_liquid && form.strength.unit.empty())
      error.notes.push_back(
          {fmt::format("written as in `liquid {:g} mg per mL`", form.strength.value), {}});
    else
      suggest_unit(error, form.strength.value, form.strength.unit, std::array{held});
    return false;
  }
  if (is_liquid && !form.per)
    return refuse(form.strength.at, "a liquid has its strength per volume, as in `30 mg per mL`");
  if (form.strength.value <= 0) return refuse(form.strength.at, "a strength lies above 0");
  if (form.per && !is_liquid)
    return refuse(form.per->at,
                  fmt::format("`per` gives the strength of a liquid; a {} has none", name));
  if (auto const unit = form.per ? find_unit(form.per->text) : std::nullopt;
      is_liquid && (!unit || unit->dimension != Dimension::volume)) {
    auto& error = report_.error(Code::unit_misfit, form.per->at,
                                fmt::format("a liquid has its strength per volume; these fit: {}",
                                            units_that_fit(Dimension::volume)));
    if (auto const meant = meant_unit(form.per->text, std::array{Dimension::volume}))
      error.did_you_mean(*meant);
    return false;
  }
  bool const is_given_whole = form.splits == syntax::Splits::whole;
  bool const says_splits = form.splits_at.span.end > 0;
  if (form.kind == syntax::FormKind::capsule && !is_given_whole)
    return refuse(form.splits_at, "a capsule is given `whole`: only a tablet can be split");
  if ((is_liquid || is_spoon) && says_splits)
    return refuse(form.splits_at,
                  fmt::format("a {} is measured: only a tablet can be split", name));
  return true;
}

// The maximum and the forms measure the same thing as the dose does: mass against mass, volume
// against volume. A maximum in another unit would never be reached.
void Resolver::care_forms(syntax::Care const& written) {
  std::vector<syntax::Form const*> sound;
  for (auto const& form : written.forms)
    if (is_sound(form)) sound.push_back(&form);
  auto const unit = dose_unit(written);
  if (!unit) return;
  auto const same = [&](syntax::Quantity const& other) {
    auto const its = find_unit(other.unit);
    if (its && its->dimension == unit->dimension) return;
    auto& error = report_.error(
        Code::unit_misfit, other.at,
        unit->dimension == Dimension::none
            ? fmt::format("the dose is a plain number, and so is this: leave out `{}`, "
                          "or give the dose its unit",
                          other.unit)
            : fmt::format("unit `{}` does not fit the dose; these do: {}", other.unit,
                          units_that_fit(unit->dimension)));
    if (!its) suggest_amount(error, other, std::array{unit->dimension});
  };
  // Where all beside it agree, the dose itself was probably meant otherwise.
  auto const differs = [&](syntax::Quantity const& other) {
    auto const its = find_unit(other.unit);
    return its && its->dimension != unit->dimension && unit->dimension != Dimension::none;
  };
  bool const is_dose_alone = written.at_most && !sound.empty() && differs(*written.at_most) &&
                             std::all_of(sound.begin(), sound.end(),
                                         [&](auto const* form) { return differs(form->strength); });
  if (is_dose_alone) {
    auto const& dosed = written.give->up_to ? *written.give->up_to : written.give->amount;
    report_.error(Code::unit_misfit, dosed.at,
                  fmt::format("the dose is told in `{}`, and its `at most` in `{}`: one of the two "
                              "has the wrong unit",
                              dosed.unit, written.at_most->unit));
    return;
  }
  if (written.at_most) same(*written.at_most);
  for (auto const* form : sound) same(form->strength);
}

}  // namespace flinch
