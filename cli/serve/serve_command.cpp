// `flinch serve`: a language server for editors, over standard input and output.
#include "serve/serve_command.hpp"

#include <iostream>
#include <mutex>
#include <ostream>

#include "serve/background.hpp"
#include "serve/frames.hpp"
#include "serve/server.hpp"

namespace flinch::cli {
namespace {

// The server, its output, and the full checks behind it; one thread at a time has the first two.
class Desk {
 public:
  explicit Desk(std::ostream& out) : server_(serve::files_on_disk()), out_(out) {}

  void handle(std::string_view body) {
    std::vector<serve::CheckJob> due;
    {
      std::lock_guard const lock(mutex_);
      write(server_.handle(body));
      due = server_.due();
    }
    background_.submit(std::move(due));
  }
  void say(std::string_view message) {
    std::lock_guard const lock(mutex_);
    serve::write_frame(out_, message);
  }
  [[nodiscard]] bool is_over() {
    std::lock_guard const lock(mutex_);
    return server_.is_finished() || !out_;
  }
  [[nodiscard]] bool ended_well() {
    std::lock_guard const lock(mutex_);
    return server_.is_finished() && server_.ended_well();
  }

 private:
  void write(std::vector<std::string> const& messages) {
    for (auto const& message : messages) serve::write_frame(out_, message);
  }

  std::mutex mutex_;
  serve::Server server_;
  std::ostream& out_;
  serve::Background background_{serve::typing_rests, [this](serve::CheckResult const& result) {
                                  std::lock_guard const lock(mutex_);
                                  write(server_.finish(result));
                                }};
};

Status serve_editor(Session const& session) {
  Desk desk(session.out);
  while (!desk.is_over()) {
    auto const frame = serve::read_frame(std::cin);
    switch (frame.kind) {
      case serve::Frame::Kind::message:
        desk.handle(frame.text);
        break;
      case serve::Frame::Kind::too_large:
        desk.say(serve::fault_message(nullptr, serve::Fault::invalid_request,
                                      "a message of more than 8 MiB is passed over"));
        break;
      case serve::Frame::Kind::broken:
        desk.say(serve::fault_message(nullptr, serve::Fault::parse_error, frame.text));
        session.err << "flinch: " << frame.text
                    << "; flinch serve is started by an editor: docs/editors.md\n";
        return Status::bad;
      case serve::Frame::Kind::end:
        return Status::no;  // the protocol: an end without `exit` is 1
    }
  }
  return desk.ended_well() ? Status::fine : Status::no;
}

CommandUse use_serve() { return {{}, serve_editor}; }

}  // namespace

Command const serve_command{
    "serve", "Help an editor with rule files: a language server (docs/editors.md)", use_serve};

}  // namespace flinch::cli
