// The engine against the naive Bayes classifier of R's e1071 (`naiveBayes`, laplace 1) on real
// data: given R's frequencies it ranks alike, and from the horses themselves it learns the same
// ones.
#include <gtest/gtest.h>

#include "flinch/audit/learn.hpp"
#include "reference/colic.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

Colic const& colic() {
  static auto const read = read_colic();
  return read;
}

class ColicParity : public testing::Test {
 protected:
  void SetUp() override {
    ASSERT_EQ(colic().horses.size(), 300U)
        << "Rscript with r-cran-e1071 and r-cran-vim is needed; tests/run installs them";
  }
};

void expect_posteriors_of_r(std::shared_ptr<Pack const> const& pack) {
  Tables const tables(pack);
  Assessor assessor(tables);
  for (std::size_t i = 0; i < colic().horses.size(); ++i) {
    auto const& horse = colic().horses[i];
    auto const result = assessor.assess(case_of(*pack, case_text(colic(), horse)));
    EXPECT_NEAR(posterior(*pack, result, "surgical"), horse.posterior, 1e-9) << "horse " << i + 1;
  }
}

TEST_F(ColicParity, PosteriorsEqualThoseOfNaiveBayesInR) {
  std::size_t unknown = 0;
  for (auto const& horse : colic().horses)
    for (auto const& answer : horse.answers)
      if (answer == "NA") ++unknown;
  EXPECT_GT(unknown, 500U) << "the data are known for their missing values";
  expect_posteriors_of_r(sound_pack({{"pack.flinch", colic().fitted_pack}}));
}

TEST_F(ColicParity, WhatIsLearntFromTheHorsesEqualsNaiveBayesInR) {
  auto const even = sound_pack({{"pack.flinch", colic().even_pack}});
  std::vector<NamedCase> horses;
  for (auto const& horse : colic().horses)
    horses.push_back({"", case_of(*even, case_text(colic(), horse))});
  auto const learning = learn(Tables(even), horses, {0, 1});
  EXPECT_EQ(learning.figures.size(), 2 * even->rules.size());
  expect_posteriors_of_r(std::make_shared<Pack const>(with_learned(*even, learning)));
}

}  // namespace
}  // namespace flinch::test
