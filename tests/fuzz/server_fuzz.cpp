// Any bytes as what an editor sends: no crash, no hang, every answer is JSON, and after the server
// has ended it says nothing. The input is a run of frames, or, when it is none, the body of
// messages one a line.
#include <cstdlib>
#include <sstream>

#include "fuzz/target.hpp"
#include "serve/frames.hpp"
#include "serve/server.hpp"

namespace {

using namespace flinch::cli::serve;

void require(bool fact) {
  if (!fact) std::abort();
}

FileAccess one_pack() {
  return {[](std::string const& path) -> std::optional<std::string> {
            if (path == "/p/pack.flinch")
              return "pack p\ninclude \"a.flinch\"\ninclude \"b.flinch\"\ncause c \"C\"\n";
            if (path == "/p/a.flinch") return "rule r\n  usual 1%\n  in c 5%\n";
            return std::nullopt;
          },
          [](std::string const& folder) {
            return folder == "/p" ? std::vector<std::string>{"/p/a.flinch", "/p/pack.flinch"}
                                  : std::vector<std::string>();
          }};
}

void handle(Server& server, std::string_view body) {
  bool const was_finished = server.is_finished();
  auto const answers = server.handle(body);
  for (auto const& job : server.due())
    if (auto const result = full_check(job, [] { return false; }))
      for (auto const& shown : server.finish(*result))
        require(Json::parse(shown, nullptr, false).is_object());
  require(!was_finished || answers.empty());
  for (auto const& answer : answers) {
    auto const json = Json::parse(answer, nullptr, false);
    require(json.is_object() && json["jsonrpc"] == "2.0");
    require(json.contains("method") || json.contains("result") != json.contains("error"));
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  std::string const text(reinterpret_cast<char const*>(data), size);
  Server framed(one_pack());
  std::istringstream in(text);
  FrameLimits const limits{256, 4096};
  for (bool more = true; more;) {
    auto const frame = read_frame(in, limits);
    require(frame.text.size() <= limits.body_bytes);
    more = frame.kind == Frame::Kind::message || frame.kind == Frame::Kind::too_large;
    if (frame.kind == Frame::Kind::message) handle(framed, frame.text);
  }
  Server by_line(one_pack());
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) handle(by_line, line);
  return 0;
}
