// What fits at a place of a rule file.
#include "serve/completion.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace flinch::cli::serve {
namespace {

constexpr char const* pack =
    "pack p\nsource s1\n  text \"x\"\ntier now \"Now\"\nsite paw \"paw\"\nbreeds g pug\n"
    "sign lame \"lame\"\n  answer yes or no\nsign gums \"gums\"\n  answer one of pink, pale\n"
    "means bad: lame\ncause c1 \"One\"\nrule r1\n  usual 1%\nalarm a1\n";

// What is offered where the text has a `|`, behind the pack above.
std::vector<std::string> offered(std::string text, std::size_t* begin = nullptr) {
  auto const mark = text.find('|');
  text.erase(mark, 1);
  text = pack + text;
  FileAccess const access{[&](std::string const& path) {
                            return path == "/p.flinch" ? std::optional(text) : std::nullopt;
                          },
                          [](std::string const&) { return std::vector<std::string>(); }};
  auto const view = view_pack("/p.flinch", access);
  auto const found = complete(view, text, std::string(pack).size() + mark);
  if (begin != nullptr) *begin = found.begin - std::string(pack).size();
  std::vector<std::string> out;
  for (auto const& item : found.items) out.push_back(item.text);
  return out;
}

bool has(std::vector<std::string> const& all, std::string const& one) {
  return std::find(all.begin(), all.end(), one) != all.end();
}

using Names = std::vector<std::string>;

TEST(Completion, OffersStatementsInTheFirstColumnAndTheirClausesIndented) {
  auto const statements = offered("ru|");
  EXPECT_TRUE(has(statements, "rule"));
  EXPECT_TRUE(has(statements, "example"));
  EXPECT_FALSE(has(statements, "because"));
  EXPECT_EQ(offered("tier soon\n  |"),
            (Names{"within", "harm", "say", "until then", "accept", "read by"}));
  std::size_t begin = 0;
  EXPECT_TRUE(has(offered("sign x\n  also sa|", &begin), "also said"));
  EXPECT_EQ(begin, 9U) << "both words are replaced";
}

TEST(Completion, OffersTheNamesThatAClauseTakes) {
  EXPECT_EQ(offered("rule r\n  cite |"), Names{"s1"});
  EXPECT_EQ(offered("rule r\n  in c|"), Names{"c1"});
  EXPECT_EQ(offered("rule r\n  in c1 5%, |"), Names{"c1"});
  EXPECT_EQ(offered("rule r\n  in c1 5%,\n    |"), Names{"c1"});
  EXPECT_EQ(offered("rule r\n  in c1 5% of 3 from |"), Names{"s1"});
  EXPECT_EQ(offered("cause c\n  base 5 per 1000 of 3 from |"), Names{"s1"});
  EXPECT_EQ(offered("pack q\n  unlisted 5% of 3 from |"), Names{"s1"});
  EXPECT_EQ(offered("pack q\n  hold 1% to 99% of 3 from |"), Names{"s1"});
  EXPECT_EQ(offered("overlap o shares 5% of 3 from |"), Names{"s1"});
  EXPECT_EQ(offered("care c\n  slims by |"), (Names{"lame", "gums", "bad"}));
  EXPECT_EQ(offered("care c\n  benefit 5% of 3 from |"), Names{"s1"});
  EXPECT_EQ(offered("pack q\n  resting energy 70 from |"), Names{"s1"});
  EXPECT_EQ(offered("alarm a\n  see |"), Names{"now"});
  EXPECT_EQ(offered("cause c\n  affects |"), Names{"paw"});
  EXPECT_EQ(offered("overlap o shares 5%: |"), Names{"r1"});
  EXPECT_EQ(offered("sign x\n  alone see |"), Names{"now"});
  EXPECT_EQ(offered("sign x\n  alone see now |"), (Names{"if", "unless", "because"}));
  EXPECT_TRUE(has(offered("sign x\n  alone see now unless |"), "not"));
  EXPECT_TRUE(has(offered("sign x\n  alone see now unless |"), "age"));
  EXPECT_TRUE(has(offered("sign x\n  alone see now unless age |"), "over"));
  EXPECT_TRUE(has(offered("sign x\n  alone see now unless age over 2 years |"), "because"));
  EXPECT_EQ(offered("pack x\n  called neutered |"), (Names{"male", "female"}));
  EXPECT_EQ(offered("example x\n  expect offered m 20 mg |"), (Names{"to", "in"}));
  EXPECT_EQ(offered("example x\n  expect tier now, ask first m 20 mg |"), (Names{"to", "in"}));
  EXPECT_EQ(offered("example x\n  expect offered m |"), Names{});
  EXPECT_EQ(offered("sign x\n  alone see now because \"x\" cite |"), Names{"s1"});
  EXPECT_TRUE(has(offered("sign x\n  answer one of red, blue\n  alone see now if |"), "blue"));
  EXPECT_FALSE(has(offered("sign x\n  answer one of red, blue\n  alone see now if |"), "pink"));
  EXPECT_EQ(offered("family f: |"), Names{"c1"});
  EXPECT_EQ(offered("family f: c1, c1\nrule r\n  in |"), (Names{"c1", "f"}));
  EXPECT_EQ(offered("family f: c1, c1\ncare c\n  for |"), (Names{"clinician", "c1"}));
  EXPECT_EQ(offered("care c\n  for cl|"), (Names{"clinician", "c1"})) << "the rest of a clause";
  EXPECT_EQ(offered("care c\n  for c1, |"), Names{"c1"});
  std::size_t begin = 0;
  EXPECT_TRUE(has(offered("care c\n  ask |", &begin), "ask vet if"));
  EXPECT_EQ(begin, 9U) << "`ask` is a clause of a sign, not of care";
  EXPECT_EQ(offered("example e\n  expect alarm |"), Names{"a1"});
  EXPECT_EQ(offered("rule r\n  over gums: |"), (Names{"under", "over", "pink", "pale"}));
}

TEST(Completion, OffersWhatAConditionTakes) {
  auto const operands = offered("rule r\n  if not (|");
  EXPECT_TRUE(has(operands, "lame") && has(operands, "bad") && has(operands, "age"));
  EXPECT_FALSE(has(operands, "c1"));
  EXPECT_EQ(offered("means m: gums is |"), (Names{"pink", "pale"}));
  EXPECT_EQ(offered("means m: breed in |"), Names{"g"});
  EXPECT_TRUE(has(offered("means m: lame at |"), "paw"));
  EXPECT_TRUE(has(offered("care c\n  never if lame |"), "and"));
}

TEST(Completion, OffersNothingInTextsAndComments) {
  EXPECT_EQ(offered("rule r \"|"), Names{});
  EXPECT_EQ(offered("rule r # |"), Names{});
  EXPECT_EQ(offered("rule r\n  because \"one\n    |"), Names{});
  EXPECT_EQ(offered("nonsense x\n  |"), Names{});
}

}  // namespace
}  // namespace flinch::cli::serve
