#include "call/call_view.hpp"

#include <gtest/gtest.h>

#include <random>

#include "call/call_desk.hpp"
#include "flinch/text/display.hpp"
#include "pack/shipped_pack.hpp"

namespace flinch::cli {
namespace {

using test::press;

std::string text_of(ViewLine const& line) {
  std::string out;
  for (auto const& piece : line) out += piece.text;
  return out;
}

class CallView : public testing::Test {
 protected:
  std::string screen(ScreenSize size = {80, 24}, Letters letters = Letters::ascii) const {
    return plain_text(call_view(call_, size, letters));
  }
  [[nodiscard]] bool shows(std::string const& words) const {
    return screen().find(words) != std::string::npos;
  }
  Tables tables_{test::desk_pack()};
  CallModel call_{tables_, {}, Keeping::in_memory, test::desk_clock};
};

TEST_F(CallView, EveryPageFillsItsScreenAndNoMore) {
  for (auto const* keys : {"", "limp", "1", "\x1b\t", "\t", "\t", "\x0b", "x\t/gum1",
                           "\x1b"
                           "bleed1"}) {
    press(call_, keys);
    for (ScreenSize const size :
         {ScreenSize{60, 20}, {80, 24}, {120, 40}, {200, 60}, {10, 3}, {1, 1}})
      for (auto const letters : {Letters::ascii, Letters::unicode}) {
        auto const drawn = call_view(call_, size, letters);
        ASSERT_EQ(drawn.lines.size(), size.rows) << keys;
        for (auto const& line : drawn.lines)
          EXPECT_LE(display_width(text_of(line)), size.columns) << text_of(line);
        if (drawn.cursor) {
          EXPECT_LT(drawn.cursor->row, size.rows);
          EXPECT_LT(drawn.cursor->column, size.columns);
        }
      }
  }
}

// What lowered it may be long: the key that says it was seen stays on the line.
TEST_F(CallView, AFallKeepsItsKeyOnANarrowScreen) {
  Tables const shipped(test::shipped_pack());
  CallModel call(shipped, {}, Keeping::in_memory, test::desk_clock);
  press(call, "collapsed\n\t\t0\x1b");
  ASSERT_TRUE(call.state().fall);
  for (ScreenSize const size : {ScreenSize{60, 20}, {80, 24}}) {
    auto const text = plain_text(call_view(call, size, Letters::ascii));
    EXPECT_NE(text.find("FELL from"), std::string::npos);
    EXPECT_NE(text.find("Enter: seen"), std::string::npos) << text;
  }
}

TEST_F(CallView, TheUrgencyAloneIsReversed) {
  press(call_, "passed1");
  auto const drawn = call_view(call_, {80, 24}, Letters::ascii);
  EXPECT_EQ(drawn.lines[0][0].text, " See a vet now ");
  EXPECT_EQ(drawn.lines[0][0].weight, Weight::urgency);
  for (std::size_t row = 0; row < drawn.lines.size(); ++row)
    for (std::size_t i = row == 0 ? 1 : 0; i < drawn.lines[row].size(); ++i)
      EXPECT_NE(drawn.lines[row][i].weight, Weight::urgency);
}

TEST_F(CallView, UrgencyAndOpenDangerStandOnEveryPage) {
  press(call_, "no\n");
  for (int page = 0; page < 4; ++page) {
    EXPECT_TRUE(shows("Nothing told that says how soon")) << screen();
    EXPECT_TRUE(shows("may be \"See a vet now\"")) << screen();
    EXPECT_TRUE(shows("trouble breathing")) << screen();
    press(call_, "\t");
  }
  press(call_, "limp");
  EXPECT_TRUE(shows("OPEN ")) << screen();
  EXPECT_TRUE(shows("trouble breathing")) << screen();
}

TEST_F(CallView, WhatIsNotSettledSaysAtLeast) {
  press(call_, "limp1stiff1/not eating0");
  EXPECT_TRUE(shows("AT LEAST: ")) << screen();
  press(call_, "\t\t\t");
  EXPECT_TRUE(shows("NOT SETTLED")) << screen();
}

TEST_F(CallView, SaysWhatToReadOutAndHowToCheck) {
  press(call_, "floppy");
  EXPECT_TRUE(shows("SAY    Has the dog collapsed, or does it hardly respond?")) << screen();
  EXPECT_TRUE(shows("CHECK  Call its name and clap your hands once.")) << screen();
}

TEST_F(CallView, AdviceForbidsHumanPainkillersAndAtTheTopEverythingByMouth) {
  press(call_, "limp1\t\t\t");
  EXPECT_TRUE(shows("Give no human painkillers")) << screen();
  EXPECT_TRUE(shows("does not diagnose")) << screen();
  EXPECT_FALSE(shows("No food")) << screen();
  press(call_, "\tpassed1\t\t\t");
  EXPECT_TRUE(shows("Give no human painkillers")) << screen();
  EXPECT_TRUE(shows("Ask about food and water")) << screen();
  EXPECT_TRUE(shows("Keep it warm and lay it on its side.")) << screen();
  EXPECT_TRUE(shows("Proposed: ")) << screen();
  press(call_, "1");
  EXPECT_TRUE(shows("Agreed: ")) << screen();
  EXPECT_TRUE(shows("does not diagnose")) << screen();
}

TEST_F(CallView, FreeTextIsInertAndAsciiWhereItMustBe) {
  call_.press({Key::Kind::next_page, {}});
  call_.press({Key::Kind::paste, "Zo\u00eb \x1b[2J\u202e\xff<b>"});
  call_.press({Key::Kind::enter, {}});
  for (auto const letters : {Letters::ascii, Letters::unicode})
    for (auto const& line : call_view(call_, {80, 24}, letters).lines)
      EXPECT_EQ(inert(text_of(line)), text_of(line));
  auto const ascii = screen();
  for (char const c : ascii) EXPECT_LT(static_cast<unsigned char>(c), 0x80U) << ascii;
  EXPECT_NE(screen({80, 24}, Letters::unicode).find("Zo\u00eb"), std::string::npos);
}

TEST_F(CallView, EveryKeyIsOnTheScreenOfKeys) {
  press(call_, "\x0b");
  for (auto const* key :
       {"yes no don't know", "0 ", "1 to 9", "up, down", "letters", "Tab", "Shift-Tab", "Esc",
        "1 there", "Backspace", "Ctrl-Z", "Ctrl-U", "Ctrl-L", "Ctrl-K", "F1", "Ctrl-C"})
    EXPECT_NE(screen({60, 20}).find(key), std::string::npos) << key << '\n' << screen({60, 20});
  press(call_, "q");
  EXPECT_FALSE(shows("ALL KEYS"));
  EXPECT_EQ(call_.state().activity, Activity::asking) << "the key only closes the page";
}

TEST_F(CallView, TheLastAnswerStandsUntilTheNext) {
  press(call_, "no\nlimp");
  EXPECT_TRUE(shows(" COLLAPSED: NO   recorded; ^Z takes it back")) << screen();
}

TEST_F(CallView, WhatIsSaidToALineOfTheListStandsBesideIt) {
  press(call_, "2");
  EXPECT_TRUE(shows("= yes")) << screen();
}

TEST_F(CallView, WhatCouldNotBeSavedIsSaidUntilItIs) {
  call_.set_unsaved("no space left");
  press(call_, "no\n\t\t");
  EXPECT_TRUE(shows("NOT SAVED: no space left")) << screen();
  call_.set_unsaved("");
  EXPECT_FALSE(shows("NOT SAVED")) << screen();
}

TEST_F(CallView, TheSmallestScreenShowsTheWayToAllKeysAndWholeSentences) {
  for (auto const* keys : {"", "limp", "\x1bgum1", "\x1bminute1", "\x1b\t", "\t", "\t"}) {
    press(call_, keys);
    EXPECT_NE(screen({60, 20}).find("F1/^K keys"), std::string::npos) << screen({60, 20});
  }
  press(call_, "\tpassed1");
  EXPECT_NE(screen({60, 20}).find("If they stay on the line:"), std::string::npos)
      << screen({60, 20});
}

TEST_F(CallView, ThePageOfAdviceScrollsToItsEndAndNotPastIt) {
  press(call_, "passed1!");
  for (int i = 0; i < 200; ++i) {
    press(call_, "\x0e");
    call_.limit_scroll(call_view(call_, {60, 20}, Letters::ascii).scroll_at_most);
  }
  auto const end = screen({60, 20});
  press(call_, "\x10");
  EXPECT_NE(screen({60, 20}), end) << "one up moves at once";
}

TEST_F(CallView, RandomKeysAlwaysDrawAWholeScreen) {
  std::mt19937 random(7);
  std::string const keys = "yn?012345-/xrabelmtg\n\t\b\x1b\x1a\x0b\x0e\x10";
  for (int i = 0; i < 3000; ++i) {
    press(call_,
          keys.substr(std::uniform_int_distribution<std::size_t>(0, keys.size() - 1)(random), 1));
    ASSERT_EQ(call_view(call_, {60, 20}, Letters::ascii).lines.size(), 20U);
  }
}

}  // namespace
}  // namespace flinch::cli
