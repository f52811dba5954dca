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

TEST(BookTalk, BookkeepingMakesNoOldAnswerNew) {
  auto const five_days = 5 * day_s;
  auto const anew_is_asked = [&](ScratchBook const& scratch, char const* what) {
    cli::BookWish wish;
    wish.call = "1";
    auto const begun = begun_at(scratch, wish, five_days + 60, "\n");
    ASSERT_TRUE(begun.start.desk) << what << begun.shown;
    EXPECT_NE(begun.shown.find("may be otherwise now"), std::string::npos) << what << begun.shown;
    EXPECT_FALSE(begun.start.desk->start.call) << what;
    EXPECT_TRUE(begun.start.desk->start.patient.answers.empty()) << what;
  };
  {
    ScratchBook scratch;
    auto book = scratch.open();
    auto const call = old_call(book);
    book.save(call, {five_days, "Kim", "{}", {}, cli::RingBack{}});
    anew_is_asked(scratch, "rung: ");
  }
  {
    ScratchBook scratch;
    auto book = scratch.open();
    auto const call = old_call(book);
    auto again = new_call(five_days, R"({"answers": {"limping": "yes"}})");
    again.follows = call;
    again.patient = book.call(call)->patient;
    (void)book.begin(again);
    anew_is_asked(scratch, "rung back for: ");
  }
  {
    ScratchBook scratch;
    auto book = scratch.open();
    auto file = new_call(1000, R"({"name": "Bram", "answers": {"limping": "no"}})");
    file.origin = "file";
    (void)book.take_in({file});
    file.entry = new_call(five_days, R"({"name": "Bram", "answers": {"limping": "yes"}})").entry;
    ASSERT_EQ(book.take_in({file}).changed, 1U);
    anew_is_asked(scratch, "taken in again: ");
  }
  // What somebody answered at a desk counts, what was only noted does not.
  ScratchBook scratch;
  auto book = scratch.open();
  auto const call = old_call(book);
  book.save(call, {five_days - 60, "Kim", R"({"note": "rang, nobody there"})"});
  anew_is_asked(scratch, "a note: ");
  book.save(call, {five_days, "Kim", R"({"answers": {"limping": "yes"}})"});
  cli::BookWish wish;
  wish.call = "1";
  EXPECT_TRUE(begun_at(scratch, wish, five_days + 60, "").start.desk->start.call);
}

TEST(BookTalk, WhoComesBackAtTheAgreedTimeIsNotGoneOnWithUnasked) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const call = old_call(book);
  book.save(call, {1001, "Kim", "{}", {}, cli::RingBack{1900}});
  cli::BookWish wish;
  wish.call = "1";
  auto const back = begun_at(scratch, wish, 1000 + 20 * 60, "\n");
  ASSERT_TRUE(back.start.desk) << back.shown;
  EXPECT_EQ(back.start.desk->start.follows, call) << back.shown;
  EXPECT_TRUE(back.start.desk->start.patient.answers.empty());
  book.release(call, back.start.desk->desk.text());
  auto const on = begun_at(scratch, wish, 1000 + 20 * 60, "on\n");
  EXPECT_EQ(on.start.desk->start.call->call, call);
  book.release(call, on.start.desk->desk.text());
  // It was broken off a moment ago: that it is gone on with was said already.
  (void)book.hold(call, killed_desk(), 1000, Book::TakeOver::no);
  EXPECT_TRUE(begun_at(scratch, {}, 1100, "yes\n").start.desk->start.call);
}

TEST(BookTalk, ATimeThatIsNoLongerDueIsNotAgreedAnyMore) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const call = old_call(book);
  book.save(call, {1001, "Kim", R"({"ring back at": "17:30"})", {}, cli::RingBack{1900}});
  cli::BookWish wish;
  wish.call = "1";
  auto const due = begun_at(scratch, wish, 1100, "on\n");
  EXPECT_EQ(due.start.desk->start.patient.ring_back_at, "17:30");
  book.release(call, due.start.desk->desk.text());
  book.save(call, {1100, "Kim", "{}", {}, cli::RingBack{}});
  auto again = begun_at(scratch, wish, 1200, "on\n");
  ASSERT_TRUE(again.start.desk) << again.shown;
  auto& desk = *again.start.desk;
  EXPECT_EQ(desk.start.patient.ring_back_at, "");
  Tables const tables(pack());
  cli::KeptCall kept(std::move(desk.book), desk.start, tables, desk.desk, 1200);
  auto patient = desk.start.patient;
  patient.ring_back_at = "17:30";
  ASSERT_EQ(kept.keep(patient, {}, 1200).trouble, "");
  EXPECT_TRUE(book.call(call)->ring_back) << "somebody is due again";
  (void)kept.end();
  book.save(call, {1300, "Kim", R"({"ring back at": "after lunch"})", {}, cli::RingBack{}});
  EXPECT_EQ(begun_at(scratch, wish, 1400, "on\n").start.desk->start.patient.ring_back_at,
            "after lunch")
      << "words that name no time were never due, and stay to be read";
}

TEST(BookTalk, TheLastOpenCallThatIsDueIsOfferedThoughItIsNotTheLatest) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const call = old_call(book);
  book.save(call, {1001, "Kim", "{}", {}, cli::RingBack{day_s}});
  auto other = new_call(1500, R"({"answers": {"limping": "yes"}})");
  other.patient = book.call(call)->patient;
  (void)book.begin(other);
  auto const back = begun_at(scratch, {}, 2 * day_s, "bram\n\n");
  ASSERT_TRUE(back.start.desk) << back.shown;
  EXPECT_EQ(back.start.desk->start.follows, call) << back.shown;
}

TEST(BookTalk, NewLeavesTheCallThatItIsNotAbout) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const call = old_call(book);
  (void)book.hold(call, killed_desk(), 1000, Book::TakeOver::no);
  auto const anew = begun_at(scratch, {}, 2 * day_s, "yes\nnew\n");
  ASSERT_TRUE(anew.start.desk) << anew.shown;
  EXPECT_FALSE(anew.start.desk->start.call);
  EXPECT_FALSE(book.holder(call)) << "nobody has it open";
}

TEST(BookTalk, NobodyIsCalledAsTheBookIs) {
  for (auto const* name : {"the book", "The Book", " the book, call 12"})
    EXPECT_NE(cli::no_name_of_a_person(name), "") << name;
  for (auto const* name : {"", "Kim", "the bookkeeper", "the book keeper"})
    EXPECT_EQ(cli::no_name_of_a_person(name), "") << name;
}

}  // namespace
}  // namespace flinch::test
