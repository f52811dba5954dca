// What sets tiers by itself, and what may be done at home.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "model/fit.hpp"
#include "model/human_painkillers.hpp"
#include "model/resolver.hpp"
#include "model/wording.hpp"

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
  else
    suggest_unit(error, amount.value, amount.unit, kinds);
}

// In which the dose is measured, where it has a sound unit.
std::optional<Unit> dose_unit(syntax::Care const& written) {
  if (!written.give) return std::nullopt;
  return find_unit(written.give->up_to ? written.give->up_to->unit : written.give->amount.unit);
}

}  // namespace

void Resolver::alarms() {
  for (auto const& written : written_alarms_) {
    auto const& a = *written.statement;
    Alarm out;
    out.name = a.name.text;
    out.title = title_or_name(a);
    out.at = a.name.at;
    out.say = a.say ? a.say->text : "";
    for (auto const& name : a.gives_way_to)
      if (auto const other = care_names_.find(name, report_)) out.gives_way_to.push_back(*other);
    if (a.condition) {
      if (auto resolved = condition(*a.condition))
        out.condition = with_unless(std::move(*resolved), a.unless);
    } else if (!written.has_lost("if")) {
      missing("alarm", a.name, "if");
    }
    if (a.see) {
      if (auto const tier = tier_named(*a.see)) out.see = *tier;
    } else if (!written.has_lost("see")) {
      missing("alarm", a.name, "see");
    }
    out.on_purpose = a.on_purpose.has_value();
    rationale("alarm", written, out.because, out.cites);
    pack_.alarms.push_back(std::move(out));
  }
  floors();
}

void Resolver::floors() {
  auto name = floor_names_.begin();
  for (std::size_t i = 0; i < written_signs_.size(); ++i) {
    SignId const sign{static_cast<std::uint32_t>(patient_sign::count + i)};
    for (auto const& floor : written_signs_[i].statement->alone) {
      Alarm out;
      out.name = *name++;
      out.at = floor.see.at;
      out.floor_of = sign;
      if (auto const tier = tier_names_.find(floor.see, report_)) out.see = TierId{*tier};
      if (auto resolved = floor_condition(*written_signs_[i].statement, floor)) {
        out.title = floor_title(pack_, resolved->test);
        out.condition = with_unless(std::move(*resolved), floor.unless);
      }
      out.because = floor.because.text;
      out.cites = cited(floor.cites);
      pack_.alarms.push_back(std::move(out));
    }
  }
}

std::optional<Condition> Resolver::floor_condition(syntax::Sign const& sign,
                                                   syntax::Floor const& floor) {
  if (!sign.answer) return std::nullopt;  // reported already
  auto const& resolved = pack_[*pack_.find_sign(sign.name.text)];
  bool const is_bare = std::holds_alternative<std::monostate>(floor.test.test);
  bool const needs_value =
      resolved.kind != AnswerKind::yes_or_no && resolved.kind != AnswerKind::sites;
  if (is_bare && needs_value) {
    report_.error(Code::test_misfit, floor.see.at,
                  fmt::format("`{}` is not answered yes or no: say from which answer on, as in "
                              "`alone see {} if {}`",
                              sign.name.text, floor.see.text,
                              resolved.kind == AnswerKind::steps    ? "at least STEP"
                              : resolved.kind == AnswerKind::one_of ? "VALUE"
                                                                    : ">= 5"));
    return std::nullopt;
  }
  if (!is_bare && resolved.kind == AnswerKind::yes_or_no) {
    report_.error(Code::test_misfit, floor.see.at,
                  fmt::format("`{}` is answered yes or no: leave out the `if`", sign.name.text));
    return std::nullopt;
  }
  auto test_of_sign = floor.test;
  test_of_sign.sign = {sign.name.text, floor.see.at};
  return test(test_of_sign);
}

void Resolver::care() {
  for (auto const& written : written_care_) {
    auto const& c = *written.statement;
    Care out;
    out.name = c.name.text;
    out.title = title_or_name(c);
    out.give = c.give;
    out.how = c.how ? c.how->text : "";
    out.say = c.say ? c.say->text : "";
    for (auto const& name : c.gives_way_to) {
      auto const other = care_names_.find(name, report_);
      if (other && *other < pack_.care.size())
        out.gives_way_to.push_back(*other);
      else if (other)
        report_.error(Code::gives_way, name.at,
                      fmt::format("`{}` does not stand before this one: care is written in the "
                                  "order in which it is done, and gives way to what comes first",
                                  name.text));
    }
    out.at_most = c.at_most;
    out.forms = c.forms;
    out.for_clinician = c.for_clinician;
    out.problem = c.problem ? c.problem->text : "";
    out.at = c.name.at;
    out.watch = c.watch ? c.watch->text : "";
    out.by_mouth = c.by_mouth || (c.give && syntax::is_by_mouth(*c.give));
    care_fasting(c, out);
    constexpr std::array<std::string_view, 5> says = {"give", "how", "avoid", "watch", "fasting"};
    bool const says_something = c.give || c.how || c.avoid || c.watch || c.fasting;
    bool const may_say = std::any_of(says.begin(), says.end(),
                                     [&](auto const clause) { return written.has_lost(clause); });
    if (!says_something && !may_say) missing("care", c.name, "give");
    out.first_aid = c.first_aid;
    out.while_waiting = c.while_waiting;
    care_exposure(written, out);
    care_slimming(written, out);
    for (auto const& name : c.causes)
      if (auto const cause = cause_named(name)) out.causes.push_back(*cause);
    if (c.fit_if) out.fit_if = condition(*c.fit_if);
    auto const resolve_all = [&](std::vector<syntax::Gate> const& from, std::vector<CareGate>& to) {
      for (auto const& one : from)
        if (auto resolved = condition(one.condition))
          to.push_back({std::move(*resolved), one.reason ? one.reason->text : ""});
    };
    resolve_all(c.never_if, out.never_if);
    resolve_all(c.ask_vet_if, out.ask_vet_if);
    resolve_all(c.stop_if, out.stop_if);
    for (auto const& gate : c.stop_if)
      if (!gate.reason || gate.reason->text.empty())
        report_.error(Code::stop_reason, gate.condition.at,
                      "`stop if` needs its words behind it: they are all that tells the reader "
                      "when to stop");
    care_painkiller(c);
    care_dose(written);
    needs_weights(c);
    if (c.grade) {
      if (c.grade->text.size() == 1 && c.grade->text[0] >= 'A' && c.grade->text[0] <= 'D')
        out.grade = c.grade->text[0];
      else
        report_.error(Code::care_grade, c.grade->at, "`grade` is A, B, C or D");
    } else if (!written.has_lost("grade")) {
      missing("care", c.name, "grade");
    }
    rationale("care", written, out.because, out.cites);
    pack_.care.push_back(std::move(out));
  }
}

// What is to be done with a painkiller for people is told to clinicians alone. What not to do with
// one (`avoid`), and what was taken already, may be told to all.
void Resolver::care_painkiller(syntax::Care const& c) {
  if (c.for_clinician || c.taken || (!c.give && !c.how)) return;
  std::vector<std::pair<std::string_view, Place>> said = {{c.name.text, c.name.at}};
  for (auto const* text : {&c.title, &c.how, &c.say})
    if (*text) said.emplace_back((*text)->text, (*text)->at);
  for (auto const& [text, at] : said) {
    auto const name = human_painkiller_in(text);
    if (!name) continue;
    report_
        .error(Code::human_painkiller, at,
               fmt::format("`{}` is a painkiller for people: no keeper is told to give one", *name))
        .notes.push_back(
            {"a measure with it is `for clinician`; what not to do stands in `avoid`", {}});
    return;
  }
}

// What not to do; of food and water, what goes on with a fast and without one.
void Resolver::care_fasting(syntax::Care const& c, Care& out) {
  out.avoid = c.avoid ? c.avoid->text : c.fasting ? c.fasting->text : "";
  out.is_fasting = c.fasting.has_value();
  if (c.fasting && (c.give || c.how || c.avoid || c.watch || c.by_mouth))
    report_.error(Code::fasting, c.fasting->at,
                  "`fasting` says what goes on of food and water, and stands without `give`, "
                  "`how`, `avoid`, `watch` and `by mouth`");
  else if (c.by_mouth && c.avoid)
    report_.error(Code::fasting, c.avoid->at,
                  "what goes on of food and water before a visit is a `fasting`; `by mouth` marks "
                  "what is given");
  if (!c.otherwise) return;
  out.otherwise = c.otherwise->text;
  bool const is_said = std::any_of(pack_.care.begin(), pack_.care.end(),
                                   [](Care const& other) { return !other.otherwise.empty(); });
  if (!c.fasting)
    report_.error(Code::fasting, c.otherwise->at,
                  "`otherwise` says what goes on of food and water where nothing fasts, and stands "
                  "beside a `fasting`");
  else if (is_said)
    report_.error(Code::fasting, c.otherwise->at,
                  "one `fasting` of a pack says what goes on otherwise, and one did already");
}

// The figures of slimming, and the score that they hang on.
void Resolver::care_slimming(Written<syntax::Care> const& written, Care& out) {
  auto const& c = *written.statement;
  bool const has_figures = c.ideal_score || c.each_point || c.lost_a_week || !c.benefits.empty();
  if (!c.slims_by && !has_figures) return;
  auto const need = [&](bool is_there, std::string_view clause) {
    if (!is_there && !written.has_lost(clause)) missing("care", c.name, clause);
  };
  need(c.slims_by.has_value(), "slims by");
  need(c.ideal_score.has_value(), "ideal score");
  need(c.each_point.has_value(), "each point");
  need(c.lost_a_week.has_value(), "lost a week");
  if (c.ideal_score) out.slimming.ideal_score = c.ideal_score->value;
  if (c.ideal_score && out.slims_by) {
    auto const& score = pack_[*out.slims_by];
    if (c.ideal_score->value < score.low || c.ideal_score->value >= score.high)
      report_.error(Code::number_range, c.ideal_score->at,
                    fmt::format("the ideal score lies within those of `{}`, from {:g} and below "
                                "{:g}",
                                score.name, score.low, score.high));
  }
  auto const share = [&](syntax::Frequency const& figure) {
    auto const out_of_one = frequency(figure);
    if (out_of_one && (*out_of_one <= 0 || *out_of_one >= 1))
      report_.error(Code::frequency_range, figure.at,
                    "a share of the weight lies above 0% and below 100%");
    return out_of_one.value_or(0);
  };
  if (c.each_point) out.slimming.each_point = share(*c.each_point);
  if (c.lost_a_week) {
    out.slimming.slowest_a_week = share(c.lost_a_week->low);
    out.slimming.fastest_a_week = share(c.lost_a_week->high);
    if (out.slimming.slowest_a_week > out.slimming.fastest_a_week)
      report_.error(Code::empty_range, c.lost_a_week->low.at,
                    "what is lost a week goes from the lower share to the higher");
  }
  for (auto const& benefit : c.benefits)
    out.slimming.benefits.push_back({share(benefit.from), benefit.text.text});
}

// What was taken already: a sign that is a mass, and the levels from low to high.
void Resolver::care_exposure(Written<syntax::Care> const& entry, Care& out) {
  auto const& written = *entry.statement;
  auto const number_sign = [&](std::optional<syntax::Name> const& name, Dimension dimension,
                               char const* needed) -> std::optional<SignId> {
    if (!name) return std::nullopt;
    auto const sign = sign_names_.find(*name, report_);
    if (!sign) return std::nullopt;
    bool const fits = *sign < first_means_ && pack_.signs[*sign].kind == AnswerKind::number &&
                      pack_.signs[*sign].unit.dimension == dimension;
    if (fits) return SignId{*sign};
    report_.error(Code::unit_misfit, name->at,
                  fmt::format("a number sign {} is needed here; `{}` is none", needed, name->text));
    return std::nullopt;
  };
  out.slims_by = number_sign(written.slims_by, Dimension::none, "without a unit");
  out.taken = number_sign(written.taken, Dimension::mass, "with a mass");
  if (written.taken || entry.damaged())
    out.since = number_sign(written.since, Dimension::time, "with a time");
  auto const without_taken = [&](Place at, std::string_view clause) {
    report_.error(
        Code::missing_clause, at,
        fmt::format("`{}` stands beside `taken`: say which sign tells the amount that was "
                    "taken, as in `taken chocolate_mg`",
                    clause));
  };
  bool const lacks_taken = !written.taken && !entry.damaged();
  if (lacks_taken && !written.levels.empty())
    without_taken(written.levels.front().per_kg.at, "level");
  else if (lacks_taken && written.since)
    without_taken(written.since->at, "since");
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
    level_fits(level, resolved, out);
    out.levels.push_back(std::move(resolved));
  }
  std::stable_sort(out.levels.begin(), out.levels.end(),
                   [](auto const& a, auto const& b) { return a.mg_per_kg < b.mg_per_kg; });
}

// Levels grow, and more of it is no less urgent; somebody can have taken so much.
void Resolver::level_fits(syntax::Level const& written, ToxicLevel const& level, Care const& care) {
  if (!care.levels.empty()) {
    auto const& before = care.levels.back();
    if (level.mg_per_kg <= before.mg_per_kg) {
      report_
          .error(Code::empty_range, written.per_kg.at,
                 "levels stand from the less to the more, and this is no more than the one before "
                 "it")
          .notes.push_back({"one of the two has a wrong figure or unit", {}});
      return;
    }
    bool const is_less_urgent = before.see && (!level.see || *level.see > *before.see);
    if (is_less_urgent)
      report_
          .error(Code::tier_order, written.per_kg.at,
                 fmt::format("more of it would be less urgent: the level before it asks for `{}`",
                             pack_[*before.see].name))
          .notes.push_back(
              {fmt::format("write `see {}` here, or a more urgent tier", pack_[*before.see].name),
               {}});
  }
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
  if (auto const unit = find_unit(form.strength.unit); !unit || unit->dimension != held)
    return refuse(form.strength.at, fmt::format("a {} holds a {}; these fit: {}", name,
                                                is_liquid  ? "mass per volume"
                                                : is_spoon ? "volume"
                                                           : "mass",
                                                units_that_fit(held)));
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
  if (written.at_most) same(*written.at_most);
  for (auto const* form : sound) same(form->strength);
}

}  // namespace flinch
