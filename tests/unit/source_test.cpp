#include "flinch/text/source.hpp"

#include <gtest/gtest.h>

#include "flinch/text/diagnostic.hpp"
#include "flinch/text/display.hpp"

namespace flinch {
namespace {

TEST(Source, CountsLinesAndCodePointsFromOne) {
  Source const source("a.flinch", "one\ntw\xC3\xB6 x\n");  // "two" with an o-umlaut: two bytes
  auto const at_x = source.position(9);
  EXPECT_EQ(at_x.line, 2U);
  EXPECT_EQ(at_x.column, 5U);
  EXPECT_EQ(source.position(0).line, 1U);
  EXPECT_EQ(source.position(999).line, 3U);
}

TEST(Source, LinesComeWithoutTheirBreaks) {
  Source const source("a.flinch", "one\r\ntwo");
  EXPECT_EQ(source.line(1), "one");
  EXPECT_EQ(source.line(2), "two");
}

TEST(Render, PutsTheCaretUnderThePlaceByDisplayWidth) {
  SourceSet sources;
  auto const file =
      sources.add("a.flinch", "\tsign \xE7\x8A\xAC wrong here\n");  // a wide character
  Report report;
  report.error(Code::unknown_name, {file, {10, 15}}, "unknown sign `wrong`");
  EXPECT_EQ(render(report.take(), sources),
            "a.flinch:1:9: error: unknown sign `wrong` [unknown-name]\n"
            "  1 | \tsign \xE7\x8A\xAC wrong here\n"
            "    | \t        ^~~~~\n");
}

TEST(Render, ShowsNoMoreThanAskedFor) {
  SourceSet sources;
  auto const file = sources.add("a.flinch", "x\n");
  Report report;
  for (int i = 0; i < 5; ++i) report.error(Code::expected, {file, {0, 1}}, "no");
  auto const text = render(report.take(), sources, 2);
  EXPECT_NE(text.find("... and 3 more"), std::string::npos);
}

TEST(Inert, ControlCharactersAndOverridesBecomeQuestionMarks) {
  EXPECT_EQ(inert("a\x1b[31mb\x07"), "a?[31mb?");
  EXPECT_EQ(inert("a\xE2\x80\xAE"
                  "b"),
            "a?b");                   // right-to-left override
  EXPECT_EQ(inert("\xC2\x9B"), "?");  // control sequence introducer in one code point
  EXPECT_EQ(inert("\xFF"
                  "x"),
            "?x");
}

TEST(InvalidUtf8, FindsTheFirstBadByte) {
  EXPECT_EQ(find_invalid_utf8("fine \xC3\xB6"), std::string_view::npos);
  EXPECT_EQ(find_invalid_utf8("ab\xC3"), 2U);            // cut short
  EXPECT_EQ(find_invalid_utf8("\xC0\x80"), 0U);          // overlong
  EXPECT_EQ(find_invalid_utf8("a\xED\xA0\x80"), 1U);     // surrogate
  EXPECT_EQ(find_invalid_utf8("\xF4\x90\x80\x80"), 0U);  // above U+10FFFF
}

}  // namespace
}  // namespace flinch
