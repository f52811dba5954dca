// `flinch book`: the practice's record of calls over time.
#include "book/book_command.hpp"

#include <fmt/format.h>
#include <pwd.h>
#include <unistd.h>

#include <charconv>
#include <cstdlib>
#include <ostream>

#include "book/book_parts.hpp"
#include "book/search_words.hpp"
#include "files/clock.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {

Option book_option(std::string& book) {
  return {"--book",
          &book,
          "The book: a file, or postgresql://... ($FLINCH_BOOK or the user's own otherwise)",
          {.shown = "BOOK", .is_path = true}};
}

std::string no_name_of_a_person(std::string const& by) {
  auto const words = words_in(by);
  bool const is_the_book = words.size() >= 2 && words[0] == "the" && words[1] == "book" &&
                           (words.size() == 2 || words[2] == "call");
  return is_the_book ? "the book's own entries stand under this name: name a person or a desk" : "";
}

Option by_option(std::string& by) {
  return {"--by",
          &by,
          "Who does it (the user's name otherwise)",
          {.shown = "WHO", .refusal = no_name_of_a_person}};
}

std::string who_does_it(std::string const& by) {
  if (!by.empty()) return by;
  auto const* user = ::getpwuid(::geteuid());
  return user == nullptr ? "unknown" : user->pw_name;
}

Status with_book(std::string const& named, Book::Missing missing, Session const& session,
                 std::function<Status(Book&)> const& work) {
  try {
    Book book(book_place(named), missing);
    if (!book.is_private())
      session.err << fmt::format(
          "flinch: warning: others than its owner may read {}: chmod go= it, or keep it "
          "elsewhere\n",
          book.place().shown);
    return work(book);
  } catch (BookTrouble const& trouble) {
    session.err << fmt::format("flinch: error: {}\n", trouble.what());
    return Status::bad;
  }
}

std::optional<CallLine> call_numbered(Book& book, std::string const& text, Session const& session) {
  long long value = 0;
  auto const* const end = text.data() + text.size();
  auto const [read_to, error] = std::from_chars(text.data(), end, value);
  if (error == std::errc{} && read_to == end && value > 0)
    if (auto found = book.call(CallId{value})) return found;
  session.err << fmt::format(
      "flinch: error: there is no call `{}` in {}\n  note: calls are named by their number, which "
      "every list shows\n",
      inert(text), book.place().shown);
  return std::nullopt;
}

std::string unreadable_call(CallLine const& call) {
  return fmt::format(
      "flinch: error: this pack cannot read the answers of call {}\n  note: name its pack with "
      "--pack\n",
      number(call.call));
}

std::optional<std::time_t> day_of(std::string const& text) {
  std::tm day{};
  auto const* const end = ::strptime(text.c_str(), "%Y-%m-%d", &day);
  if (end == nullptr || *end != '\0' || text.size() != 10) return std::nullopt;
  day.tm_isdst = -1;
  auto const asked = day.tm_mday;
  auto const out = std::mktime(&day);
  return day.tm_mday == asked ? std::optional(out) : std::nullopt;
}

std::string no_day(std::string const& text) {
  return text.empty() || day_of(text) ? "" : "a day is expected, such as 2026-11-25";
}

Command const book_command{
    "book", "The day book: calls over time, ring-backs due, one patient's visits, outcomes", [] {
      return CommandUse{{},
                        {},
                        {{"flinch book import closed --book day.db", "Take case files into a book"},
                         {"flinch book patient sorrel --book day.db", "One patient over time"}},
                        "The book is kept on this machine for its owner alone, or on a server: "
                        "docs/book.md.",
                        {&due_part, &today_part, &open_part, &patient_part, &history_part,
                         &close_part, &rung_part, &ring_part, &import_part, &export_part,
                         &backup_part, &restore_part, &forget_part}};
    }};

}  // namespace flinch::cli
