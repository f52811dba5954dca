// Numbers of a list and doubts about them.
#include <gtest/gtest.h>

#include "ask/ask_keys.hpp"
#include "flinch/interview/answer_entry.hpp"
#include "pack/shipped_pack.hpp"

namespace flinch::cli {
namespace {

using Lines = std::vector<std::size_t>;

TEST(ListReply, ADoubtHoldsForEveryNumberBehindIt) {
  for (auto const* line : {"not sure about 3 and 4", "can't tell about 3 and 4",
                           "don't know about 3 4", "Not sure about 3 & 4"}) {
    auto const reply = read_list_reply(line, 8);
    EXPECT_EQ(reply.yes, Lines{}) << line;
    EXPECT_EQ(reply.cannot_tell, (Lines{2, 3})) << line;
  }
  auto const both = read_list_reply("1, not sure about 3 and 4", 8);
  EXPECT_EQ(both.yes, Lines{0});
  EXPECT_EQ(both.cannot_tell, (Lines{2, 3}));
}

TEST(ListReply, HowFarADoubtGoesBeyondACommaIsAsked) {
  for (auto const* line : {"not sure about 3, 4", "not sure about 3; 4"}) {
    auto const reply = read_list_reply(line, 8);
    EXPECT_FALSE(reply.remark.empty()) << line;
    EXPECT_TRUE(reply.yes.empty() && reply.cannot_tell.empty()) << line;
  }
}

TEST(ListReply, AlmostIsNotSo) {
  auto const pack = test::shipped_pack();
  auto const read = [&](std::string const& sign, std::string const& typed) {
    return read_entry(*pack, *pack->find_sign(sign), typed, {{2026, 11, 25}, {}}).answer;
  };
  for (auto const* typed : {"almost pink", "nearly pink", "nearly white"})
    EXPECT_FALSE(read("gum_colour", typed)) << typed;
  EXPECT_FALSE(read("appetite", "almost normal"));
  EXPECT_FALSE(read("pain_degree", "nearly much"));
  EXPECT_TRUE(read("gum_colour", "very pale, almost white")) << "pale, by itself";
}

}  // namespace
}  // namespace flinch::cli
