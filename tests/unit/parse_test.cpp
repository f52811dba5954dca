#include "flinch/syntax/parse.hpp"

#include <gtest/gtest.h>

#include <chrono>

#include "flinch/syntax/print.hpp"

namespace flinch {
namespace {

struct Parsed {
  syntax::File tree;
  std::vector<Diagnostic> diagnostics;
  std::string text;
};

Parsed parse(std::string const& text, syntax::Limits const& limits = {}) {
  SourceSet sources;
  Report report;
  auto const file = sources.add("t.flinch", text);
  Parsed out;
  out.tree = syntax::parse(sources, file, limits, report);
  out.diagnostics = report.take();
  out.text = render(out.diagnostics, sources);
  return out;
}

std::vector<Code> codes(Parsed const& parsed) {
  std::vector<Code> out;
  for (auto const& d : parsed.diagnostics) out.push_back(d.code);
  return out;
}

TEST(Parse, AnEmptyFileHasNoStatements) {
  for (auto const* text : {"", "\n\n", "# only a comment", "   \t\n"}) {
    EXPECT_TRUE(parse(text).tree.statements.empty());
    EXPECT_EQ(parse(text).text, "");
  }
}

TEST(Parse, KeepsPlacesOfNames) {
  auto const parsed = parse("tier now \"Now\"\n  within 1 hour\n");
  auto const& tier = std::get<syntax::Tier>(parsed.tree.statements.at(0));
  EXPECT_EQ(tier.name.at.span, (Span{5, 8}));
  EXPECT_EQ(tier.within->at.span, (Span{24, 30}));
}

TEST(Parse, ReportsEachFaultOfAFileInOneRun) {
  auto const parsed = parse(
      "tier now \"Now\n"      // a text never closed
      "teir soon \"Soon\"\n"  // an unknown statement
      "tier a \"A\"\n"
      "  within hour\n"  // no amount
      "  harm x\n"       // no number
      "sign s \"S\"\n"
      "  answer maybe\n"
      "  ask \"?\"\n"
      "  ask \"?\"\n");
  EXPECT_EQ(codes(parsed), (std::vector{Code::open_text, Code::unknown_statement, Code::expected,
                                        Code::expected, Code::expected, Code::clause_twice}))
      << parsed.text;
}

TEST(Parse, AFaultInOneClauseLeavesTheOthersOfItsStatement) {
  auto const parsed = parse("tier now \"Now\"\n  within soonish\n  harm 19\n");
  auto const& tier = std::get<syntax::Tier>(parsed.tree.statements.at(0));
  EXPECT_FALSE(tier.within);
  EXPECT_EQ(tier.harm->value, 19);
  ASSERT_EQ(parsed.tree.damaged.size(), 1U);
  EXPECT_EQ(parsed.tree.damaged[0].statement, 0U);
}

TEST(Parse, SaysWhatIsMissingAfterTheLastToken) {
  EXPECT_EQ(parse("means senior: age >= \n\n# nothing\nmeans b: x\n").text,
            "t.flinch:1:21: error: expected an amount such as `39.5 C` after this [expected]\n"
            "  1 | means senior: age >= \n"
            "    |                     ^\n"
            "  note: written as in `means old \"old\": age >= 8 years`\n");
}

TEST(Parse, NamesTheNearestClauseForALineThatIsNone) {
  auto const parsed = parse("rule r \"R\"\n  usual 10%\n  becuase \"x\"\n");
  EXPECT_EQ(parsed.text,
            "t.flinch:3:3: error: expected the end of the clause, found `becuase` [expected]\n"
            "  3 |   becuase \"x\"\n"
            "    |   ^~~~~~~\n"
            "  note: did you mean `because`?\n");
}

TEST(Parse, ALineAfterACommaGoesOn) {
  auto const parsed = parse(
      "rule r \"R\"\n  over age: under 1 year, 1 to 7 years,\n    over 7 years\n  usual 1 2 97\n");
  EXPECT_EQ(parsed.text, "");
  EXPECT_EQ(std::get<syntax::Rule>(parsed.tree.statements.at(0)).over->bands.size(), 3U);
}

TEST(Parse, TextsMayRunOverLinesAndHoldQuotes) {
  auto const parsed =
      parse("tier now \"N\"\n  say \"Leave \\\"now\\\",\n       telephone  first. \\\\\"\n");
  EXPECT_EQ(std::get<syntax::Tier>(parsed.tree.statements.at(0)).say->text,
            "Leave \"now\", telephone  first. \\");
}

// Blanks, line breaks and comments may stand between any two words.
TEST(Parse, ACommentBetweenTheWordsOfAPhraseChangesNothing) {
  std::string const plain =
      "care a \"a\"\n  give 2 mg per kg by mouth twice a day\n  form tablet 5 mg in halves\n"
      "source b\n  read from memory\n"
      "example c\n  expect not first d, tier at least e, ask first a, nothing told\n"
      "pack f\n  called neutered male \"g\"\n";
  std::string spaced;
  for (std::size_t at = 0; at < plain.size(); ++at) {
    bool const is_between = plain[at] == ' ' && at > 0 && plain[at - 1] != ' ' &&
                            plain[at - 1] != '\n' && plain[at + 1] != ' ';
    spaced += is_between ? std::string(" # x\n    ") : std::string(1, plain[at]);
  }
  auto const as_written = parse(plain);
  auto const with_comments = parse(spaced);
  ASSERT_EQ(as_written.text, "");
  EXPECT_EQ(with_comments.text, "") << spaced;
  EXPECT_EQ(syntax::print(with_comments.tree), syntax::print(as_written.tree));
}

TEST(Parse, AndAndOrMayNotMeetWithoutParentheses) {
  EXPECT_EQ(codes(parse("means m: a and b or c\n")), std::vector{Code::mixed_and_or});
  EXPECT_EQ(parse("means m: (a and b) or c\n").text, "");
}

TEST(Parse, AfterIsAnOrAddsAValueUnlessATestFollows) {
  auto const values = parse("means m: s is p or q\n");
  EXPECT_EQ(std::get<syntax::IsValue>(
                std::get<syntax::Means>(values.tree.statements.at(0)).condition.test.test)
                .values.size(),
            2U);
  auto const tests = parse("means m: s is p or t at least q\n");
  EXPECT_EQ(std::get<syntax::Means>(tests.tree.statements.at(0)).condition.kind,
            syntax::Condition::Kind::any);
}

TEST(Parse, NestingStopsAtItsLimit) {
  auto const nested = [](std::size_t depth) {
    return "means m: " + std::string(depth, '(') + "a" + std::string(depth, ')') + "\n";
  };
  EXPECT_EQ(parse(nested(60)).text, "");
  EXPECT_EQ(codes(parse(nested(100000))), std::vector{Code::too_deep});
  std::string nots = "means m: ";
  for (int i = 0; i < 100000; ++i) nots += "not ";
  EXPECT_EQ(codes(parse(nots + "a\n")), std::vector{Code::too_deep});
}

TEST(Parse, SizeStopsAtItsLimit) {
  syntax::Limits limits;
  limits.bytes = 10;
  EXPECT_EQ(codes(parse("means m: a\n", limits)), std::vector{Code::too_large});
}

// The names a broken line may have had: kept with all before it, each would take megabytes.
TEST(Parse, ALineOfAHundredThousandWordsTakesLittle) {
  std::string text;
  for (int i = 0; i < 100'000; ++i) text += i == 0 ? "sign A-b" : " A-b";
  syntax::Limits limits;
  limits.bytes = text.size();
  auto const began = std::chrono::steady_clock::now();
  auto const parsed = parse(text, limits);
  EXPECT_LT(std::chrono::steady_clock::now() - began, std::chrono::seconds(1));
  EXPECT_FALSE(parsed.diagnostics.empty());
  ASSERT_EQ(parsed.tree.lost.size(), 1U);
  EXPECT_LE(parsed.tree.lost[0].names.size(), 9U);
  EXPECT_EQ(parsed.tree.lost[0].names.at(2), "a_b_a_b");
}

TEST(Parse, ErrorsStopAtTheirLimit) {
  std::string text;
  for (int i = 0; i < 5000; ++i) text += "nonsense\n";
  auto const parsed = parse(text);
  EXPECT_EQ(parsed.diagnostics.back().code, Code::too_many_errors);
  EXPECT_EQ(parsed.diagnostics.size(), 101U);
}

TEST(Parse, BadUtf8IsReportedAtItsByte) {
  auto const parsed = parse("means m: a\n# \xFF\n");
  ASSERT_EQ(codes(parsed), std::vector{Code::bad_utf8});
  EXPECT_EQ(parsed.diagnostics[0].at.span.begin, 13U);
}

TEST(Parse, LineEndsAndByteOrderMarksOfOtherSystemsAreTaken) {
  auto const plain = parse("tier now \"Now\"\n  say \"Go\n    now.\"\n");
  auto const other = parse("\xEF\xBB\xBFtier now \"Now\"\r\n  say \"Go\r\n    now.\"\r\n");
  EXPECT_EQ(other.text, "");
  EXPECT_EQ(other.tree, plain.tree);
}

TEST(Parse, NumbersAreReadAsWritten) {
  auto const within = [](char const* number) {
    auto const parsed = parse(std::string("tier t \"T\"\n  within ") + number + " hours\n");
    auto const& tier = std::get<syntax::Tier>(parsed.tree.statements.at(0));
    return tier.within ? std::optional(tier.within->value) : std::nullopt;
  };
  EXPECT_EQ(within("12.50"), 12.5);
  EXPECT_EQ(within("0.1"), 0.1);
  for (auto const* wrong : {".5", "1.", "1e5", "0x10", "nan", "inf", "+1", "--1"})
    EXPECT_FALSE(within(wrong)) << wrong;
}

}  // namespace
}  // namespace flinch
