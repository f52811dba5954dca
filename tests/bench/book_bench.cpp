// What a desk waits for with a full day book. Run by hand:
//
//   book_bench BOOK [CALLS]      BOOK is a new file, or postgresql://... whose schema `flinch` it
//   removes first; with CALLS 0 the book that stands there is measured as it is (book_on_server.py
//   brings the one of a file to a server, which is sooner than to draw it again)
//
// The calls are drawn: a third as many patients, three entries a call, a tenth of them closed,
// 2,000 to be rung back.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <ctime>
#include <random>

#include "book/book.hpp"
#include "book/call_case.hpp"
#include "flinch/audit/audit.hpp"
#include "pack/shipped_pack.hpp"

namespace {

using namespace flinch;
using cli::Book;
using Clock = std::chrono::steady_clock;

constexpr std::time_t first_day = 1700000000;
constexpr std::time_t between_calls_s = 60;

double ms_since(Clock::time_point begun) {
  return std::chrono::duration<double, std::milli>(Clock::now() - begun).count();
}

std::string word(std::mt19937& random) {
  constexpr std::string_view consonants = "bcdfghklmnprstvw";
  constexpr std::string_view vowels = "aeiou";
  std::string out;
  for (int i = 0; i < 3; ++i) {
    out += consonants[random() % consonants.size()];
    out += vowels[random() % vowels.size()];
  }
  return out;
}

cli::NewCall drawn_call(std::mt19937& random, long long number, long long patients) {
  // The same dog has the same name and number each time it comes.
  auto const patient = static_cast<unsigned>(random() % static_cast<unsigned long>(patients));
  std::mt19937 of_patient(patient);
  cli::NewCall call;
  call.entry.saved = first_day + between_calls_s * number;
  call.entry.said_by = "bench";
  auto const yes_or_no = [&] { return random() % 2 == 0 ? "yes" : "no"; };
  call.entry.changes = fmt::format(
      R"({{"name": "{}", "caller": "{} {}", "call back": "0{:09}", "note": "drawn", "dog": {{"species": "dog",)"
      R"( "age": "{} years", "weight": "{} kg"}}, "answers": {{"lame": "{}", "vomiting": "{}", "trembling": "{}",)"
      R"( "pain_degree": "mild"}}{}}})",
      word(of_patient), word(of_patient), word(of_patient), of_patient() % 1000000000,
      1 + random() % 14, 3 + random() % 50, yes_or_no(), yes_or_no(), yes_or_no(),
      number % 10 == 0 ? R"(, "outcome": {"cause": "elbow_arthritis", "needed": "visit"})" : "");
  call.entry.tier = "visit";
  return call;
}

void fill(cli::BookPlace const& place, long long calls) {
  auto book = Book(place, Book::Missing::is_made);
  std::mt19937 random(1907);
  constexpr long long at_once = 20000;
  auto const begun = Clock::now();
  for (long long from = 0; from < calls; from += at_once) {
    std::vector<cli::NewCall> some;
    for (auto i = from; i < std::min(calls, from + at_once); ++i)
      some.push_back(drawn_call(random, i, std::max(1LL, calls / 3)));
    (void)book.take_in(some);
  }
  cli::Database database(place, cli::Database::Missing::is_trouble);
  for (int entry : {2, 3})
    database.run(fmt::format(
        "INSERT INTO event (call, number, saved, said_by, changes) SELECT id, {}, saved + {}, "
        "'bench', '{{\"answers\": {{\"lame\": \"yes\"}}}}' FROM call",
        entry, entry));
  database.run("UPDATE call SET events = 3");
  database.run(
      fmt::format("UPDATE call SET ring_back = begun + 900 WHERE closed IS NULL AND id % {} = 2",
                  std::max(1LL, calls / 2000)));
  database.run("ANALYZE");
  fmt::print("{} calls taken in in {:.0f} s\n", calls, ms_since(begun) / 1000);
}

// How many calls there are.
long long tell_size(cli::BookPlace const& place) {
  cli::Database database(place, cli::Database::Missing::is_trouble);
  auto const one = [&](std::string const& sql) { return cli::number(database.rows(sql, 1)[0][0]); };
  auto const calls = one("SELECT count(*) FROM call");
  auto const bytes = one(
      place.is_server ? "SELECT pg_database_size(current_database())"
                      : "SELECT page_count * page_size FROM pragma_page_count, pragma_page_size");
  fmt::print("{} calls of {} patients, {} entries: {:.0f} MB\n", calls,
             one("SELECT count(*) FROM patient"), one("SELECT count(*) FROM event"),
             static_cast<double>(bytes) / 1e6);
  return calls;
}

// On a busy machine the shortest is what the work takes, the rest is waiting for a turn.
template <class Work>
void measure(std::string const& what, int times, Work const& work) {
  std::vector<double> took;
  for (int i = 0; i < times; ++i) {
    auto const begun = Clock::now();
    work(i);
    took.push_back(ms_since(begun));
  }
  std::sort(took.begin(), took.end());
  fmt::print("{:<46} shortest {:8.2f} ms, median {:8.2f} ms, longest {:8.2f} ms, of {}\n", what,
             took.front(), took[took.size() / 2], took.back(), times);
}

void audit_closed(Book& book) {
  auto const begun = Clock::now();
  auto const processor = std::clock();
  auto const pack = test::shipped_pack();
  cli::CallReader reader(*pack);
  std::vector<NamedCase> cases;
  book.each_call({cli::Calls::Which::closed, {}, {}}, [&](cli::CallLine const& call) {
    if (auto read = reader.read(call)) cases.push_back({"", std::move(read->patient)});
  });
  auto const read_in = ms_since(begun);
  auto const result = audit(Tables(pack), cases);
  fmt::print("audit of {} closed calls: {:.1f} s, of which {:.1f} s reading; processor {:.1f} s\n",
             result.cases, ms_since(begun) / 1000, read_in / 1000,
             static_cast<double>(std::clock() - processor) / CLOCKS_PER_SEC);
}

}  // namespace

int main(int argc, char** argv) {
  std::setvbuf(stdout, nullptr, _IOLBF, 0);
  if (argc < 2) return 2;
  auto const place = cli::book_place(argv[1]);
  auto calls = argc > 2 ? std::stoll(argv[2]) : 1000000LL;
  if (calls > 0) {
    if (place.is_server)
      cli::Database(place, cli::Database::Missing::is_made)
          .run("DROP SCHEMA IF EXISTS flinch CASCADE");
    fill(place, calls);
  }
  Book book(place, Book::Missing::is_trouble);
  calls = tell_size(place);
  auto const now = first_day + between_calls_s * calls;
  measure("ring-backs due, 200 with what they are about", 21,
          [&](int) { (void)book.ring_backs(200); });
  measure("calls of the last day, 200", 21, [&](int) { (void)book.begun(now - 86400, now, 200); });
  measure("open of the last week, 200", 21,
          [&](int) { (void)book.open(now - 7 * 86400, now, 200); });
  for (auto const* typed : {"b", "ba", "bam", "bamo", "b k", "ba ki", "ba zz", "bam kit", "055",
                            "0551", "42", "0142", "ba 042", "ba 0423"})
    measure(fmt::format("a patient by `{}`", typed), 11, [&](int) { (void)book.find(typed, 20); });
  measure("a save, forced to the disk", 201, [&](int i) {
    book.save(cli::CallId{1 + i}, {now, "bench", R"({"answers": {"trembling": "yes"}})"});
  });
  audit_closed(book);
  return 0;
}
