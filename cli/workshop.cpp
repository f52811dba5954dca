#include "workshop.hpp"

#include <CLI/CLI.hpp>

#include "named_file.hpp"
#include "serve_command.hpp"

namespace flinch::cli {
namespace {

constexpr char const* cases_help = "Case files in YAML, or folders of them (all *.yaml in each)";

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
  auto* audit = app.add_subcommand(
      "audit", "How often a pack was right, by closed cases: urgency, causes, probabilities");
  audit->add_option("cases", options.cases, cases_help)->required()->type_name("CASES");
  audit
      ->add_option("--pack", options.packs,
                   "A pack: its folder, or its entry file (the shipped pack otherwise); again for "
                   "each further version")
      ->type_name("PACK")
      ->allow_extra_args(false);
  audit->add_flag("--json", options.json, "For programs: docs/audit.schema.json");
  audit->add_option("--html", options.html, "Write a page with plots as well")
      ->check(is_named)
      ->type_name("FILE");
  audit->add_option("--worst", options.worst, "How many misses to show")
      ->type_name("N")
      ->check(CLI::Range(0, 100000))
      ->capture_default_str();
  audit->callback([&] { status = audit_cases(options, session); });
}

void add_compare(CLI::App& app, CompareOptions& options, Session const& session, Status& status) {
  auto* compare = app.add_subcommand(
      "compare", "Which cases come out otherwise with another version of a pack, and why");
  compare->add_option("old", options.before, "The pack as it was: its folder, or its entry file")
      ->required()
      ->type_name("OLD");
  compare->add_option("new", options.after, "The pack as it is to be")
      ->required()
      ->type_name("NEW");
  compare->add_option("cases", options.cases, cases_help)->required()->type_name("CASES");
  compare->add_option("--reasons", options.reasons, "How many reasons to show for each case")
      ->type_name("N")
      ->check(CLI::Range(0, 1000))
      ->capture_default_str();
  compare->callback([&] { status = compare_packs(options, session); });
}

void add_learn(CLI::App& app, LearnOptions& options, Session const& session, Status& status) {
  auto* learn = app.add_subcommand(
      "learn", "Propose frequencies for a pack from closed cases; nothing is written");
  learn->add_option("cases", options.cases, cases_help)->required()->type_name("CASES");
  learn
      ->add_option("--pack", options.pack,
                   "A pack: its folder, or its entry file (the shipped pack otherwise)")
      ->type_name("PACK");
  learn->add_option("--at-least", options.dogs_at_least, "Propose no figure from fewer dogs")
      ->type_name("N")
      ->check(CLI::Range(1, 1000000))
      ->capture_default_str();
  learn
      ->add_option("--weight", options.weight_without_sample,
                   "How many dogs a present figure counts as that has no sample")
      ->type_name("DOGS")
      ->check(CLI::Range(0.0, 1e6))
      ->capture_default_str();
  learn->add_option("--source", options.source, "The name of the source that the proposal cites")
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
  learn->add_flag("--statements", options.statements,
                  "Only the rules as they would be, in the rule language");
  learn->callback([&] { status = learn_figures(options, session); });
}

}  // namespace

void add_workshop(CLI::App& app, WorkshopOptions& options, Session const& session, Status& status) {
  add_tidy(app, options.tidy, session, status);
  add_serve(app, session, status);
  add_audit(app, options.audit, session, status);
  add_compare(app, options.compare, session, status);
  add_learn(app, options.learn, session, status);
}

}  // namespace flinch::cli
