// The one layout of rule files.
#include "flinch/syntax/tidy.hpp"

#include <gtest/gtest.h>

#include "flinch/syntax/vocabulary.hpp"

namespace flinch::test {
namespace {

std::optional<std::string> tidied(std::string const& text, std::string* messages = nullptr) {
  SourceSet sources;
  Report report;
  auto out = syntax::tidy(sources, sources.add("t.flinch", text), {}, report);
  auto const said = render(report.take(), sources);
  if (messages != nullptr)
    *messages = said;
  else
    EXPECT_EQ(said, "");
  return out;
}

struct Pair {
  char const* before;
  char const* after;
};

void expect_tidied(std::vector<Pair> const& pairs) {
  for (auto const& [before, after] : pairs) {
    EXPECT_EQ(tidied(before), after) << before;
    EXPECT_EQ(tidied(after), after) << "is not tidy: " << after;
    EXPECT_TRUE(syntax::says_the_same(before, after)) << before;
  }
}

TEST(Tidy, BlanksAreOneWayOnly) {
  expect_tidied({
      {"", ""},
      {"\n\n  \n", ""},
      {"site   paw\t\"paw\"in leg", "site paw \"paw\" in leg\n"},
      {"rule a\n\tif b and( c or not(d ) )\n   in x 5 %,y 3per 1000 of 20 from z\n",
       "rule a\n  if b and (c or not (d))\n  in x 5%, y 3 per 1000 of 20 from z\n"},
      {"rule a\n over age :under 1year,1 to 7 years ,over 7 years\n usual 1 2 97\n",
       "rule a\n  over age: under 1 year, 1 to 7 years, over 7 years\n  usual 1 2 97\n"},
      {"rule a\n  usual 1%#one\n  in b 5%#two\n",
       "rule a\n  usual 1%                      #one\n  in b 5%                       #two\n"},
      {"care a\n give 2mg  into   the vein twice  a day\n",
       "care a\n  give 2 mg into the vein twice a day\n"},
      {"care a\n give 2to 4.5mg per   kg^0.75 every 12hours\n",
       "care a\n  give 2 to 4.5 mg per kg^0.75 every 12 hours\n"},
      {"means a:t>=39.5C and n>-3\n", "means a: t >= 39.5 C and n > -3\n"},
      {"alarm a\n  on    purpose \"b\"\n", "alarm a\n  on purpose \"b\"\n"},
  });
}

// Words that would begin a clause if they stood on one line are no part of a dose either, so that
// joining them changes nothing.
TEST(Tidy, WordsOfAClauseOverTwoLinesAreAClause) {
  expect_tidied({{"care a\n  give 10 mg per kg  # by weight\n  by\n  mouth\n",
                  "care a\n  give 10 mg per kg             # by weight\n  by mouth\n"}});
  std::string said;
  EXPECT_EQ(
      tidied("care a\n  give 10 mg per kg  # by weight\n  by\n  mouth every 8 hours\n", &said),
      std::nullopt);
  EXPECT_NE(said, "") << "a clause of its own ends before an interval";
}

TEST(Tidy, LineEndsAreLineFeedsAndNoByteOrderMarkStays) {
  expect_tidied({{"\xEF\xBB\xBFsite paw\r\nsite leg \"a\r\n  b\"  # c\r\n",
                  "site paw\nsite leg \"a b\"                  # c\n"}});
}

TEST(Tidy, TextsStandOnOneLineAndKeepWhatTheySay) {
  expect_tidied({
      {"source a\n  text \"one\n      two  three\\\"\n  four \"\n",
       "source a\n  text \"one two  three\\\" four \"\n"},
      {"source a\n  text \"# no comment, \\\\\" # a comment\n",
       "source a\n  text \"# no comment, \\\\\"       # a comment\n"},
  });
}

TEST(Tidy, ReferencesKeepEveryCharacter) {
  expect_tidied({{"source a\n  url   http://x/?a,b:(c)#d%20e   # f\n  doi 10.1/(a)2;b#c\n",
                  "source a\n  url http://x/?a,b:(c)#d%20e   # f\n  doi 10.1/(a)2;b#c\n"}});
}

TEST(Tidy, OneBlankLineAtMostBetweenStatementsAndNoneInside) {
  expect_tidied({{"\n\nsite a\n\n\n\nsite b\nsite c\n", "site a\n\nsite b\nsite c\n"},
                 {"rule a\n\n  if b\n\n\n  usual 1%\n\n", "rule a\n  if b\n  usual 1%\n"}});
}

TEST(Tidy, CommentsStayWithWhatTheyStoodBesideOrAbove) {
  expect_tidied({
      {"#one\n\n\n#  two\nsite a  # three   \n",
       "#one\n\n#  two\nsite a                          # three\n"},
      {"rule a # head\n# above b\n    # too\n  if b # beside b\n  #last\n\n# of c\nsite c\n",
       "rule a                          # head\n  # above b\n  # too\n"
       "  if b                          # beside b\n  #last\n\n# of c\nsite c\n"},
      // Inside a list each stays beside its own figure.
      {"rule a\n  in # to come\n   x 5%, # five\n    # six\n   y 6%\n   # not seven\n   , z 7%\n",
       "rule a\n  in                            # to come\n    x 5%,                       # five\n"
       "    # six\n    y 6%\n    # not seven\n    , z 7%\n"},
      {"# only\n   # comments", "# only\n# comments\n"},
  });
}

TEST(Tidy, LongListsGoOnBehindACommaAndLongConditionsWhereFewestParenthesesAreOpen) {
  std::string const names = "aaaaaaaaaaaaaaaaaaaa, bbbbbbbbbbbbbbbbbbbb, cccccccccccccccccccc, ";
  std::string const more = "dddddddddddddddddddd, eeeeeeeeeeeeeeeeeeee";
  EXPECT_EQ(tidied("breeds g " + names + more),
            "breeds g " + names + "dddddddddddddddddddd,\n    eeeeeeeeeeeeeeeeeeee\n");
  std::string const half = "aaaaaaaaaaaaaaaaaaaa or bbbbbbbbbbbbbbbbbbbb or cccccccccccccccccccc";
  EXPECT_EQ(tidied("rule r\n  if x and (" + half + " or dddddddddddddddddddddddddddddddd)"),
            "rule r\n  if x\n    and (" + half + " or dddddddddddddddddddddddddddddddd)\n");
  EXPECT_EQ(tidied("means m \"m\": " + half + " or dddddddddddddddddddddddddddddddd or ee"),
            "means m \"m\":\n    " + half + " or dddddddddddddddddddddddddddddddd or ee\n");
  auto const reason = " \"" + std::string(150, 'r') + "\"";
  EXPECT_EQ(tidied("care c\n  never if a or b" + reason),
            "care c\n  never if a or b" + reason + "\n");
  std::string const between =
      "n between 1 and 33333333333333333333333333333333333333333333333333333";
  EXPECT_EQ(tidied("rule r\n  if aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa and " + between + " years"),
            "rule r\n  if aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa\n    and " + between + " years\n");
}

TEST(Tidy, AFileWithErrorsHasNoTidyText) {
  std::string messages;
  EXPECT_EQ(tidied("rule a\n  if and\n", &messages), std::nullopt);
  EXPECT_NE(messages.find("t.flinch:2:6: error"), std::string::npos) << messages;
}

TEST(Tidy, ItKnowsWhenTwoTextsDoNotSayTheSame) {
  EXPECT_TRUE(syntax::says_the_same("site a # b\n", "# b\nsite a\n"));
  EXPECT_FALSE(syntax::says_the_same("site a\n", "site b\n"));
  EXPECT_FALSE(syntax::says_the_same("site a # b\n", "site a\n"));
  EXPECT_FALSE(syntax::says_the_same("# a\n# b\n", "# b\n# a\n"));
  EXPECT_FALSE(syntax::says_the_same("rule a\n  usual 1%\n", "rule a\n  usual 2%\n"));
  EXPECT_FALSE(syntax::says_the_same("rule\n", "rule\n"));  // with errors nothing is known
}

// What an unknown statement's message lists is what the parser knows.
TEST(Vocabulary, HoldsEveryStatementTheParserKnows) {
  SourceSet sources;
  Report report;
  (void)syntax::parse(sources, sources.add("t", "qqqqqqqqqqqq x\n"), {}, report);
  std::string words;
  for (auto const& statement : syntax::statement_words())
    words += (words.empty() ? "" : ", ") + std::string(statement.keyword);
  EXPECT_NE(render(report.take(), sources).find("statements are " + words + "\n"),
            std::string::npos)
      << words;
}

TEST(Tidy, AFloorBreaksBeforeItsReasonAndItsSources) {
  std::string const reason = "because \"" + std::string(80, 'x') + "\"";
  EXPECT_EQ(tidied("sign s\n  alone  see now if a\n because \"x\" cite b\n"),
            "sign s\n  alone see now if a because \"x\" cite b\n");
  EXPECT_EQ(tidied("sign s\n  alone see now if at least nothing " + reason + " cite b,c\n"),
            "sign s\n  alone see now if at least nothing\n    " + reason + " cite b, c\n");
}

}  // namespace
}  // namespace flinch::test
