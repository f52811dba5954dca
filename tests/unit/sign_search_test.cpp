#include "flinch/interview/sign_search.hpp"

#include <gtest/gtest.h>

#include "pack/shipped_pack.hpp"
#include "support/small_pack.hpp"

namespace flinch {
namespace {

using Words = std::vector<std::string>;

TEST(FoldedWords, DropCaseAccentsAndApostrophes) {
  EXPECT_EQ(folded_words("Won't get UP"), (Words{"wont", "get", "up"}));
  EXPECT_EQ(folded_words("  won\u2019t,eat--"), (Words{"wont", "eat"}));
  EXPECT_EQ(folded_words("Caf\u00e9 \u0141\u00f3d\u017a stra\u00dfe \u0153uf e\u0301tat"),
            (Words{"cafe", "lodz", "strasse", "oeuf", "etat"}));
  EXPECT_EQ(folded_words("a\xff"
                         "b\x1b[2J\xe2\x82"),
            (Words{"a", "b", "2j"}));
  EXPECT_EQ(folded_words("ph\u1edf \ufb01n, \u041b\u0410\u041f\u0410"),
            (Words{"pho", "fin", "\u043b\u0430\u043f\u0430"}));
  EXPECT_EQ(folded_words("eye\u2014red \u201clame\u201d 39\u00b0"),
            (Words{"eye", "red", "lame", "39"}));
  EXPECT_EQ(folded_words(""), Words{});
  EXPECT_EQ(folded_words("?! \u00d7"), Words{});
}

std::shared_ptr<Pack const> pack() {
  static auto const made = [] {
    std::string text;
    auto const sign = [&](std::string const& head, std::string const& ask,
                          std::string const& said) {
      text += "sign " + head + "\n  ask \"" + ask + "\"\n  answer yes or no\n  seen by anyone\n";
      if (!said.empty()) text += "  also said " + said + "\n";
    };
    sign("slow_to_rise \"slow to rise\"", "Trouble getting up or lying down?",
         "\"won't get up\", \"takes ages getting up\"");
    sign("appetite_lost \"eats nothing\"", "Does the dog refuse food?", "\"off his food\"");
    sign("scooting \"drags its bottom\"", "Does the dog drag its bottom over the floor?",
         "\"bum dragging\", \"scooting\"");
    sign("drags_toes \"drags its toes\"", "Does the dog drag its toes?", "");
    sign("one \"same word\"", "x?", "");
    sign("two \"same word\"", "x?", "");
    return test::pack_of(text);
  }();
  return made;
}

Words found(std::string_view typed, std::size_t at_most = 10) {
  static SignSearch const search(*pack());
  Words names;
  for (auto const& one : search.find(typed, at_most)) names.push_back((*pack())[one.sign].name);
  return names;
}

TEST(SignSearch, FindsByEverydayWords) {
  EXPECT_EQ(found("won't get up").at(0), "slow_to_rise");
  EXPECT_EQ(found("she is off her food").at(0), "appetite_lost");
  EXPECT_EQ(found("bum dragging").at(0), "scooting");
  EXPECT_EQ(found("slow_to").at(0), "slow_to_rise");
}

TEST(SignSearch, FindsWithinASentenceWhatIsToBeAskedAndNeverExact) {
  SignSearch const search(*pack());
  EXPECT_TRUE(search.find("he just won't get up since the walk in the park", 9).empty());
  auto const within = search.find_within("he just won't get up since the walk in the park", 9);
  ASSERT_FALSE(within.empty());
  EXPECT_EQ((*pack())[within[0].sign].name, "slow_to_rise");
  for (auto const& one : within) EXPECT_FALSE(one.is_exact);
  EXPECT_TRUE(search.find_within("quite something else", 9).empty());
  EXPECT_TRUE(search.find_within("", 9).empty());
}

TEST(SignSearch, TakesBeginningsOfWords) {
  EXPECT_EQ(found("scoot"), Words{"scooting"});
  EXPECT_EQ(found("bu dr").at(0), "scooting");
  EXPECT_EQ(found("toe"), Words{"drags_toes"});
}

TEST(SignSearch, ForgivesOneMistakeFromFourLettersOn) {
  EXPECT_EQ(found("scotting"), Words{"scooting"});
  EXPECT_EQ(found("scooitng"), Words{"scooting"});
  EXPECT_EQ(found("scxo"), Words{});
  EXPECT_EQ(found("scoxxing"), Words{});
  EXPECT_EQ(found("tox"), Words{});
}

// What would let a danger sign wait is offered, and recorded by nobody's words alone.
TEST(SignSearch, WhatAnUnlessAsksForIsNeverExact) {
  auto const made = test::pack_of(
      "sign sways \"sways\"\n  ask \"Sways?\"\n  answer yes or no\n  seen by anyone\n"
      "  alone see now unless for_months because \"x\" cite judgement\n"
      "sign for_months \"sways for months\"\n  ask \"For months, and no worse?\"\n"
      "  answer yes or no\n  seen by anyone\n  also said \"wobbly for ages\"\n");
  SignSearch const search(*made);
  auto const mild = search.find("wobbly for ages", 3).at(0);
  EXPECT_EQ((*made)[mild.sign].name, "for_months");
  EXPECT_TRUE(mild.may_calm);
  EXPECT_FALSE(mild.is_exact);
  EXPECT_TRUE(search.find_within("he has been wobbly for ages now", 3).at(0).may_calm);
  auto const danger = search.find("sways", 3).at(0);
  EXPECT_EQ((*made)[danger.sign].name, "sways");
  EXPECT_TRUE(danger.is_exact);
  EXPECT_FALSE(danger.may_calm);
}

TEST(SignSearch, TiesKeepTheOrderOfThePack) {
  EXPECT_EQ(found("same"), (Words{"one", "two"}));
  EXPECT_EQ(found("word", 1), Words{"one"});
}

TEST(SignSearch, WordsThatFitNothingFindNothing) {
  EXPECT_EQ(found(""), Words{});
  EXPECT_EQ(found("   "), Words{});
  EXPECT_EQ(found("zebra crossing"), Words{});
  EXPECT_EQ(found(std::string(100000, 'a')), Words{});
  EXPECT_EQ(found("\xff\x1b[31m"), Words{});
}

TEST(SignSearch, SaysWhichWordsFitted) {
  SignSearch const search(*pack());
  EXPECT_EQ(search.find("off food", 1).at(0).words, "off his food");
}

// A caller's words for a step or a choice lead to it; nothing unrelated stands first.
TEST(SignSearch, WordsLeadToAValueOrToNothing) {
  auto const shipped = test::shipped_pack();
  SignSearch const search(*shipped);
  auto const first = [&](std::string_view words) -> std::string {
    auto const found = search.find(words, 1);
    if (found.empty()) return "";
    auto const& sign = (*shipped)[found[0].sign];
    return sign.name + (found[0].value ? " " + sign.values[*found[0].value].name : "") +
           (found[0].is_exact ? "!" : "") + (found[0].is_turned ? "?" : "");
  };
  EXPECT_EQ(first("pale"), "gum_colour pale!");
  EXPECT_EQ(first("gums look pale"), "gum_colour pale!");
  EXPECT_EQ(first("not eating"), "appetite nothing!");
  EXPECT_EQ(first("limping"), "lame!");
  EXPECT_EQ(first("not drooling"), "drools?");
  EXPECT_EQ(first("yelps"), "cries_out");
  EXPECT_EQ(first("no poo"), "no_stool_days");
  EXPECT_EQ(first("left"), "");
  for (auto const* words : {"belly pain", "fever", "left hi", "no poo", "toe"}) {
    auto const sign = first(words);
    for (auto const* wrong :
         {"belly_swollen", "unvaccinated", "hot_day", "soils_without_knowing", "no_deep_pain"})
      EXPECT_FALSE(sign.starts_with(wrong)) << words << ": " << sign;
  }
  EXPECT_EQ(first("less"), "appetite less") << "a step is told by its own name only when asked";
  EXPECT_TRUE(search.find("less", 1, *shipped->find_sign("appetite")).at(0).is_exact);
}

// What callers say, against the sign that a nurse means by it, in the pack that ships: among the
// first three, which is what one glance takes in.
TEST(SignSearch, ShippedPackKnowsWhatCallersSay) {
  auto const shipped = test::shipped_pack();
  SignSearch const search(*shipped);
  struct Said {
    char const* words;
    char const* sign;
  };
  for (auto const& [words, sign] : std::initializer_list<Said>{
           {"he won't get up", "slow_to_rise"},
           {"limping", "lame"},
           {"holding her leg up", "carries_leg"},
           {"hopping on three legs", "carries_leg"},
           {"back legs gone", "hindlegs_failing"},
           {"wobbly back legs", "hindlegs_failing"},
           {"shivering", "trembling"},
           {"yelps", "cries_out"},
           {"limpping", "lame"},
           {"wont do stairs", "reluctant_stairs"},
       }) {
    auto const all = search.find(words, 3);
    bool is_there = false;
    for (auto const& one : all) is_there |= (*shipped)[one.sign].name == sign;
    EXPECT_TRUE(is_there) << words << ", first: "
                          << (all.empty() ? "nothing" : (*shipped)[all[0].sign].name);
  }
}

}  // namespace
}  // namespace flinch
