#include "serve/server.hpp"

#include <algorithm>

#include "serve/answers.hpp"

namespace flinch::cli::serve {
namespace {

struct Refused {
  Fault fault;
  std::string why;
};

std::optional<std::int64_t> version_of(Json const& document) {
  if (!document.is_object()) return std::nullopt;
  auto const found = document.find("version");
  if (found == document.end() || !found->is_number_integer()) return std::nullopt;
  return found->get<std::int64_t>();
}

// Whether the editor shows Markdown in what it shows over a name.
bool shows_markdown(Json const& params) {
  auto const* at = &params;
  for (auto const* name : {"capabilities", "textDocument", "hover", "contentFormat"}) {
    if (!at->is_object() || !at->contains(name)) return false;
    at = &(*at)[name];
  }
  return at->is_array() && std::find(at->begin(), at->end(), Json("markdown")) != at->end();
}

}  // namespace

std::vector<std::string> Server::handle(std::string_view body) {
  if (stage_ == Stage::finished) return {};
  auto const incoming = read_message(body);
  switch (incoming.kind) {
    case Incoming::Kind::faulty:
      return {fault_message(incoming.id, incoming.fault, incoming.why)};
    case Incoming::Kind::request:
      return {answer(incoming)};
    case Incoming::Kind::notification:
      try {
        return note(incoming);
      } catch (InvalidParams const&) {
        return {};  // nobody waits for an answer to a notification
      }
    case Incoming::Kind::response:
      break;  // nothing is ever asked of the editor
  }
  return {};
}

std::vector<std::string> Server::finish(CheckResult const& result) {
  if (stage_ != Stage::running) return {};
  return workspace_.finish(result);
}

std::string Server::answer(Incoming const& request) {
  try {
    return result_message(request.id, result_of(request));
  } catch (InvalidParams const& mistake) {
    return fault_message(request.id, Fault::invalid_params, mistake.why);
  } catch (Refused const& refused) {
    return fault_message(request.id, refused.fault, refused.why);
  }
}

Json Server::result_of(Incoming const& request) {
  auto const& method = request.method;
  if (stage_ == Stage::shut_down)
    throw Refused{Fault::invalid_request, "after `shutdown` only `exit` may come"};
  if (method == "initialize") {
    if (stage_ != Stage::starting) throw Refused{Fault::invalid_request, "`initialize` comes once"};
    return initialize(request.params);
  }
  if (stage_ == Stage::starting)
    throw Refused{Fault::server_not_initialized, "`initialize` must come first"};
  if (method == "shutdown") {
    stage_ = Stage::shut_down;
    return nullptr;
  }
  if (method == "textDocument/hover") return answer_hover(workspace_, request.params, markup_);
  if (method == "textDocument/definition") return answer_definition(workspace_, request.params);
  if (method == "textDocument/completion") return answer_completion(workspace_, request.params);
  if (method == "textDocument/formatting") return answer_formatting(workspace_, request.params);
  if (method == "textDocument/codeAction") return answer_fixes(workspace_, request.params);
  throw Refused{Fault::method_not_found,
                "this server does not know `" + method.substr(0, 100) + "`"};
}

Json Server::initialize(Json const& params) {
  constexpr int incremental = 2;  // of TextDocumentSyncKind
  stage_ = Stage::running;
  markup_ = shows_markdown(params) ? Markup::markdown : Markup::plain;
  return {{"capabilities",
           {{"positionEncoding", "utf-16"},
            {"textDocumentSync", {{"openClose", true}, {"change", incremental}, {"save", true}}},
            {"hoverProvider", true},
            {"definitionProvider", true},
            {"completionProvider", Json::object()},
            {"documentFormattingProvider", true},
            {"codeActionProvider", {{"codeActionKinds", Json::array({"quickfix"})}}}}},
          {"serverInfo", {{"name", "flinch"}, {"version", "1.0"}}}};
}

std::vector<std::string> Server::note(Incoming const& notification) {
  auto const& method = notification.method;
  auto const& params = notification.params;
  if (method == "exit") {
    ended_well_ = stage_ == Stage::shut_down;
    stage_ = Stage::finished;
    return {};
  }
  if (stage_ != Stage::running) return {};
  if (method == "textDocument/didOpen") {
    auto const& document = member(params, "textDocument");
    return workspace_.open(text_member(document, "uri"),
                           {text_member(document, "text"), version_of(document)});
  }
  if (method == "textDocument/didChange") {
    auto const& document = member(params, "textDocument");
    return workspace_.change(text_member(document, "uri"), member(params, "contentChanges"),
                             version_of(document));
  }
  if (method == "textDocument/didClose")
    return workspace_.close(text_member(member(params, "textDocument"), "uri"));
  if (method == "textDocument/didSave" || method == "workspace/didChangeWatchedFiles")
    return workspace_.refresh();
  return {};
}

}  // namespace flinch::cli::serve
