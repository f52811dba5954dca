#include "run.hpp"

#include <CLI/CLI.hpp>
#include <ostream>

#include "commands.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

constexpr char const* about =
    "Pain triage for dogs: signs in, urgency and ranked causes with reasons out.\n"
    "It supports people who decide; it does not diagnose. A licensed veterinarian decides.";

constexpr char const* pack_help =
    "A pack: its folder, or its entry file (the shipped pack otherwise)";

}  // namespace

int run(std::vector<std::string> const& args, std::ostream& out, std::ostream& err,
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

  CheckOptions check_options;
  auto* check_app =
      app.add_subcommand("check", "Check a pack: mistakes, warnings, and its examples");
  check_app->add_option("pack", check_options.pack, pack_help)->type_name("PACK");
  check_app->add_flag("--json", check_options.json, "For programs");
  check_app->callback([&] { status = check(check_options, session); });

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

}  // namespace flinch::cli
