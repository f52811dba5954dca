// Who has a call: read back as it was written, and known to be gone when the run is.
#include "book/desk_name.hpp"

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include "book/promised_time.hpp"

namespace flinch::test {
namespace {

TEST(DeskName, IsReadBackAsItWasWritten) {
  auto const here = cli::DeskName::here("Kim at #7");
  auto const back = cli::DeskName::of(here.text());
  EXPECT_EQ(back.person, "Kim at #7");
  EXPECT_EQ(back.machine, cli::this_machine());
  EXPECT_EQ(back.process, static_cast<long>(::getpid()));
  EXPECT_FALSE(back.is_gone());
}

TEST(DeskName, OtherTextIsAPersonWhoIsNotKnownToBeGone) {
  for (auto const* text : {"front desk", "a at b", "a #7", "a at b #x", "a at b #-1"}) {
    auto const name = cli::DeskName::of(text);
    EXPECT_EQ(name.person, text);
    EXPECT_FALSE(name.is_gone());
  }
}

TEST(DeskName, ARunThatIsOverIsGoneAndOneElsewhereIsNot) {
  auto const child = ::fork();
  if (child == 0) ::_exit(0);
  ::waitpid(child, nullptr, 0);
  EXPECT_TRUE((cli::DeskName{"Kim", cli::this_machine(), child}.is_gone()));
  EXPECT_FALSE((cli::DeskName{"Kim", "elsewhere", child}.is_gone()));
}

TEST(PromisedTime, IsTheDayAndHourOrTheNextSuchHour) {
  constexpr std::time_t hour = 3600;
  auto const noon = *cli::promised_time("2026-11-25 12:00", 0);
  EXPECT_EQ(cli::promised_time("15:40", noon), noon + 3 * hour + 40 * 60);
  EXPECT_EQ(cli::promised_time("11:00", noon), noon + 23 * hour);
  for (auto const* words : {"", "tomorrow", "25:00", "15:40 or so", "2026-11-25"})
    EXPECT_EQ(cli::promised_time(words, noon), std::nullopt) << words;
}

}  // namespace
}  // namespace flinch::test
