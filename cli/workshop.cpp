#include "workshop.hpp"

#include <CLI/CLI.hpp>

#include "command_help.hpp"
#include "named_file.hpp"
#include "serve/serve_command.hpp"

namespace flinch::cli {
namespace {

void add_check(CLI::App& app, CheckOptions& options, Session const& session, Status& status) {
  auto* command = app.add_subcommand(
      "check", "Check a pack: mistakes, warnings, its examples, what they cover");
  command->add_option("pack", options.pack, pack_help)->type_name("PACK");
  command
      ->add_option("--cases", options.cases,
                   "Which rules do these cases set off? YAML files, folders of them, *.jsonl")
      ->type_name("CASES");
  command->add_flag("--names", options.names,
                    "Name the rules and alarms that nothing sets off, and the accepted warnings");
  command->add_flag("--pairs", options.pairs,
                    "List pairs of figures too: silent and impossible ones (docs/packs.md)");
  command->add_flag("--strict", options.strict, "Exit status 1 when there are warnings");
  command->add_flag("--json", options.json, "For programs: docs/check.schema.json");
  command->callback([&] { status = check(options, session); });
}

void add_batch(CLI::App& app, BatchOptions& options, Session const& session, Status& status) {
  auto* command = app.add_subcommand(
      "batch", "Many cases: JSON lines in, JSON lines out, in order (docs/batch.md)");
  command->add_option("input", options.input, "JSON lines (standard input otherwise)")
      ->type_name("FILE");
  command->add_option("--pack", options.pack, pack_help)->type_name("PACK");
  command->add_option("--causes", options.causes, "How many causes a line names")
      ->type_name("N")
      ->check(CLI::Range(0, 1000))
      ->capture_default_str();
  command->add_option("--threads", options.threads, "How many threads (one a core otherwise)")
      ->type_name("N")
      ->check(CLI::Range(1, 256));
  command
      ->add_option("-o,--output", options.output,
                   "Write to this file, which appears when it is whole")
      ->check(is_named)
      ->type_name("FILE");
  command->add_flag("--resume", options.resume,
                    "Go on where an earlier run with the same -o was stopped");
  command->callback([&] { status = batch(options, session); });
}

void add_tidy(CLI::App& app, TidyOptions& options, Session const& session, Status& status) {
  auto* command = app.add_subcommand(
      "tidy", "Bring rule files into the one layout; what they mean stays the same");
  command
      ->add_option("files", options.files,
                   "Rule files (.flinch), each replaced by its tidy text; - or none: from standard "
                   "input to standard output")
      ->type_name("FILE");
  command->add_flag("--check", options.only_check,
                    "Name the files that are not tidy, write nothing");
  command->callback([&] { status = tidy(options, session); });
}

void add_serve(CLI::App& app, Session const& session, Status& status) {
  auto* command = app.add_subcommand(
      "serve", "Help an editor with rule files: a language server (docs/editors.md)");
  command->callback([&] { status = serve_editor(session); });
}

void add_audit(CLI::App& app, AuditOptions& options, Session const& session, Status& status) {
  auto* command = app.add_subcommand(
      "audit", "How often a pack was right, by closed cases: urgency, causes, probabilities");
  command->add_option("cases", options.cases, cases_help)->required()->type_name("CASES");
  command
      ->add_option("--pack", options.packs,
                   "A pack: its folder, or its entry file (the shipped pack otherwise); again for "
                   "each further version")
      ->type_name("PACK")
      ->allow_extra_args(false);
  command->add_flag("--json", options.json, "For programs: docs/audit.schema.json");
  command->add_option("--html", options.html, "Write a page with plots as well")
      ->check(is_named)
      ->type_name("FILE");
  command->add_option("--worst", options.worst, "How many misses to show")
      ->type_name("N")
      ->check(CLI::Range(0, 100000))
      ->capture_default_str();
  command->callback([&] { status = audit_cases(options, session); });
}

void add_compare(CLI::App& app, CompareOptions& options, Session const& session, Status& status) {
  auto* command = app.add_subcommand(
      "compare", "Which cases come out otherwise with another version of a pack, and why");
  command->add_option("old", options.before, "The pack as it was: its folder, or its entry file")
      ->required()
      ->type_name("OLD");
  command->add_option("new", options.after, "The pack as it is to be")
      ->required()
      ->type_name("NEW");
  command->add_option("cases", options.cases, cases_help)->required()->type_name("CASES");
  command->add_option("--reasons", options.reasons, "How many reasons to show for each case")
      ->type_name("N")
      ->check(CLI::Range(0, 1000))
      ->capture_default_str();
  command->callback([&] { status = compare_packs(options, session); });
}

void add_learn(CLI::App& app, LearnOptions& options, Session const& session, Status& status) {
  auto* command = app.add_subcommand(
      "learn", "Propose frequencies for a pack from closed cases; nothing is written");
  command->add_option("cases", options.cases, cases_help)->required()->type_name("CASES");
  command->add_option("--pack", options.pack, pack_help)->type_name("PACK");
  command->add_option("--at-least", options.dogs_at_least, "Propose no figure from fewer dogs")
      ->type_name("N")
      ->check(CLI::Range(1, 1000000))
      ->capture_default_str();
  command
      ->add_option("--weight", options.weight_without_sample,
                   "How many dogs a present figure counts as that has no sample")
      ->type_name("DOGS")
      ->check(CLI::Range(0.0, 1e6))
      ->capture_default_str();
  command->add_option("--source", options.source, "The name of the source that the proposal cites")
      ->type_name("NAME")
      ->check(CLI::Validator(
          [](std::string& name) {
            bool const is_name =
                !name.empty() && name.front() >= 'a' && name.front() <= 'z' &&
                name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_") == name.npos;
            return is_name
                       ? std::string()
                       : std::string(
                             "a name has small letters, digits and _, and starts with a letter");
          },
          ""))
      ->capture_default_str();
  command->add_flag("--statements", options.statements,
                    "Only the rules as they would be, in the rule language");
  command->callback([&] { status = learn_figures(options, session); });
}

}  // namespace

void add_workshop(CLI::App& app, WorkshopOptions& options, Session const& session, Status& status) {
  add_check(app, options.check, session, status);
  add_tidy(app, options.tidy, session, status);
  add_serve(app, session, status);
  add_audit(app, options.audit, session, status);
  add_compare(app, options.compare, session, status);
  add_learn(app, options.learn, session, status);
  add_batch(app, options.batch, session, status);
}

}  // namespace flinch::cli
