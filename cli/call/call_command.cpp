// `flinch call`
#include "call/call_command.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <iostream>
#include <memory>

#include "book/book_parts.hpp"
#include "call/call_model.hpp"
#include "call/call_terminal.hpp"
#include "call/handover.hpp"
#include "desk/desk_case.hpp"
#include "files/clock.hpp"
#include "files/pack_source.hpp"
#include "files/practice_source.hpp"
#include "flinch/text/display.hpp"
#include "look/named_command.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

struct CallOptions {
  std::string pack;
  std::string practice;  ///< its file; empty: the user's own, if there is one
  std::string save;  ///< case file, read if it is there, written after every answer; may be empty
  BookWish book;
};

// What does the same work without a full screen, and where it does.
std::string line_by_line(CallOptions const& options, std::string_view where) {
  std::vector<std::string> arguments = {"--for", "nurse"};
  auto const add = [&](std::string const& name, std::string const& value) {
    if (!value.empty()) arguments.insert(arguments.end(), {name, value});
  };
  add("--save", options.save);
  bool const rings = !options.book.ring.empty();
  add("--call", rings ? options.book.ring : options.book.call);
  add("--book", options.book.book);
  add("--by", options.book.by);
  if (options.book.none) arguments.emplace_back("--no-book");
  return fmt::format("Line by line, {}: {}{}", where,
                     named_command("ask", arguments, {options.pack, options.practice}),
                     rings ? ", and answer ring where it asks whether to go on" : "");
}

Status call(CallOptions const& options, Session const& session) {
  auto setting = open_setting(options.practice, session.err);
  if (!setting) return Status::bad;
  if (isatty(STDIN_FILENO) == 0 || isatty(STDOUT_FILENO) == 0) {
    session.err << fmt::format("flinch call needs a terminal for its input and its output. {}\n",
                               line_by_line(options, "also through a pipe"));
    return Status::bad;
  }
  auto opened = open_sound_pack(options.pack, session.err);
  if (!opened) return Status::bad;
  Tables const tables(opened->pack);
  auto start =
      begin_desk({"call", options.save, options.book, true}, tables, *opened, std::cin, session);
  auto const note = [&](Case const& patient) {
    return note_text(handover_note(tables, patient, Assessor(tables).assess(patient), *setting),
                     session.look);
  };
  if (start.looked_at) session.out << note(*start.looked_at);
  if (!start.desk) return start.status;
  auto const& desk = *start.desk;
  CallModel model(tables, desk.patient, desk.is_kept() ? Keeping::in_a_file : Keeping::in_memory,
                  now_or_fixed(), *setting, desk.earlier);
  if (auto const why = run_on_terminal(model, session.look, desk.keeper(tables.pack()))) {
    if (desk.call) (void)desk.call->end();
    session.err << fmt::format("flinch call: {}. {}\n", *why, line_by_line(options, "anywhere"));
    return Status::bad;
  }
  // A terminal that went away leaves what the next call can go on with; it holds nobody up.
  if (!model.state().is_over) {
    if (desk.call) (void)desk.call->end();
    return Status::fine;
  }
  session.out << note(model.state().patient);
  if (auto const& course = model.course())
    session.out << since_last_time_text(*course, *model.earlier().rung_back, tables.pack(),
                                        session.look);
  auto const status =
      end_desk(desk, model.state().patient, !model.state().unsaved.empty(), tables.pack(), session);
  if (desk.is_named && status == Status::fine)
    session.out << saved_text("call", options.save, {options.pack, options.practice}, "");
  return status;
}

CommandUse use_call() {
  auto const options = std::make_shared<CallOptions>();
  std::vector<Option> all = {{"--save",
                              &options->save,
                              "Keep the call in this case file, or go on with the one in it",
                              {.shown = "CASE", .is_path = true, .refusal = unnamed_file}},
                             practice_option(options->practice),
                             pack_option(options->pack)};
  for (auto& option : book_wish_options(options->book)) all.push_back(std::move(option));
  return {std::move(all),
          [options](Session const& session) { return call(*options, session); },
          {{"flinch call --save caller.yaml", "The telephone desk; every answer is kept at once"}}};
}

CommandUse use_ring() {
  auto const options = std::make_shared<CallOptions>();
  return {{{"call",
            &options->book.ring,
            "The number of the call that is rung back for",
            {.shown = "CALL", .is_required = true}},
           by_option(options->book.by),
           book_option(options->book.book),
           practice_option(options->practice),
           pack_option(options->pack)},
          [options](Session const& session) { return call(*options, session); },
          {},
          "Opens a call that asks first for what it had then, shown as \"was: ...\", and says "
          "whether it is better, the same or worse. Nothing said then is taken for said today."};
}

}  // namespace

Command const ring_part{"ring", "Ring back: asks first what tells whether it is worse", use_ring};

Command const call_command{
    "call", "On the telephone: tick signs in any order, see how soon at once", use_call};

}  // namespace flinch::cli
