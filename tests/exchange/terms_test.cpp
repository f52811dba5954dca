// The words of the standard, and what a pack adds to them.
#include "exchange/terms.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "flinch/model/units.hpp"
#include "pack/shipped_pack.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

using namespace flinch::cli;

TEST(Terms, EveryUnitHasAUcumCodeThatNamesItAgain) {
  for (auto const name : unit_names()) {
    auto const unit = *find_unit(name);
    auto const back = unit_of_ucum(ucum_code(unit));
    ASSERT_TRUE(back) << name;
    EXPECT_EQ(back->dimension, unit.dimension) << name;
    EXPECT_EQ(back->factor, unit.factor) << name;
    EXPECT_EQ(back->offset, unit.offset) << name;
  }
  EXPECT_EQ(ucum_code(*find_unit("")), "1");
  EXPECT_FALSE(unit_of_ucum("[stone_av]"));
  EXPECT_FALSE(unit_of_ucum(""));
}

TEST(Terms, PriorityFollowsTheTimeOfTheTier) {
  auto const of = [](double hours) {
    Tier tier;
    tier.within_s = hours * 3600;
    return std::string(priority(tier));
  };
  EXPECT_EQ(of(1), "stat");
  EXPECT_EQ(of(2), "stat");
  EXPECT_EQ(of(12), "asap");
  EXPECT_EQ(of(24), "asap");
  EXPECT_EQ(of(72), "urgent");
  EXPECT_EQ(of(7 * 24), "urgent");
  EXPECT_EQ(of(7 * 24 + 1), "routine");
}

TEST(Terms, AddressesStayTheSameAndAreAllDifferent) {
  auto const pack = shipped_pack();
  std::set<std::string> all;
  for (auto const one :
       {Vocabulary::form, Vocabulary::signs, Vocabulary::values, Vocabulary::sites,
        Vocabulary::breeds, Vocabulary::causes, Vocabulary::tiers, Vocabulary::care})
    all.insert(address(*pack, one));
  EXPECT_EQ(all.size(), 8U);
  // By Python's uuid.uuid5(UUID("388f7bed-0129-42a2-b5b7-59118b820668"), "canine_pain form").
  EXPECT_EQ(address(*pack, Vocabulary::form), "urn:uuid:89740d08-e6ef-596e-acef-ecb1cd970983");
}

TEST(Terms, SitesOfASignAreItsChoiceWithSidesAndWhatCoversIt) {
  auto const pack =
      pack_of("sign lame\n  ask \"Lame?\"\n  answer sites in elbow\n  seen by anyone\n");
  std::vector<std::string> codes;
  for (auto const& mark : sites_of(*pack, (*pack)[*pack->find_sign("lame")]))
    codes.push_back(site_coding(*pack, mark)["code"]);
  EXPECT_EQ(std::count(codes.begin(), codes.end(), "left elbow"), 1);
  EXPECT_EQ(std::count(codes.begin(), codes.end(), "right foreleg"), 1);
  EXPECT_EQ(std::count(codes.begin(), codes.end(), "elbow"), 1);
  EXPECT_EQ(std::count(codes.begin(), codes.end(), "belly"), 0);
  EXPECT_EQ(std::count(codes.begin(), codes.end(), "left carpus"), 0);
}

TEST(Terms, WhatIsSentHoldsNoCharacterThatActsOnAScreen) {
  auto const text = fhir_text({{"a", "x\x01\x1b[31m\u202ey\tz\u0085"}, {"b", {"\x7f"}}});
  for (char const c : text) EXPECT_TRUE(c == '\n' || (c >= 0x20 && c < 0x7F)) << int{c};
  EXPECT_EQ(Json::parse(text)["a"], "x\uFFFD\uFFFD[31m\u202ey\tz\u0085");
}

}  // namespace
}  // namespace flinch::test
