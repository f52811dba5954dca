#include "care/care_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "flinch/explain/reasons.hpp"
#include "flinch/syntax/print.hpp"

namespace flinch::cli {
namespace {

std::string plural(double count, std::string_view word) {
  return fmt::format("{} {}{}", amount_words(count), word, count > 1 ? "s" : "");
}

std::string quantity_words(syntax::Quantity const& quantity) {
  auto unit = quantity.unit;
  if (quantity.value == 1 && unit.size() > 1 && unit.back() == 's') unit.pop_back();
  return syntax::print_number(quantity.value) + (unit.empty() ? "" : " " + unit);
}

std::string portion_words(Portion const& portion) {
  auto const strength = quantity_words(portion.form.strength);
  switch (portion.form.kind) {
    case syntax::FormKind::tablet:
      return fmt::format("{} of {}", plural(portion.count, "tablet"), strength);
    case syntax::FormKind::capsule:
      return fmt::format("{} of {}", plural(portion.count, "capsule"), strength);
    case syntax::FormKind::liquid:
      return fmt::format("{} mL of a liquid with {} per {}", amount_words(portion.count), strength,
                         portion.form.per ? portion.form.per->text : "mL");
    case syntax::FormKind::spoon:
      break;
  }
  return fmt::format("{} of {}", plural(portion.count, "spoon"), strength);
}

// What one of several portions holds: they are not equal.
std::string held_words(GivenDose const& dose, Portion const& portion) {
  auto out = fmt::format(" = {} {}", amount_words(portion.amount), dose.unit);
  if (dose.per_kg && dose.amount > 0)
    out += fmt::format(", {} {} per kg", amount_words(portion.amount * *dose.per_kg / dose.amount),
                       dose.unit);
  return out;
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
  if (give.route) out += " by " + give.route->text;
  if (give.every) out += " every " + quantity_words(*give.every);
  if (give.duration) out += " for " + quantity_words(*give.duration);
  if (dose.per_kg && give.route)
    out += fmt::format(" ({} {} per kg{})", amount_words(*dose.per_kg), unit,
                       has_range ? " at the most" : "");
  for (auto const& portion : dose.portions) {
    out += (&portion == &dose.portions.front() ? ": " : ", or ") + portion_words(portion);
    if (dose.portions.size() > 1) out += held_words(dose, portion);
  }
  if (dose.is_capped && care.at_most)
    out += fmt::format("; never more than {}", quantity_words(*care.at_most));
  return out;
}

std::string question_words(Pack const& pack, SignId id) {
  auto const& sign = pack[id];
  return sign.of_the_dog ? fmt::format("What is the dog's {}?", sign.label) : sign.ask;
}

std::string gate_words(Pack const& pack, Assessment const& result, ClosedGate const& gate) {
  switch (gate.kind) {
    case GateKind::leave_now:
      return "It would delay: this dog is to be seen now.";
    case GateKind::seen_first:
      return "It is to be seen within the day; this waits until then.";
    case GateKind::by_mouth_now:
      return "Nothing by mouth: this dog is to be seen now.";
    case GateKind::by_mouth_surgery:
      return "Nothing by mouth: it is to be seen within the day and may need an anaesthetic.";
    case GateKind::by_mouth_nothing_told:
      return "Nothing by mouth while nothing was told that says how soon it must be seen.";
    case GateKind::by_mouth_may_rise:
      return "Nothing by mouth until the danger signs that are still open are answered.";
    case GateKind::dose:
      return "No dose: " + refusal_text(*gate.refusal) + ".";
    case GateKind::never:
    case GateKind::ask_vet:
    case GateKind::stop:
      break;
  }
  std::string behind;
  for (auto const sign : gate.signs) {
    auto const* known = result.find(sign);
    if (!behind.empty()) behind += "; ";
    behind += pack[sign].label + ": " +
              (known == nullptr ? "not known" : answer_text(pack, sign, known->answer));
  }
  return gate.reason + (gate.reason.empty() ? "" : " ") + "(" + behind + ")";
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

std::string mouth_words(Pack const& pack, Assessment const& result, CarePlan const& plan) {
  if (plan.mouth->truth != Truth::yes)
    return "Danger signs are still open; nothing new goes by mouth until they are answered. Usual "
           "food and water go on if it eats and drinks as usual.";
  auto const reason = gate_words(pack, result, *plan.mouth);
  std::string const prescribed = " What a vet prescribed: ask before the next dose.";
  if (plan.mouth->kind == GateKind::by_mouth_now)
    return reason + " No food, no water, no medicine, no supplement." + prescribed;
  return reason +
         " No food, no medicine, no supplement, unless it says so above; water as the clinic "
         "says." +
         prescribed +
         " A puppy, a toy dog, a diabetic, one with kidney disease, one that nurses or one with "
         "great thirst: ask at once how long it may go without food and water.";
}

std::string grade_words(char grade) {
  switch (grade) {
    case 'A':
      return "A, trials agree";
    case 'B':
      return "B, some trials";
    case 'C':
      return "C, expert opinion";
    default:
      return "D, no good evidence that it helps";
  }
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

}  // namespace flinch::cli
