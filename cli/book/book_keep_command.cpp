// `flinch book backup`, `restore` and `forget`: what is kept of a book, and what is not.
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <ostream>

#include "book/book_parts.hpp"
#include "files/clock.hpp"
#include "files/replace_file.hpp"
#include "flinch/text/display.hpp"
#include "options.hpp"

namespace flinch::cli {
namespace {

struct KeepOptions {
  std::string file;
  std::string book;
};

// A book in a file, with what SQLite keeps beside it.
void remove_book(std::string const& file) {
  for (auto const* end : {"", "-wal", "-shm", "-journal"}) ::unlink((file + end).c_str());
}

// Beside its place under another name until it is whole.
Status back_up(Book& book, std::string const& file, Session const& session) {
  auto const part = file + ".part";
  if (::access(file.c_str(), F_OK) == 0) {
    session.err << fmt::format(
        "flinch: error: {} is there already, and no backup is written over: name another\n",
        inert(file));
    return Status::bad;
  }
  remove_book(part);
  try {
    Book copy(book_place(part), Book::Missing::is_made);
    book.copy_into(copy);
  } catch (BookTrouble const&) {
    remove_book(part);
    throw;
  }
  if (std::rename(part.c_str(), file.c_str()) != 0) {
    session.err << fmt::format("flinch: error: cannot write {}: {}\n", inert(file),
                               std::strerror(errno));
    return Status::bad;
  }
  force_folder(file);
  session.out << fmt::format("{} is backed up in {}.\n", book.place().shown, inert(file));
  return Status::fine;
}

CommandUse use_backup() {
  auto const options = std::make_shared<KeepOptions>();
  return {{{"file",
            &options->file,
            "The file to write; it must not be there yet",
            {.shown = "FILE", .is_path = true, .is_required = true, .refusal = unnamed_file}},
           book_option(options->book)},
          [options](Session const& session) {
            return with_book(options->book, Book::Missing::is_trouble, session,
                             [&](Book& book) { return back_up(book, options->file, session); });
          },
          {},
          "The copy is a book in one file, whatever the book itself is, and may be taken while "
          "others work. It holds all names and numbers."};
}

CommandUse use_restore() {
  auto const options = std::make_shared<KeepOptions>();
  return {{{"file",
            &options->file,
            "A backup",
            {.shown = "FILE", .is_path = true, .is_required = true, .refusal = unnamed_file}},
           book_option(options->book)},
          [options](Session const& session) {
            return with_book(options->file, Book::Missing::is_trouble, session, [&](Book& backup) {
              Book book(book_place(options->book), Book::Missing::is_made);
              backup.copy_into(book);
              session.out << fmt::format("{} now holds what was in {}.\n", book.place().shown,
                                         inert(options->file));
              return Status::fine;
            });
          },
          {},
          "The book must hold no call. So a file's calls are also brought to a server."};
}

struct ForgetOptions {
  std::vector<std::string> words;
  double years = 0;
  std::string book;
};

std::string forgotten_text(Forgotten const& forgotten) {
  return fmt::format(
      "Forgotten: {}, {}, what {} said in words. The medical entries stay. Backups "
      "still hold all of it.\n",
      count_text(forgotten.clients, "client"), count_text(forgotten.dogs, "dog"),
      count_text(forgotten.calls, "call"));
}

Status forget_client(Book& book, std::string const& words, Session const& session) {
  constexpr std::size_t most = 20;
  auto const dogs = book.find(words, most);
  if (dogs.empty()) {
    session.out << "No client of this name or number is in the book.\n";
    return Status::no;
  }
  for (auto const& dog : dogs)
    if (dog.client != dogs.front().client) {
      session.out << "Several clients fit, and none was forgotten. Say more of one:\n";
      for (auto const& one : dogs) session.out << fmt::format("  {}\n", who_text(one));
      return Status::no;
    }
  session.out << forgotten_text(book.forget(dogs.front().client));
  return Status::fine;
}

Status forget(ForgetOptions const& options, Session const& session) {
  if (options.words.empty() == (options.years == 0)) {
    session.err << "flinch: error: name a client, or --older-than YEARS\n";
    return Status::bad;
  }
  return with_book(options.book, Book::Missing::is_trouble, session, [&](Book& book) {
    if (!options.words.empty())
      return forget_client(book, fmt::format("{}", fmt::join(options.words, " ")), session);
    constexpr double year_s = 365.25 * 24 * 60 * 60;
    auto const before = now_or_fixed() - static_cast<std::time_t>(options.years * year_s);
    session.out << forgotten_text(book.forget_before(before));
    return Status::fine;
  });
}

CommandUse use_forget() {
  auto const options = std::make_shared<ForgetOptions>();
  return {{{"client",
            &options->words,
            "Beginnings of the client's or a dog's name, or digits of the number",
            {.shown = "CLIENT"}},
           {"--older-than",
            &options->years,
            "All names, numbers and notes of calls last saved so many years ago, or earlier",
            {.shown = "YEARS", .range = std::pair{0.001, 1000.0}}},
           book_option(options->book)},
          [options](Session const& session) { return forget(*options, session); },
          {},
          "What was answered about the dogs stays, without telling whose they were."};
}

}  // namespace

Command const backup_part{"backup", "Copy the book into a file", use_backup};
Command const restore_part{"restore", "Fill a new book from a backup", use_restore};
Command const forget_part{"forget", "Remove what tells who a client is, or all that is old",
                          use_forget};

}  // namespace flinch::cli
