// Describing measures: what they say, what is given, and what bars them.
#include <fmt/format.h>

#include <algorithm>

#include "explain/describer.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/syntax/print.hpp"
#include "model/walk.hpp"

namespace flinch {
namespace {

bool hangs_on(Pack const& pack, Condition const& condition, SignId sign) {
  bool out = false;
  walk_tests(pack, condition,
             [&](Condition const& leaf, Polarity) { out = out || leaf.test.sign == sign; });
  return out;
}

bool hangs_on(Pack const& pack, Care const& care, SignId sign) {
  if (care.slims_by == sign || care.taken == sign || care.since == sign) return true;
  if (care.fit_if && hangs_on(pack, *care.fit_if, sign)) return true;
  for (auto const* gates : {&care.never_if, &care.ask_vet_if, &care.stop_if})
    if (std::any_of(gates->begin(), gates->end(),
                    [&](CareGate const& gate) { return hangs_on(pack, gate.condition, sign); }))
      return true;
  return false;
}

std::string quantity_text(syntax::Quantity const& quantity) {
  return syntax::print_number(quantity.value) + (quantity.unit.empty() ? "" : " " + quantity.unit);
}

}  // namespace

void Describer::sign_care(SignId id) {
  section("Care that hangs on it");
  for (auto const& care : pack_.care)
    if (hangs_on(pack_, care, id)) line(Pieces{{care.title, care_named(care)}});
}

// Who is told of it, and when.
void Describer::care_kind(Care const& care) {
  section("What kind of care it is");
  if (care.is_fasting) line("Food and water before a visit");
  if (care.first_aid) line("First aid: at once, also where it is to be seen now");
  if (care.while_waiting) line("Goes on while it waits to be seen");
  if (care.for_clinician)
    line("For the clinician alone" + (care.problem.empty() ? "" : ": " + care.problem));
  if (care.by_mouth)
    line(fmt::format(
        "{}: never where it is to be seen within the day",
        care.give && !care.give->route ? "No way is said, so it counts as by mouth" : "By mouth"));
  if (!care.watch.empty()) line("What means \"ring again\"");
  if (!care.avoid.empty() && !care.is_fasting) line("What not to do");
  if (care.taken) line("What it has taken already");
}

// Where none of the causes is likely no page shows the measure, and nothing there says why.
void Describer::care_causes(Care const& care) {
  section("Shown only where it is likely enough");
  if (care.causes.empty()) return;
  line(fmt::format("{} at least {:g} % likely by the answers",
                   care.causes.size() == 1 ? "This is" : "One of these is",
                   100 * likely_enough_for_care));
  for (auto const cause : care.causes)
    line(Pieces{{pack_[cause].title, named(NamedKind::cause, cause)}}, 1);
}

void Describer::care_dose(Care const& care) {
  section("What is given");
  if (care.give) line(syntax::print(*care.give));
  if (care.at_most) line("At most " + quantity_text(*care.at_most));
  for (auto const& form : care.forms) line("As " + syntax::print(form));
}

void Describer::care_taken(Care const& care) {
  section("What so much does");
  if (care.taken)
    line(Pieces{{"Told by ", {}}, {pack_[*care.taken].label, named(NamedKind::sign, *care.taken)}});
  for (auto const& level : care.levels)
    line(fmt::format("From {:g} mg per kg: {}{}", level.mg_per_kg, level.harm,
                     level.see ? "; " + pack_[*level.see].title : ""));
}

void Describer::care_gates(std::string heading, std::vector<CareGate> const& gates) {
  section(std::move(heading));
  for (auto const& gate : gates) {
    if (!gate.reason.empty()) line(gate.reason);
    condition(gate.condition, gate.reason.empty() ? 0 : 1);
  }
}

void Describer::describe_care(Care const& care) {
  care_kind(care);
  section("What it says");
  for (auto const* text : {&care.how, &care.avoid, &care.watch})
    if (!text->empty()) line(*text);
  if (!care.say.empty()) line("Read out: " + care.say);
  if (!care.otherwise.empty()) line("Where nothing fasts: " + care.otherwise);
  for (auto const other : care.gives_way_to)
    line(Pieces{{"Gives way to ", {}}, {pack_.care[other].title, Named{NamedKind::care, other}}});
  care_dose(care);
  care_taken(care);
  care_causes(care);
  section("Fits if");
  if (care.fit_if) condition(*care.fit_if);
  care_gates("Never if", care.never_if);
  care_gates("Ask the vet if", care.ask_vet_if);
  care_gates("Stop if", care.stop_if);
  rationale(care.because, care.cites);
  line("Grade: " + grade_words(care.grade));
}

}  // namespace flinch
