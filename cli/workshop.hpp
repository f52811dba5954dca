#pragma once
// The commands for those who own a pack: tidy, serve, audit, compare, learn.
#include "commands.hpp"

namespace CLI {
class App;
}

namespace flinch::cli {

struct WorkshopOptions {
  TidyOptions tidy;
  AuditOptions audit;
  CompareOptions compare;
  LearnOptions learn;
};

/// Adds the commands; each leaves its exit status in `status`. All must outlive `app`.
void add_workshop(CLI::App& app, WorkshopOptions& options, Session const& session, Status& status);

}  // namespace flinch::cli
