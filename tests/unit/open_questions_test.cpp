#include "flinch/assess/open_questions.hpp"

#include <gtest/gtest.h>

#include "support/small_pack.hpp"

namespace flinch {
namespace {

char const* const text = R"(
sign trouble "trouble"
  ask "?"
  answer yes or no
  seen by anyone
sign part "part"
  ask "?"
  answer yes or no
  part of trouble
  seen by anyone
sign low "low"
  ask "?"
  answer yes or no
  seen by anyone
sign gums "gums"
  ask "?"
  answer yes or no
  seen by hands
alarm high "High"
  if part and gums
  see now
  because "x"
  cite judgement
alarm lower "Lower"
  if low
  see soon
  because "x"
  cite judgement
)";

std::string asked(std::string const& yaml) {
  auto const pack = test::pack_of(text);
  Tables const tables(pack);
  auto const result = Assessor(tables).assess(test::case_of(*pack, yaml));
  std::string out;
  for (auto const& q : open_questions(tables, result))
    out += (out.empty() ? "" : " ") + (*pack)[q.sign].name + (q.could_not_tell ? "?" : "");
  return out;
}

TEST(OpenQuestions, HighestTierFirstThenWhatAnyoneCanSee) {
  EXPECT_EQ(asked("answers:\n"), "trouble gums low");
}

TEST(OpenQuestions, TheWholeIsAskedUntilItIsKnown) {
  EXPECT_EQ(asked("answers:\n  trouble: yes\n"), "part gums low");
  EXPECT_EQ(asked("answers:\n  trouble: no\n"), "low");
}

TEST(OpenQuestions, WhatCannotRaiseTheTierIsNotAsked) {
  EXPECT_EQ(asked("answers:\n  part: yes\n  gums: yes\n"), "");
  EXPECT_EQ(asked("answers:\n  gums: no\n"), "low");
}

TEST(OpenQuestions, WhatNobodyCouldTellStaysOpenAndLast) {
  EXPECT_EQ(asked("answers:\n  trouble: can't tell\n"), "part gums low");
  EXPECT_EQ(asked("answers:\n  trouble: yes\n  part: can't tell\n"), "gums part? low");
}

}  // namespace
}  // namespace flinch
