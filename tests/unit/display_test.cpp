#include "flinch/text/display.hpp"

#include <gtest/gtest.h>

#include <string>

namespace flinch {
namespace {

// Unicode Standard Annex 11 (East Asian Width); marks and controls take no column.
TEST(Display, CountsTheColumnsOfATerminal) {
  EXPECT_EQ(display_width("limps"), 5U);
  EXPECT_EQ(display_width("caf\u00e9"), 4U);
  EXPECT_EQ(display_width("cafe\u0301"), 4U);
  EXPECT_EQ(display_width("\u72ac\u306e"), 4U);
  EXPECT_EQ(display_width("\U0001F415"), 2U);
  EXPECT_EQ(display_width("a\u200db\x1b"), 2U);
  EXPECT_EQ(display_width("\xff\xc3"), 2U);  // each bad byte is shown as one mark
}

// RFC 3629: shortest form, no surrogates, nothing above U+10FFFF.
TEST(Display, FindsWhatIsNoUtf8) {
  EXPECT_EQ(find_invalid_utf8("caf\u00e9 \U0010FFFF"), std::string_view::npos);
  for (std::string_view const bad :
       {"\xc0\xaf", "\xe0\x80\xaf", "\xed\xa0\x80", "\xf4\x90\x80\x80", "\xe2\x82", "\x80", "\xfe"})
    EXPECT_EQ(find_invalid_utf8("ok " + std::string(bad)), 3U);
}

TEST(Display, LetsNoControlCharacterPass) {
  EXPECT_EQ(inert("a\x1b[31m\tb\u009b\u202e\xff"), "a?[31m\tb???");
}

}  // namespace
}  // namespace flinch
