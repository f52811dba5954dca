#include "flinch/telling/care_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "flinch/explain/reasons.hpp"
#include "flinch/syntax/print.hpp"
#include "model/leaving_words.hpp"

namespace flinch {
namespace {

std::string plural(double count, std::string_view word) {
  return fmt::format("{} {}{}", amount_words(count), word, count > 1 ? "s" : "");
}

std::string quantity_words(syntax::Quantity const& quantity) {
  auto unit = quantity.unit;
  if (quantity.value == 1 && unit.size() > 1 && unit.back() == 's') unit.pop_back();
  return syntax::print_number(quantity.value) + (unit.empty() ? "" : " " + unit);
}

// One portion or a range of them: the low end stands first, it is where a dose begins.
std::string portion_words(Portion const& portion) {
  auto const strength = quantity_words(portion.form.strength);
  bool const is_range = portion.least_count < portion.count * (1 - 1e-9);
  auto const from = is_range ? amount_words(portion.least_count) + " to " : std::string();
  auto const of = [&](std::string_view word) {
    return fmt::format("{}{} of {}", from, plural(portion.count, word), strength);
  };
  switch (portion.form.kind) {
    case syntax::FormKind::tablet:
      return of("tablet");
    case syntax::FormKind::capsule:
      return of("capsule");
    case syntax::FormKind::liquid:
      return fmt::format("{}{} mL of a liquid with {} per {}", from, amount_words(portion.count),
                         strength, portion.form.per ? portion.form.per->text : "mL");
    case syntax::FormKind::spoon:
      break;
  }
  return of("spoon");
}

// What one of several portions holds: they are not equal.
std::string held_words(GivenDose const& dose, Portion const& portion) {
  auto const range = [&](double least, double most) {
    auto const words = amount_words(most);
    return (least < most * (1 - 1e-9) ? amount_words(least) + " to " : std::string()) + words;
  };
  auto out = fmt::format(" = {} {}", range(portion.least_amount, portion.amount), dose.unit);
  if (dose.per_kg && dose.amount > 0) {
    auto const a_unit = *dose.per_kg / dose.amount;
    out += fmt::format(", {} {} per kg",
                       range(portion.least_amount * a_unit, portion.amount * a_unit), dose.unit);
  }
  return out;
}

// The answers behind a gate; of what is not known the first few.
std::string behind_words(Pack const& pack, Assessment const& result, ClosedGate const& gate) {
  constexpr std::size_t open_shown = 4;
  std::string known_words;
  std::string open_words;
  std::size_t open = 0;
  for (auto const sign : gate.signs) {
    auto const& label = pack[sign].label;
    if (auto const* known = result.find(sign))
      known_words +=
          (known_words.empty() ? "" : "; ") + label + ": " + answer_text(pack, sign, known->answer);
    else if (++open <= open_shown)
      open_words += (open_words.empty() ? "not known: " : ", ") + label;
  }
  if (open > open_shown) open_words += fmt::format(" and {} more", open - open_shown);
  return known_words + (known_words.empty() || open_words.empty() ? "" : "; ") + open_words;
}

}  // namespace

std::string amount_words(double amount) {
  if (amount >= 1000) return fmt::format("{:.0f}", std::floor(amount + 1e-6));
  if (amount <= 0) return "0";
  // Down, as the dose itself: a figure shown must not pass the maximum.
  auto const step = std::pow(10.0, std::floor(std::log10(amount)) - 3);
  return fmt::format("{:g}", std::floor(amount / step + 1e-6) * step);
}

std::string dose_words(Care const& care, GivenDose const& dose) {
  auto const& give = *care.give;
  auto const unit = dose.unit.empty() ? "times" : dose.unit;
  std::string out;
  bool const has_range = give.up_to && dose.low < dose.amount;
  if (has_range) out += amount_words(dose.low) + " to ";
  out += fmt::format("{} {}", amount_words(dose.amount), unit);
  if (give.route) out += ' ' + give.route->text;
  if (give.every) {
    auto const most = give.every_up_to ? " to " + quantity_words(*give.every_up_to) : "";
    out += " every " + quantity_words(*give.every) + most;
  }
  if (give.often) out += ' ' + give.often->text;
  if (give.duration) out += " for " + quantity_words(*give.duration);
  if (dose.per_kg && give.route)
    out += fmt::format(" ({} {} per kg{})", amount_words(*dose.per_kg), unit,
                       has_range ? " at the most" : "");
  for (auto const& portion : dose.portions) {
    out += (&portion == &dose.portions.front() ? ": " : ", or ") + portion_words(portion);
    if (dose.portions.size() > 1 || portion.least_count < portion.count)
      out += held_words(dose, portion);
  }
  if (dose.is_capped && care.at_most)
    out += fmt::format("; never more than {}", quantity_words(*care.at_most));
  return out;
}

std::string question_words(Pack const& pack, SignId id) {
  auto const& sign = pack[id];
  return sign.of_the_patient && sign.ask.empty()
             ? fmt::format("What is the {}'s {}?", pack.words.one, sign.label)
             : sign.ask;
}

std::string gate_words(Pack const& pack, Assessment const& result, ClosedGate const& gate) {
  switch (gate.kind) {
    case GateKind::leave_now:
      return fmt::format("It would delay: this {} is to be seen now.", pack.words.one);
    case GateKind::seen_first:
      return "It is to be seen within the day; this waits until then.";
    case GateKind::by_mouth_now:
      return fmt::format("No medicine and no supplement by mouth: this {} is to be seen now.",
                         pack.words.one);
    case GateKind::by_mouth_surgery:
      return "No medicine and no supplement by mouth: it is to be seen within the day, and the vet "
             "decides first.";
    case GateKind::by_mouth_nothing_told:
      return "No medicine and no supplement by mouth while nothing was told that says how soon it "
             "must be seen.";
    case GateKind::by_mouth_may_rise:
      return "No medicine and no supplement by mouth until the danger signs that are still open "
             "are "
             "answered.";
    case GateKind::dose:
      return "No dose: " + refusal_text(pack, result, *gate.refusal) + ".";
    case GateKind::never:
    case GateKind::ask_vet:
    case GateKind::stop:
      break;
  }
  return gate.reason + (gate.reason.empty() ? "" : " ") + "(" + behind_words(pack, result, gate) +
         ")";
}

bool merely_waits(PlannedMeasure const& measure) {
  auto const any = [&](auto const& is_one) {
    return std::any_of(measure.gates.begin(), measure.gates.end(), is_one);
  };
  return any([](ClosedGate const& gate) {
           return gate.kind == GateKind::leave_now || gate.kind == GateKind::seen_first;
         }) &&
         !any([](ClosedGate const& gate) {
           bool const forbids = gate.kind == GateKind::never || gate.kind == GateKind::stop;
           return forbids && gate.truth == Truth::yes;
         });
}

std::string how_words(Care const& care, PlannedMeasure const& measure, SeenAt seen_at) {
  bool const is_spoken_against =
      std::any_of(measure.gates.begin(), measure.gates.end(), [](ClosedGate const& gate) {
        bool const is_of_pack = gate.kind == GateKind::never || gate.kind == GateKind::ask_vet ||
                                gate.kind == GateKind::stop;
        return is_of_pack && gate.truth == Truth::yes;
      });
  if (!care.for_clinician || !care.avoid.empty() || !is_spoken_against)
    return seen_at == SeenAt::home ? without_leaving(care.how) : care.how;
  return "Amounts are left out while that stands.";
}

ToldMouth mouth_words(Pack const& pack, Assessment const& result, CarePlan const& plan) {
  ToldMouth out;
  if (!plan.mouth) return out;
  out.medicines = gate_words(pack, result, *plan.mouth);
  if (!plan.fast) {
    bool const is_seen_soon = plan.mouth->kind == GateKind::by_mouth_now ||
                              plan.mouth->kind == GateKind::by_mouth_surgery;
    auto const said = std::find_if(pack.care.begin(), pack.care.end(),
                                   [](Care const& care) { return !care.otherwise.empty(); });
    out.food_and_water = is_seen_soon || said == pack.care.end()
                             ? "Ask about food and water when you telephone."
                             : said->otherwise;
    return out;
  }
  auto const& fast = plan.avoid[*plan.fast];
  out.food_and_water = pack.care[fast.care].avoid;
  for (auto const& gate : fast.gates)
    if (gate.kind == GateKind::ask_vet && gate.truth == Truth::yes)
      out.food_and_water += " " + gate.reason;
  out.medicines += " What a vet prescribed: ask before the next dose.";
  return out;
}

std::string may_not_words(Pack const& pack, CarePlan const& plan, ToldWarnings const& told) {
  std::string titles;
  for (auto const i : told.may_not)
    titles += (titles.empty() ? "" : "; ") + pack.care[plan.avoid[i].care].title;
  if (titles.empty()) return titles;
  return "Nor any of these, unless you know that it does not apply: " + titles + ".";
}

std::string time_words(double seconds) {
  struct Step {
    double seconds;
    std::string_view name;
  };
  for (auto const& step : {Step{86400, "day"}, {3600, "hour"}, {60, "minute"}})
    if (seconds >= step.seconds) {
      auto const count = std::floor(seconds / step.seconds * 10) / 10;
      return fmt::format("{} {}{}", amount_words(count), step.name, count == 1 ? "" : "s");
    }
  return fmt::format("{} seconds", amount_words(seconds));
}

}  // namespace flinch
