// Kleene's strong three-valued logic against its published tables.
// Source: Kleene SC (1952) Introduction to Metamathematics, section 64, with t, f, u for true,
// false, undefined; recalled from memory and the same in every later textbook.
#include "flinch/assess/truth.hpp"

#include <gtest/gtest.h>

#include <array>

#include "support/small_pack.hpp"

namespace flinch {
namespace {

constexpr auto t = Truth::yes;
constexpr auto f = Truth::no;
constexpr auto u = Truth::unknown;

struct Row {
  Truth a, b, conjunction, disjunction;
};
constexpr std::array table = {Row{t, t, t, t}, Row{t, f, f, t}, Row{t, u, u, t},
                              Row{f, t, f, t}, Row{f, f, f, f}, Row{f, u, f, u},
                              Row{u, t, u, t}, Row{u, f, f, u}, Row{u, u, u, u}};

TEST(Kleene, TablesOfAndAndOr) {
  for (auto const& row : table) {
    EXPECT_EQ(both(row.a, row.b), row.conjunction);
    EXPECT_EQ(either(row.a, row.b), row.disjunction);
  }
}

TEST(Kleene, TableOfNot) {
  EXPECT_EQ(negation(t), f);
  EXPECT_EQ(negation(f), t);
  EXPECT_EQ(negation(u), u);
}

TEST(Kleene, CountsAreTheDisjunctionOfConjunctions) {
  for (int i = 0; i < 27; ++i) {
    std::array const a = {static_cast<Truth>(i % 3), static_cast<Truth>(i / 3 % 3),
                          static_cast<Truth>(i / 9)};
    auto const spelled = either(either(both(a[0], a[1]), both(a[0], a[2])), both(a[1], a[2]));
    auto const yes = static_cast<std::uint32_t>(std::count(a.begin(), a.end(), t));
    auto const unknown = static_cast<std::uint32_t>(std::count(a.begin(), a.end(), u));
    EXPECT_EQ(at_least(2, yes, unknown), spelled);
  }
}

// The same tables through the language and the engine.
TEST(Kleene, TablesHoldForConditionsOfAPack) {
  std::string const pack_text = test::yes_or_no_signs({"a", "b"}) + R"(
alarm conj "conj"
  if a and b
  see now
  because "x"
  cite judgement
alarm disj "disj"
  if a or b
  see soon
  because "x"
  cite judgement
)";
  auto const pack = test::pack_of(pack_text);
  auto const answer = [](char const* name, Truth truth) {
    return truth == u ? std::string()
                      : std::string("  ") + name + (truth == t ? ": yes\n" : ": no\n");
  };
  for (auto const& row : table) {
    auto const result = test::assess(pack, "answers:\n" + answer("a", row.a) + answer("b", row.b));
    std::array truths = {u, u};
    for (auto const& alarm : result.alarms) truths.at(index(alarm.alarm)) = alarm.truth;
    EXPECT_EQ(truths[0], row.conjunction);
    EXPECT_EQ(truths[1], row.disjunction);
  }
}

}  // namespace
}  // namespace flinch
