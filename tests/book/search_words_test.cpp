#include "book/search_words.hpp"

#include <gtest/gtest.h>

namespace flinch::test {
namespace {

using Words = std::vector<std::string>;

TEST(SearchWords, LettersBecomeSmallAndSignsGaps) {
  EXPECT_EQ(cli::words_in("Jo-Ann O'Hara"), (Words{"jo", "ann", "o", "hara"}));
  EXPECT_EQ(cli::words_in("\u00c9LAN \u00d7 \u00d1u"), (Words{"\u00e9lan", "\u00d7", "\u00f1u"}));
  EXPECT_EQ(cli::words_in(""), Words{});
}

TEST(SearchWords, AreBoundedWhateverIsPasted) {
  auto const words = cli::words_in(std::string(4U << 20U, 'x'));
  ASSERT_EQ(words.size(), 1U);
  EXPECT_EQ(words.front().size(), 40U);
  std::string many;
  for (int i = 0; i < 100000; ++i) many += "a b ";
  EXPECT_EQ(cli::words_in(many).size(), 12U);
  EXPECT_EQ(cli::digits_in(std::string(1000, '7')).size(), 40U);
}

TEST(SearchWords, ANumberIsListedFromBothEnds) {
  EXPECT_EQ(cli::search_words("Bramble", "Jo", "(555) 01-42"),
            (Words{"#5550142", "bramble", "jo", "~2410555"}));
  EXPECT_EQ(cli::search_words("", "", "no number"), Words{});
}

TEST(SearchWords, DigitsTypedApartAreOneNumber) {
  EXPECT_EQ(cli::search_beginnings("bra 555 01"),
            (std::vector<Words>{{"bra"}, {"#55501", "~10555"}}));
}

}  // namespace
}  // namespace flinch::test
