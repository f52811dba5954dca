#pragma once
// What a program of another language writes out.
#include <string>
#include <vector>

namespace flinch::test {

/// Standard output of a shell command; empty when it failed.
[[nodiscard]] std::string output_of(std::string const& command);

/// The words of a line, parted by blanks.
[[nodiscard]] std::vector<std::string> words(std::string const& line);

}  // namespace flinch::test
