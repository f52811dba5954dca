#pragma once
// What `flinch share` sends of a case, and what `flinch take` makes of a text, without the
// commands.
#include <string>

#include "exchange/resources.hpp"
#include "exchange/response.hpp"

namespace flinch::test {

/// The Bundle, at a fixed time and with fixed identifiers.
[[nodiscard]] cli::Json shared(std::shared_ptr<Pack const> const& pack, Case const& patient,
                               cli::Names names);

/// A case read back, or the messages.
struct Taken {
  std::optional<Case> patient;
  std::vector<Diagnostic> diagnostics;
  std::string messages;
};
[[nodiscard]] Taken take(Pack const& pack, std::string text);

/// The only resource of a type; throws when there is none.
[[nodiscard]] cli::Json& resource_of(cli::Json& bundle, std::string const& type);

/// The item with this link, wherever it stands below; null when there is none.
[[nodiscard]] cli::Json* item_of(cli::Json& of, std::string const& link);

}  // namespace flinch::test
