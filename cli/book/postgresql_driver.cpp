// The file that `server_driver` loads, and the one place that knows PostgreSQL's library.
#include <soci/postgresql/soci-postgresql.h>

#include "book/server_driver.hpp"

namespace {

std::optional<std::string> state_of(soci::soci_error const& error) {
  auto const* const server = dynamic_cast<soci::postgresql_soci_error const*>(&error);
  if (!server) return std::nullopt;
  return server->sqlstate();
}

}  // namespace

extern "C" flinch::cli::ServerDriver const flinch_server_driver;
flinch::cli::ServerDriver const flinch_server_driver{soci::factory_postgresql(), state_of};
