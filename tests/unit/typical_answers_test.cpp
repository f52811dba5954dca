// The answers that stand for all others.
#include "model/typical_answers.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

TEST(TypicalAnswers, AreOfNumbersTheEndsTheLimitsAndOneBetweenEach) {
  EXPECT_EQ(typical_numbers({5, 2}, 0, 10), (std::vector<double>{0, 1, 2, 3.5, 5, 7.5, 10}));
  EXPECT_EQ(typical_numbers({}, 0, 10), (std::vector<double>{0, 5, 10}));
}

TEST(TypicalAnswers, LeaveOutLimitsThatAreRepeatedAtAnEndOrOutside) {
  auto const infinite = std::numeric_limits<double>::infinity();
  auto const none = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(typical_numbers({4, 4, 0, 10, 12, -1, infinite, -infinite, none}, 0, 10),
            (std::vector<double>{0, 2, 4, 7, 10}));
}

TEST(TypicalAnswers, AreEachStepAndYesAndNo) {
  auto const pack = pack_of(R"(
sign limp "limp"
  ask "?"
  answer yes or no
  seen by anyone
sign appetite "appetite"
  ask "?"
  answer steps normal, less, nothing
  seen by anyone
sign tender "tender"
  ask "?"
  answer sites
  seen by anyone
cause grave "Grave"
  affects elbow
  base 50 per 1000
  see now
  because "x"
  cite judgement
)");
  auto const of = [&](std::uint32_t past_the_patients_own) {
    return typical_answers(
        *pack, SignId{static_cast<std::uint32_t>(patient_sign::count) + past_the_patients_own}, {});
  };
  EXPECT_EQ(of(0), (std::vector<Answer>{true, false}));
  EXPECT_EQ(of(1), (std::vector<Answer>{Choice{0}, Choice{1}, Choice{2}}));
  EXPECT_TRUE(of(2).empty());
}

}  // namespace
}  // namespace flinch::test
