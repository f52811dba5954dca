// A desk that saves in a book, for tests that need several desks or kill one.
//
//   book_desk begin BOOK              a new call; its number
//   book_desk write BOOK CALL DESK N  saves the answers DESK-0 to DESK-(N-1), one a save; prints
//                                     each once it is confirmed
//   book_desk list BOOK CALL          the changes of each entry, one a line
#include <cstdio>
#include <ctime>
#include <string>

#include "book/book.hpp"

namespace {

using flinch::cli::Book;
using flinch::cli::CallId;

int begin(Book& book) {
  flinch::cli::NewCall call;
  call.entry = {std::time(nullptr), "test", R"({"name": "Moss", "answers": {}})"};
  std::printf("%lld\n", number(*book.begin(call)));
  return 0;
}

int write(Book& book, CallId call, std::string const& desk, int count) {
  for (int i = 0; i < count; ++i) {
    auto const answer = desk + "-" + std::to_string(i);
    book.save(call, {std::time(nullptr), desk, R"({"answers": {")" + answer + R"(": "yes"}})"});
    std::printf("%s\n", answer.c_str());
    std::fflush(stdout);
  }
  return 0;
}

int list(Book& book, CallId call) {
  for (auto const& entry : book.history(call)) std::printf("%s\n", entry.changes.c_str());
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 3) return 2;
  try {
    std::string const what = argv[1];
    Book book(flinch::cli::book_place(argv[2]), Book::Missing::is_made);
    if (what == "begin") return begin(book);
    CallId const call{std::stoll(argv[3])};
    if (what == "list") return list(book, call);
    return write(book, call, argv[4], std::stoi(argv[5]));
  } catch (std::exception const& trouble) {
    std::fprintf(stderr, "%s\n", trouble.what());
    return 2;
  }
}
