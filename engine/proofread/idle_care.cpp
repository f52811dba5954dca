// Care that is there and never reaches anybody: barred whenever it fits, hidden by a fasting before
// it, first aid that the script leaves out.
#include <fmt/format.h>

#include "model/worlds.hpp"
#include "proofread/remarks.hpp"

namespace flinch {
namespace {

constexpr std::size_t most_tests_of_two = 400000;  // over all combinations, for two conditions

// Whether the second is true whenever the first is; false where there is too much to try.
bool implies(Pack const& pack, Condition const& first, Condition const& second) {
  Worlds worlds(pack, {&first, &second});
  if (!worlds.start(most_tests_of_two)) return false;
  bool is_ever_so = false;
  do {
    if (!worlds.holds(first)) continue;
    if (!worlds.holds(second)) return false;
    is_ever_so = true;
  } while (worlds.next());
  return is_ever_so;
}

void find_barred(Pack const& pack, Care const& care, Remarks& remarks) {
  if (!care.fit_if) return;
  for (auto const* gates : {&care.never_if, &care.stop_if})
    for (auto const& gate : *gates) {
      if (!implies(pack, *care.fit_if, gate.condition)) continue;
      remarks.add(Code::never_offered, gate.condition.at, {care.at},
                  fmt::format("`{}` is barred whenever it fits", care.name),
                  fmt::format("each patient in whom its `fit if` is true has this `{}` as well",
                              gates == &care.never_if ? "never if" : "stop if"),
                  "mend one of the two conditions");
      return;
    }
}

// Of several fasts the first that fits is told.
void find_hidden_fasts(Pack const& pack, Remarks& remarks) {
  for (auto const& later : pack.care) {
    if (!later.is_fasting) continue;
    for (auto const& earlier : pack.care) {
      if (&earlier == &later) break;
      bool const may_be_barred = !earlier.never_if.empty() || !earlier.stop_if.empty();
      if (!earlier.is_fasting || may_be_barred) continue;
      bool const fits_all = !earlier.fit_if;
      if (!fits_all && !(later.fit_if && implies(pack, *later.fit_if, *earlier.fit_if))) continue;
      remarks.add(
          Code::never_offered, earlier.at, {earlier.at, later.at},
          fmt::format("`{}` fits {}, so the fasting `{}` behind it is never told", earlier.name,
                      fits_all ? "every patient" : "wherever the other does", later.name),
          "of several the first that fits is told: what may not fast would be fasted",
          fits_all ? "say whom it is for with `fit if`, or put it behind the others"
                   : "put the narrower first");
      break;
    }
  }
}

}  // namespace

void find_idle_care(Pack const& pack, Remarks& remarks) {
  for (auto const& care : pack.care) {
    find_barred(pack, care, remarks);
    if (care.first_aid && care.fit_if && care.say.empty() && !care.for_clinician &&
        care.avoid.empty() && care.watch.empty())
      remarks.add(Code::unsaid_first_aid, care.at, {care.at},
                  fmt::format("first aid `{}` has no `say`", care.name),
                  "what a keeper does at once, and a nurse reads out, is made of `say`: this is "
                  "told in neither",
                  "add the words in one short line, as in `say \"Press a clean cloth on it.\"`");
  }
  find_hidden_fasts(pack, remarks);
}

}  // namespace flinch
