#include "serve/protocol.hpp"

#include <algorithm>
#include <limits>

namespace flinch::cli::serve {
namespace {

constexpr std::size_t deepest = 64;

bool nests_too_deep(std::string_view body) {
  std::size_t depth = 0;
  bool in_text = false;
  for (std::size_t i = 0; i < body.size(); ++i) {
    char const c = body[i];
    if (in_text) {
      if (c == '\\') ++i;
      if (c == '"') in_text = false;
    } else if (c == '"') {
      in_text = true;
    } else if (c == '[' || c == '{') {
      if (++depth > deepest) return true;
    } else if ((c == ']' || c == '}') && depth > 0) {
      --depth;
    }
  }
  return false;
}

Incoming faulty(Fault fault, std::string why, Json id = nullptr) {
  Incoming out;
  out.fault = fault;
  out.why = std::move(why);
  out.id = std::move(id);
  return out;
}

std::string written(Json const& message) {
  return message.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace

Incoming read_message(std::string_view body) {
  if (nests_too_deep(body)) return faulty(Fault::parse_error, "the message nests too deep");
  auto message = Json::parse(body.begin(), body.end(), nullptr, false);
  if (message.is_discarded()) return faulty(Fault::parse_error, "the message is not JSON");
  if (!message.is_object()) return faulty(Fault::invalid_request, "a message is one JSON object");
  Incoming out;
  bool const has_id = message.contains("id");
  if (has_id) out.id = message["id"];
  bool const fits = out.id.is_null() || out.id.is_string() || out.id.is_number_integer();
  if (!fits) return faulty(Fault::invalid_request, "an id is a whole number or a text");
  auto const version = message.find("jsonrpc");
  if (version == message.end() || *version != "2.0")
    return faulty(Fault::invalid_request, "`jsonrpc` must be \"2.0\"", out.id);
  auto const method = message.find("method");
  if (method == message.end()) {
    if (!message.contains("result") && !message.contains("error"))
      return faulty(Fault::invalid_request, "a message has a `method`", out.id);
    out.kind = Incoming::Kind::response;
    return out;
  }
  if (!method->is_string()) return faulty(Fault::invalid_request, "a `method` is a text", out.id);
  out.kind = has_id ? Incoming::Kind::request : Incoming::Kind::notification;
  out.method = method->get<std::string>();
  if (message.contains("params")) out.params = std::move(message["params"]);
  return out;
}

std::string result_message(Json const& id, Json result) {
  return written({{"jsonrpc", "2.0"}, {"id", id}, {"result", std::move(result)}});
}

std::string fault_message(Json const& id, Fault fault, std::string const& why) {
  return written({{"jsonrpc", "2.0"},
                  {"id", id},
                  {"error", {{"code", static_cast<int>(fault)}, {"message", why}}}});
}

std::string notification_message(std::string_view method, Json params) {
  return written({{"jsonrpc", "2.0"}, {"method", method}, {"params", std::move(params)}});
}

Json const& member(Json const& object, char const* name) {
  if (object.is_object())
    if (auto const found = object.find(name); found != object.end()) return *found;
  throw InvalidParams{"`" + std::string(name) + "` is missing"};
}

std::string text_member(Json const& object, char const* name) {
  auto const& value = member(object, name);
  if (!value.is_string()) throw InvalidParams{"`" + std::string(name) + "` is no text"};
  return value.get<std::string>();
}

std::uint32_t count_member(Json const& object, char const* name) {
  auto const& value = member(object, name);
  if (!value.is_number_unsigned())
    throw InvalidParams{"`" + std::string(name) + "` is no whole number from 0"};
  return static_cast<std::uint32_t>(std::min<std::uint64_t>(
      value.get<std::uint64_t>(), std::numeric_limits<std::uint32_t>::max()));
}

}  // namespace flinch::cli::serve
