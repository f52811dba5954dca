// Every number printed in docs/ranking.md, recomputed: the arithmetic in the middle column, and the
// engine's own value for the row.
#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "flinch/explain/reasons.hpp"
#include "support/small_pack.hpp"
#include "support/source_tree.hpp"

namespace flinch::test {
namespace {

// + - * / with parentheses, ln and exp, as the page writes them.
class Arithmetic {
 public:
  explicit Arithmetic(std::string const& text) : text_(text) {}
  double value() {
    auto const out = sum();
    blanks();
    if (at_ != text_.size()) throw std::runtime_error("cannot read: " + text_);
    return out;
  }

 private:
  void blanks() {
    while (at_ < text_.size() && text_[at_] == ' ') ++at_;
  }
  bool take(std::string const& what) {
    blanks();
    if (text_.compare(at_, what.size(), what) != 0) return false;
    at_ += what.size();
    return true;
  }
  double sum() {
    auto out = product();
    for (;;) {
      if (take("+"))
        out += product();
      else if (take("-"))
        out -= product();
      else
        return out;
    }
  }
  double product() {
    auto out = atom();
    for (;;) {
      if (take("*"))
        out *= atom();
      else if (take("/"))
        out /= atom();
      else
        return out;
    }
  }
  double atom() {
    if (take("ln(")) return std::log(closed());
    if (take("exp(")) return std::exp(closed());
    if (take("(")) return closed();
    if (take("-")) return -atom();
    blanks();
    std::size_t used = 0;
    auto const out = std::stod(text_.substr(at_), &used);
    at_ += used;
    return out;
  }
  double closed() {
    auto const out = sum();
    if (!take(")")) throw std::runtime_error("open parenthesis: " + text_);
    return out;
  }

  std::string const& text_;
  std::size_t at_ = 0;
};

struct Row {
  std::string label;
  std::string arithmetic;
  double value = 0;
};

std::vector<Row> table_rows(std::string const& page) {
  std::vector<Row> rows;
  std::size_t at = page.find("## A case worked by hand");
  while ((at = page.find("\n| ", at)) != std::string::npos) {
    auto const end = page.find('\n', at + 1);
    auto const line = page.substr(at + 3, end - at - 3);
    at = end;
    auto const first = line.find(" | ");
    auto const second = line.find(" | ", first + 3);
    auto const label = line.substr(0, first);
    if (label == "number") continue;
    rows.push_back(
        {label, line.substr(first + 3, second - first - 3), std::stod(line.substr(second + 3))});
  }
  return rows;
}

TEST(RankingPage, EveryNumberIsWhatTheEngineComputes) {
  auto const page = source_file("docs/ranking.md");
  auto const loaded = load({{"pack.flinch", fenced_blocks(page, "flinch").at(0)}});
  ASSERT_TRUE(loaded.outcome) << loaded.messages();
  auto const& pack = **loaded.outcome.value;
  auto const result = assess(*loaded.outcome.value, fenced_blocks(page, "yaml").at(0));

  std::map<std::string, double> engine;
  double sum = 0;
  for (auto const& ranked : result.ranking) {
    auto const name = ranked.cause ? pack[*ranked.cause].name : "none";
    engine["prior " + name] = ranked.prior;
    engine["posterior " + name] = ranked.posterior;
    engine["raw " + name] = ranked.prior * std::exp(ranked.evidence);
    sum += engine["raw " + name];
    if (ranked.cause) engine["evidence " + name] = ranked.evidence;
    if (name == "elbow_arthritis") engine["decibans " + name] = decibans(ranked.evidence);
  }
  engine["sum"] = sum;
  for (auto const& c : result.contributions)
    engine["weight " + pack[c.cause].name + " " + pack[c.rule].name] = c.counted();
  for (std::size_t i = 0; i + 1 < pack.tiers.size(); ++i) {
    engine["threshold " + pack.tiers[i].name] = *result.judgement.tiers[i].threshold;
    engine["chance " + pack.tiers[i].name] = result.judgement.tiers[i].probability;
  }

  auto const rows = table_rows(page);
  std::map<std::string, double> printed;
  for (auto const& row : rows) {
    EXPECT_NEAR(Arithmetic(row.arithmetic).value(), row.value, 5e-5)
        << row.label << ": " << row.arithmetic;
    ASSERT_EQ(engine.count(row.label), 1U) << "the engine has no number for: " << row.label;
    EXPECT_NEAR(engine[row.label], row.value, 5e-7) << row.label;
    printed[row.label] = row.value;
  }
  EXPECT_EQ(printed.size(), rows.size()) << "a number stands twice";
  EXPECT_EQ(printed.size(), engine.size()) << "a number of the engine is not on the page";
  EXPECT_NE(
      page.find("So the ranking asks for `" + tier_name(pack, result.judgement.ranking_tier) + "`"),
      std::string::npos);
  EXPECT_NE(page.find("the ceiling is `" + tier_name(pack, result.judgement.ceiling) + "`"),
            std::string::npos);
}

}  // namespace
}  // namespace flinch::test
