#include "run.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <ostream>

#include "about.hpp"
#include "command_line.hpp"
#include "command_list.hpp"
#include "files/pack_source.hpp"
#include "flinch/syntax/language_version.hpp"
#include "usage_mistake.hpp"

namespace flinch::cli {
namespace {

// Of the program, the shipped pack and the language. Only a program built wrong has no pack.
std::string versions() {
  auto const shipped = open_pack("");
  auto const& pack = shipped.outcome.value;
  return fmt::format("flinch {}\npack {} {}\nlanguage {}", FLINCH_VERSION,
                     pack ? (*pack)->name : "none", pack ? (*pack)->version : "", language_version);
}

int run_command(std::vector<std::string> const& args, std::ostream& out, std::ostream& err,
                Look const& look) {
  CLI::App app(about, "flinch");
  app.require_subcommand(1);
  app.failure_message(CLI::FailureMessage::simple);
  app.get_formatter()->column_width(26);
  app.set_version_flag("--version", versions);
  Session const session{out, err, look, {}, all_commands()};
  Status status = Status::fine;

  for (auto const* row : all_commands()) add_command(app, *row, session, status);

  if (auto const wrong = unknown_command(app, args)) {
    err << *wrong;
    return static_cast<int>(Status::bad);
  }
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
    err << usage_mistake(app, args, mistake);
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
