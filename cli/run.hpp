#pragma once
// The program as a function, so that tests can run it.
#include <iosfwd>
#include <string>
#include <vector>

#include "page.hpp"

namespace flinch::cli {

/// Exit statuses: the answer is there; the answer is "no"; bad usage or bad input.
enum class Status : int { fine = 0, no = 1, bad = 2 };

/// Runs `flinch` with its arguments (without the program's name). Answers go to `out`, diagnostics
/// to `err`; `look` says what the terminal behind `out` can show. Output that cannot be written is
/// `Status::bad`.
[[nodiscard]] int run(std::vector<std::string> const& args, std::ostream& out, std::ostream& err,
                      Look const& look);

}  // namespace flinch::cli
