// `flinch call` and `flinch handover`
#include <fmt/format.h>
#include <unistd.h>

#include <iostream>

#include "call/call_model.hpp"
#include "call/call_terminal.hpp"
#include "call/handover.hpp"
#include "commands.hpp"
#include "desk/desk_case.hpp"
#include "files/case_source.hpp"
#include "files/clock.hpp"
#include "files/pack_source.hpp"
#include "files/practice_source.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

std::vector<NotePart> note_of(Tables const& tables, Case const& dog, Setting const& setting) {
  return handover_note(tables, dog, Assessor(tables).assess(dog), setting);
}

// What does the same work without a full screen.
std::string line_by_line(CallOptions const& options) {
  std::vector<std::string> arguments = {"--for", "nurse"};
  if (!options.save.empty()) arguments.insert(arguments.end(), {"--save", options.save});
  return named_command("ask", arguments, {options.pack, options.practice});
}

}  // namespace

Status call(CallOptions const& options, Session const& session) {
  auto setting = open_setting(options.practice, session.err);
  if (!setting) return Status::bad;
  if (isatty(STDIN_FILENO) == 0 || isatty(STDOUT_FILENO) == 0) {
    session.err << fmt::format(
        "flinch call needs a terminal for its input and its output. Line by line, also through a "
        "pipe: {}\n",
        line_by_line(options));
    return Status::bad;
  }
  auto opened = open_pack(options.pack);
  if (!opened.outcome) {
    session.err << render(opened.outcome.diagnostics, opened.sources);
    return Status::bad;
  }
  Tables const tables(*opened.outcome.value);
  auto start = begin_desk("call", options.save, Recovers::yes, tables, opened, std::cin, session);
  if (!start.desk) return start.status;
  auto const& desk = *start.desk;
  CallModel model(tables, desk.dog, desk.is_named ? Keeping::in_a_file : Keeping::in_memory,
                  now_or_fixed(), std::move(*setting));
  KeepCase const keep = [&](Case const& now) { return desk.journal->write(now, tables.pack()); };
  if (auto const why = run_on_terminal(model, session.look, keep)) {
    session.err << fmt::format("flinch call: {}. Line by line, anywhere: {}\n", *why,
                               line_by_line(options));
    return Status::bad;
  }
  // A terminal that went away leaves what the next call can go on with.
  if (!model.state().is_over) return Status::fine;
  session.out << note_text(note_of(tables, model.state().dog, model.setting()), session.look);
  auto const status =
      end_desk(desk, model.state().dog, !model.state().unsaved.empty(), tables.pack(), session);
  if (desk.is_named && status == Status::fine)
    session.out << saved_text("call", options.save, {options.pack, options.practice}, "");
  return status;
}

Status handover(HandoverOptions const& options, Session const& session) {
  auto setting = open_setting(options.practice, session.err);
  if (!setting) return Status::bad;
  auto const opened = open_pack_and_case(options.pack, options.file, session.err);
  if (!opened) return Status::bad;
  Tables const tables(opened->pack);
  auto const note = note_of(tables, opened->one.dog, *setting);
  session.out << (options.markdown ? note_markdown(note) : note_text(note, session.look));
  return Status::fine;
}

}  // namespace flinch::cli
