// Warnings against every answer there is: small packs by chance, all dogs tried.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <random>
#include <set>

#include "flinch/proofread/proofread.hpp"
#include "support/small_pack.hpp"

namespace flinch {
namespace {

constexpr int yes_signs = 3;  // y0, y1, y2; y1 is part of y0

class SmallPack {
 public:
  explicit SmallPack(unsigned seed) : random_(seed) {
    for (int i = 0; i < yes_signs; ++i)
      out_ +=
          fmt::format("sign y{} \"y\"\n  ask \"y{}?\"\n  answer yes or no\n  seen by anyone\n{}", i,
                      i, i == 1 ? "  part of y0\n" : "");
    out_ += "sign x \"x\"\n  ask \"x?\"\n  answer steps normal, less, nothing\n  seen by anyone\n";
    out_ += "sign s \"s\"\n  ask \"s?\"\n  answer sites\n  seen by anyone\n";
  }
  int number(int low, int high) { return std::uniform_int_distribution(low, high)(random_); }
  std::string test() {
    switch (number(0, 6)) {
      case 0:
        return "x at least less";
      case 1:
        return "x is nothing";
      case 2:
        return number(0, 1) == 0 ? "s at elbow" : "s at foreleg";
      default:
        return fmt::format("y{}", number(0, yes_signs - 1));
    }
  }
  std::string condition(int depth) {
    if (depth == 0 || number(0, 2) == 0) return number(0, 2) == 0 ? "not " + test() : test();
    return fmt::format("({} {} {})", condition(depth - 1), number(0, 1) == 0 ? "and" : "or",
                       condition(depth - 1));
  }
  void cause(int i, int per_1000) {
    out_ += fmt::format(
        "cause c{} \"c\"\n  base {} per 1000\n  see watch\n  because \"x\"\n  cite judgement\n", i,
        per_1000);
  }
  void rule(int i, std::string const& condition, std::string const& usual,
            std::vector<std::string> const& in) {
    out_ += fmt::format("rule r{} \"r\"\n  if {}\n  usual {}\n", i, condition, usual);
    for (auto const& each : in) out_ += fmt::format("  in {}\n", each);
    out_ += "  because \"x\"\n  cite judgement\n";
  }
  void add(std::string const& text) { out_ += text; }
  [[nodiscard]] std::shared_ptr<Pack const> load() const {
    auto loaded = test::load({{"pack.flinch", test::preamble + out_}});
    return loaded.outcome ? *loaded.outcome.value : nullptr;
  }

 private:
  std::mt19937 random_;
  std::string out_;
};

enum class Unknowns { none, too };

// Every dog that can answer: with `Unknowns::too`, also those who leave signs open.
void for_every_patient(Pack const& pack, Unknowns unknowns,
                       std::function<void(Case const&)> const& visit) {
  std::vector<std::pair<SignId, std::vector<Answer>>> choices;
  auto const site = [&](char const* name) { return SiteMark{*pack.find_site(name), Side::left}; };
  for (auto i = static_cast<std::uint32_t>(patient_sign::count); i < pack.signs.size(); ++i) {
    std::vector<Answer> answers;
    if (pack.signs[i].kind == AnswerKind::yes_or_no) answers = {true, false};
    if (pack.signs[i].kind == AnswerKind::steps) answers = {Choice{0}, Choice{1}, Choice{2}};
    if (pack.signs[i].kind == AnswerKind::sites) {
      answers = {Findings{false, true, {}, {}}, Findings{true, true, {site("elbow")}, {}},
                 Findings{true, true, {site("carpus")}, {}},
                 Findings{true, true, {site("belly")}, {}}};
      if (unknowns == Unknowns::too) {
        answers.push_back(Findings{true, false, {site("carpus")}, {}});
        answers.push_back(Findings{false, false, {}, {{*pack.find_site("elbow"), Side::any}}});
      }
    }
    choices.emplace_back(SignId{i}, std::move(answers));
  }
  std::function<void(std::size_t, Case&)> const go = [&](std::size_t at, Case& patient) {
    if (at == choices.size()) return visit(patient);
    if (unknowns == Unknowns::too) go(at + 1, patient);
    for (auto const& answer : choices[at].second) {
      patient.answers.emplace_back(choices[at].first, answer);
      go(at + 1, patient);
      patient.answers.pop_back();
    }
  };
  Case patient;
  go(0, patient);
}

bool has(Proof const& proof, Code code, std::string const& quoted) {
  return std::any_of(proof.warnings.begin(), proof.warnings.end(), [&](Diagnostic const& warning) {
    return warning.code == code && warning.message.starts_with(quoted);
  });
}

std::set<std::uint32_t> ever_first(Tables const& tables) {
  std::set<std::uint32_t> out;
  Assessor assessor(tables);
  for_every_patient(tables.pack(), Unknowns::too, [&](Case const& patient) {
    for (auto const& ranked : assessor.assess(patient).ranking)
      if (ranked.cause) {
        out.insert(static_cast<std::uint32_t>(*ranked.cause));
        break;
      }
  });
  return out;
}

TEST(ProofreadProperties, ACauseCalledNeverFirstIsFirstInNoDog) {
  int called = 0;
  int silent = 0;
  for (unsigned seed = 1; seed <= 150; ++seed) {
    SmallPack small(seed);
    for (int i = 0; i < 3; ++i) small.cause(i, i == 0 ? small.number(1, 8) : small.number(5, 60));
    for (int i = 0; i < 4; ++i) {
      std::vector<std::string> in;
      for (int c = 0; c < 3; ++c)
        if (small.number(0, 1) == 0 || (c == 2 && in.empty()))
          in.push_back(fmt::format("c{} {}%", c, small.number(5, 80)));
      small.rule(i, small.condition(small.number(0, 2)), fmt::format("{}%", small.number(10, 60)),
                 in);
    }
    if (small.number(0, 1) == 0)
      small.add(fmt::format("overlap o shares {}%: r0, r1\n", small.number(0, 100)));
    auto const pack = small.load();
    if (pack == nullptr) continue;  // a condition that cannot vary
    Tables const tables(pack);
    auto const proof = proofread(tables);
    auto const first = ever_first(tables);
    for (std::uint32_t c = 0; c < 3; ++c) {
      bool const is_called = has(proof, Code::never_first, fmt::format("`c{}`", c));
      EXPECT_FALSE(is_called && first.contains(c)) << "seed " << seed << " cause " << c;
      called += is_called ? 1 : 0;
      silent += !is_called && !first.contains(c) ? 1 : 0;
    }
  }
  EXPECT_GT(called, 20);
  RecordProperty("never_first_called", called);
  RecordProperty("never_first_not_found", silent);
}

TEST(ProofreadProperties, OfTwoCausesWithRulesOfOneSignEachNeverFirstIsExact) {
  int called = 0;
  for (unsigned seed = 1; seed <= 150; ++seed) {
    SmallPack small(seed + 1000);
    small.cause(0, small.number(1, 10));
    small.cause(1, small.number(5, 40));
    // y0 and y1 hang together as a whole and its part, so only one of them is used.
    std::vector<std::string> const conditions = {"y0", "y2", "not y2", "x at least less",
                                                 "x is nothing"};
    for (int i = 0; i < 4; ++i) {
      std::vector<std::string> in;
      for (int c = 0; c < 2; ++c)
        if (small.number(0, 1) == 0 || (c == 1 && in.empty()))
          in.push_back(fmt::format("c{} {}%", c, small.number(5, 60)));
      small.rule(i, conditions[static_cast<std::size_t>(small.number(0, 4))],
                 fmt::format("{}%", small.number(10, 60)), in);
    }
    auto const pack = small.load();
    ASSERT_NE(pack, nullptr);
    Tables const tables(pack);
    auto const proof = proofread(tables);
    auto const first = ever_first(tables);
    for (std::uint32_t c = 0; c < 2; ++c) {
      bool const is_called = has(proof, Code::never_first, fmt::format("`c{}`", c));
      EXPECT_EQ(is_called, !first.contains(c)) << "seed " << seed << " cause " << c;
      called += is_called ? 1 : 0;
    }
  }
  EXPECT_GT(called, 20);
}

TEST(ProofreadProperties, EquivalentAndComplementaryRulesAreThoseWithSuchTruthTables) {
  int same_called = 0;
  int opposite_called = 0;
  for (unsigned seed = 1; seed <= 600; ++seed) {
    SmallPack small(seed + 5000);
    small.cause(0, 20);
    small.cause(1, 20);
    for (int i = 0; i < 2; ++i)
      small.rule(i, small.condition(small.number(0, 2)), "20%", {"c0 60%"});
    auto const pack = small.load();
    if (pack == nullptr) continue;
    Tables const tables(pack);
    auto const proof = proofread(tables);
    Assessor assessor(tables);
    bool same = true;
    bool opposite = true;
    for_every_patient(*pack, Unknowns::none, [&](Case const& patient) {
      auto const result = assessor.assess(patient);
      if (!result.judgement.contradictions.empty()) return;  // a part without its whole is no dog
      std::vector<Truth> truths(2, Truth::unknown);
      for (auto const& rule : result.rules) truths[index(rule.rule)] = rule.truth;
      ASSERT_NE(truths[0], Truth::unknown);
      ASSERT_NE(truths[1], Truth::unknown);
      (truths[0] == truths[1] ? opposite : same) = false;
    });
    bool const same_is_called = has(proof, Code::said_twice, "rule `r1`");
    bool const opposite_is_called = has(proof, Code::opposite_twice, "rule `r1`");
    // Rules without a common sign cannot be tied, and are not compared.
    EXPECT_EQ(same_is_called, same) << "seed " << seed;
    EXPECT_EQ(opposite_is_called, opposite) << "seed " << seed;
    same_called += same_is_called ? 1 : 0;
    opposite_called += opposite_is_called ? 1 : 0;
  }
  EXPECT_GT(same_called, 15);
  EXPECT_GT(opposite_called, 10);
}

}  // namespace
}  // namespace flinch
