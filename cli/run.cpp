#include "run.hpp"

#include <CLI/CLI.hpp>
#include <ostream>

#include "commands.hpp"
#include "flinch/text/display.hpp"
#include "named_file.hpp"
#include "workshop.hpp"

namespace flinch::cli {
namespace {

constexpr char const* about =
    "Pain triage for dogs: signs in, urgency and ranked causes with reasons out.\n"
    "It supports people who decide; it does not diagnose. A licensed veterinarian decides.";

constexpr char const* pack_help =
    "A pack: its folder, or its entry file (the shipped pack otherwise)";

void add_review_options(CLI::App& app, ReviewOptions& options) {
  app.add_option("case", options.file, "A case file in YAML; - is standard input")
      ->required()
      ->type_name("CASE");
  app.add_option("--cause", options.cause, "For and against a cause (`none`: none of these)")
      ->type_name("NAME");
  app.add_option("--rule", options.rule, "How a rule or alarm came out, part by part")
      ->type_name("NAME");
  app.add_flag("--tier", options.tier, "Why so soon: alarms, and causes over a threshold");
  app.add_option("--between", options.between, "What separates two causes")
      ->expected(2)
      ->type_name("NAME");
  app.add_option("--what-if", options.what_if, "Before and after: \"sign=yes, other=no\"")
      ->type_name("ANSWERS");
  app.add_flag("--changes", options.changes, "The smallest changes that would change the result");
  app.add_option("--pack", options.pack, pack_help)->type_name("PACK");
  app.add_flag("--json", options.json, "For programs: docs/review.schema.json");
  app.footer(
      "Without options: the tier, the first causes, and what would separate them. Options can be\n"
      "joined.\n"
      "  flinch review dog.yaml --cause elbow_arthritis --tier\n"
      "  flinch review dog.yaml --between elbow_arthritis none\n"
      "  flinch review dog.yaml --what-if \"vomiting=yes, tender=left hip + spine\"");
}

void add_report_options(CLI::App& app, ReportOptions& options) {
  app.add_option("case", options.file, "A case file in YAML; - is standard input")
      ->required()
      ->type_name("CASE");
  app.add_option("-o,--output", options.output, "The HTML page to write; - is standard output")
      ->required()
      ->check(is_named)
      ->type_name("FILE");
  app.add_option("--for", options.reader, "keeper (plain words) or clinic (everything)")
      ->check(CLI::IsMember({"keeper", "clinic"}))
      ->type_name("READER")
      ->capture_default_str();
  app.add_option("--paper", options.paper, "a4 or letter")
      ->check(CLI::IsMember({"a4", "letter"}))
      ->type_name("PAPER")
      ->capture_default_str();
  app.add_option("--pack", options.pack, pack_help)->type_name("PACK");
}

int run_command(std::vector<std::string> const& args, std::ostream& out, std::ostream& err,
                Look const& look) {
  CLI::App app(about, "flinch");
  app.require_subcommand(1);
  app.failure_message(CLI::FailureMessage::simple);
  app.get_formatter()->column_width(26);
  app.set_version_flag("--version", "flinch 1.0");
  Session const session{out, err, look};
  Status status = Status::fine;

  AssessOptions assess_options;
  auto* assess_app =
      app.add_subcommand("assess", "Assess cases: how soon, where, what it may be, what next");
  assess_app->add_option("case", assess_options.cases, "Case files in YAML; - is standard input")
      ->required()
      ->type_name("CASE");
  assess_app->add_option("--pack", assess_options.pack, pack_help)->type_name("PACK");
  assess_app->add_flag("--json", assess_options.json, "For programs: docs/assessment.schema.json");
  assess_app->add_flag("--numbers", assess_options.numbers,
                       "Probabilities, thresholds and decibans as well");
  assess_app->add_option("--causes", assess_options.causes, "How many causes to show")
      ->type_name("N")
      ->check(CLI::Range(1, 1000))
      ->capture_default_str();
  assess_app->callback([&] { status = assess(assess_options, session); });

  AskOptions ask_options;
  auto* ask_app = app.add_subcommand("ask", "Ask questions, one at a time, and assess the dog");
  ask_app->add_option("--for", ask_options.audience, "Who answers, and so what can be asked")
      ->type_name("WHO")
      ->check(CLI::IsMember({"keeper", "nurse", "handler", "clinician"}))
      ->capture_default_str();
  ask_app
      ->add_option("--save", ask_options.save,
                   "Case file: written after every answer, gone on with when it is there")
      ->check(is_named)
      ->type_name("CASE");
  ask_app->add_option("--pack", ask_options.pack, pack_help)->type_name("PACK");
  ask_app->callback([&] { status = ask(ask_options, session); });
  BatchOptions batch_options;
  auto* batch_app = app.add_subcommand(
      "batch", "Many cases: JSON lines in, JSON lines out, in order (docs/batch.md)");
  batch_app->add_option("input", batch_options.input, "JSON lines (standard input otherwise)")
      ->type_name("FILE");
  batch_app->add_option("--pack", batch_options.pack, pack_help)->type_name("PACK");
  batch_app->add_option("--causes", batch_options.causes, "How many causes a line names")
      ->type_name("N")
      ->check(CLI::Range(0, 1000))
      ->capture_default_str();
  batch_app
      ->add_option("--threads", batch_options.threads, "How many threads (one a core otherwise)")
      ->type_name("N")
      ->check(CLI::Range(1, 256));
  batch_app
      ->add_option("-o,--output", batch_options.output,
                   "Write to this file, which appears when it is whole")
      ->check(is_named)
      ->type_name("FILE");
  batch_app->add_flag("--resume", batch_options.resume,
                      "Go on where an earlier run with the same -o was stopped");
  batch_app->callback([&] { status = batch(batch_options, session); });

  CallOptions call_options;
  auto* call_app =
      app.add_subcommand("call", "On the telephone: tick signs in any order, see how soon at once");
  call_app
      ->add_option("--save", call_options.save,
                   "Keep the call in this case file, or go on with the one in it")
      ->check(is_named)
      ->type_name("CASE");
  call_app->add_option("--pack", call_options.pack, pack_help)->type_name("PACK");
  call_app->callback([&] { status = call(call_options, session); });

  HandoverOptions handover_options;
  auto* handover_app = app.add_subcommand("handover", "The hand-over note of a case, for the vet");
  handover_app->add_option("case", handover_options.file, "Case file in YAML")
      ->required()
      ->type_name("CASE");
  handover_app->add_flag("--markdown", handover_options.markdown, "As Markdown");
  handover_app->add_option("--pack", handover_options.pack, pack_help)->type_name("PACK");
  handover_app->callback([&] { status = handover(handover_options, session); });
  ReviewOptions review_options;
  auto* review_app =
      app.add_subcommand("review", "Why: a cause, a rule, the tier, two causes, what if");
  add_review_options(*review_app, review_options);
  review_app->callback([&] { status = review(review_options, session); });

  ReportOptions report_options;
  auto* report_app =
      app.add_subcommand("report", "A page to hand over: to the keeper, or to the clinic");
  add_report_options(*report_app, report_options);
  report_app->callback([&] { status = report(report_options, session); });

  DescribeOptions describe_options;
  auto* describe_app = app.add_subcommand(
      "describe", "A cause, sign, rule, alarm or source of the pack, or all as pages");
  describe_app->add_option("name", describe_options.name, "Its name or title")->type_name("NAME");
  describe_app
      ->add_option("--html", describe_options.folder, "Write pages of the whole pack to browse")
      ->check(is_named)
      ->type_name("FOLDER");
  describe_app->add_option("--pack", describe_options.pack, pack_help)->type_name("PACK");
  describe_app->callback([&] { status = describe_pack(describe_options, session); });
  CareOptions care_options;
  auto* care_app = app.add_subcommand(
      "care", "Until the dog is seen: what to do, what not, doses, what to watch for");
  care_app->add_option("case", care_options.file, "A case file in YAML; - is standard input")
      ->required()
      ->type_name("CASE");
  care_app->add_option("--for", care_options.audience, "Who reads it: keeper, nurse, clinician")
      ->type_name("WHO")
      ->check(CLI::IsMember({"keeper", "nurse", "clinician"}))
      ->capture_default_str();
  care_app->add_option("--pack", care_options.pack, pack_help)->type_name("PACK");
  care_app->add_flag("--json", care_options.json, "For programs: docs/care.schema.json");
  care_app->callback([&] { status = care(care_options, session); });

  SignsOptions signs_options;
  auto* signs_app =
      app.add_subcommand("signs", "The vocabulary: every sign, how it is asked and answered");
  signs_app->add_option("words", signs_options.containing, "Only signs with these words")
      ->type_name("WORDS");
  signs_app->add_option("--pack", signs_options.pack, pack_help)->type_name("PACK");
  signs_app->add_flag("--json", signs_options.json, "For programs");
  signs_app->callback([&] { status = list_signs(signs_options, session); });

  ListOptions list_options;
  auto* list_app = app.add_subcommand(
      "list", "The pack as a page in Markdown: its causes, rules, alarms, sources or figures");
  list_app->add_option("what", list_options.what, "causes, rules, alarms, sources or figures")
      ->required()
      ->type_name("WHAT")
      ->check(CLI::IsMember(names_of_lists()));
  list_app->add_option("--pack", list_options.pack, pack_help)->type_name("PACK");
  list_app->callback([&] { status = list_pack(list_options, session); });

  CheckOptions check_options;
  auto* check_app = app.add_subcommand(
      "check", "Check a pack: mistakes, warnings, its examples, what they cover");
  check_app->add_option("pack", check_options.pack, pack_help)->type_name("PACK");
  check_app
      ->add_option("--cases", check_options.cases,
                   "Which rules do these cases set off? YAML files, folders of them, *.jsonl")
      ->type_name("CASES");
  check_app->add_flag("--names", check_options.names,
                      "Name the rules and alarms that nothing sets off, and the accepted warnings");
  check_app->add_flag("--strict", check_options.strict, "Exit status 1 when there are warnings");
  check_app->add_flag("--json", check_options.json, "For programs: docs/check.schema.json");
  check_app->callback([&] { status = check(check_options, session); });

  WorkshopOptions workshop;
  add_workshop(app, workshop, session, status);

  try {
    std::vector<std::string> reversed(args.rbegin(), args.rend());
    app.parse(reversed);
  } catch (CLI::CallForHelp const&) {
    auto const* chosen = app.get_subcommands().empty() ? &app : app.get_subcommands().front();
    out << chosen->help();
    return static_cast<int>(Status::fine);
  } catch (CLI::CallForVersion const& version) {
    out << version.what() << '\n';
    return static_cast<int>(Status::fine);
  } catch (CLI::ParseError const& mistake) {
    err << "flinch: " << inert(mistake.what()) << "\ntry: flinch --help\n";
    return static_cast<int>(Status::bad);
  }
  return static_cast<int>(status);
}

}  // namespace

int run(std::vector<std::string> const& args, std::ostream& out, std::ostream& err,
        Look const& look) {
  auto const status = run_command(args, out, err, look);
  // What has not reached its reader is no answer, whatever it was.
  out.flush();
  if (out) return status;
  if (status != static_cast<int>(Status::bad)) err << "flinch: error: cannot write the output\n";
  return static_cast<int>(Status::bad);
}

}  // namespace flinch::cli
