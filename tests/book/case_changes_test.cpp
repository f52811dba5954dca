#include "book/case_changes.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "book/trouble.hpp"

namespace flinch::test {
namespace {

using nlohmann::json;

TEST(CaseChanges, WhatTellsWhoItIsStandsApart) {
  auto const parts = cli::apart(R"({"name": "Moss", "note": null, "answers": {"lame": "yes"}})");
  EXPECT_EQ(json::parse(parts.said), json::parse(R"({"answers": {"lame": "yes"}})"));
  EXPECT_EQ(json::parse(parts.words), json::parse(R"({"name": "Moss", "note": null})"));
  EXPECT_EQ(cli::apart("{}").words, "{}");
  EXPECT_THROW((void)cli::apart("[1]"), cli::BookTrouble);
}

// Patches by RFC 7396: whatever the two lines are, the patch makes the one of the other.
TEST(CaseChanges, APatchMakesTheLaterLineOfTheEarlier) {
  constexpr char const* lines[] = {
      "{}",
      R"({"answers": {"lame": "yes"}})",
      R"({"answers": {"lame": {"found": ["left elbow"], "clear": ["spine"]}}})",
      R"({"answers": {"lame": {"clear": ["spine", "neck"]}, "vomiting": "no"}, "came for": ["lame"]})",
      R"({"dog": {"age": "3 years"}, "answers": {}, "outcome": {"cause": "none"}})",
  };
  for (auto const* before : lines)
    for (auto const* after : lines) {
      cli::Folded folded;
      folded.add(before);
      folded.add(cli::changes_between(before, after));
      auto wanted = json::parse(after);
      EXPECT_EQ(json::parse(folded.text()), wanted) << before << " to " << after;
      if (before == after) {
        EXPECT_EQ(cli::changes_between(before, after), "{}");
      }
    }
}

TEST(CaseChanges, AnswersOfTheBookStandApart) {
  auto const parts = cli::answers_apart(
      R"({"answers": {"lame": "yes", "again": "yes"}, "note": "x"})", {"again", "unheard_of"});
  EXPECT_EQ(json::parse(parts.of_these), json::parse(R"({"answers": {"again": "yes"}})"));
  EXPECT_EQ(json::parse(parts.rest), json::parse(R"({"answers": {"lame": "yes"}, "note": "x"})"));
  EXPECT_EQ(cli::answers_apart(R"({"answers": {"again": null}})", {"again"}).rest, "{}");
  EXPECT_EQ(cli::answers_apart(R"({"note": "x"})", {"again"}).of_these, "{}");
  EXPECT_EQ(cli::answered_in(R"({"answers": {"lame": null}, "dog": {"sex": "male"}})", "dog"),
            (std::vector<std::string>{"lame", "sex"}));
}

TEST(CaseChanges, FactsOfTheBookAreNoPartOfTheCase) {
  auto const said = cli::with_book_facts(
      R"({"answers": {}})", {.tier = "today", .ring_back = std::optional<long long>(5)});
  EXPECT_EQ(json::parse(said),
            json::parse(R"({"answers": {}, "book": {"tier": "today", "ring back": 5}})"));
  cli::Folded folded;
  folded.add(said);
  EXPECT_EQ(folded.text(), R"({"answers":{}})");
}

TEST(CaseChanges, OfAListOnlyWhatThisOneChangedChanges) {
  auto const merged = [](char const* before, char const* after, char const* stands) {
    return nlohmann::json::parse(
        cli::came_for_of_both(cli::changes_between(before, after), before, after, stands));
  };
  EXPECT_EQ(merged(R"({"came for": ["a"]})", R"({"came for": ["a", "b"]})",
                   R"({"came for": ["a", "c"]})"),
            nlohmann::json::parse(R"({"came for": ["a", "c", "b"]})"));
  EXPECT_EQ(merged(R"({"came for": ["a"]})", "{}", R"({"came for": ["a", "c"]})"),
            nlohmann::json::parse(R"({"came for": ["c"]})"));
  EXPECT_EQ(merged(R"({"came for": ["a"]})", "{}", R"({"came for": ["a"]})"),
            nlohmann::json::parse(R"({"came for": null})"));
  EXPECT_EQ(merged("{}", R"({"note": "x"})", R"({"came for": ["a"]})"),
            nlohmann::json::parse(R"({"note": "x"})"));
}

TEST(CaseChanges, ACallKeepsThePackByWhichItWasBegun) {
  cli::Folded call;
  call.add(cli::with_book_facts(R"({"answers": {"lame": "yes"}})",
                                {.tier = "now", .species = "donkey", .pack = "donkey_pain"}));
  call.add(cli::with_book_facts("{}", {.tier = "soon"}));
  EXPECT_EQ(call.pack(), "donkey_pain");
  EXPECT_EQ(call.species(), "donkey");
  EXPECT_EQ(call.text(), R"({"answers":{"lame":"yes"}})");
}

TEST(CaseChanges, AnEntryTellsTheSpecies) {
  EXPECT_EQ(cli::species_in(R"({"rabbit": {"age": "2 years"}, "answers": {"lame": "yes"}})"),
            "rabbit");
  EXPECT_EQ(cli::species_in(cli::with_book_facts("{}", {.species = "dog"})), "dog");
  EXPECT_EQ(cli::species_in(R"({"patient": {"age": "2 years"}})"), "");
  EXPECT_EQ(cli::species_in(R"({"answers": {"lame": "yes"}, "outcome": {"cause": "none"}})"), "");
}

}  // namespace
}  // namespace flinch::test
