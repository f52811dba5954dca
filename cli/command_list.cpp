#include "command_list.hpp"

#include <array>

#include "ask/ask_command.hpp"
#include "assess/assess_command.hpp"
#include "audit/audit_command.hpp"
#include "audit/compare_command.hpp"
#include "audit/learn_command.hpp"
#include "batch/batch_command.hpp"
#include "book/book_command.hpp"
#include "call/call_command.hpp"
#include "call/handover_command.hpp"
#include "care/care_command.hpp"
#include "check/check_command.hpp"
#include "check/tidy_command.hpp"
#include "complete/complete_command.hpp"
#include "describe/describe_command.hpp"
#include "describe/list_command.hpp"
#include "describe/read_command.hpp"
#include "describe/signs_command.hpp"
#include "exchange/share_command.hpp"
#include "exchange/take_command.hpp"
#include "report/report_command.hpp"
#include "review/review_command.hpp"
#include "serve/serve_command.hpp"

namespace flinch::cli {

std::span<Command const* const> all_commands() {
  static constexpr std::array rows = {
      &assess_command,   &ask_command,     &call_command,   &handover_command, &book_command,
      &care_command,     &review_command,  &report_command, &share_command,    &take_command,
      &describe_command, &signs_command,   &list_command,   &check_command,    &tidy_command,
      &read_command,     &serve_command,   &audit_command,  &compare_command,  &learn_command,
      &batch_command,    &complete_command};
  return rows;
}

}  // namespace flinch::cli
