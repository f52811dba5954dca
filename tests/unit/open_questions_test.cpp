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
alarm with_gums "With gums"
  if low and gums
  see now
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
  EXPECT_EQ(asked("answers:\n"), "low trouble gums") << "low alone reaches something";
}

TEST(OpenQuestions, TheWholeIsAskedUntilItIsKnown) {
  EXPECT_EQ(asked("answers:\n  trouble: yes\n"), "low part gums");
  EXPECT_EQ(asked("answers:\n  trouble: no\n"), "low gums");
}

TEST(OpenQuestions, WhatCannotRaiseTheTierIsNotAsked) {
  EXPECT_EQ(asked("answers:\n  part: yes\n  gums: yes\n"), "");
  EXPECT_EQ(asked("answers:\n  gums: no\n"), "low");
}

TEST(OpenQuestions, WhatNobodyCouldTellStaysOpenAndLast) {
  EXPECT_EQ(asked("answers:\n  trouble: can't tell\n"), "low part gums");
  EXPECT_EQ(asked("answers:\n  trouble: yes\n  part: can't tell\n"), "low gums part?");
}

// A sign that alone makes a lesser alarm fire may help towards a higher one as well.
TEST(OpenQuestions, WhatOneAnswerAloneReachesIsSaidThoughMoreCouldReachFurther) {
  auto const pack = test::pack_of(text);
  Tables const tables(pack);
  auto const open = [&](std::string const& yaml, char const* name) {
    for (auto const& q :
         open_questions(tables, Assessor(tables).assess(test::case_of(*pack, yaml))))
      if ((*pack)[q.sign].name == name) return q;
    return OpenQuestion{};
  };
  TierId const now{0};
  TierId const soon{1};
  EXPECT_EQ(open("answers:\n", "low").could_reach, now);
  EXPECT_EQ(open("answers:\n", "low").alone_reaches, soon);
  EXPECT_EQ(open("answers:\n", "gums").alone_reaches, std::nullopt);
  EXPECT_EQ(open("answers:\n  gums: yes\n", "low").alone_reaches, now);
}

}  // namespace
}  // namespace flinch
