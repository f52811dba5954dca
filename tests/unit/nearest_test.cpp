#include "flinch/text/nearest.hpp"

#include <gtest/gtest.h>

namespace flinch {
namespace {

TEST(EditDistance, CountsInsertionsDeletionsReplacementsAndSwaps) {
  struct Row {
    char const* a;
    char const* b;
    std::size_t distance;
  };
  // kitten/sitting: the textbook example of Levenshtein distance 3. ca/abc: 3 under optimal string
  // alignment (a swapped pair is not edited again).
  for (auto const& row : {Row{"", "", 0},
                          {"a", "", 1},
                          {"kitten", "sitting", 3},
                          {"form", "from", 1},
                          {"ca", "abc", 3},
                          {"elbow", "elbow", 0}})
    EXPECT_EQ(edit_distance(row.a, row.b, 9), row.distance) << row.a << " " << row.b;
}

TEST(EditDistance, StopsCountingPastTheLimit) {
  EXPECT_EQ(edit_distance("abcdefgh", "stuvwxyz", 2), 3U);
}

TEST(Nearest, TakesTheNearestAndBreaksTiesByAlphabet) {
  EXPECT_EQ(nearest("tendr", {"tender", "trembling"}), "tender");
  EXPECT_EQ(nearest("cat", {"rat", "bat"}), "bat");
}

TEST(Nearest, TakesOtherWaysOfWritingForTheSameWord) {
  EXPECT_EQ(nearest("Hit-Window", {"hit_window", "hid_window"}), "hit_window");
  EXPECT_EQ(nearest("ASK", {"alone", "ask"}), "ask");
}

TEST(Nearest, SaysNothingBeyondAThirdOfTheWord) {
  EXPECT_EQ(nearest("pancreas", {"elbow", "stifle"}), std::nullopt);
  EXPECT_EQ(nearest("abc", {"xyz"}), std::nullopt);
}

TEST(Nearest, IgnoresWordsTooLongToBeMisspellings) {
  EXPECT_EQ(nearest(std::string(1000, 'a'), {"aaa"}), std::nullopt);
}

}  // namespace
}  // namespace flinch
