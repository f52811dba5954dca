// `flinch ask`
#include "ask/ask_command.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <ctime>
#include <iostream>
#include <memory>

#include "ask/ask_session.hpp"
#include "assess/assess_text.hpp"
#include "desk/desk_case.hpp"
#include "files/clock.hpp"
#include "files/pack_source.hpp"
#include "files/practice_source.hpp"
#include "flinch/text/display.hpp"
#include "look/reader_name.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

struct AskOptions {
  std::string pack;
  std::string practice;           ///< its file; empty: the user's own, if there is one
  std::string reader = "keeper";  ///< keeper, nurse, handler or clinician
  std::string save;               ///< the case file to write and to go on from; empty: none
  BookWish book;
};

Date today() {
  auto const now = now_or_fixed();
  std::tm parts{};
  localtime_r(&now, &parts);
  return {parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday};
}

Status ask(AskOptions const& options, Session const& session) {
  auto setting = open_setting(options.practice, session.err);
  if (!setting) return Status::bad;
  auto opened = open_sound_pack(options.pack, session.err);
  if (!opened) return Status::bad;
  auto const& pack = opened->pack;
  Tables const tables(pack);
  bool const is_terminal = isatty(STDIN_FILENO) == 1;
  // Through a pipe the next start could not be asked whether to go on.
  auto start = begin_desk({"ask", options.save, options.book, is_terminal}, tables, *opened,
                          std::cin, session);
  if (start.looked_at)
    session.out << assessment_text(tables, *start.looked_at,
                                   Assessor(tables).assess(*start.looked_at), {}, session.look);
  if (!start.desk) return start.status;
  auto const& desk = *start.desk;
  Page opening(session.look);
  opening.paragraph(
      "Flinch asks about one patient that may be in pain, and says how soon a vet should see it. "
      "It "
      "does not diagnose: a licensed veterinarian and local rules decide.",
      0);
  opening.paragraph(
      "Collapsed, fighting for breath, or bleeding hard? Telephone a vet now: the questions can "
      "wait.",
      0);
  session.out << opening.take();
  if (desk.is_kept() && desk.goes_on) {
    auto const count = desk.patient.answers.size() + desk.patient.cannot_tell.size();
    session.out << fmt::format("Going on with {}, after {} answer{}.\n",
                               desk.is_named ? inert(options.save) : "this call", count,
                               count == 1 ? "" : "s");
  }
  Session const here{session.out, session.err, session.look, std::move(*setting)};
  AskSession interview(tables, reader_named(options.reader), desk.keeper(*pack), today(), std::cin,
                       is_terminal ? Echo::by_terminal : Echo::by_us, here, desk.earlier);
  auto const ended = interview.run(desk.patient);
  auto const status = end_desk(desk, ended.patient, !ended.is_saved, *pack, session);
  if (desk.is_named && status == Status::fine)
    session.out << saved_text("ask", options.save, {options.pack, options.practice},
                              options.reader == AskOptions{}.reader ? "" : options.reader);
  return status;
}

CommandUse use_ask() {
  auto const options = std::make_shared<AskOptions>();
  std::vector<Option> all = {
      {"--for",
       &options->reader,
       "Who answers, and so what can be asked",
       {.shown = "WHO", .choices = {"keeper", "nurse", "handler", "clinician"}}},
      {"--save",
       &options->save,
       "Case file: written after every answer, gone on with when it is there",
       {.shown = "CASE", .is_path = true, .refusal = unnamed_file}},
      practice_option(options->practice),
      pack_option(options->pack)};
  for (auto& option : book_wish_options(options->book)) all.push_back(std::move(option));
  return {std::move(all),
          [options](Session const& session) { return ask(*options, session); },
          {{"flinch ask --save case.yaml",
            "Question by question; broken off, it goes on from the file"},
           {"flinch ask --for nurse", "What a nurse can tell by hand and eye is asked too"}}};
}

}  // namespace

Command const ask_command{"ask", "Ask questions, one at a time, and assess the patient", use_ask};

}  // namespace flinch::cli
