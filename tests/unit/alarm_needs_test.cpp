// A promised alarm that stayed silent: which part of its condition was false.
#include <gtest/gtest.h>

#include "flinch/care/promises.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

char const* const text = R"(
sign limps "limps"
  ask "Does it limp?"
  answer yes or no
  seen by anyone
sign hit "was hit"
  ask "Was it hit?"
  answer yes or no
  seen by anyone
sign eats "appetite"
  ask "How does it eat?"
  answer steps normal "as usual", less "less than usual", nothing "nothing at all"
  seen by anyone
sign warm "temperature"
  ask "Temperature?"
  answer number in C from 30 to 45
  seen by anyone
means off_food "off its food": eats at least less
alarm all_of "All"
  if limps and eats is nothing
  see now
  because "x"
  cite judgement
alarm either "Either"
  if warm over 40 C or off_food
  see now
  because "x"
  cite judgement
alarm not_hit "Not hit"
  if limps and not hit
  see now
  on purpose "x"
  because "x"
  cite judgement
alarm counted "Two of three"
  if at least 2 of (limps, hit, off_food)
  see now
  because "x"
  cite judgement
)";

std::string instead_of(std::string const& promise, std::string const& answers) {
  auto const pack = pack_of(text + ("example e\n  " + answers + "\n  expect " + promise + "\n"));
  Tables const tables(pack);
  Assessor assessor(tables);
  auto const broken = broken_promises(tables, assessor, pack->examples.front());
  return broken.empty() ? std::string() : broken.front().instead;
}

std::string instead(std::string const& answers, std::string const& alarm) {
  return instead_of("alarm " + alarm, answers);
}

TEST(AlarmNeeds, OfAllThePartsThatFail) {
  EXPECT_EQ(instead("yes limps\n  with eats less", "all_of"),
            "it did not fire: it would need `eats is nothing`, which is no here (appetite: less "
            "than usual)");
  EXPECT_EQ(instead("no limps\n  with eats normal", "all_of"),
            "it did not fire: it would need `limps`, which is no here, and `eats is nothing`, "
            "which is no here (appetite: as usual)");
  EXPECT_EQ(instead("yes limps\n  with eats nothing", "all_of"), "");
}

TEST(AlarmNeeds, OfSeveralAnyWouldDo) {
  EXPECT_EQ(instead("with warm 38.5 C, eats normal", "either"),
            "it did not fire: it would need `warm > 40 C`, which is no here (temperature: 38.5 C), "
            "or `off_food`, which is no here (appetite: as usual)");
}

TEST(AlarmNeeds, WhatMustNotBe) {
  EXPECT_EQ(instead("yes limps, hit", "not_hit"),
            "it did not fire: it would need no `hit`, which is yes here");
}

TEST(AlarmNeeds, ATierThatCameOutOtherwiseNamesTheAlarmThatSetIt) {
  auto const told = instead_of("tier soon", "yes limps\n  with eats nothing");
  EXPECT_TRUE(told.starts_with("now (alarm all_of, either, counted; ")) << told;
}

TEST(AlarmNeeds, WhatWasToldIsNamed) {
  EXPECT_EQ(instead_of("nothing told", "yes limps\n  no hit"), "told: limps");
}

TEST(AlarmNeeds, HowManyMoreOfACount) {
  EXPECT_EQ(instead("yes limps\n  no hit\n  with eats normal", "counted"),
            "it did not fire: it would need 1 of these: `hit`, which is no here, `off_food`, which "
            "is no here (appetite: as usual)");
}

}  // namespace
}  // namespace flinch::test
