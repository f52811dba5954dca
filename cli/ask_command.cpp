// `flinch ask`
#include <fmt/format.h>
#include <unistd.h>

#include <ctime>
#include <filesystem>
#include <iostream>

#include "ask/ask_journal.hpp"
#include "ask/ask_session.hpp"
#include "call/ring_back.hpp"
#include "commands.hpp"
#include "flinch/casefile/read_case.hpp"
#include "flinch/text/display.hpp"
#include "pack_source.hpp"
#include "replace_file.hpp"

namespace flinch::cli {
namespace {

Date today() {
  auto const now = now_or_fixed();
  std::tm parts{};
  localtime_r(&now, &parts);
  return {parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday};
}

Audience audience_of(std::string const& name) {
  return name == "nurse"       ? Audience::nurse
         : name == "handler"   ? Audience::handler
         : name == "clinician" ? Audience::clinician
                               : Audience::keeper;
}

/// The case in a file: none when there is no such file.
struct Earlier {
  bool is_there = false;
  std::optional<Case> dog;
  std::string messages;
};

Earlier read_earlier(std::string const& path, OpenedPack& opened) {
  Earlier out;
  std::error_code trouble;
  out.is_there = !path.empty() && std::filesystem::exists(path, trouble);
  if (!out.is_there) return out;
  auto bytes = read_file(path);
  if (!bytes) {
    out.messages = fmt::format("{}: error: cannot read this case file\n", inert(path));
    return out;
  }
  auto const file = opened.sources.add(path, std::move(*bytes));
  auto read = read_case(opened.sources, file, **opened.outcome.value);
  out.messages = render(read.diagnostics, opened.sources);
  out.dog = std::move(read.value);
  return out;
}

std::string count_of_answers(Case const& dog) {
  auto const count = dog.answers.size() + dog.cannot_tell.size();
  return fmt::format("{} answer{}", count, count == 1 ? "" : "s");
}

Status refuse_to_save(std::string const& path, std::string const& why, Session const& session) {
  session.err << fmt::format("{}: error: cannot write this case file: {}\n", inert(path), why);
  return Status::bad;
}

}  // namespace

Status ask(AskOptions const& options, Session const& session) {
  auto opened = open_pack(options.pack);
  if (!opened.outcome) {
    session.err << render(opened.outcome.diagnostics, opened.sources);
    return Status::bad;
  }
  auto const& pack = *opened.outcome.value;
  Tables const tables(pack);
  bool const is_terminal = isatty(STDIN_FILENO) == 1;
  bool const is_named = !options.save.empty();
  // Before it is read: a pipe would wait for ever.
  if (is_named)
    if (auto const why = why_no_file(options.save))
      return refuse_to_save(options.save, *why, session);
  // Through a pipe the next start could not be asked whether to go on.
  auto journal = is_named      ? std::make_unique<Journal>(options.save)
                 : is_terminal ? Journal::recovery()
                               : std::make_unique<Journal>("");
  auto earlier = read_earlier(journal->path(), opened);
  if (is_named && earlier.is_there && !earlier.dog) {
    session.err << earlier.messages;
    return Status::bad;
  }

  AskSession interview(tables, audience_of(options.audience), *journal, today(), std::cin,
                       is_terminal ? Echo::by_terminal : Echo::by_us, session);
  Page opening(session.look);
  opening.paragraph(
      "Flinch asks about one dog that may be in pain, and says how soon a vet should see it. It "
      "does "
      "not diagnose: a licensed veterinarian and local rules decide.",
      0);
  session.out << opening.take();
  Case dog;
  if (is_named && earlier.dog) {
    dog = std::move(*earlier.dog);
    session.out << fmt::format("Going on with {}, after {}.\n", inert(options.save),
                               count_of_answers(dog));
  } else if (earlier.dog) {
    auto const goes_on = interview.confirm(
        fmt::format("An interview was broken off after {}. Go on with it? (yes or no)",
                    count_of_answers(*earlier.dog)));
    if (!goes_on) return Status::fine;
    if (*goes_on) dog = std::move(*earlier.dog);
  }
  if (auto const trouble = journal->write(dog, *pack); trouble && is_named)
    return refuse_to_save(options.save, *trouble, session);
  interview.run(std::move(dog));
  journal->close();
  return Status::fine;
}

}  // namespace flinch::cli
