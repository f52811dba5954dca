// Positions in UTF-16 code units, and addresses of files.
#include "serve/text_positions.hpp"

#include <gtest/gtest.h>

#include "serve/file_uri.hpp"

namespace flinch::cli::serve {
namespace {

// Code units by hand: a dog U+1F436 has two units and four bytes, an e with a combining acute
// U+0301 two characters of one unit each, a flag two characters of two units each.
TEST(TextPositions, CountsUtf16CodeUnits) {
  std::string const patient = "\xF0\x9F\x90\xB6";
  std::string const acute = "e\xCC\x81";
  std::string const flag = "\xF0\x9F\x87\xA9\xF0\x9F\x87\xAA";
  auto const text = "a" + patient + "b" + acute + "c\n\xE2\x82\xAC" + flag + "d";
  TextPositions const positions(text);
  struct Row {
    std::string before;  // the text up to the place
    LinePosition at;
  };
  for (auto const& [before, at] : std::vector<Row>{
           {"", {0, 0}},
           {"a", {0, 1}},
           {"a" + patient, {0, 3}},
           {"a" + patient + "b", {0, 4}},
           {"a" + patient + "be", {0, 5}},
           {"a" + patient + "b" + acute, {0, 6}},
           {"a" + patient + "b" + acute + "c", {0, 7}},
           {"a" + patient + "b" + acute + "c\n", {1, 0}},
           {"a" + patient + "b" + acute + "c\n\xE2\x82\xAC", {1, 1}},
           {"a" + patient + "b" + acute + "c\n\xE2\x82\xAC" + flag, {1, 5}},
           {text, {1, 6}},
       }) {
    EXPECT_EQ(positions.position(before.size()), at) << before;
    EXPECT_EQ(positions.offset(at), before.size()) << before;
  }
  EXPECT_EQ(positions.offset({0, 2}), 1U) << "between the units of a pair: its start";
  EXPECT_EQ(positions.position(3), (LinePosition{0, 1})) << "within a character: its start";
  EXPECT_EQ(positions.offset({0, 1000}), text.find('\n'));
  EXPECT_EQ(positions.offset({7, 0}), text.size());
  EXPECT_EQ(positions.position(1000), (LinePosition{1, 6}));
}

TEST(TextPositions, KnowsThreeEndsOfLine) {
  TextPositions const positions("a\r\nb\rc\n");
  EXPECT_EQ(positions.position(3), (LinePosition{1, 0}));
  EXPECT_EQ(positions.position(5), (LinePosition{2, 0}));
  EXPECT_EQ(positions.end(), (LinePosition{3, 0}));
  EXPECT_EQ(positions.offset({0, 9}), 1U);
}

TEST(TextPositions, TakesBytesThatAreNoCharactersOneByOne) {
  TextPositions const positions("\xF0\x9F\xFFx\xC3");
  EXPECT_EQ(positions.position(3), (LinePosition{0, 3}));
  EXPECT_EQ(positions.offset({0, 5}), 5U);
}

TEST(FileUri, ReadsAndWritesPaths) {
  EXPECT_EQ(path_of_uri("file:///home/a%20b/%C3%A9.flinch"), "/home/a b/\xC3\xA9.flinch");
  EXPECT_EQ(path_of_uri("file://localhost/a/./b/../c"), "/a/c");
  EXPECT_EQ(uri_of_path("/home/a b/\xC3\xA9#.flinch"), "file:///home/a%20b/%C3%A9%23.flinch");
  for (auto const* other : {"untitled:1", "http://x/y", "file://elsewhere/a", "file:///a%0",
                            "file:///%zz", "file:///a%00b", "", "file:", "file://"})
    EXPECT_EQ(path_of_uri(other), std::nullopt) << other;
}

}  // namespace
}  // namespace flinch::cli::serve
