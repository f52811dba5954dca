// What is saved is what is read, entry by entry.
#include "book/book.hpp"

#include <gtest/gtest.h>
#include <sys/stat.h>

#include <nlohmann/json.hpp>

#include "book/schema.hpp"
#include "book/scratch_book.hpp"

namespace flinch::test {
namespace {

using cli::Book;
using cli::BookTrouble;
using cli::CallId;
using nlohmann::json;

constexpr char const* bramble =
    R"({"name": "Bramble", "caller": "Jo Alder", "call back": "555 0142", "dog": {"age": "10 years"},
        "answers": {"lame": "yes", "tender": {"found": ["left elbow"]}}, "note": "slower"})";

TEST(Book, AnAnswerIsKeptWithWhoSaidItAndWhen) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const call = *book.begin(new_call(1000, bramble));
  book.save(call, {1060, "Kim", R"({"answers": {"vomiting": "no", "lame": null}})"});
  auto const history = book.history(call);
  ASSERT_EQ(history.size(), 2U);
  EXPECT_EQ(history[1].saved, 1060);
  EXPECT_EQ(history[1].said_by, "Kim");
  EXPECT_EQ(json::parse(history[1].changes),
            json::parse(R"({"answers": {"vomiting": "no", "lame": null}})"));
}

TEST(Book, TheCaseIsWhatItsEntriesSayTogether) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const call = *book.begin(new_call(1000, bramble));
  book.save(call, {1060, "Kim", R"({"answers": {"vomiting": "no", "lame": null}})"});
  book.save(call, {1070, "Kim", R"({"answers": {"tender": {"found": null, "clear": ["spine"]}}})"});
  auto const read = *scratch.open().call(call);
  EXPECT_EQ(json::parse(read.line), json::parse(R"({"dog": {"age": "10 years"},
                            "answers": {"tender": {"clear": ["spine"]}, "vomiting": "no"}})"));
  EXPECT_EQ(json::parse(read.words)["note"], "slower");
  EXPECT_EQ(read.begun, 1000);
  EXPECT_EQ(read.saved, 1070);
}

TEST(Book, TierAndRingBackStandInTheListsAndInTheHistory) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto begun = new_call(1000, bramble);
  begun.entry.tier = "today";
  begun.entry.ring_back = cli::RingBack{4600};
  auto const call = *book.begin(begun);
  EXPECT_EQ(book.call(call)->tier, "today");
  EXPECT_EQ(book.call(call)->ring_back, 4600);
  book.save(call, {1060, "Kim", "{}", "now", cli::RingBack{std::nullopt}});
  EXPECT_EQ(book.call(call)->tier, "now");
  EXPECT_EQ(book.call(call)->ring_back, std::nullopt);
  EXPECT_EQ(json::parse(book.history(call)[1].changes),
            json::parse(R"({"book": {"tier": "now", "ring back": null}})"));
  EXPECT_EQ(json::parse(book.call(call)->line).contains("book"), false);
}

TEST(Book, AClosedCallMayBeCorrectedAndKeepsBothOutcomes) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const call = *book.begin(new_call(1000, bramble));
  book.close(call,
             {2000, "Dr Hale", R"({"outcome": {"cause": "panosteitis", "needed": "visit"}})"});
  book.close(call, {3000, "Dr Hale", R"({"outcome": {"cause": "elbow_arthritis"}})"});
  EXPECT_EQ(book.call(call)->closed, 3000);
  EXPECT_EQ(json::parse(book.call(call)->line)["outcome"],
            json::parse(R"({"cause": "elbow_arthritis", "needed": "visit"})"));
  EXPECT_EQ(book.history(call).size(), 3U);
}

TEST(Book, ACallOfOneOriginIsTakenInOnce) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto call = new_call(1000, bramble);
  call.origin = "a file";
  EXPECT_TRUE(book.begin(call).has_value());
  EXPECT_FALSE(book.begin(call).has_value());
  EXPECT_EQ(book.take_in({call, new_call(1, "{}")}).begun, 1U);
}

TEST(Book, TheSameNameAtTheSameNumberIsTheSameDog) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const first = book.call(*book.begin(new_call(1000, bramble)))->patient;
  auto const patient_of = [&](char const* line) {
    return book.call(*book.begin(new_call(2000, line)))->patient;
  };
  EXPECT_EQ(patient_of(R"({"name": "BRAMBLE", "call back": "5550142"})"), first);
  EXPECT_NE(patient_of(R"({"name": "Bramble", "call back": "555 0143"})"), first);
  EXPECT_NE(patient_of(R"({"name": "Bramble", "caller": "Jo Alder"})"), first);
  auto const other = patient_of(R"({"name": "Tansy", "call back": "555-0142"})");
  EXPECT_NE(other, first);
  EXPECT_EQ(book.patient(other)->client, book.patient(first)->client);
}

TEST(Book, ADogThatIsNamedLateInACallIsFoundThen) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const first = book.call(*book.begin(new_call(1000, bramble)))->patient;
  auto const call = *book.begin(new_call(2000, R"({"answers": {"lame": "yes"}})"));
  EXPECT_NE(book.call(call)->patient, first);
  book.save(call, {2010, "Kim", R"({"name": "Bramble"})"});
  book.save(call, {2020, "Kim", R"({"call back": "555 0142"})"});
  EXPECT_EQ(book.call(call)->patient, first);
  EXPECT_EQ(book.visits(first).size(), 2U);
  EXPECT_EQ(book.find("bramble", 10).size(), 1U);
}

TEST(Book, TheSecondDeskIsToldWhoHasACall) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto other = scratch.open();
  auto const call = *book.begin(new_call(1000, bramble));
  EXPECT_EQ(book.hold(call, "front desk", 1000, Book::TakeOver::no), std::nullopt);
  EXPECT_EQ(book.hold(call, "front desk", 1001, Book::TakeOver::no), std::nullopt);
  EXPECT_EQ(other.hold(call, "back room", 1002, Book::TakeOver::no)->desk, "front desk");
  EXPECT_EQ(other.hold(call, "back room", 1003, Book::TakeOver::yes), std::nullopt);
  EXPECT_EQ(book.hold(call, "front desk", 1004, Book::TakeOver::no)->desk, "back room");
  book.release(call, "front desk");
  EXPECT_EQ(book.hold(call, "front desk", 1005, Book::TakeOver::no)->desk, "back room");
  other.release(call, "back room");
  EXPECT_EQ(book.hold(call, "front desk", 1006, Book::TakeOver::no), std::nullopt);
}

TEST(Book, WhatIsNotThereIsTrouble) {
  ScratchBook scratch;
  auto book = scratch.open();
  EXPECT_EQ(book.call(CallId{7}), std::nullopt);
  EXPECT_THROW(book.save(CallId{7}, {1, "Kim", "{}"}), BookTrouble);
  auto call = new_call(1, "{}");
  call.patient = cli::PatientId{7};
  EXPECT_THROW((void)book.begin(call), BookTrouble);
  EXPECT_THROW((void)book.begin(new_call(1, "no line")), BookTrouble);
}

TEST(Book, ALineThatCannotBeReadLeavesNothing) {
  ScratchBook scratch;
  auto book = scratch.open();
  EXPECT_THROW((void)book.take_in({new_call(1, bramble), new_call(2, "[]")}), BookTrouble);
  EXPECT_TRUE(book.begun(0, 100, 10).empty());
  EXPECT_TRUE(book.find("bramble", 10).empty());
}

TEST(Book, TextsOfEveryKindComeBack) {
  ScratchBook scratch;
  auto book = scratch.open();
  json said;
  said["name"] = std::string("'; DROP TABLE call; --\0\x1b[2J\n\"=1+1", 33);
  said["note"] = std::string(4U << 20U, 'x');
  said["caller"] = "\u00c9lan \u202e";
  auto const call = *book.begin(new_call(1000, said.dump()));
  EXPECT_EQ(json::parse(book.call(call)->words), said);
  EXPECT_LE(book.call(call)->patient_name.size(), 200U);
  EXPECT_EQ(book.call(call)->patient_name.find('\x1b'), std::string::npos);
  EXPECT_EQ(book.find("\u00e9lan", 10).size(), 1U);
}

TEST(Book, ItsFileIsForItsOwnerAlone) {
  ScratchBook scratch;
  if (scratch.place().is_server) GTEST_SKIP() << "a file is asked for";
  auto book = scratch.open();
  auto const call = *book.begin(new_call(1000, bramble));
  struct stat found {};
  for (auto const* end : {"/data/book.db", "/data/book.db-wal", "/data/book.db-shm"}) {
    ASSERT_EQ(::stat((scratch.folder() + end).c_str(), &found), 0) << end;
    EXPECT_EQ(found.st_mode & 0777U, 0600U) << end;
  }
  ASSERT_EQ(::stat((scratch.folder() + "/data").c_str(), &found), 0);
  EXPECT_EQ(found.st_mode & 0777U, 0700U);
  ::chmod(scratch.place().location.c_str(), 0644);
  EXPECT_TRUE(scratch.open().call(call).has_value());
  ASSERT_EQ(::stat(scratch.place().location.c_str(), &found), 0);
  EXPECT_EQ(found.st_mode & 0777U, 0600U);
}

TEST(Book, ANewerBookIsLeftAlone) {
  ScratchBook scratch;
  (void)scratch.open();
  {
    cli::Database database(scratch.place(), cli::Database::Missing::is_made);
    database.run("INSERT INTO book_version (version) VALUES (:v)",
                 {cli::cell(cli::book_version() + 1)});
  }
  try {
    (void)scratch.open();
    FAIL() << "it was opened";
  } catch (BookTrouble const& trouble) {
    EXPECT_NE(std::string(trouble.what()).find("newer"), std::string::npos) << trouble.what();
  }
}

TEST(Book, AnotherSpeciesIsAnotherPatientWhateverItIsCalled) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const dog = book.call(*book.begin(new_call(1000, bramble)))->patient;
  constexpr char const* rabbit =
      R"({"name": "Bramble", "call back": "555 0142", "rabbit": {"age": "2 years"}})";
  auto const other = book.call(*book.begin(new_call(2000, rabbit)))->patient;
  EXPECT_NE(other, dog);
  EXPECT_EQ(book.call(*book.begin(new_call(3000, rabbit)))->patient, other);
  // Named late, and its own facts not told yet: the pack of its desk tells.
  auto late = new_call(4000, R"({"answers": {"lame": "yes"}})");
  late.species = "rabbit";
  auto const call = *book.begin(late);
  book.save(call, {4010, "Kim", R"({"name": "Bramble", "call back": "555 0142"})"});
  EXPECT_EQ(book.call(call)->patient, other);
}

TEST(Book, ATierThatIsToldNoMoreIsCleared) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto begun = new_call(1000, bramble);
  begun.entry.tier = "now";
  auto const call = *book.begin(begun);
  book.save(call, {1060, "Kim", "{}"});
  EXPECT_EQ(book.call(call)->tier, "now");
  book.save(call, {1070, "Kim", "{}", ""});
  EXPECT_EQ(book.call(call)->tier, "");
  EXPECT_EQ(json::parse(book.history(call)[2].changes), json::parse(R"({"book": {"tier": null}})"));
}

}  // namespace
}  // namespace flinch::test
