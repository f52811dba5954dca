// `flinch book backup` and `restore`: a book in one file, and back.
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <ostream>

#include "book/book_parts.hpp"
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

// A book that is not whole yet, under a name that nobody had; gone unless it was put in its place.
class Part {
 public:
  explicit Part(std::string const& file) : made_(create_beside(file, 0600)) {
    if (made_.file >= 0) ::close(made_.file);
  }
  Part(Part const&) = delete;
  Part& operator=(Part const&) = delete;
  ~Part() {
    if (is_made()) remove_book(made_.path);
  }
  [[nodiscard]] bool is_made() const { return made_.file >= 0; }
  [[nodiscard]] std::string const& path() const { return made_.path; }

 private:
  NewFile made_;
};

Status back_up(Book& book, std::string const& named, Session const& session) {
  auto const place = book_place(named);
  auto const refuse = [&](std::string const& why) {
    session.err << fmt::format("flinch: error: {}\n", why);
    return Status::bad;
  };
  auto const& file = place.location;
  if (place.is_server) return refuse("a backup is a file, and this is the address of a server");
  struct stat ignored {};
  if (::lstat(file.c_str(), &ignored) == 0)
    return refuse(fmt::format("{} is there already, and no backup is written over: name another",
                              place.shown));
  Part const part(file);
  if (!part.is_made())
    return refuse(fmt::format("cannot write {}: {}", place.shown, std::strerror(errno)));
  {
    Book copy(book_place(part.path()), Book::Missing::is_trouble);
    book.copy_into(copy);
  }
  if (std::rename(part.path().c_str(), file.c_str()) != 0)
    return refuse(fmt::format("cannot write {}: {}", place.shown, std::strerror(errno)));
  force_folder(file);
  session.out << fmt::format("{} is backed up in {}.\n", book.place().shown, place.shown);
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

}  // namespace

Command const backup_part{"backup", "Copy the book into a file", use_backup};
Command const restore_part{"restore", "Fill a new book from a backup", use_restore};

}  // namespace flinch::cli
