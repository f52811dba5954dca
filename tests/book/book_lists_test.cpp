// Lists, searches and walks through a book.
#include <gtest/gtest.h>

#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "book/scratch_book.hpp"

namespace flinch::test {
namespace {

using cli::Book;
using cli::CallId;
using nlohmann::json;

std::vector<long long> numbers(std::vector<cli::CallLine> const& calls) {
  std::vector<long long> out;
  for (auto const& call : calls) out.push_back(number(call.call));
  return out;
}

CallId with_ring_back(Book& book, std::time_t begun, std::time_t ring_back) {
  auto call = new_call(begun, "{}");
  call.entry.ring_back = cli::RingBack{ring_back};
  return *book.begin(call);
}

TEST(BookLists, RingBacksStandByTheirTimeUntilTheCallIsClosed) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const late = with_ring_back(book, 1000, 9000);
  auto const soon = with_ring_back(book, 2000, 5000);
  auto const closed = with_ring_back(book, 2000, 4000);
  (void)book.begin(new_call(3000, "{}"));
  book.close(closed, {3000, "Kim", R"({"outcome": {"cause": "none"}})"});
  EXPECT_EQ(numbers(book.ring_backs(10)), (std::vector{number(soon), number(late)}));
  EXPECT_EQ(numbers(book.ring_backs(1)), std::vector{number(soon)});
}

TEST(BookLists, CallsOfADayAndThoseStillOpen) {
  ScratchBook scratch;
  auto book = scratch.open();
  auto const before = *book.begin(new_call(99, "{}"));
  auto const first = *book.begin(new_call(100, "{}"));
  auto const last = *book.begin(new_call(199, "{}"));
  (void)book.begin(new_call(200, "{}"));
  book.close(first, {3000, "Kim", R"({"outcome": {"needed": "visit"}})"});
  EXPECT_EQ(numbers(book.begun(100, 200, 10)), (std::vector{number(first), number(last)}));
  EXPECT_EQ(numbers(book.open(0, 200, 10)), (std::vector{number(before), number(last)}));
}

TEST(BookLists, ADogIsFoundByLettersAndByDigitsFromEitherEnd) {
  ScratchBook scratch;
  auto book = scratch.open();
  (void)book.begin(
      new_call(1, R"({"name": "Bramble", "caller": "Jo Alder", "call back": "+44 20 555 0142"})"));
  (void)book.begin(
      new_call(2, R"({"name": "Brandy", "caller": "Al Berg", "call back": "555 0199"})"));
  auto const found = [&](char const* typed) {
    std::vector<std::string> out;
    for (auto const& patient : book.find(typed, 10)) out.push_back(patient.name);
    return out;
  };
  using Names = std::vector<std::string>;
  EXPECT_EQ(found("bra"), (Names{"Brandy", "Bramble"}));  // the latest call first
  EXPECT_EQ(found("bra ald"), Names{"Bramble"});
  EXPECT_EQ(found("ALD"), Names{"Bramble"});
  EXPECT_EQ(found("0142"), Names{"Bramble"});
  EXPECT_EQ(found("44205"), Names{"Bramble"});
  EXPECT_EQ(found("555 01"), Names{"Brandy"});
  EXPECT_EQ(found("555 0142"), Names{"Bramble"});
  EXPECT_EQ(found("ramble"), Names{});
  EXPECT_EQ(found("  "), Names{});
  EXPECT_EQ(found("bra berg 0142"), Names{});
  EXPECT_EQ(found("%"), Names{});
}

TEST(BookLists, EachCallComesOnceInOrderHoweverManyThereAre) {
  ScratchBook scratch;
  auto book = scratch.open();
  std::vector<cli::NewCall> calls;
  for (int i = 0; i < 2500; ++i)
    calls.push_back(
        new_call(i, fmt::format(R"({{"name": "dog {0}", "answers": {{"n": "{0}"}}{1}}})", i,
                                i % 3 == 0 ? R"(, "outcome": {"cause": "none"})" : "")));
  EXPECT_EQ(book.take_in(calls).begun, calls.size());
  std::vector<std::string> all;
  book.each_call({}, [&](cli::CallLine const& call) {
    all.push_back(json::parse(call.line)["answers"]["n"]);
    EXPECT_EQ(json::parse(call.words)["name"], "dog " + all.back());
  });
  ASSERT_EQ(all.size(), 2500U);
  for (std::size_t i = 0; i < all.size(); ++i) ASSERT_EQ(all[i], std::to_string(i));
  std::size_t closed = 0;
  book.each_call({cli::Calls::Which::closed, 300, 600}, [&](cli::CallLine const& call) {
    EXPECT_TRUE(json::parse(call.line).contains("outcome"));
    ++closed;
  });
  EXPECT_EQ(closed, 100U);
}

}  // namespace
}  // namespace flinch::test
