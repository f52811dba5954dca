#pragma once
// A language server for rule files: the Language Server Protocol 3.17 from `initialize` to `exit`.
#include <string>
#include <string_view>
#include <vector>

#include "serve/hover.hpp"
#include "serve/workspace.hpp"

namespace flinch::cli::serve {

class Server {
 public:
  explicit Server(FileAccess disk) : workspace_(std::move(disk)) {}

  /// Takes the body of one message and gives the bodies of those that go back. Whatever comes in
  /// ends in an answer or in none, never in an exception.
  [[nodiscard]] std::vector<std::string> handle(std::string_view body);

  /// The packs to be checked in full since this was last asked; what was found goes to `finish`,
  /// which gives the messages that show it, or none when a text has changed since.
  [[nodiscard]] std::vector<CheckJob> due() { return workspace_.due(); }
  [[nodiscard]] std::vector<std::string> finish(CheckResult const& result);

  /// After `exit`: nothing more is answered.
  [[nodiscard]] bool is_finished() const { return stage_ == Stage::finished; }
  /// Whether `exit` came after `shutdown`, as it should.
  [[nodiscard]] bool ended_well() const { return ended_well_; }

 private:
  enum class Stage { starting, running, shut_down, finished };

  [[nodiscard]] std::string answer(Incoming const& request);
  [[nodiscard]] Json result_of(Incoming const& request);
  [[nodiscard]] Json initialize(Json const& params);
  [[nodiscard]] std::vector<std::string> note(Incoming const& notification);

  Workspace workspace_;
  Stage stage_ = Stage::starting;
  Markup markup_ = Markup::plain;
  bool ended_well_ = false;
};

}  // namespace flinch::cli::serve
