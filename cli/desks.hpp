#pragma once
// The commands for those who have a dog before them: assess, ask, call, handover, care.
#include "commands.hpp"

namespace CLI {
class App;
}

namespace flinch::cli {

struct DeskOptions {
  AssessOptions assess;
  AskOptions ask;
  CallOptions call;
  HandoverOptions handover;
  CareOptions care;
};

/// Adds the commands; each leaves its exit status in `status`. All must outlive `app`.
void add_desks(CLI::App& app, DeskOptions& options, Session const& session, Status& status);

}  // namespace flinch::cli
