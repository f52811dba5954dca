// Messages on a byte stream, sound and hostile.
#include "serve/frames.hpp"

#include <gtest/gtest.h>

#include <sstream>

namespace flinch::cli::serve {
namespace {

TEST(Frames, ComeOneAfterTheOtherAndThenTheEnd) {
  std::istringstream in(
      "Content-Length: 2\r\n\r\n{}content-length:3  \r\nContent-Type: x; charset=utf-8\r\n\r\nabc");
  auto frame = read_frame(in);
  EXPECT_EQ(frame.kind, Frame::Kind::message);
  EXPECT_EQ(frame.text, "{}");
  frame = read_frame(in);
  EXPECT_EQ(frame.kind, Frame::Kind::message);
  EXPECT_EQ(frame.text, "abc");
  EXPECT_EQ(read_frame(in).kind, Frame::Kind::end);
}

TEST(Frames, ATooLargeBodyIsPassedOverAndTheNextIsRead) {
  std::istringstream in("Content-Length: 5\r\n\r\n12345Content-Length: 1\r\n\r\n6");
  FrameLimits const limits{4096, 4};
  EXPECT_EQ(read_frame(in, limits).kind, Frame::Kind::too_large);
  EXPECT_EQ(read_frame(in, limits).text, "6");
}

TEST(Frames, ALengthThatIsOnlyClaimedEndsWithTheStream) {
  for (auto const* length : {"8000000", "18446744073709551615", "9223372036854775807"}) {
    std::istringstream in("Content-Length: " + std::string(length) + "\r\n\r\nshort");
    EXPECT_EQ(read_frame(in).kind, Frame::Kind::end) << length;
  }
}

TEST(Frames, WhatIsNoHeaderIsBroken) {
  for (auto const* text :
       {"\r\n\r\n", "{}\r\n\r\n", "Content-Length: 2\n\n{}", "Content-Length: -1\r\n\r\n",
        "Content-Length: 2x\r\n\r\n{}", "Content-Length:\r\n\r\n",
        "Content-Length: 99999999999999999999\r\n\r\n", "Content-Type: x\r\n\r\n{}",
        "Content-Length: 2\r\nContent-Length: 2\r\n\r\n{}"}) {
    std::istringstream in(text);
    auto const frame = read_frame(in);
    EXPECT_EQ(frame.kind, Frame::Kind::broken) << text;
    EXPECT_NE(frame.text, "");
  }
  std::istringstream endless(std::string(100'000, 'x'));
  EXPECT_EQ(read_frame(endless).kind, Frame::Kind::broken);
}

TEST(Frames, AreReadAsTheyAreWritten) {
  std::stringstream both;
  std::string const body("\0\r\n\xF0\x9F\x90\xB6", 7);
  write_frame(both, body);
  EXPECT_EQ(read_frame(both).text, body);
}

}  // namespace
}  // namespace flinch::cli::serve
