// Alarms that no example sets off.
#include <fmt/format.h>

#include "flinch/proofread/coverage.hpp"
#include "proofread/remarks.hpp"

namespace flinch {

void find_untested(Tables const& tables, Remarks& remarks) {
  auto const& pack = tables.pack();
  for (auto const id : cover_examples(tables).silent_alarms()) {
    auto const& alarm = pack[id];
    if (alarm.floor_of) continue;  // one answer of one sign: there is no slip to be made
    remarks.add(Code::untested_alarm, alarm.at, {alarm.at},
                fmt::format("no example sets off the alarm `{}`", alarm.name),
                "a slip in its condition would let such a case pass unnoticed",
                fmt::format("add an example that expects `alarm {}`", alarm.name));
  }
}

}  // namespace flinch
