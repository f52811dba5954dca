// What is shown of a call, whatever somebody called a dog.
#include "book/call_text.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "book/changes_text.hpp"
#include "book/trouble.hpp"
#include "files/clock.hpp"

#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

using cli::WithNames;

cli::CallLine hostile() {
  cli::CallLine call;
  call.call = cli::CallId{3};
  call.patient = cli::PatientId{2};
  call.patient_name = "=HYPERLINK(\"x\")";
  call.client_name = "a\x1b[2Jb";
  call.telephone = "+44 555";
  call.line = R"({"answers": {"lame": "yes"}})";
  call.words =
      R"json({"name": "=HYPERLINK(\"x\")", "caller": "a\u001b[2Jb", "note": "private"})json";
  return call;
}

// The history is read by people.
TEST(CallText, ChangesAreWords) {
  EXPECT_EQ(
      cli::changes_in_words(
          R"({"answers": {"ate_poison": "yes", "lame": null}, "cannot tell": ["gum_colour"],
                    "dog": {"age": "10 years"}, "outcome": {"cause": "gdv"},
                    "book": {"ring back": 1795618800}})"),
      (std::vector<std::string>{"ate poison: yes", "lame: taken back", "cannot tell: gum colour",
                                "dog age: 10 years", "outcome cause: gdv",
                                "ring back: " + cli::clock_text(1795618800)}));
  EXPECT_EQ(cli::changes_in_words(R"({"taken in": ""})"),
            std::vector<std::string>{"taken in: not told"});
  EXPECT_EQ(cli::changes_in_words(
                R"({"dog": {"weight": "32.658650640000005 kg"}, "call back": "0127 3.5550142"})"),
            (std::vector<std::string>{"dog weight: 32.66 kg", "call back: 0127 3.5550142"}));
  EXPECT_TRUE(cli::changes_in_words("{}").empty());
  EXPECT_EQ(cli::changes_in_words(R"({"answers": {"lame": {"found": ["left_elbow"]}}})"),
            std::vector<std::string>{"lame found: left elbow"});
  for (auto const& line : cli::changes_in_words(R"({"name": "a\u001b[2Jb"})"))
    EXPECT_EQ(line.find('\x1b'), std::string::npos);
  EXPECT_THROW((void)cli::changes_in_words("[1]"), cli::BookTrouble);
}

TEST(CallText, NoCellOfATableIsAFormula) {
  EXPECT_EQ(cli::table_cell("=1+1"), "\"'=1+1\"");
  EXPECT_EQ(cli::table_cell("+44 555"), "\"'+44 555\"");
  EXPECT_EQ(cli::table_cell("-2"), "\"'-2\"");
  EXPECT_EQ(cli::table_cell("@sum"), "\"'@sum\"");
  EXPECT_EQ(cli::table_cell("\t=1"), "\"' =1\"");
  EXPECT_EQ(cli::table_cell("a \"b\", c"), "\"a \"\"b\"\", c\"");
  EXPECT_EQ(cli::table_cell("a\r\n=1"),
            "\"a?"
            "?=1\"");
  EXPECT_EQ(cli::table_cell("\r=1"), "\"'?=1\"");
  EXPECT_EQ(cli::table_cell(""), "\"\"");
}

TEST(CallText, NoControlCharacterReachesAList) {
  EXPECT_EQ(cli::who_text(hostile()), "=HYPERLINK(\"x\"), a?[2Jb, +44 555");
}

TEST(CallText, WhoItIsGoesOutOnlyWhenAskedFor) {
  auto const line = cli::case_line(hostile(), WithNames::no);
  EXPECT_EQ(line, R"({"name":"patient 2, call 3","answers":{"lame":"yes"}})");
  auto const json = cli::call_json(hostile(), WithNames::no).dump();
  for (auto const* secret : {"HYPERLINK", "private", "555"})
    EXPECT_EQ(json.find(secret), std::string::npos) << secret;
  EXPECT_NE(cli::case_line(hostile(), WithNames::yes).find("private"), std::string::npos);
  EXPECT_NE(cli::call_json(hostile(), WithNames::yes).dump().find("private"), std::string::npos);
}

// Two packs have a tier of one name: it is told in the words of its own alone.
TEST(CallText, ATierOfAnotherPackKeepsItsName) {
  auto const pack = pack_of(
      "sign lame \"lame\"\n  ask \"Lame?\"\n  answer yes or no\n  seen by anyone\n"
      "cause sprain \"Sprain\"\n  base 10 per 1000\n  see now\n  because \"x\"\n  cite "
      "judgement\n");
  cli::CallReader reader(*pack);
  auto call = hostile();
  call.tier = "soon";
  call.pack = pack->name;
  EXPECT_EQ(cli::words_of_call(call, *pack, reader).tier, "Soon");
  call.pack = "donkey_pain";
  auto const other = cli::words_of_call(call, *pack, reader);
  EXPECT_EQ(other.tier, "tier `soon` of the pack donkey_pain");
  EXPECT_EQ(other.complaint, "(its words are those of the pack donkey_pain: give it with --pack)");
  EXPECT_EQ(cli::call_json(call, WithNames::no)["pack"], "donkey_pain");
  // An older book tells the species at the most.
  call.pack.clear();
  EXPECT_FALSE(cli::call_json(call, WithNames::no).contains("pack"));
  EXPECT_EQ(cli::words_of_call(call, *pack, reader).tier, "Soon");
  call.species = "donkey";
  EXPECT_EQ(cli::words_of_call(call, *pack, reader).tier, "tier `soon` of the pack for donkey");
}

TEST(CallText, TimeLeftAndTimeOverdue) {
  EXPECT_EQ(cli::until_text(1000 + 25 * 60, 1000), "in 25 minutes");
  EXPECT_EQ(cli::until_text(1000, 1000 + 60), "1 minute overdue");
  EXPECT_EQ(cli::until_text(1000, 1000 + 3 * 3600), "3 hours overdue");
  EXPECT_EQ(cli::until_text(1000, 1000 + 72 * 3600), "3 days overdue");
}

}  // namespace
}  // namespace flinch::test
