// Readings that no longer speak of the words that stand there.
#include <fmt/format.h>

#include "flinch/text/display.hpp"
#include "proofread/remarks.hpp"

namespace flinch {

void find_stale_readings(Pack const& pack, Remarks& remarks) {
  for (auto const& reading : pack.readings) {
    auto const reader = inert(reading.reader);
    if (reading.state == ReadingState::changed)
      remarks.add(Code::changed_since_read, reading.at, {reading.statement},
                  fmt::format("this has changed since {} read it on {}", reader, reading.on),
                  "what stands here now counts as unread",
                  "have it read again and let `flinch read` mark it, or take the reading out");
    if (reading.state == ReadingState::unmarked)
      remarks.add(Code::unmarked_reading, reading.at, {reading.statement},
                  fmt::format("nobody can tell which words {} read on {}", reader, reading.on),
                  "without a mark a later change would not show, so this counts as unread",
                  "let `flinch read` mark what was read");
  }
}

}  // namespace flinch
