#pragma once
// The telephone desk on the small pack, keys written as text.
#include <memory>
#include <string>
#include <string_view>

#include "call/call_model.hpp"

namespace flinch::test {

[[nodiscard]] std::shared_ptr<Pack const> desk_pack();

/// Wednesday, 25 November 2026, 15:00 UTC.
inline constexpr std::time_t desk_clock = 1795618800;

/// Presses each character; `\n` Enter, `\t` Tab, `\b` erase, `\x1b` Escape, `\x1a` undo,
/// `\x03` leave, `\x0b` all keys, `\x15` empty the line, `\x0e` down, `\x10` up.
void press(cli::CallModel& call, std::string_view keys);

}  // namespace flinch::test
