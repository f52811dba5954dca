// `flinch serve`: a language server for editors, over standard input and output.
#include "serve/serve_command.hpp"

#include <iostream>
#include <ostream>

#include "serve/frames.hpp"
#include "serve/server.hpp"

namespace flinch::cli {
namespace {

Status serve_editor(Session const& session) {
  serve::Server server(serve::files_on_disk());
  while (!server.is_finished()) {
    auto const frame = serve::read_frame(std::cin);
    switch (frame.kind) {
      case serve::Frame::Kind::message:
        for (auto const& message : server.take(frame.text))
          serve::write_frame(session.out, message);
        break;
      case serve::Frame::Kind::too_large:
        serve::write_frame(session.out,
                           serve::fault_message(nullptr, serve::Fault::invalid_request,
                                                "a message of more than 8 MiB is passed over"));
        break;
      case serve::Frame::Kind::broken:
        serve::write_frame(session.out,
                           serve::fault_message(nullptr, serve::Fault::parse_error, frame.text));
        session.err << "flinch: " << frame.text
                    << "; flinch serve is started by an editor: docs/editors.md\n";
        return Status::bad;
      case serve::Frame::Kind::end:
        return Status::no;  // the protocol: an end without `exit` is 1
    }
    if (!session.out) return Status::no;  // the editor has gone
  }
  return server.ended_well() ? Status::fine : Status::no;
}

CommandUse use_serve() { return {{}, serve_editor}; }

}  // namespace

Command const serve_command{
    "serve", "Help an editor with rule files: a language server (docs/editors.md)", use_serve};

}  // namespace flinch::cli
