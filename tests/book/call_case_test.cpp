// A call as another pack understands it: what it does not know is unknown, never guessed.
#include "book/call_case.hpp"

#include <gtest/gtest.h>

#include "book/limping_pack.hpp"

namespace flinch::test {
namespace {

std::shared_ptr<Pack const> pack() {
  return limping_pack(R"(
sign appetite
  ask "How is it eating?"
  answer steps normal, less, nothing
  seen by anyone
)");
}

std::optional<cli::CallCase> read(std::string line) {
  auto const its_pack = pack();
  cli::CallReader reader(*its_pack);
  cli::CallLine call;
  call.line = std::move(line);
  return reader.read(call);
}

TEST(CallCase, IsReadWithItsOutcome) {
  auto const found = read(R"({"answers": {"limping": "yes"}, "outcome": {"cause": "sprain"}})");
  ASSERT_TRUE(found);
  EXPECT_TRUE(found->unknown_names.empty());
  EXPECT_EQ(found->patient.answers.size(), 1U);
  ASSERT_TRUE(found->patient.outcome);
  EXPECT_EQ(found->patient.outcome->cause, CauseId{0});
}

TEST(CallCase, NamesThatThePackDoesNotHaveAreLeftOutAndTold) {
  auto const found = read(
      R"({"answers": {"limping": "yes", "barks": "no"}, "came for": ["limping", "howls"],
          "outcome": {"cause": "gout", "needed": "now"}})");
  ASSERT_TRUE(found);
  EXPECT_EQ(found->unknown_names, (std::vector<std::string>{"barks", "gout"}));
  EXPECT_EQ(found->patient.answers.size(), 1U);
  EXPECT_EQ(found->patient.came_for.size(), 1U);
  ASSERT_TRUE(found->patient.outcome);
  EXPECT_FALSE(found->patient.outcome->is_cause_known);
  EXPECT_TRUE(found->patient.outcome->needed);
}

TEST(CallCase, AnAnswerThatThePackCannotTakeIsNotGuessed) {
  EXPECT_FALSE(read(R"({"answers": {"appetite": "ravenous"}})"));
  EXPECT_FALSE(read("no line"));
}

// One desk takes back what another was told that the dog came for.
TEST(CallCase, AComplaintThatWasTakenBackDoesNotHideTheCall) {
  auto const found = read(R"({"answers": {"limping": "no"}, "came for": ["limping"]})");
  ASSERT_TRUE(found);
  EXPECT_EQ(found->patient.answers.size(), 1U);
  EXPECT_TRUE(found->patient.came_for.empty());
}

TEST(CallCase, WordsArePutBackWhole) {
  cli::CallLine call;
  call.words = R"({"name": "Moss", "note": "a\u0000b", "caller": 3})";
  Case patient;
  cli::add_words(call, patient);
  EXPECT_EQ(patient.name, "Moss");
  EXPECT_EQ(patient.note, std::string("a\0b", 3));
  EXPECT_EQ(patient.caller, "");
}

}  // namespace
}  // namespace flinch::test
