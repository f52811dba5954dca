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

// A book knows no pack: who takes a call in judges it.
std::string calm(cli::CallLine const&) { return "watch"; }

cli::CallId taken_in(Book& book, cli::WaitedCall const& one) {
  return book.take_in(one, calm).call;
}

TEST(WaitedCall, IsBegunOnceWhenItWasBegun) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const one = waited("{}", R"({"name": "Bramble", "answers": {"lame": "yes"}})");
  auto const call = taken_in(book, one);
  EXPECT_EQ(taken_in(book, one), call);
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
  EXPECT_EQ(taken_in(book, one), call);
  EXPECT_EQ(taken_in(book, one), call);
  EXPECT_EQ(book.history(call).size(), 3U) << "once";
  EXPECT_EQ(json::parse(book.call(call)->line)["answers"],
            json::parse(R"({"lame": "yes", "vomiting": "yes", "collapsed": "no"})"));
}

TEST(WaitedCall, IsJudgedAtOnceWithWhatOthersSaidMeanwhile) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto begun = new_call(1000, R"({"came for": ["lame"], "answers": {"lame": "yes"}})");
  begun.origin = "desk-1";
  begun.entry.tier = "watch";
  auto const call = *book.begin(begun);
  book.save(call, {1500, "Alex",
                   R"({"came for": ["lame", "vomiting"], "answers": {"vomiting": "yes"}})"});
  auto one =
      waited(R"({"came for": ["lame"], "answers": {"lame": "yes"}})",
             R"({"came for": ["lame", "swollen"], "answers": {"lame": "yes", "swollen": "yes"}})");
  one.known = call;
  one.call.entry.tier = "watch";
  json seen;
  auto const urgent = [&](cli::CallLine const& together) {
    seen = json::parse(together.line);
    return std::string("now");
  };
  auto const taken = book.take_in(one, urgent);
  EXPECT_EQ(seen["answers"],
            json::parse(R"({"lame": "yes", "swollen": "yes", "vomiting": "yes"})"));
  EXPECT_EQ(seen["came for"], json::parse(R"(["lame", "vomiting", "swollen"])")) << "of both";
  EXPECT_TRUE(taken.others_wrote);
  EXPECT_EQ(taken.tier_before, "watch");
  EXPECT_EQ(taken.tier, "now");
  EXPECT_EQ(book.call(call)->tier, "now");
  EXPECT_EQ(json::parse(book.call(call)->line), seen);
}

TEST(WaitedCall, KeepsTheUrgencyThatWasToldWhereNobodyElseWrote) {
  for (auto const& told : std::vector<std::optional<std::string>>{std::nullopt, "now"}) {
    ScratchBook scratch;
    auto book = scratch.open();
    auto begun = new_call(1000, R"({"answers": {"lame": "yes"}})");
    begun.origin = "desk-1";
    begun.entry.tier = "soon";
    auto const call = *book.begin(begun);
    auto one = waited(R"({"answers": {"lame": "yes"}})",
                      R"({"answers": {"lame": "yes", "collapsed": "yes"}})");
    one.known = call;
    one.call.entry.tier = told;
    auto const taken = book.take_in(one, calm);
    EXPECT_FALSE(taken.others_wrote);
    EXPECT_EQ(taken.tier, told.value_or("soon")) << "whoever takes it in judges it by another pack";
    EXPECT_EQ(book.call(call)->tier, taken.tier);
  }
}

TEST(WaitedCall, IsNotPutIntoAnotherCallOfThatNumber) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const other = *book.begin(new_call(900, R"({"answers": {"vomiting": "yes"}})"));
  auto one = waited(R"({"answers": {}})", R"({"answers": {"lame": "yes"}})");
  one.known = other;
  one.call.patient = cli::PatientId{77};  // a restored book does not have it
  auto const call = taken_in(book, one);
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

TEST(RingBack, IsClosedWithTheCallThatItIsFor) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const call = *book.begin(new_call(1000, R"({"answers": {"lame": "yes"}})"));
  auto const ring_back = [&](cli::CallId for_call, std::time_t at) {
    auto again = new_call(at, R"({"answers": {"lame": "no"}})");
    again.follows = for_call;
    again.patient = book.call(call)->patient;
    again.entry.ring_back = cli::RingBack{at + 100};
    return *book.begin(again);
  };
  auto const second = ring_back(call, 1600);
  auto const third = ring_back(second, 1700);
  auto other = new_call(1800, R"({"answers": {"lame": "yes"}})");
  other.patient = book.call(call)->patient;
  auto const apart = *book.begin(other);
  ASSERT_EQ(book.ring_backs(10).size(), 1U);
  book.close(call, {1900, "Dr Hale", R"({"outcome": {"cause": "sprain"}})"});
  EXPECT_TRUE(book.ring_backs(10).empty());
  EXPECT_TRUE(book.call(second)->closed);
  EXPECT_TRUE(book.call(third)->closed);
  EXPECT_FALSE(book.call(apart)->closed);
  // To correct an outcome closes nothing that was begun since.
  auto const fourth = ring_back(third, 2000);
  book.close(call, {2100, "Dr Hale", R"({"outcome": {"cause": "none"}})"});
  EXPECT_FALSE(book.call(fourth)->closed);
}

TEST(WaitedCall, WhatTheBookKnewIsNotSaidByThePerson) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto one = waited(R"({"dog": {"sex": "male"}})",
                    R"({"dog": {"sex": "male"}, "answers": {"lame": "yes", "before": "yes"}})");
  one.known_from = "the book, call 12";
  one.known_line = one.before;
  one.from_book = {"before"};
  auto const call = taken_in(book, one);
  EXPECT_EQ(taken_in(book, one), call);
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
  EXPECT_NE(book.call(taken_in(book, one))->patient, sorrel->patient);
  EXPECT_EQ(book.patient(sorrel->patient)->name, "Sorrel");
  // Its name corrected in the call: what it began with tells whose it is.
  auto two = waited(R"({"name": "Sorrel", "call back": "555 0177"})",
                    R"({"name": "Sorel", "call back": "555 0177"})");
  two.call.origin = "desk-2";
  two.call.patient = sorrel->patient;
  EXPECT_EQ(book.call(taken_in(book, two))->patient, sorrel->patient);
}

}  // namespace
}  // namespace flinch::test
