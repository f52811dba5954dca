#include "desks.hpp"

#include <CLI/CLI.hpp>

#include "command_help.hpp"
#include "named_file.hpp"

namespace flinch::cli {
namespace {

void add_assess(CLI::App& app, AssessOptions& options, Session const& session, Status& status) {
  auto* command =
      app.add_subcommand("assess", "Assess cases: how soon, where, what it may be, what next");
  command->add_option("case", options.cases, "Case files in YAML; - is standard input")
      ->required()
      ->type_name("CASE");
  command->add_option("--practice", options.practice, practice_help)->type_name("FILE");
  command->add_option("--pack", options.pack, pack_help)->type_name("PACK");
  command->add_flag("--json", options.json, "For programs: docs/assessment.schema.json");
  command->add_flag("--numbers", options.numbers, "Probabilities, thresholds and decibans as well");
  command->add_option("--causes", options.causes, "How many causes to show")
      ->type_name("N")
      ->check(CLI::Range(1, 1000))
      ->capture_default_str();
  command->callback([&] { status = assess(options, session); });
}

void add_ask(CLI::App& app, AskOptions& options, Session const& session, Status& status) {
  auto* command = app.add_subcommand("ask", "Ask questions, one at a time, and assess the dog");
  command->add_option("--for", options.reader, "Who answers, and so what can be asked")
      ->type_name("WHO")
      ->check(CLI::IsMember({"keeper", "nurse", "handler", "clinician"}))
      ->capture_default_str();
  command
      ->add_option("--save", options.save,
                   "Case file: written after every answer, gone on with when it is there")
      ->check(is_named)
      ->type_name("CASE");
  command->add_option("--practice", options.practice, practice_help)->type_name("FILE");
  command->add_option("--pack", options.pack, pack_help)->type_name("PACK");
  command->callback([&] { status = ask(options, session); });
}

void add_call(CLI::App& app, CallOptions& options, Session const& session, Status& status) {
  auto* command =
      app.add_subcommand("call", "On the telephone: tick signs in any order, see how soon at once");
  command
      ->add_option("--save", options.save,
                   "Keep the call in this case file, or go on with the one in it")
      ->check(is_named)
      ->type_name("CASE");
  command->add_option("--practice", options.practice, practice_help)->type_name("FILE");
  command->add_option("--pack", options.pack, pack_help)->type_name("PACK");
  command->callback([&] { status = call(options, session); });
}

void add_handover(CLI::App& app, HandoverOptions& options, Session const& session, Status& status) {
  auto* command = app.add_subcommand("handover", "The hand-over note of a case, for the vet");
  command->add_option("case", options.file, "Case file in YAML")->required()->type_name("CASE");
  command->add_flag("--markdown", options.markdown, "As Markdown");
  command->add_option("--practice", options.practice, practice_help)->type_name("FILE");
  command->add_option("--pack", options.pack, pack_help)->type_name("PACK");
  command->callback([&] { status = handover(options, session); });
}

void add_care(CLI::App& app, CareOptions& options, Session const& session, Status& status) {
  auto* command = app.add_subcommand(
      "care", "Until the dog is seen: what to do, what not, doses, what to watch for");
  command->add_option("case", options.file, case_help)->required()->type_name("CASE");
  command->add_option("--for", options.reader, "Who reads it: keeper, nurse, clinician")
      ->type_name("WHO")
      ->check(CLI::IsMember({"keeper", "nurse", "clinician"}))
      ->capture_default_str();
  command->add_option("--practice", options.practice, practice_help)->type_name("FILE");
  command->add_option("--pack", options.pack, pack_help)->type_name("PACK");
  command->add_flag("--json", options.json, "For programs: docs/care.schema.json");
  command->callback([&] { status = care(options, session); });
}

}  // namespace

void add_desks(CLI::App& app, DeskOptions& options, Session const& session, Status& status) {
  add_assess(app, options.assess, session, status);
  add_ask(app, options.ask, session, status);
  add_call(app, options.call, session, status);
  add_handover(app, options.handover, session, status);
  add_care(app, options.care, session, status);
}

}  // namespace flinch::cli
