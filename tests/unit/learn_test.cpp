#include "flinch/audit/learn.hpp"

#include <gtest/gtest.h>

#include "flinch/syntax/parse.hpp"
#include "flinch/syntax/print.hpp"
#include "support/small_pack.hpp"

namespace flinch {
namespace {

char const* const rules = R"(sign lame "lame"
  ask "Lame?"
  answer yes or no
  seen by anyone
sign appetite "appetite"
  ask "Eating?"
  answer steps normal, less, nothing
  seen by anyone
cause sprain "Sprain"
  base 100 per 1000
  see watch
  because "x"
  cite judgement
cause bruise "Bruise"
  base 100 per 1000
  see watch
  because "x"
  cite judgement
rule limps "Limps"
  if lame
  usual 10%
  in sprain 90%, bruise 50% of 20 from judgement
  because "x"
  cite judgement
rule eats "Eats"
  over appetite: normal, less or nothing
  usual 80 20
  in sprain 60 40
  because "x"
  cite judgement
)";

std::shared_ptr<Pack const> pack() {
  static auto const made = test::pack_of(rules);
  return made;
}

std::vector<NamedCase> patients(std::vector<std::string> const& yaml) {
  std::vector<NamedCase> out;
  for (auto const& one : yaml) out.push_back({"dog", test::case_of(*pack(), one)});
  return out;
}

LearnedFigure const* figure(Learning const& learning, char const* rule,
                            std::optional<CauseId> cause) {
  for (auto const& one : learning.figures)
    if ((*pack())[one.rule].name == rule && one.cause == cause) return &one;
  return nullptr;
}

constexpr CauseId sprain{0};
constexpr CauseId bruise{1};

TEST(Learn, SmoothsTowardThePresentFigureByItsSample) {
  auto const learning = learn(Tables(pack()),
                              patients({"answers: {lame: yes}\noutcome: {cause: sprain}",
                                        "answers: {lame: no}\noutcome: {cause: sprain}",
                                        "answers: {lame: yes}\noutcome: {cause: bruise}",
                                        "answers: {lame: no}\noutcome: {cause: none}"}),
                              {10, 1});
  auto const* of_sprain = figure(learning, "limps", sprain);
  ASSERT_NE(of_sprain, nullptr);
  EXPECT_EQ(of_sprain->patients, 2U);
  EXPECT_EQ(of_sprain->counts, std::vector<std::size_t>{1});
  EXPECT_DOUBLE_EQ(of_sprain->proposed[0], (1 + 10 * 0.9) / 12) << "judged: ten dogs";
  EXPECT_EQ(of_sprain->sample, 2U) << "a judgement adds no dogs to the sample";
  auto const* of_bruise = figure(learning, "limps", bruise);
  ASSERT_NE(of_bruise, nullptr);
  EXPECT_DOUBLE_EQ(of_bruise->proposed[0], (1 + 20 * 0.5) / 21) << "counted: its twenty dogs";
  EXPECT_EQ(of_bruise->sample, 21U);
  auto const* usual = figure(learning, "limps", std::nullopt);
  ASSERT_NE(usual, nullptr);
  EXPECT_EQ(usual->patients, 1U) << "only the dog with neither cause";
  EXPECT_DOUBLE_EQ(usual->proposed[0], (0 + 10 * 0.1) / 11);
}

TEST(Learn, UnknownIsNotNo) {
  auto const learning = learn(
      Tables(pack()),
      patients({"outcome: {cause: sprain}", "answers: {lame: can't tell}\noutcome: {cause: sprain}",
                "answers: {lame: yes}"}),
      {10, 1});
  EXPECT_EQ(learning.cases, 2U);
  EXPECT_EQ(learning.left_out, 1U);
  EXPECT_TRUE(learning.figures.empty());
}

TEST(Learn, BandsSumToOneAndFewDogsProposeNothing) {
  std::vector<std::string> yaml(4, "answers: {appetite: nothing}\noutcome: {cause: sprain}");
  EXPECT_TRUE(learn(Tables(pack()), patients(yaml), {10, 5}).figures.empty());
  auto const learning = learn(Tables(pack()), patients(yaml), {10, 4});
  auto const* of_sprain = figure(learning, "eats", sprain);
  ASSERT_NE(of_sprain, nullptr);
  EXPECT_EQ(of_sprain->counts, (std::vector<std::size_t>{0, 4}));
  EXPECT_NEAR(of_sprain->proposed[0] + of_sprain->proposed[1], 1, 1e-12);
  EXPECT_NEAR(of_sprain->proposed[1], (4 + 10 * 0.4) / 14, 1e-12);
}

TEST(Learn, TheProposedStatementsReadAsThePackWithTheFigures) {
  auto const learning =
      learn(Tables(pack()),
            patients({"answers: {lame: yes, appetite: less}\noutcome: {cause: sprain}",
                      "answers: {lame: no}\noutcome: {cause: bruise}",
                      "answers: {lame: no, appetite: less}\noutcome: {cause: none}"}),
            {10, 1});
  SourceSet sources;
  Report report;
  auto file = syntax::parse(sources, sources.add("rules", rules), {}, report);
  for (auto& statement : file.statements)
    if (auto* rule = std::get_if<syntax::Rule>(&statement))
      *rule = with_learned(std::move(*rule), *pack(), learning, "judgement");
  auto const read_back = test::pack_of(syntax::print(file));
  auto const wanted = with_learned(*pack(), learning);
  for (std::size_t r = 0; r < wanted.rules.size(); ++r) {
    EXPECT_EQ(read_back->rules[r].usual_sample_size, wanted.rules[r].usual_sample_size);
    for (std::size_t b = 0; b < wanted.rules[r].usual.size(); ++b)
      EXPECT_NEAR(read_back->rules[r].usual[b], wanted.rules[r].usual[b], 1e-4);
    for (std::size_t e = 0; e < wanted.rules[r].entries.size(); ++e) {
      auto const& was = read_back->rules[r].entries[e];
      auto const& is = wanted.rules[r].entries[e];
      EXPECT_EQ(was.sample_size, is.sample_size);
      for (std::size_t b = 0; b < is.frequencies.size(); ++b)
        EXPECT_NEAR(was.frequencies[b], is.frequencies[b], 1e-4);
    }
  }
}

TEST(Learn, OneOfAFamilyGetsAFigureOfItsOwn) {
  std::string text = rules;
  text += R"(family knocks: sprain, bruise
rule falls "Falls"
  if lame
  usual 10%
  in knocks 40%
  because "x"
  cite judgement
)";
  auto const written = test::pack_of(text);
  std::vector<NamedCase> cases;
  for (auto const* yaml : {"answers: {lame: yes}\noutcome: {cause: sprain}",
                           "answers: {lame: yes}\noutcome: {cause: sprain}"})
    cases.push_back({"", test::case_of(*written, yaml)});
  auto const learning = learn(Tables(written), cases, {10, 1});
  syntax::Rule rule;
  rule.name.text = "falls";
  rule.in.push_back({syntax::Name{"knocks", {}}, as_written({0.4}, 0, "")});
  rule = with_learned(std::move(rule), *written, learning, "judgement");
  ASSERT_EQ(rule.in.size(), 2U) << "the family keeps its figure for the others";
  EXPECT_EQ(rule.in[0].cause.text, "knocks");
  EXPECT_EQ(rule.in[1].cause.text, "sprain");
  EXPECT_NEAR(rule.in[1].frequencies.single->count, 100 * (2 + 10 * 0.4) / 12, 1e-3);
  auto const learnt = with_learned(*written, learning);
  EXPECT_EQ(learnt.rules.back().entries[0].family, std::nullopt);
  EXPECT_EQ(learnt.rules.back().entries[1].family, FamilyId{0});
}

}  // namespace
}  // namespace flinch
