// `flinch call` and `flinch handover`
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <ostream>

#include "call/call_model.hpp"
#include "call/call_terminal.hpp"
#include "call/handover.hpp"
#include "call/ring_back.hpp"
#include "commands.hpp"
#include "flinch/casefile/read_case.hpp"
#include "flinch/casefile/write_case.hpp"
#include "flinch/text/display.hpp"
#include "pack_source.hpp"
#include "replace_file.hpp"

namespace flinch::cli {
namespace {

// The case in the file; mistakes go to `err`.
std::optional<Case> case_in(std::string const& path, OpenedPack& opened, std::ostream& err) {
  auto bytes = read_file(path);
  if (!bytes) {
    err << fmt::format("{}: error: cannot read this case file\n", inert(path));
    return std::nullopt;
  }
  auto const file = opened.sources.add(path, std::move(*bytes));
  auto dog = read_case(opened.sources, file, **opened.outcome.value);
  err << render(dog.diagnostics, opened.sources);
  return std::move(dog.value);
}

std::string note_of(Tables const& tables, Case const& dog, Look const& look) {
  return note_text(handover_note(tables, dog, Assessor(tables).assess(dog)), look);
}

}  // namespace

Status call(CallOptions const& options, Session const& session) {
  if (isatty(STDIN_FILENO) == 0 || isatty(STDOUT_FILENO) == 0) {
    session.err << "flinch call needs a terminal for its input and its output. `flinch ask` works "
                   "line by line, also through a pipe.\n";
    return Status::bad;
  }
  auto opened = open_pack(options.pack);
  if (!opened.outcome) {
    session.err << render(opened.outcome.diagnostics, opened.sources);
    return Status::bad;
  }
  auto const& pack = *opened.outcome.value;
  Case dog;
  bool const is_kept = !options.save.empty();
  // Before it is read: a pipe would wait for ever.
  if (is_kept)
    if (auto const why = why_no_file(options.save)) {
      session.err << fmt::format("{}: error: cannot save here: {}\n", inert(options.save), *why);
      return Status::bad;
    }
  if (is_kept && (access(options.save.c_str(), F_OK) == 0 || errno != ENOENT)) {
    auto earlier = case_in(options.save, opened, session.err);
    if (!earlier) return Status::bad;
    dog = std::move(*earlier);
  }
  KeepCase const keep = [&](Case const& now) -> std::optional<std::string> {
    return is_kept ? replace_file(options.save, write_case(now, *pack)) : std::nullopt;
  };
  // A file that cannot be written is found out before the call, not after its first answer.
  if (auto const why = keep(dog)) {
    session.err << fmt::format("{}: error: cannot save here: {}\n", inert(options.save), *why);
    return Status::bad;
  }
  Tables const tables(pack);
  CallModel model(tables, std::move(dog), is_kept ? Keeping::in_a_file : Keeping::in_memory,
                  now_or_fixed());
  if (auto const why = run_on_terminal(model, session.look, keep)) {
    session.err << fmt::format("flinch call: {}. `flinch ask` works line by line anywhere.\n",
                               *why);
    return Status::bad;
  }
  session.out << note_of(tables, model.state().dog, session.look);
  if (is_kept)
    session.out << fmt::format("\nSaved in {0}. To go on: flinch call --save {0}\n",
                               inert(options.save));
  return Status::fine;
}

Status handover(HandoverOptions const& options, Session const& session) {
  auto opened = open_pack(options.pack);
  if (!opened.outcome) {
    session.err << render(opened.outcome.diagnostics, opened.sources);
    return Status::bad;
  }
  auto const dog = case_in(options.file, opened, session.err);
  if (!dog) return Status::bad;
  Tables const tables(*opened.outcome.value);
  if (options.markdown)
    session.out << note_markdown(handover_note(tables, *dog, Assessor(tables).assess(*dog)));
  else
    session.out << note_of(tables, *dog, session.look);
  return Status::fine;
}

}  // namespace flinch::cli
