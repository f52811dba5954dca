#include "flinch/syntax/symbols.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace flinch::syntax {
namespace {

std::vector<std::string> symbols_of(std::string_view text) {
  std::vector<std::string> out;
  for (std::size_t at = 0; at < text.size();) {
    if (is_blank(text[at])) {
      ++at;
      continue;
    }
    auto const end = symbol_end(text, at);
    out.emplace_back(text.substr(at, end - at));
    at = end;
  }
  return out;
}

TEST(Symbols, AreWordsNumbersTextsAndMarks) {
  using Symbols = std::vector<std::string>;
  EXPECT_EQ(symbols_of("age >= 8.5 years"), (Symbols{"age", ">=", "8.5", "years"}));
  EXPECT_EQ(symbols_of("3 per kg^0.75,-4C"), (Symbols{"3", "per", "kg", "^0.75", ",", "-4", "C"}));
  EXPECT_EQ(symbols_of("12% of(a_1)"), (Symbols{"12", "%", "of", "(", "a_1", ")"}));
  EXPECT_EQ(symbols_of(R"(say "a \"b\" # c"next)"), (Symbols{"say", R"("a \"b\" # c")", "next"}));
  EXPECT_EQ(symbols_of("1. x<2"), (Symbols{"1", ".", "x", "<", "2"}));
}

TEST(Symbols, ATextThatIsNotClosedEndsWithAllOfIt) {
  for (std::string_view const open : {"\"never", "\"", "\"a\\\"", "\"a\\"}) {
    EXPECT_EQ(symbol_end(open, 0), open.size()) << open;
    EXPECT_FALSE(is_closed_text(open, 0, open.size())) << open;
  }
  for (std::string_view const closed : {"\"\"", R"("a\"")", R"("a\\")"}) {
    EXPECT_EQ(symbol_end(closed, 0), closed.size()) << closed;
    EXPECT_TRUE(is_closed_text(closed, 0, closed.size())) << closed;
  }
}

}  // namespace
}  // namespace flinch::syntax
