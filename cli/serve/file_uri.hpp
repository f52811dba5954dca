#pragma once
// Paths of files as editors name them: `file:///home/vet/rules/pack.flinch` (RFC 8089).
#include <optional>
#include <string>
#include <string_view>

namespace flinch::cli::serve {

/// The absolute path, its `.` and `..` taken out; nothing for other kinds of address, for hosts
/// other than this one, and for a path with a zero byte.
[[nodiscard]] std::optional<std::string> path_of_uri(std::string_view uri);

/// The address of an absolute path; what RFC 3986 does not allow in one is written `%41`.
[[nodiscard]] std::string uri_of_path(std::string_view path);

}  // namespace flinch::cli::serve
