#include <gtest/gtest.h>

#include "desk/ring_back_time.hpp"
#include "files/clock.hpp"

namespace flinch::cli {
namespace {

TEST(RingBack, ATypedTimeIsKeptWithItsDayAndDoubted) {
  Tier tier;
  tier.title = "Now";
  tier.within_s = 3600;
  constexpr std::time_t now = 1795618800;
  auto const clock = [&](std::time_t time) { return clock_text(time).substr(11); };
  auto const soon = agreed_time(clock(now + 1800), &tier, now);
  ASSERT_TRUE(soon);
  EXPECT_EQ(soon->text, clock_text(now + 1800));
  EXPECT_EQ(soon->warning, "");
  auto const past = agreed_time(clock(now - 1800), &tier, now);
  EXPECT_EQ(past->text, clock_text(now - 1800 + 24 * 3600)) << "of tomorrow, and it says so";
  EXPECT_NE(past->warning.find("later than \"Now\" allows"), std::string::npos) << past->warning;
  EXPECT_NE(agreed_time(clock_text(now - 1800), &tier, now)->warning.find("is past"),
            std::string::npos);
  EXPECT_EQ(agreed_time(clock(now - 1800), nullptr, now)->warning, "");
  EXPECT_FALSE(agreed_time("after lunch", &tier, now));
}

// Nobody is asked to expect a call at 02:25, unless the dog should be at a clinic by then.
TEST(RingBack, IsNotProposedForTheNight) {
  auto const at = [](double within_s, int hour, int minute, Setting const& setting = {}) {
    std::tm local{};
    local.tm_year = 126;
    local.tm_mon = 10;
    local.tm_mday = 25;  // a Wednesday
    local.tm_hour = hour;
    local.tm_min = minute;
    local.tm_isdst = -1;
    Tier tier;
    tier.within_s = within_s;
    return clock_text(ring_back_time(tier, std::mktime(&local), setting)).substr(8);
  };
  constexpr double hour_s = 3600;
  EXPECT_EQ(at(12 * hour_s, 23, 25), "26 08:00");
  EXPECT_EQ(at(12 * hour_s, 18, 0), "25 20:00") << "before the quarter is over";
  EXPECT_EQ(at(12 * hour_s, 3, 0), "25 08:00");
  EXPECT_EQ(at(hour_s, 2, 10), "25 02:25") << "a dog that must be seen within the hour";
  Setting setting;
  setting.practice.emplace();
  for (auto& day : setting.practice->hours) day = {{9 * 60, 18 * 60}};
  EXPECT_EQ(at(12 * hour_s, 23, 25, setting), "26 09:00");
  EXPECT_EQ(at(12 * hour_s, 16, 0, setting), "25 17:55") << "while somebody is there";
  setting.practice->hours[4] = {};
  EXPECT_EQ(at(12 * hour_s, 23, 25, setting), "26 02:25")
      << "closed as long as the tier leaves: the quarter stands";
}

TEST(RingBack, IsAQuarterOfTheTiersTimeAndByDay) {
  auto const at = [](double within_s, std::time_t now) {
    Tier tier;
    tier.within_s = within_s;
    return ring_back_time(tier, now) - now;
  };
  EXPECT_EQ(at(3600, 1795618800), 15 * 60);
  EXPECT_EQ(at(12 * 3600.0, 1795618800), 3 * 3600);
  EXPECT_EQ(at(600, 1795618800), 5 * 60) << "up to the next five minutes";
  EXPECT_EQ(at(120, 1795618801), 30) << "never after the tier's own time";
  for (int hour = 0; hour < 24; ++hour) {
    auto const now = 1795618800 + hour * 3600;
    auto const time = now + at(3 * 86400.0, now);
    std::tm local{};
    localtime_r(&time, &local);
    EXPECT_TRUE(local.tm_hour >= 8 &&
                (local.tm_hour < 20 || (local.tm_hour == 20 && local.tm_min == 0)))
        << clock_text(time);
    EXPECT_GT(time, now);
    EXPECT_LE(time, now + 18 * 3600 + 300);
  }
}

}  // namespace
}  // namespace flinch::cli
