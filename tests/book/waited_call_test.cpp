// A call that waited in a case file comes into the book once, and takes back nothing said since.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "book/scratch_book.hpp"

namespace flinch::test {
namespace {

using cli::Book;
using nlohmann::json;

cli::WaitedCall waited(std::string before, std::string line) {
  cli::WaitedCall out;
  out.call.entry.saved = 2000;
  out.call.entry.said_by = "Kim";
  out.call.entry.changes = std::move(line);
  out.call.entry.waited_in = "file 1";
  out.call.origin = "desk-1";
  out.before = std::move(before);
  out.begun = 1000;
  return out;
}

TEST(WaitedCall, IsBegunOnceWhenItWasBegun) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const one = waited("{}", R"({"name": "Bramble", "answers": {"lame": "yes"}})");
  auto const call = book.take_in(one);
  EXPECT_EQ(book.take_in(one), call);
  EXPECT_EQ(book.call(call)->begun, 1000);
  EXPECT_EQ(json::parse(book.call(call)->line), json::parse(R"({"answers": {"lame": "yes"}})"));
  EXPECT_EQ(book.call(call)->patient_name, "Bramble");
}

TEST(WaitedCall, SaysWhatTheBookDoesNotHaveAndLeavesWhatOthersSaid) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto begun = new_call(1000, R"({"answers": {"lame": "yes"}})");
  begun.origin = "desk-1";
  auto const call = *book.begin(begun);
  book.save(call, {1500, "Alex", R"({"answers": {"vomiting": "yes"}})"});
  auto one = waited(R"({"answers": {"lame": "yes"}})",
                    R"({"answers": {"lame": "yes", "collapsed": "no"}})");
  one.known = call;
  EXPECT_EQ(book.take_in(one), call);
  EXPECT_EQ(book.take_in(one), call);
  EXPECT_EQ(book.history(call).size(), 3U) << "once";
  EXPECT_EQ(json::parse(book.call(call)->line)["answers"],
            json::parse(R"({"lame": "yes", "vomiting": "yes", "collapsed": "no"})"));
}

TEST(WaitedCall, IsNotPutIntoAnotherCallOfThatNumber) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const other = *book.begin(new_call(900, R"({"answers": {"vomiting": "yes"}})"));
  auto one = waited(R"({"answers": {}})", R"({"answers": {"lame": "yes"}})");
  one.known = other;
  one.call.patient = cli::PatientId{77};  // a restored book does not have it
  auto const call = book.take_in(one);
  EXPECT_NE(call, other);
  EXPECT_EQ(book.history(other).size(), 1U);
}

TEST(RingBack, ClearsTheCallThatItIsForAndIsClosedWithIt) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto first = new_call(1000, R"({"answers": {"lame": "yes"}})");
  first.entry.ring_back = cli::RingBack{1500};
  auto const call = *book.begin(first);
  ASSERT_EQ(book.ring_backs(10).size(), 1U);
  auto again = new_call(1600, R"({"answers": {"lame": "no"}})");
  again.follows = call;
  again.patient = book.call(call)->patient;
  auto const later = *book.begin(again);
  EXPECT_TRUE(book.ring_backs(10).empty());
  EXPECT_EQ(book.call(later)->follows, call);
  EXPECT_EQ(json::parse(book.call(call)->line)["answers"]["lame"], "yes") << "as it was said then";
  book.close(later, {1700, "Dr Hale", R"({"outcome": {"cause": "sprain"}})"});
  EXPECT_TRUE(book.call(call)->closed);
}

TEST(WaitedCall, WhatTheBookKnewIsNotSaidByThePerson) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto one = waited(R"({"dog": {"sex": "male"}})",
                    R"({"dog": {"sex": "male"}, "answers": {"lame": "yes", "before": "yes"}})");
  one.known_from = "the book, call 12";
  one.known_line = one.before;
  one.from_book = {"before"};
  auto const call = book.take_in(one);
  EXPECT_EQ(book.take_in(one), call);
  auto const history = book.history(call);
  ASSERT_EQ(history.size(), 3U);
  EXPECT_EQ(history[0].said_by, "the book, call 12");
  EXPECT_EQ(json::parse(history[0].changes)["dog"], json::parse(R"({"sex": "male"})"));
  EXPECT_EQ(history[1].said_by, "the book");
  EXPECT_EQ(json::parse(history[1].changes)["answers"], json::parse(R"({"before": "yes"})"));
  EXPECT_EQ(history[2].said_by, "Kim");
  EXPECT_EQ(json::parse(history[2].changes)["answers"], json::parse(R"({"lame": "yes"})"));
}

TEST(WaitedCall, GoesToNoOtherPatientOfThatNumber) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const sorrel =
      book.call(*book.begin(new_call(900, R"({"name": "Sorrel", "call back": "555 0177"})")));
  auto one = waited(R"({"name": "Bramble", "call back": "555 0142"})",
                    R"({"name": "Bramble", "call back": "555 0142", "answers": {"lame": "yes"}})");
  one.call.patient = sorrel->patient;
  EXPECT_NE(book.call(book.take_in(one))->patient, sorrel->patient);
  EXPECT_EQ(book.patient(sorrel->patient)->name, "Sorrel");
  // Its name corrected in the call: what it began with tells whose it is.
  auto two = waited(R"({"name": "Sorrel", "call back": "555 0177"})",
                    R"({"name": "Sorel", "call back": "555 0177"})");
  two.call.origin = "desk-2";
  two.call.patient = sorrel->patient;
  EXPECT_EQ(book.call(book.take_in(two))->patient, sorrel->patient);
}

}  // namespace
}  // namespace flinch::test
