// What resolving makes of names and quantities; its mistakes are golden cases.
#include <gtest/gtest.h>

#include <algorithm>

#include "support/small_pack.hpp"

namespace flinch {
namespace {

using test::load;
using test::pack_of;
using test::preamble;

char const* const signs = R"(
sign fever "fever"
  ask "Fever?"
  answer number in C from 30 to 44
  seen by clinic
sign lame "lame"
  ask "Lame?"
  answer yes or no
  seen by anyone
)";

TEST(Resolve, QuantitiesComeInTheUnitOfTheirSign) {
  auto const pack = pack_of(std::string(signs) +
                            "means hot: fever >= 103.1 F\n"
                            "means young: age between 6 and 18 months\n");
  auto const& hot = pack->means[0].condition.test;
  EXPECT_DOUBLE_EQ(hot.low, 39.5);
  auto const& young = pack->means[1].condition.test;
  EXPECT_EQ(young.low, 0.5);
  EXPECT_EQ(young.high, 1.5);
}

TEST(Resolve, SitesInPairedSitesArePaired) {
  auto const pack = pack_of("");
  EXPECT_TRUE((*pack)[*pack->find_site("elbow")].paired);
  EXPECT_FALSE((*pack)[*pack->find_site("belly")].paired);
  EXPECT_TRUE(pack->covers(*pack->find_site("foreleg"), *pack->find_site("elbow")));
  EXPECT_FALSE(pack->covers(*pack->find_site("elbow"), *pack->find_site("foreleg")));
}

TEST(Resolve, NamesMayBeUsedBeforeTheyAreDefined) {
  auto const loaded = load({{"pack.flinch", "include \"rules.flinch\"\n" + std::string(preamble)},
                            {"rules.flinch", "means hot: fever >= 39.5 C\n" + std::string(signs)}});
  EXPECT_TRUE(loaded.outcome) << loaded.messages();
}

TEST(Resolve, ThresholdsFollowPaukerAndKassirer) {
  auto const pack = pack_of("");
  EXPECT_DOUBLE_EQ(*pack->tiers[0].threshold(), 0.05);
  EXPECT_DOUBLE_EQ(*pack->tiers[1].threshold(), 0.2);
  EXPECT_FALSE(pack->tiers[2].threshold());
}

TEST(Resolve, ABreedTableGivesSizesGroupsAndOtherNames) {
  auto const loaded = load(
      {{"pack.flinch", std::string(preamble) + "breeds favourites pug, labrador\n"},
       {"breeds.yaml",
        "groups: {short_nosed: \"Short nose\"}\nbreeds:\n"
        "  pug: {name: Pug, size: small, weight: 6 to 9 kg, groups: [short_nosed]}\n"
        "  labrador_retriever: {name: Labrador Retriever, size: large, weight: 25 to 36 kg, also: "
        "[labrador, lab]}\n"}});
  EXPECT_FALSE(loaded.outcome) << "the pack names no breed table, so `pug` is unknown";
  auto const named = load(
      {{"pack.flinch",
        "pack p \"P\"\n  breed table \"breeds.yaml\"\n  unlisted 1 per 10\n"
        "tier watch \"W\"\n  within 1 day\n  say \"x\"\nbreeds favourites pug, "
        "labrador_retriever\n"},
       {"breeds.yaml",
        "groups: {short_nosed: \"Short nose\"}\nbreeds:\n"
        "  pug: {name: Pug, size: small, weight: 6 to 9 kg, groups: [short_nosed]}\n"
        "  labrador_retriever: {name: Labrador Retriever, size: large, weight: 25 to 36 kg, also: "
        "[labrador, lab]}\n"}});
  ASSERT_TRUE(named.outcome) << named.messages();
  auto const& pack = **named.outcome.value;
  EXPECT_EQ(pack.breeds.find("Lab"), 1U);
  EXPECT_EQ(pack.breeds.find("labrador-retriever"), 1U);
  EXPECT_EQ(pack.breeds.find("whippet"), std::nullopt);
  ASSERT_EQ(pack.groups.size(), 2U);
  EXPECT_EQ(pack.group_breeds[0], std::vector<std::uint32_t>{0});
  EXPECT_EQ(pack.group_breeds[1], (std::vector<std::uint32_t>{0, 1}));
}

// A frequency may say where it was counted, wherever one stands.
TEST(Resolve, TheSourceOfASampleMustBeKnown) {
  auto const pack = [](std::string const& unlisted, std::string const& hold,
                       std::string const& base, std::string const& shares) {
    auto const rule = [](std::string const& name) {
      return "rule " + name + " \"R\"\n  if lame\n  usual 1%\n  in sprain 50%\n  because \"x\"\n" +
             "  cite counted\n";
    };
    return load({{"pack.flinch",
                  "pack p \"P\"\n  unlisted 1 per 10 of 70 from " + unlisted +
                      "\n  hold 1% of 70 from " + hold + " to 99%\n" +
                      "source counted\n  text \"x\"\ntier watch \"W\"\n  within 1 day\n" +
                      "  say \"x\"\nsite paw \"paw\"\n" + signs +
                      "cause sprain \"Sprain\"\n  affects paw\n  base 59 per 1000 of 70 from " +
                      base + "\n  see watch\n  because \"x\"\n  cite counted\n" + rule("r1") +
                      rule("r2") + "overlap o shares 50% of 70 from " + shares + ": r1, r2\n"}});
  };
  auto const known = pack("counted", "counted", "counted", "counted");
  ASSERT_TRUE(known.outcome) << known.messages();
  EXPECT_EQ((*known.outcome.value)->figure_sources.size(), 4U);
  for (auto const& loaded : {pack("nowhere", "counted", "counted", "counted"),
                             pack("counted", "nowhere", "counted", "counted"),
                             pack("counted", "counted", "nowhere", "counted"),
                             pack("counted", "counted", "counted", "nowhere")}) {
    ASSERT_FALSE(loaded.outcome);
    ASSERT_EQ(loaded.outcome.diagnostics.size(), 1U) << loaded.messages();
    EXPECT_NE(loaded.messages().find("unknown source `nowhere`"), std::string::npos)
        << loaded.messages();
  }
}

TEST(Resolve, MeaningsThatOpenUpWithoutEndStop) {
  std::string text = std::string(signs) + "means m0: lame or not lame\n";
  for (int i = 1; i < 30; ++i)
    text += "means m" + std::to_string(i) + ": m" + std::to_string(i - 1) + " and not m" +
            std::to_string(i - 1) + "\n";
  auto const loaded = load({{"pack.flinch", preamble + text}});
  ASSERT_FALSE(loaded.outcome);
  EXPECT_EQ(loaded.outcome.diagnostics.front().code, Code::condition_size) << loaded.messages();
}

TEST(Resolve, AFamilySpeaksOfTheCausesThatTheRuleDoesNotName) {
  std::string text = signs;
  for (auto const* name : {"a", "b", "c", "d"})
    text += std::string("cause ") + name +
            "\n  base 1 per 1000\n  see now\n  because \"x\"\n  cite judgement\n";
  auto const pack = pack_of(text +
                            "family look_alikes \"look alike\": a, b, c\n"
                            "rule limps\n  if lame\n  usual 1%\n"
                            "  in look_alikes 20% of 40 from judgement, b 60%, d 5%\n"
                            "  because \"x\"\n  cite judgement\n"
                            "rule hot\n  over fever: under 39 C, over 39 C\n  usual 90 10\n"
                            "  in look_alikes 30 70\n  because \"x\"\n  cite judgement\n");
  auto const& limps = pack->rules[0].entries;
  ASSERT_EQ(limps.size(), 4U);
  auto const of = [&](std::uint32_t cause) {
    return *std::find_if(limps.begin(), limps.end(),
                         [&](RuleEntry const& e) { return e.cause == CauseId{cause}; });
  };
  EXPECT_EQ(of(0).frequencies, std::vector<double>{0.2});
  EXPECT_EQ(of(0).sample_size, 40);
  EXPECT_EQ(of(0).family, FamilyId{0});
  EXPECT_EQ(of(1).frequencies, std::vector<double>{0.6});
  EXPECT_EQ(of(1).family, std::nullopt);
  EXPECT_EQ(of(2).family, FamilyId{0});
  EXPECT_EQ(of(3).family, std::nullopt);
  ASSERT_EQ(pack->rules[1].entries.size(), 3U);
  EXPECT_EQ(pack->rules[1].entries[2].frequencies, (std::vector<double>{0.3, 0.7}));
}

TEST(Resolve, AFloorIsAnAlarmOfItsSign) {
  auto const pack = pack_of(R"(
sign gums "gums"
  ask "Colour?"
  answer one of pink "pink", pale "pale or white", blue "blue"
  seen by anyone
  alone see now if pale because "a" cite judgement
  alone see now if blue because "b" cite judgement
sign eating "eating"
  ask "Eating?"
  answer steps normal, less "less than usual", nothing "nothing at all"
  seen by anyone
  alone see soon if at least less because "c" cite judgement
  alone see now if nothing because "d" cite judgement
sign fever "fever"
  ask "Fever?"
  answer number in C from 30 to 44
  seen by clinic
  alone see now if over 105.8 F because "e" cite judgement
sign sore "sore to touch"
  ask "Where?"
  answer sites
  seen by hands
  alone see soon because "f" cite judgement
  alone see now if at left elbow because "g" cite judgement
alarm written "Written"
  if gums is blue and sore
  see now
  because "x"
  cite judgement
)");
  std::vector<std::pair<std::string, std::string>> found;
  for (auto const& alarm : pack->alarms) found.emplace_back(alarm.name, alarm.title);
  EXPECT_EQ(found, (std::vector<std::pair<std::string, std::string>>{
                       {"written", "Written"},
                       {"gums_alone_now", "Gums: pale or white"},
                       {"gums_alone_now_2", "Gums: blue"},
                       {"eating_alone_soon", "Eating: less than usual or worse"},
                       {"eating_alone_now", "Eating: nothing at all"},
                       {"fever_alone_now", "Fever: over 41 C"},
                       {"sore_alone_soon", "Sore to touch"},
                       {"sore_alone_now", "Sore to touch: left elbow"}}));
  EXPECT_EQ(pack->alarms[0].floor_of, std::nullopt);
  EXPECT_EQ(pack->alarms[5].floor_of, pack->find_sign("fever"));
  EXPECT_EQ(pack->alarms[5].because, "e");
  EXPECT_DOUBLE_EQ(pack->alarms[5].condition.test.low, 41);
}

TEST(Resolve, WhatFollowsFromAFaultStaysSilent) {
  auto const loaded =
      load({{"pack.flinch", preamble + std::string(signs) +
                                "means broken: lame and\nsite lost in\n"
                                "means uses: broken or lame\nsite inner in lost\n"}});
  ASSERT_FALSE(loaded.outcome);
  EXPECT_EQ(loaded.outcome.diagnostics.size(), 2U) << loaded.messages();
}

TEST(Resolve, LongChainsStop) {
  std::string sites;
  for (int i = 0; i < 5000; ++i)
    sites += "site s" + std::to_string(i) + " in s" + std::to_string(i + 1) + "\n";
  std::string meanings = signs;
  for (int i = 0; i < 5000; ++i)
    meanings += "means m" + std::to_string(i) + ": m" + std::to_string(i + 1) + "\n";
  EXPECT_FALSE(load({{"pack.flinch", preamble + sites + "site s5000\n"}}).outcome);
  EXPECT_FALSE(load({{"pack.flinch", preamble + meanings + "means m5000: lame\n"}}).outcome);
}

TEST(Load, FilesBeyondTheLimitAreNotRead) {
  LoadLimits limits;
  limits.files = 2;
  auto const loaded =
      load({{"pack.flinch", "include \"a.flinch\"\ninclude \"b.flinch\"\n" + std::string(preamble)},
            {"a.flinch", ""},
            {"b.flinch", ""}},
           limits);
  ASSERT_FALSE(loaded.outcome);
  EXPECT_EQ(loaded.outcome.diagnostics.front().code, Code::include_limit);
}

}  // namespace
}  // namespace flinch
