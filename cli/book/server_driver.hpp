#pragma once
// What the day book needs to hold itself on a PostgreSQL server. Its libraries take a quarter of
// the program's start and memory, and most commands never need them: so they stand in a file of
// their own, which the system loads when the first book on a server is opened.
#include <optional>
#include <string>

namespace soci {
class backend_factory;
class soci_error;
}  // namespace soci

namespace flinch::cli {

/// What the file gives.
struct ServerDriver {
  soci::backend_factory const* connects;
  /// The five characters with which PostgreSQL names the error; nothing where it is no error of a
  /// server.
  std::optional<std::string> (*state_of)(soci::soci_error const& error);
};

/// The driver, loaded at the first call; nullptr where its file is missing.
[[nodiscard]] ServerDriver const* server_driver();

}  // namespace flinch::cli
