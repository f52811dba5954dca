// A desk that keeps calls in a book, answer by answer, as `flinch ask` and `flinch call` do: for
// the tests that need several desks or kill one.
//
//   book_desk begin BOOK N
//     N new calls; their numbers
//   book_desk write BOOK CALLS WHO DESK N
//     goes on with each of these calls (commas between them) and saves N answers in it, one a save:
//     numbers, each one more than the last that stands there; WHO is 0 to 7, one of eight signs;
//     prints CALL:DESK-ANSWER once it is on the disk
//   book_desk list BOOK CALLS
//     CALL:DESK-ANSWER of every entry of these calls
#include <fmt/format.h>

#include <cstdio>
#include <ctime>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>

#include "book/call_case.hpp"
#include "book/kept_call.hpp"
#include "book/limping_pack.hpp"

namespace {

using flinch::cli::Book;
using flinch::cli::BookPlace;
using flinch::cli::CallId;

constexpr int desks = 8;
constexpr int most_of_a_sign = 1000000;

// Each desk has a sign of its own, so that every entry tells whose it is.
std::shared_ptr<flinch::Pack const> pack_of_desks() {
  std::string signs;
  for (int i = 0; i < desks; ++i)
    signs += fmt::format(
        "sign desk{}\n  ask \"How many?\"\n  answer number in per minute from 0 to {}\n"
        "  seen by anyone\n",
        i, most_of_a_sign);
  return flinch::test::limping_pack(signs);
}

std::vector<CallId> calls_in(std::string const& list) {
  std::vector<CallId> out;
  std::istringstream in(list);
  for (std::string one; std::getline(in, one, ',');) out.push_back(CallId{std::stoll(one)});
  return out;
}

int begin(BookPlace const& place, int count) {
  Book book(place, Book::Missing::is_made);
  flinch::cli::NewCall call;
  call.entry = {std::time(nullptr), "test", R"({"name": "Moss", "answers": {}})"};
  for (int i = 0; i < count; ++i) std::printf("%lld\n", number(*book.begin(call)));
  return 0;
}

int write(BookPlace const& place, std::vector<CallId> const& calls, int who,
          std::string const& desk, int count) {
  auto const pack = pack_of_desks();
  flinch::Tables const tables(pack);
  auto const sign = *pack->find_sign(fmt::format("desk{}", who));
  for (auto const call : calls) {
    flinch::cli::DeskBook book{place, std::make_unique<Book>(place, Book::Missing::is_trouble), ""};
    flinch::cli::CallStart start;
    start.call = book.book->call(call);
    start.patient = flinch::cli::CallReader(*pack).read(*start.call)->patient;
    auto patient = start.patient;
    // What stands there already is nothing to save.
    int last = 0;
    for (auto const& [answered, answer] : patient.answers)
      if (answered == sign) last = static_cast<int>(std::get<double>(answer));
    flinch::cli::KeptCall kept(std::move(book), start, tables, flinch::cli::DeskName::here(desk),
                               std::time(nullptr));
    for (int i = last + 1; i <= last + count; ++i) {
      std::erase_if(patient.answers, [&](auto const& one) { return one.first == sign; });
      patient.answers.emplace_back(sign, static_cast<double>(i));
      auto const result = kept.keep(patient, {}, std::time(nullptr));
      if (!result.trouble.empty() || !kept.waits_in().empty()) {
        std::fprintf(stderr, "%s %s\n", result.trouble.c_str(), result.notice.c_str());
        return 2;
      }
      std::printf("%lld:%s-%d\n", number(call), desk.c_str(), i);
      std::fflush(stdout);
    }
    (void)kept.end();
  }
  return 0;
}

int list(BookPlace const& place, std::vector<CallId> const& calls) {
  Book book(place, Book::Missing::is_trouble);
  for (auto const call : calls)
    for (auto const& entry : book.history(call)) {
      auto const changes = nlohmann::json::parse(entry.changes);
      if (!changes.contains("answers")) continue;
      for (auto const& [sign, value] : changes["answers"].items()) {
        // "17 per minute"
        auto const text = value.is_string() ? value.get<std::string>() : value.dump();
        std::printf("%lld:%s-%s\n", number(call), entry.said_by.c_str(),
                    text.substr(0, text.find(' ')).c_str());
      }
    }
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 4) return 2;
  try {
    std::string const what = argv[1];
    auto const place = flinch::cli::book_place(argv[2]);
    if (what == "begin") return begin(place, std::stoi(argv[3]));
    if (what == "list") return list(place, calls_in(argv[3]));
    return write(place, calls_in(argv[3]), std::stoi(argv[4]), argv[5], std::stoi(argv[6]));
  } catch (std::exception const& trouble) {
    std::fprintf(stderr, "%s\n", trouble.what());
    return 2;
  }
}
