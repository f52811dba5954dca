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

TEST(TypedAnswers, NoneIsMisread) {
  for (auto const& one : all())
    EXPECT_NE(one.reading, Reading::misread)
        << one.answer.question << ": " << one.answer.typed << " means " << one.answer.means
        << ", got " << one.recorded;
}

TEST(TypedAnswers, NineteenInTwentyAreUnderstood) {
  auto const taken = count_of(all(), Reading::understood) + count_of(all(), Reading::offered);
  EXPECT_GE(static_cast<double>(taken), 0.95 * static_cast<double>(all().size()));
  EXPECT_GE(all().size(), 300U);
}

}  // namespace
}  // namespace flinch::test
