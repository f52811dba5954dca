#include "flinch/telling/practice.hpp"

#include <gtest/gtest.h>

namespace flinch {
namespace {

struct Read {
  std::optional<Practice> practice;
  std::string messages;
};

Read read(std::string const& text) {
  SourceSet sources;
  auto out = read_practice(sources, sources.add("practice.yaml", text));
  return {std::move(out.value), render(out.diagnostics, sources)};
}

std::string const elder_lane =
    "name: Elder Lane\ntelephone: 555 0100\naddress: 4 Elder Lane\n"
    "hours:\n  monday to friday: 8:30 to 12:00, 14:00 to 18:00\n  saturday: 9 to 12\n"
    "out of hours: the night clinic\ninitials: AB\n";

TEST(Practice, IsOpenByTheClock) {
  auto const out = read(elder_lane);
  ASSERT_TRUE(out.practice) << out.messages;
  struct At {
    int weekday;
    int hour;
    int minute;
    bool is_open;
  };
  for (auto const& at : {At{1, 8, 29, false}, At{1, 8, 30, true}, At{5, 12, 0, false},
                         At{3, 13, 0, false}, At{3, 17, 59, true}, At{3, 18, 0, false},
                         At{6, 9, 0, true}, At{6, 12, 0, false}, At{0, 10, 0, false}})
    EXPECT_EQ(is_open(*out.practice, at.weekday, 60 * at.hour + at.minute), at.is_open)
        << at.weekday << ' ' << at.hour << ':' << at.minute;
  EXPECT_TRUE(is_open(*read("name: a\ntelephone: 1\n").practice, 0, 0)) << "no hours told";
}

TEST(Practice, HoursPastMidnightAndADayNamedTwiceSayWhatToWrite) {
  auto const late = read("name: a\ntelephone: 1\nhours:\n  friday: 18:00 to 2:00\n");
  EXPECT_FALSE(late.practice);
  EXPECT_NE(late.messages.find("past midnight"), std::string::npos) << late.messages;
  EXPECT_NE(late.messages.find("24:00"), std::string::npos) << late.messages;
  auto const twice =
      read("name: a\ntelephone: 1\nhours:\n  monday to friday: 8 to 18\n  friday: 8 to 12\n");
  EXPECT_FALSE(twice.practice);
  EXPECT_NE(twice.messages.find("friday stands here a second time"), std::string::npos)
      << twice.messages;
}

TEST(Practice, AMisspeltKeyIsNotMissingAsWell) {
  auto const out = read("name: a\ntelefone: 1\n");
  EXPECT_FALSE(out.practice);
  EXPECT_NE(out.messages.find("did you mean `telephone`"), std::string::npos) << out.messages;
  EXPECT_EQ(out.messages.find("needs its telephone"), std::string::npos) << out.messages;
}

TEST(Practice, ARunOfDaysMayGoRoundTheWeek) {
  auto const out = read("name: a\ntelephone: 1\nhours: {friday to monday: 0 to 24}\n").practice;
  ASSERT_TRUE(out);
  for (int day = 0; day < 7; ++day)
    EXPECT_EQ(is_open(*out, day, 1439), day == 5 || day == 6 || day == 0 || day == 1) << day;
}

TEST(Practice, WhereToGoIsSaidByTheClockAndByWhoSpeaks) {
  Setting setting{read(elder_lane).practice, 1, 600, ""};
  Tier const now{"now",         "Now", 3600, {}, "Leave for the nearest clinic. Wrap it up.",
                 "Wrap it up.", {}};
  Tier const today{"today", "Today", 43200, {}, "Be seen today.", {}, {}};
  EXPECT_TRUE(where_to_go(now, TierId{0}, setting, Reader::nurse, SeenAt::clinic)
                  .starts_with("Come straight to us"));
  EXPECT_EQ(where_to_go(now, TierId{0}, setting, Reader::keeper, SeenAt::clinic),
            "Go straight to Elder Lane, 4 Elder Lane; telephone 555 0100 on the way. Wrap it up.");
  EXPECT_TRUE(where_to_go(today, TierId{1}, setting, Reader::nurse, SeenAt::clinic)
                  .starts_with("Come to us today"));
  Tier const slow{"out", "Vet out now", 7200, {}, "Ring for an emergency visit.", {}, {}};
  EXPECT_TRUE(where_to_go(slow, TierId{0}, setting, Reader::nurse, SeenAt::clinic)
                  .starts_with("Come straight"))
      << "the first tier is the first, however long it gives";
  setting.weekday = 0;
  EXPECT_EQ(where_to_go(now, TierId{0}, setting, Reader::nurse, SeenAt::clinic),
            "We are closed now: go straight to the night clinic. Wrap it up.");
  EXPECT_EQ(where_to_go(now, TierId{0}, setting, Reader::keeper, SeenAt::clinic),
            "Elder Lane is closed now: go straight to the night clinic. Wrap it up.");
  setting.practice->out_of_hours.clear();
  EXPECT_EQ(where_to_go(now, TierId{0}, setting, Reader::nurse, SeenAt::clinic), now.say)
      << "nobody said where";
  EXPECT_EQ(where_to_go(now, TierId{0}, {}, Reader::nurse, SeenAt::clinic), now.say);
}

TEST(Practice, WhereTheVetComesNobodyIsSentAnywhere) {
  Setting setting{read(elder_lane + "seen at: home\n").practice, 1, 600, ""};
  ASSERT_TRUE(setting.practice);
  Tier const now{"now", "Now", 3600, {}, "Ring a vet now. Keep it in.", "Keep it in.", {}};
  Tier const today{"today", "Today", 43200, {}, "Ring today.", {}, {}};
  auto const said = [&](Tier const& tier, TierId id, Reader reader) {
    return where_to_go(tier, id, setting, reader, SeenAt::home);
  };
  EXPECT_EQ(
      said(now, TierId{0}, Reader::nurse),
      "A vet has to come out to you now, and we will tell you when; ring this number if anything "
      "changes before then. Keep it in.");
  EXPECT_EQ(said(now, TierId{0}, Reader::keeper),
            "Telephone 555 0100 now, Elder Lane, 4 Elder Lane, and ask for a vet to come out at "
            "once. Keep it in.");
  EXPECT_EQ(
      said(today, TierId{1}, Reader::nurse),
      "A vet has to come out to you today; we will give you a time. If it gets worse, telephone "
      "again at once.");
  EXPECT_EQ(
      said(today, TierId{1}, Reader::keeper),
      "Telephone 555 0100 now, Elder Lane, 4 Elder Lane, and ask for a vet to come out today. "
      "If it gets worse, telephone again at once.");
  setting.weekday = 0;
  EXPECT_EQ(said(now, TierId{0}, Reader::keeper),
            "Elder Lane is closed now: telephone the night clinic now, and ask whether a vet can "
            "come out "
            "at once or you go there. Keep it in.");
  EXPECT_EQ(
      said(today, TierId{1}, Reader::nurse),
      "We are closed now: telephone the night clinic, and be seen within 12 hours. If it gets "
      "worse, telephone again at once.");
}

TEST(Practice, SaysWhoTravelsInThePlaceOfThePack) {
  Pack pack;
  Setting setting{read(elder_lane).practice, 1, 600, ""};
  EXPECT_EQ(seen_at(pack, setting), SeenAt::clinic);
  pack.seen_at = SeenAt::home;
  EXPECT_EQ(seen_at(pack, {}), SeenAt::home);
  EXPECT_EQ(seen_at(pack, setting), SeenAt::home) << "the practice does not say";
  setting.practice = read(elder_lane + "seen at: clinic\n").practice;
  EXPECT_EQ(seen_at(pack, setting), SeenAt::clinic);
  setting.weekday = 0;
  EXPECT_EQ(seen_at(pack, setting), SeenAt::clinic) << "closed, but says where to go";
  setting.practice->out_of_hours.clear();
  EXPECT_EQ(seen_at(pack, setting), SeenAt::home) << "what the tier of the pack says stands";
}

TEST(Practice, WhereTheVetComesWordsThatOnlySendAwayAreLeftOut) {
  Setting setting{read(elder_lane + "seen at: home\n").practice, 1, 600, ""};
  Tier const now{"now",
                 "Now",
                 3600,
                 {},
                 "Leave for the nearest open clinic now; telephone on the way. Offer hay; if it "
                 "gets worse, leave at once.",
                 "Offer hay; if it gets worse, leave at once.",
                 {}};
  auto const told = where_to_go(now, TierId{0}, setting, Reader::keeper, SeenAt::home);
  EXPECT_EQ(told,
            "Telephone 555 0100 now, Elder Lane, 4 Elder Lane, and ask for a vet to come out at "
            "once. Offer hay; if it gets worse, telephone again at once.");
  EXPECT_EQ(
      where_to_go(now, TierId{0}, {}, Reader::keeper, SeenAt::home),
      "Telephone the vet, and ask for a visit at once. Offer hay; if it gets worse, telephone "
      "again at once.");
  Tier const turned{"turned", "Today", 43200, {}, "Leave at once if the cub gets worse.", {}, {}};
  EXPECT_EQ(
      where_to_go(turned, TierId{1}, {}, Reader::keeper, SeenAt::home),
      "Telephone the vet, and ask for a visit within 12 hours. If the cub gets worse, telephone "
      "again at once.")
      << "a warning is never left out";
  Tier const water{"water", "Now", 3600, {}, "Carry it to water before the clinic.", {}, {}};
  EXPECT_EQ(where_to_go(water, TierId{0}, {}, Reader::keeper, SeenAt::home), water.say)
      << "it says more than to leave";
  Tier const hay{"hay", "Now", 3600, {}, "Hay stays, also on the way.", {}, {}};
  EXPECT_EQ(where_to_go(hay, TierId{0}, {}, Reader::keeper, SeenAt::home),
            "Telephone the vet, and ask for a visit at once. Hay stays.");
  Tier const mixed{"mixed",
                   "Now",
                   3600,
                   {},
                   "Warm dark box, and leave for the nearest bird vet now; telephone on the way. "
                   "Drive to us at once, and keep it warm.",
                   {},
                   {}};
  EXPECT_EQ(where_to_go(mixed, TierId{0}, {}, Reader::keeper, SeenAt::home),
            "Telephone the vet, and ask for a visit at once. Warm dark box. Keep it warm.");
  Tier const soon{"soon", "Soon", 259200, {}, "Come to us within 3 days.", {}, {}};
  EXPECT_EQ(where_to_go(soon, TierId{2}, setting, Reader::nurse, SeenAt::home), soon.say)
      << "it says more than to leave";
  Tier const later{"later", "Later", 259200, {}, "Bring it in to the clinic.", {}, {}};
  EXPECT_EQ(where_to_go(later, TierId{2}, setting, Reader::nurse, SeenAt::home),
            "Telephone the vet, and ask for a visit within 3 days.");
  EXPECT_EQ(where_to_go(later, TierId{2}, setting, Reader::nurse, SeenAt::clinic), later.say);
}

TEST(Practice, AVetComesOutAtSomeHoursOfTheDay) {
  auto const by_day = elder_lane + "home visits:\n  monday to friday: 9 to 17\n";
  Pack pack;
  Setting setting{read(by_day).practice, 1, 600, ""};
  ASSERT_TRUE(setting.practice) << read(by_day).messages;
  EXPECT_EQ(seen_at(pack, setting), SeenAt::home);
  setting.minute = 60 * 17;
  EXPECT_EQ(seen_at(pack, setting), SeenAt::clinic) << "open, and the visits are over";
  setting.minute = 60 * 22;
  pack.seen_at = SeenAt::home;
  EXPECT_EQ(seen_at(pack, setting), SeenAt::clinic) << "closed, and the night clinic is named";
  setting.practice->out_of_hours.clear();
  EXPECT_EQ(seen_at(pack, setting), SeenAt::home) << "nobody is named: the pack's words stand";

  setting.practice = read(
                         "name: Far Lane\ntelephone: 555 0100\nhours: {monday: 9 to 17}\n"
                         "home visits: {monday: \"0 to 9, 17 to 24\"}\n")
                         .practice;
  ASSERT_TRUE(setting.practice);
  pack.seen_at = SeenAt::clinic;
  Tier const now{"now", "Now", 3600, {}, "Leave for the nearest clinic.", {}, {}};
  EXPECT_EQ(seen_at(pack, setting), SeenAt::home) << "at night alone";
  EXPECT_EQ(where_to_go(now, TierId{0}, setting, Reader::keeper, seen_at(pack, setting)),
            "Telephone 555 0100 now, Far Lane, and ask for a vet to come out at once.");
  setting.minute = 600;
  EXPECT_EQ(seen_at(pack, setting), SeenAt::clinic);
  EXPECT_EQ(where_to_go(now, TierId{0}, setting, Reader::keeper, seen_at(pack, setting)),
            "Go straight to Far Lane; telephone 555 0100 on the way.");
  EXPECT_NE(read(by_day + "seen at: home\n").messages.find("a practice has one of the two"),
            std::string::npos);
}

TEST(Practice, WhatIsWrongIsSaidWithItsPlace) {
  struct Bad {
    char const* text;
    char const* says;
  };
  for (auto const& bad :
       {Bad{"- a\n", "a practice is told as"}, Bad{"name: a\n", "needs its telephone"},
        Bad{"nme: a\n", "did you mean `name`?"},
        Bad{"name: a\ntelephone: 1\nseen at: stable\n", "`seen at` is `home`"},
        Bad{"name: a\ntelephone: 1\nhours: {frday: 8 to 9}\n", "names no day"},
        Bad{"name: a\ntelephone: 1\nhours: {friday: 8}\n", "hours are written as"},
        Bad{"name: a\ntelephone: 1\nhours: {friday: 9 to 8}\n", "past midnight"},
        Bad{"name: a\ntelephone: 1\nhours: {friday: 8:70 to 9}\n", "hours are written as"},
        Bad{"name: a\ntelephone: 1\nhours: {friday: 8 to 25}\n", "hours are written as"},
        Bad{"name: a\ntelephone: 1\nhours: {friday: '8 to 12, 11 to 18'}\n",
            "begins after the one before has ended"},
        Bad{"name: a\ntelephone: 1\nhours: all day\n", "is a list of days"},
        Bad{"name: [a]\ntelephone: 1\n", "`name` is a text"}}) {
    auto const out = read(bad.text);
    EXPECT_FALSE(out.practice) << bad.text;
    EXPECT_NE(out.messages.find(bad.says), std::string::npos) << out.messages;
    EXPECT_EQ(out.messages.find("practice.yaml:"), 0U) << out.messages;
  }
}

}  // namespace
}  // namespace flinch
