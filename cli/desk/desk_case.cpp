#include "desk/desk_case.hpp"

#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <istream>
#include <ostream>
#include <sstream>

#include "files/case_source.hpp"
#include "files/clock.hpp"
#include "files/read_bytes.hpp"
#include "files/replace_file.hpp"
#include "flinch/assess/assessment.hpp"
#include "flinch/casefile/write_case.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/interview/answer_entry.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

bool is_there(std::string const& path) {
  return ::access(path.c_str(), F_OK) == 0 || errno != ENOENT;
}

// Whether it can be replaced, found out without touching what it holds.
std::optional<std::string> why_not_replaceable(std::string const& path) {
  std::error_code trouble;
  auto const whole = std::filesystem::weakly_canonical(path, trouble);
  auto const folder = trouble ? std::filesystem::path(path).parent_path() : whole.parent_path();
  if (::access(folder.empty() ? "." : folder.c_str(), W_OK | X_OK) != 0)
    return std::strerror(errno);
  return std::nullopt;
}

DeskStart refused(std::string const& path, std::string const& why, Session const& session) {
  session.err << fmt::format(
      "{}: error: cannot write this case file: {}\n"
      "  note: name a file in a folder that is there and that you may write to\n",
      inert(path), why);
  return {std::nullopt, Status::bad, {}};
}

DeskStart named(std::string const& save, SoundPack& opened, Session const& session) {
  auto const& pack = opened.pack;
  DeskCase desk;
  desk.is_named = true;
  // Before it is read: a pipe would wait for ever.
  if (auto const why = why_no_file(save)) return refused(save, *why, session);
  desk.journal = Journal::named(save);
  if (!desk.journal) {
    session.err << fmt::format(
        "{}: error: this case is open in another flinch; end that one first\n", inert(save));
    return {std::nullopt, Status::bad, {}};
  }
  auto const& path = desk.journal->path();
  std::optional<std::string> trouble;
  if (is_there(path)) {
    auto earlier = open_case(path, opened.sources, *pack, session.err);
    if (!earlier) return {std::nullopt, Status::bad, {}};
    desk.patient = std::move(earlier->patient);
    desk.goes_on = true;
    trouble = why_not_replaceable(path);
  } else {
    trouble = desk.journal->write(desk.patient, *pack);
  }
  if (trouble) return refused(save, *trouble, session);
  return {std::move(desk), Status::fine, {}};
}

std::string count_of_answers(Case const& patient) {
  auto const count = patient.answers.size() + patient.cannot_tell.size();
  return fmt::format("{} answer{}", count, count == 1 ? "" : "s");
}

// Which patient it was, and when.
std::string what_was_broken_off(Journal const& journal, Case const& patient, Tables const& tables) {
  auto out = patient.name;
  if (auto const facts = signalment_text(tables.pack(), Assessor(tables).assess(patient));
      !facts.empty())
    out += (out.empty() ? "" : ", ") + facts;
  out += (out.empty() ? "" : ", ") + count_of_answers(patient);
  struct stat file {};
  if (::stat(journal.path().c_str(), &file) == 0) out += ", " + clock_text(file.st_mtime);
  return out;
}

enum class Wish : unsigned char { go_on, throw_away, keep_for_later };

std::optional<Wish> wish_of_user(std::string const& question, std::istream& in,
                                 Session const& session) {
  Page page(session.look);
  page.paragraph(question);
  session.out << page.take();
  while (session.out << "> " << std::flush) {
    auto const typed = read_typed_line(in);
    if (!typed) break;
    auto const& line = *typed;
    if (line == "later" || line == "l") return Wish::keep_for_later;
    if (auto const yes = read_yes_or_no(line)) return *yes ? Wish::go_on : Wish::throw_away;
    session.out << "  Type yes, no or later.\n";
  }
  session.out << '\n';
  return std::nullopt;
}

DeskStart at_book(DeskBook book, BookWish const& wish, Tables const& tables, std::istream& in,
                  Session const& session) {
  auto const now = now_or_fixed();
  auto begun = begin_at_book(std::move(book), wish, tables, now, in, session);
  if (!begun.desk) return {std::nullopt, begun.status, std::move(begun.looked_at)};
  auto& at = *begun.desk;
  DeskCase desk;
  desk.patient = at.start.patient;
  desk.goes_on = at.start.call.has_value();
  desk.earlier.from_book = std::move(at.from_book);
  desk.earlier.visits = read_visits(at.visits, tables.pack());
  if (at.start.follows)
    desk.earlier.rung_back =
        with_those_before(desk.earlier.visits, *at.start.follows, tables.pack());
  if (auto& then = desk.earlier.rung_back)
    then->implied = implied_answers(Assessor(tables).assess(then->patient).knowledge);
  desk.call = std::make_unique<KeptCall>(std::move(at.book), at.start, tables, at.desk, now);
  return {std::move(desk), Status::fine, {}};
}

Status unsaved_case(std::string const& why, Case const& patient, Pack const& pack,
                    Session const& session) {
  session.err << fmt::format("NOT SAVED {}. The case, to be kept by hand:\n\n{}", why,
                             write_case(patient, pack));
  return Status::bad;
}

}  // namespace

CaseKeeper DeskCase::keeper(Pack const& pack) const {
  CaseKeeper out;
  if (call) {
    out.place = "the book";
    out.takes_letters = false;
    out.reminds = true;
    out.keep = [its_call = call.get()](Case const& now, std::vector<SignId> const& from_book) {
      auto kept = its_call->keep(now, from_book, now_or_fixed());
      return CaseKeeper::Kept{std::move(kept.trouble), std::move(kept.notice)};
    };
    return out;
  }
  out.place = inert(journal->path());
  out.keep = [its_journal = journal.get(), &pack](Case const& now, std::vector<SignId> const&) {
    return CaseKeeper::Kept{its_journal->write(now, pack).value_or(""), ""};
  };
  return out;
}

DeskStart begin_desk(DeskWish const& wish, Tables const& tables, SoundPack& opened,
                     std::istream& in, Session const& session) {
  bool const wants_book = !wish.book.book.empty() || !wish.book.call.empty();
  if (wants_book && (!wish.save.empty() || wish.book.none)) {
    session.err << fmt::format(
        "flinch: error: a call is kept in the book or {}, not both: leave one of these options "
        "out\n",
        wish.save.empty() ? "in none (--no-book)" : "in a case file (--save)");
    return {std::nullopt, Status::bad, {}};
  }
  if (!wish.save.empty()) return named(wish.save, opened, session);
  if (auto book = desk_book(wish.book, wish.is_terminal ? Talks::yes : Talks::no))
    return at_book(std::move(*book), wish.book, tables, in, session);
  DeskCase desk;
  desk.journal = std::make_unique<Journal>();
  if (!wish.is_terminal) return {std::move(desk), Status::fine, {}};
  std::optional<Case> earlier;
  // What another pack has begun stays for that one.
  desk.journal = Journal::recovery(wish.desk, [&](std::string const& path) {
    SourceSet sources;
    std::ostringstream unheard;
    auto found = open_case(path, sources, tables.pack(), unheard);
    if (found) earlier = std::move(found->patient);
    return found.has_value();
  });
  if (!earlier) return {std::move(desk), Status::fine, {}};
  auto const answer = wish_of_user(
      fmt::format(
          "{} was broken off: {}. Go on with it? (yes; no, and its answers are thrown away; "
          "later, and they are kept while you begin anew)",
          wish.desk == "ask" ? "An interview" : "A call",
          what_was_broken_off(*desk.journal, *earlier, tables)),
      in, session);
  if (!answer) return {std::nullopt, Status::fine, {}};
  switch (*answer) {
    case Wish::go_on:
      desk.patient = std::move(*earlier);
      desk.goes_on = true;
      break;
    case Wish::throw_away:
      desk.journal->remove();
      break;
    case Wish::keep_for_later:
      desk.journal = Journal::recovery(wish.desk, [](std::string const&) { return false; });
      break;
  }
  return {std::move(desk), Status::fine, {}};
}

Status end_desk(DeskCase const& desk, Case const& patient, bool unsaved, Pack const& pack,
                Session const& session) {
  if (desk.call) {
    auto const trouble = desk.call->keep(patient, {}, now_or_fixed()).trouble;
    if (!trouble.empty()) return unsaved_case(trouble, patient, pack, session);
    Page page(session.look);
    page.paragraph(desk.call->end(), 0);
    session.out << '\n' << page.take();
    return Status::fine;
  }
  if (!desk.is_named) {
    desk.journal->remove();
    return Status::fine;
  }
  auto const trouble = unsaved ? desk.journal->write(patient, pack) : std::nullopt;
  if (!trouble) return Status::fine;
  return unsaved_case(fmt::format("in {}: {}", inert(desk.journal->path()), *trouble), patient,
                      pack, session);
}

std::string saved_text(std::string_view desk, std::string const& save, GoesOnWith const& on,
                       std::string const& reader) {
  std::vector<std::string> arguments = {"--save", save};
  if (!reader.empty()) arguments.insert(arguments.end(), {"--for", reader});
  return fmt::format("\nSaved in {}. To go on: {}\n", inert(save),
                     named_command(desk, arguments, on));
}

}  // namespace flinch::cli
