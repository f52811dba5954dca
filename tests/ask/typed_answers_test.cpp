// Answers as people type them are understood, or asked again; none is taken for what was not said.
#include "ask/typed_answers.hpp"

#include <gtest/gtest.h>

#include "pack/shipped_pack.hpp"
#include "support/source_tree.hpp"

namespace flinch::test {
namespace {

std::vector<ReadAnswer> const& all() {
  static auto const read =
      read_all(*shipped_pack(), typed_answers(source_file("tests/ask/typed_answers.tsv")));
  return read;
}

std::vector<ReadAnswer> const& second() {
  static auto const read =
      read_all(*shipped_pack(), typed_answers(source_file("tests/ask/typed_answers_2.tsv")));
  return read;
}

TEST(TypedAnswers, NoneIsMisread) {
  auto both = all();
  both.insert(both.end(), second().begin(), second().end());
  for (auto const& one : both)
    EXPECT_NE(one.reading, Reading::misread)
        << one.answer.question << ": " << one.answer.typed << " means " << one.answer.means
        << ", got " << one.recorded;
}

TEST(TypedAnswers, NineteenInTwentyAreUnderstood) {
  auto const taken = count_of(all(), Reading::understood) + count_of(all(), Reading::offered);
  EXPECT_GE(static_cast<double>(taken), 0.95 * static_cast<double>(all().size()));
  EXPECT_GE(all().size(), 300U);
}

// Written and read once before anything was mended for it; it may not get worse.
TEST(TypedAnswers, OfTheSecondListNoneLessIsUnderstood) {
  auto const taken = count_of(second(), Reading::understood) + count_of(second(), Reading::offered);
  EXPECT_EQ(second().size(), 120U);
  EXPECT_GE(taken, 104U);
}

}  // namespace
}  // namespace flinch::test
