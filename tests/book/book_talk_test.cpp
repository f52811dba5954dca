// What a desk with a book offers at its start: never an old answer as one of today.
#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <sstream>

#include "book/book_parts.hpp"
#include "book/limping_pack.hpp"
#include "book/scratch_book.hpp"
#include "desk/book_desk.hpp"

namespace flinch::test {
namespace {

using cli::Book;
constexpr std::time_t day_s = 24 * 60 * 60;

std::shared_ptr<Pack const> const& pack() {
  static auto const its = limping_pack();
  return its;
}

// A run at this machine that is over.
std::string killed_desk() {
  auto const child = ::fork();
  if (child == 0) ::_exit(0);
  ::waitpid(child, nullptr, 0);
  auto desk = cli::DeskName::here("Kim");
  desk.process = child;
  return desk.text();
}

struct Begun {
  cli::BookDeskStart start;
  std::string shown;
};

Begun begun_at(ScratchBook const& scratch, cli::BookWish wish, std::time_t now,
               std::string const& typed) {
  cli::DeskBook book;
  book.place = scratch.place();
  book.book = std::make_unique<Book>(scratch.open());
  wish.by = "Kim";
  std::istringstream in(typed);
  std::ostringstream out;
  std::ostringstream err;
  auto start = cli::begin_at_book(std::move(book), wish, Tables(pack()), now, in, {out, err, {}});
  return {std::move(start), out.str() + err.str()};
}

cli::CallId old_call(Book& book) {
  return *book.begin(
      new_call(1000, R"({"name": "Bram", "call back": "0142", "answers": {"limping": "no"}})"));
}

TEST(BookTalk, ARingBackThatWasKilledOffersItselfAndNotTheOldVisit) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const old = old_call(book);
  auto const killed = killed_desk();
  (void)book.hold(old, killed, 30 * day_s, Book::TakeOver::no);
  auto again = new_call(30 * day_s + 9, R"({"answers": {"limping": "yes"}})");
  again.follows = old;
  again.patient = book.call(old)->patient;
  auto const later = *book.begin(again);
  (void)book.hold(later, killed, 30 * day_s + 9, Book::TakeOver::no);
  auto const found = begun_at(scratch, {}, 30 * day_s + 60, "yes\n");
  ASSERT_TRUE(found.start.desk) << found.shown;
  EXPECT_EQ(found.start.desk->start.call->call, later);
  EXPECT_EQ(found.start.desk->start.follows, old) << "it still is compared with";
  EXPECT_FALSE(book.holder(old));
}

TEST(BookTalk, ARingBackInWhichNothingWasSaidOffersNothing) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const old = old_call(book);
  (void)book.hold(old, killed_desk(), 1500, Book::TakeOver::no);
  auto const found = begun_at(scratch, {}, 1600, "\n");
  ASSERT_TRUE(found.start.desk) << found.shown;
  EXPECT_FALSE(found.start.desk->start.call);
  EXPECT_FALSE(book.holder(old));
}

TEST(BookTalk, AnOlderCallIsNotGoneOnWithUnasked) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const old = old_call(book);
  cli::BookWish wish;
  wish.call = std::to_string(number(old));
  auto const anew = begun_at(scratch, wish, 30 * day_s, "\n");
  ASSERT_TRUE(anew.start.desk) << anew.shown;
  EXPECT_NE(anew.shown.find("1970-01-01"), std::string::npos) << anew.shown;
  EXPECT_FALSE(anew.start.desk->start.call);
  EXPECT_TRUE(anew.start.desk->start.patient.answers.empty()) << "its no is not today's";
  EXPECT_EQ(anew.start.desk->start.of, book.call(old)->patient);
  auto const rung = begun_at(scratch, wish, 30 * day_s, "ring\n");
  ASSERT_TRUE(rung.start.desk);
  EXPECT_EQ(rung.start.desk->start.follows, old);
  book.release(old, rung.start.desk->desk.text());
  auto const on = begun_at(scratch, wish, 30 * day_s, "what\non\n");
  ASSERT_TRUE(on.start.desk);
  EXPECT_EQ(on.start.desk->start.patient.answers.size(), 1U);
  EXPECT_FALSE(begun_at(scratch, wish, 30 * day_s, "").start.desk);
}

TEST(BookTalk, ACallOfTodayIsAskedOfOnlyWhenItIsClosed) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const old = old_call(book);
  cli::BookWish wish;
  wish.call = std::to_string(number(old));
  auto const open = begun_at(scratch, wish, 2000, "");
  ASSERT_TRUE(open.start.desk) << open.shown;
  EXPECT_TRUE(open.start.desk->start.call);
  book.close(old, {2000, "Dr Hale", R"({"outcome": {"cause": "sprain"}})"});
  auto const closed = begun_at(scratch, wish, 2100, "\n");
  ASSERT_TRUE(closed.start.desk);
  EXPECT_NE(closed.shown.find("closed"), std::string::npos) << closed.shown;
  EXPECT_FALSE(closed.start.desk->start.call);
}

TEST(BookTalk, WhoComesBackAfterAnHourIsAskedWhatItHadFirst) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const call = old_call(book);
  cli::BookWish wish;
  wish.call = std::to_string(number(call));
  auto const back = begun_at(scratch, wish, 1000 + 2 * 60 * 60, "\n");
  ASSERT_TRUE(back.start.desk) << back.shown;
  EXPECT_EQ(back.start.desk->start.follows, call);
  EXPECT_TRUE(back.start.desk->start.patient.answers.empty()) << "nothing of then is today's";
  book.release(call, back.start.desk->desk.text());
  auto const anew = begun_at(scratch, wish, 1000 + 2 * 60 * 60, "new\n");
  ASSERT_TRUE(anew.start.desk);
  EXPECT_FALSE(anew.start.desk->start.follows);
}

TEST(BookTalk, WhoIsFoundAndWaitsToBeRungBackIsRungBack) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const call = old_call(book);
  auto const before = begun_at(scratch, {}, 2 * day_s, "bram\n\n");
  ASSERT_TRUE(before.start.desk);
  EXPECT_FALSE(before.start.desk->start.follows) << "nothing was agreed";
  book.save(call, {1100, "Kim", "{}", {}, cli::RingBack{day_s}});
  auto const back = begun_at(scratch, {}, 2 * day_s, "bram\n\n");
  ASSERT_TRUE(back.start.desk) << back.shown;
  EXPECT_NE(back.shown.find("ring back for call 1"), std::string::npos) << back.shown;
  EXPECT_EQ(back.start.desk->start.follows, call);
  book.release(call, back.start.desk->desk.text());
  auto const fresh = begun_at(scratch, {}, 2 * day_s, "bram\nfresh\n");
  ASSERT_TRUE(fresh.start.desk);
  EXPECT_FALSE(fresh.start.desk->start.follows);
  EXPECT_EQ(fresh.start.desk->start.of, book.call(call)->patient);
  auto const named = begun_at(scratch, {}, 2 * day_s, "bram\nring 1\n");
  ASSERT_TRUE(named.start.desk);
  EXPECT_EQ(named.start.desk->start.follows, call);
}

TEST(BookTalk, NobodyIsCalledAsTheBookIs) {
  for (auto const* name : {"the book", "The Book", " the book, call 12"})
    EXPECT_NE(cli::no_name_of_a_person(name), "") << name;
  for (auto const* name : {"", "Kim", "the bookkeeper", "the book keeper"})
    EXPECT_EQ(cli::no_name_of_a_person(name), "") << name;
}

}  // namespace
}  // namespace flinch::test
