#pragma once
// Names by which the book knows where a call came from, so that it is taken in once. None holds
// what was said.
#include <string>
#include <string_view>

namespace flinch::cli {

/// A short name of these bytes.
[[nodiscard]] std::string hash_of(std::string_view bytes);

/// A file, by its place on this machine.
[[nodiscard]] std::string origin_of_file(std::string const& file);

/// A name that nothing else has, drawn from the system's random numbers.
[[nodiscard]] std::string new_origin();

}  // namespace flinch::cli
