#pragma once
// Bytes from outside, never more than asked for.
#include <cstddef>
#include <istream>
#include <optional>
#include <string>

namespace flinch::cli {

/// More than any reader of the engine takes; each of them says what is too large for it.
constexpr std::size_t most_file_bytes = (std::size_t{64} << 20U) + 1;

/// Why a file by this name cannot be read, as "there is no such file"; nothing when it can. Only
/// plain files and pipes are read: a device may never end.
[[nodiscard]] std::optional<std::string> why_unreadable(std::string const& path);

/// The bytes of a plain file or a pipe, or nothing. Reading stops after `most_file_bytes`, so that
/// what does not end cannot fill the memory.
[[nodiscard]] std::optional<std::string> read_file(std::string const& path);

/// The same of a stream, such as standard input.
[[nodiscard]] std::string read_all(std::istream& in);

/// The next line of what a user types, without its end; nothing when the input has ended. What goes
/// beyond 1000 bytes, more than any answer, is read and dropped.
[[nodiscard]] std::optional<std::string> read_typed_line(std::istream& in);

}  // namespace flinch::cli
