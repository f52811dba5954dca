// What callers say of life threats finds the sign at once.
#include <gtest/gtest.h>

#include <algorithm>

#include "flinch/interview/sign_search.hpp"
#include "pack/shipped_pack.hpp"

namespace flinch::test {
namespace {

TEST(SearchWords, EverydayWordsForLifeThreatsFindThemAmongTheFirstThree) {
  struct Said {
    char const* words;
    char const* sign;
  };
  constexpr Said said[] = {
      {"unconscious", "collapsed"},
      {"lifeless", "collapsed"},
      {"blacked out", "collapsed"},
      {"out cold", "collapsed"},
      {"passed out", "collapsed"},
      {"not responding", "collapsed"},
      {"convulsing", "seizure"},
      {"convulsion", "seizure"},
      {"fitting", "seizure"},
      {"choking", "breathing_trouble"},
      {"suffocating", "breathing_trouble"},
      {"nearly drowned", "breathing_trouble"},
      {"drowned", "breathing_trouble"},
      {"cant breathe", "breathing_trouble"},
      {"gasping", "breathing_trouble"},
      {"electrocuted", "burnt"},
      {"electric shock", "burnt"},
      {"blue tongue", "gum_colour"},
      {"tongue gone blue", "gum_colour"},
      {"pale gums", "gum_colour"},
      {"back legs gone", "hindlegs_failing"},
      {"paralysed", "cannot_walk"},
      {"run over", "road_accident"},
      {"hit by a car", "road_accident"},
      {"ate rat poison", "ate_poison"},
      {"grapes", "ate_poison"},
      {"antifreeze", "ate_poison"},
      {"xylitol", "ate_poison"},
      {"heatstroke", "hot_day"},
      {"stabbed", "wound"},
      {"bloated", "belly_swollen"},
      {"pot-bellied", "belly_swollen"},
      {"eye popped out", "eye_out"},
  };
  auto const pack = shipped_pack();
  SignSearch const search(*pack);
  for (auto const& one : said) {
    auto const wanted = pack->find_sign(one.sign);
    ASSERT_TRUE(wanted) << one.sign;
    auto const found = search.find(one.words, 3);
    EXPECT_TRUE(std::any_of(found.begin(), found.end(), [&](FoundSign const& sign) {
      return sign.sign == *wanted;
    })) << one.words;
  }
}

}  // namespace
}  // namespace flinch::test
