#include "reviewing.hpp"

#include <CLI/CLI.hpp>

#include "command_help.hpp"
#include "named_file.hpp"

namespace flinch::cli {
namespace {

void add_review(CLI::App& app, ReviewOptions& options, Session const& session, Status& status) {
  auto* command =
      app.add_subcommand("review", "Why: a cause, a rule, the tier, two causes, what if");
  command->add_option("case", options.file, case_help)->required()->type_name("CASE");
  command->add_option("--cause", options.cause, "For and against a cause (`none`: none of these)")
      ->type_name("NAME");
  command->add_option("--rule", options.rule, "How a rule or alarm came out, part by part")
      ->type_name("NAME");
  command->add_flag("--tier", options.tier, "Why so soon: alarms, and causes over a threshold");
  command->add_option("--between", options.between, "What separates two causes")
      ->expected(2)
      ->type_name("NAME");
  command->add_option("--what-if", options.what_if, "Before and after: \"sign=yes, other=no\"")
      ->type_name("ANSWERS");
  command->add_flag("--changes", options.changes,
                    "The smallest changes that would change the result");
  command->add_option("--pack", options.pack, pack_help)->type_name("PACK");
  command->add_flag("--json", options.json, "For programs: docs/review.schema.json");
  command->footer(
      "Without options: the tier, the first causes, and what would separate them. Options can be\n"
      "joined.\n"
      "  flinch review dog.yaml --cause elbow_arthritis --tier\n"
      "  flinch review dog.yaml --between elbow_arthritis none\n"
      "  flinch review dog.yaml --what-if \"vomiting=yes, tender=left hip + spine\"");
  command->callback([&] { status = review(options, session); });
}

void add_report(CLI::App& app, ReportOptions& options, Session const& session, Status& status) {
  auto* command =
      app.add_subcommand("report", "A page to hand over: to the keeper, or to the clinic");
  command->add_option("case", options.file, case_help)->required()->type_name("CASE");
  command->add_option("-o,--output", options.output, "The HTML page to write; - is standard output")
      ->required()
      ->check(is_named)
      ->type_name("FILE");
  command->add_option("--for", options.reader, "keeper (plain words) or clinic (everything)")
      ->check(CLI::IsMember({"keeper", "clinic"}))
      ->type_name("READER")
      ->capture_default_str();
  command->add_flag("--all", options.all, "All there is, however many sheets it takes");
  command->add_option("--paper", options.paper, "a4 or letter")
      ->check(CLI::IsMember({"a4", "letter"}))
      ->type_name("PAPER")
      ->capture_default_str();
  command->add_option("--practice", options.practice, practice_help)->type_name("FILE");
  command->add_option("--pack", options.pack, pack_help)->type_name("PACK");
  command->callback([&] { status = report(options, session); });
}

void add_describe(CLI::App& app, DescribeOptions& options, Session const& session, Status& status) {
  auto* command = app.add_subcommand(
      "describe", "A cause, sign, rule, alarm or source of the pack, or all as pages");
  command->add_option("name", options.name, "Its name or title")->type_name("NAME");
  command->add_option("--html", options.folder, "Write pages of the whole pack to browse")
      ->check(is_named)
      ->type_name("FOLDER");
  command->add_option("--pack", options.pack, pack_help)->type_name("PACK");
  command->callback([&] { status = describe_pack(options, session); });
}

void add_signs(CLI::App& app, SignsOptions& options, Session const& session, Status& status) {
  auto* command =
      app.add_subcommand("signs", "The vocabulary: every sign, how it is asked and answered");
  command->add_option("words", options.containing, "Only signs with these words")
      ->type_name("WORDS");
  command->add_option("--pack", options.pack, pack_help)->type_name("PACK");
  command->add_flag("--json", options.json, "For programs");
  command->callback([&] { status = list_signs(options, session); });
}

void add_list(CLI::App& app, ListOptions& options, Session const& session, Status& status) {
  auto* command = app.add_subcommand(
      "list", "The pack as a page in Markdown: its causes, rules, alarms, sources or figures");
  command->add_option("what", options.what, "causes, rules, alarms, sources or figures")
      ->required()
      ->type_name("WHAT")
      ->check(CLI::IsMember(names_of_lists()));
  command->add_option("--pack", options.pack, pack_help)->type_name("PACK");
  command->callback([&] { status = list_pack(options, session); });
}

}  // namespace

void add_reviewing(CLI::App& app, ReviewingOptions& options, Session const& session,
                   Status& status) {
  add_review(app, options.review, session, status);
  add_report(app, options.report, session, status);
  add_describe(app, options.describe, session, status);
  add_signs(app, options.signs, session, status);
  add_list(app, options.list, session, status);
}

}  // namespace flinch::cli
