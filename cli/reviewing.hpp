#pragma once
// The commands for those who ask why: review, report, describe, signs, list.
#include "commands.hpp"

namespace CLI {
class App;
}

namespace flinch::cli {

struct ReviewingOptions {
  ReviewOptions review;
  ReportOptions report;
  DescribeOptions describe;
  SignsOptions signs;
  ListOptions list;
};

/// Adds the commands; each leaves its exit status in `status`. All must outlive `app`.
void add_reviewing(CLI::App& app, ReviewingOptions& options, Session const& session,
                   Status& status);

}  // namespace flinch::cli
