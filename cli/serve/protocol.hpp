#pragma once
// Messages of JSON-RPC 2.0 as the Language Server Protocol 3.17 uses them.
#include <cstdint>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>

namespace flinch::cli::serve {

using Json = nlohmann::json;

/// Error codes, from the two specifications.
enum class Fault : int {
  parse_error = -32700,
  invalid_request = -32600,
  method_not_found = -32601,
  invalid_params = -32602,
  server_not_initialized = -32002
};

/// A request (with an id), a notification (without one), or what is neither.
struct Incoming {
  enum class Kind { request, notification, response, faulty };
  Kind kind = Kind::faulty;
  Json id;             ///< a number, a text, or null
  std::string method;  ///< empty for responses
  Json params;
  Fault fault = Fault::invalid_request;
  std::string why;  ///< for a faulty one
};

/// Reads a body. JSON that nests deeper than 64 is refused before anything is made of it.
[[nodiscard]] Incoming read_message(std::string_view body);

[[nodiscard]] std::string result_message(Json const& id, Json result);
[[nodiscard]] std::string fault_message(Json const& id, Fault fault, std::string const& why);
[[nodiscard]] std::string notification_message(std::string_view method, Json params);

/// Thrown by the readers below and caught where requests are answered.
struct InvalidParams {
  std::string why;
};
/// The member `name`, which must be there.
[[nodiscard]] Json const& member(Json const& object, char const* name);
[[nodiscard]] std::string text_member(Json const& object, char const* name);
/// A count from 0; what passes 32 bits is the largest there is.
[[nodiscard]] std::uint32_t count_member(Json const& object, char const* name);

}  // namespace flinch::cli::serve
