// Alarms that no example sets off, or that none shows both standing and held back.
#include <fmt/format.h>

#include "flinch/proofread/coverage.hpp"
#include "proofread/remarks.hpp"

namespace flinch {

void find_untested(Tables const& tables, Remarks& remarks) {
  auto const& pack = tables.pack();
  auto const covered = cover_examples(tables);
  for (std::uint32_t i = 0; i < pack.alarms.size(); ++i) {
    auto const& alarm = pack.alarms[i];
    if (alarm.unless() == nullptr) continue;
    bool const fires = covered.fired(AlarmId{i}) > 0;
    if (fires && covered.held_back(AlarmId{i}) > 0) continue;
    auto const statement = alarm.floor_of ? pack[*alarm.floor_of].at : alarm.at;
    remarks.add(
        Code::untested_unless, alarm.at, {statement},
        fmt::format("no example shows the alarm `{}` {}", alarm.name,
                    fires ? "held back by its `unless`" : "standing beside its `unless`"),
        "what keeps an alarm silent by a slip hides an emergency",
        fmt::format("add an example that expects `{}alarm {}`", fires ? "not " : "", alarm.name));
  }
  for (std::size_t i = 0; i < pack.care.size(); ++i)
    for (std::size_t level = 0; level < pack.care[i].levels.size(); ++level) {
      auto const& care = pack.care[i];
      bool const asks_for_more =
          care.levels[level].see &&
          (level == 0 || care.levels[level].see != care.levels[level - 1].see);
      // No slip makes more of nothing.
      if (!asks_for_more || care.levels[level].mg_per_kg == 0 || covered.reached(i, level) > 0)
        continue;
      remarks.add(
          Code::untested_level, care.at, {care.at},
          fmt::format("no example shows what `{}` asks for at {:g} mg per kg", care.name,
                      care.levels[level].mg_per_kg),
          "a level that is ten times too high lets a poisoned patient wait, and nothing shows it",
          fmt::format(
              "add an example that has taken a little more than {:g} mg per kg, and expects "
              "`tier {}`",
              care.levels[level].mg_per_kg, pack[*care.levels[level].see].name));
    }
  for (auto const id : covered.silent_alarms()) {
    auto const& alarm = pack[id];
    if (alarm.floor_of) continue;  // one answer of one sign: there is no slip to be made
    remarks.add(Code::untested_alarm, alarm.at, {alarm.at},
                fmt::format("no example sets off the alarm `{}`", alarm.name),
                "a slip in its condition would let such a case pass unnoticed",
                fmt::format("add an example that expects `alarm {}`", alarm.name));
  }
}

}  // namespace flinch
