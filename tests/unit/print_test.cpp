// parse(print(tree)) == tree, over everything that is written in the language.
#include "flinch/syntax/print.hpp"

#include <gtest/gtest.h>

#include "flinch/syntax/parse.hpp"
#include "support/source_tree.hpp"

namespace flinch {
namespace {

syntax::File parsed(std::string const& text) {
  SourceSet sources;
  Report report;
  auto const file = sources.add("t.flinch", text);
  auto tree = syntax::parse(sources, file, {}, report);
  EXPECT_EQ(render(report.take(), sources), "") << text;
  return tree;
}

TEST(Print, WhatIsPrintedReadsBackTheSame) {
  for (auto const* page : {"docs/language.md", "docs/language_reference.md"}) {
    for (auto const& block : test::fenced_blocks(test::source_file(page), "flinch")) {
      auto const tree = parsed(block);
      ASSERT_FALSE(tree.statements.empty()) << page;
      auto const printed = print(tree);
      EXPECT_EQ(parsed(printed), tree) << printed;
      EXPECT_EQ(print(parsed(printed)), printed);
    }
  }
}

TEST(Print, EveryStatementKeepsWhatItAcceptsAndWhoHasReadIt) {
  std::string const accept =
      "  accept said-twice \"Both are asked, \\\"to be sure\\\".\"\n  accept idle-figure \"Why "
      "not.\"\n";
  for (auto const* statement :
       {"pack p\n", "source s\n", "tier t\n", "site s in leg paired\n", "breeds b pug, boxer\n",
        "sign s\n", "means m: a and b\n", "cause c\n", "family f \"F\": a, b\n", "rule r\n  if a\n",
        "alarm a\n", "overlap o shares 50%: r, s\n", "care c\n", "example e\n  yes a, b\n"}) {
    auto const text = statement + accept +
                      "  read by \"A. Smith, MRCVS 123\" on 2026-12-01 mark 1a2b3c4d\n"
                      "  read by \"B. \\\"Bo\\\" Jones, DVM\" on 2024-02-29\n";
    auto const tree = parsed(text);
    ASSERT_EQ(tree.statements.size(), 1U);
    EXPECT_EQ(print(tree), text);
    EXPECT_EQ(parsed(print(tree)), tree);
  }
}

TEST(Print, AClinicianMayReadAMeasureUnderAProblem) {
  for (auto const* text :
       {"care c\n  for clinician\n", "care c\n  for clinician \"Acute pain\"\n"}) {
    EXPECT_EQ(print(parsed(text)), text);
    EXPECT_EQ(parsed(print(parsed(text))), parsed(text));
  }
}

TEST(Print, DosesKeepTheirWayAndInterval) {
  for (auto const* give :
       {"2 mg per kg by mouth every 8 hours", "2 to 4 mg per kg into the vein",
        "2 mg by injection into the muscle every 6 to 8 hours for 3 days",
        "2 mg on the skin twice a day", "1 once a day", "3 mL under the skin three times a day",
        "10 minutes every 90 minutes to 2 hours", "2 four times a day for 5 days"}) {
    auto const text = std::string("care c\n  give ") + give + "\n";
    auto const tree = parsed(text);
    ASSERT_EQ(tree.statements.size(), 1U) << give;
    EXPECT_EQ(print(tree), text);
    EXPECT_EQ(parsed(print(tree)), tree);
  }
}

TEST(Print, AmountsInAVolumeAreOneUnitButInForms) {
  auto const tree = parsed("means m: glucose >= 3.9 mmol per L\n");
  auto const& condition = std::get<syntax::Means>(tree.statements.at(0)).condition;
  EXPECT_EQ(std::get<syntax::Compares>(condition.test.test).bound.unit, "mmol per L");
  auto const care = parsed("care c\n  form liquid 10 g per L\n");
  auto const& form = std::get<syntax::Care>(care.statements.at(0)).forms.at(0);
  EXPECT_EQ(form.strength.unit, "g");
  EXPECT_EQ(form.per->text, "L");
}

TEST(Print, ParenthesesStandWhereAndMeetsOr) {
  auto const condition = [](std::string const& text) {
    auto const tree = parsed("means m: " + text);
    return print(std::get<syntax::Means>(tree.statements.at(0)).condition);
  };
  for (auto const* text : {"a and (b or c)", "not (a or b)", "(x is p) or y", "x is p or q",
                           "at least 2 of (a, b and c, not d)", "t between 1 and 3 years",
                           "a at left elbow or b at least less"})
    EXPECT_EQ(condition(text), text);
  EXPECT_EQ(condition("((a)) and ((b))"), "a and b");
}

TEST(PrintNumber, WritesTheShortestDigitsWithoutExponent) {
  EXPECT_EQ(syntax::print_number(0.1), "0.1");
  EXPECT_EQ(syntax::print_number(1e21), "1000000000000000000000");
  EXPECT_EQ(syntax::print_number(12), "12");
  EXPECT_EQ(syntax::print_number(-0.005), "-0.005");
}

}  // namespace
}  // namespace flinch
