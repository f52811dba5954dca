#pragma once
// The commands for those who own a pack: audit, compare, learn.
#include "commands.hpp"

namespace CLI {
class App;
}

namespace flinch::cli {

struct WorkshopOptions {
  AuditOptions audit;
  CompareOptions compare;
  LearnOptions learn;
};

/// Adds the three commands; each leaves its exit status in `status`. All four must outlive `app`.
void add_workshop(CLI::App& app, WorkshopOptions& options, Session const& session, Status& status);

}  // namespace flinch::cli
