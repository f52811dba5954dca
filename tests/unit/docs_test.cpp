// Every example in the documentation parses.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include "flinch/syntax/parse.hpp"
#include "support/source_tree.hpp"

namespace flinch {
namespace {

TEST(Docs, EveryExampleOfTheLanguageParses) {
  std::size_t blocks = 0;
  auto pages = std::vector<std::string>{"README.md", "DEVELOPERS.md"};
  for (auto const& entry : std::filesystem::directory_iterator(test::source_path("docs")))
    if (entry.path().extension() == ".md")
      pages.push_back("docs/" + entry.path().filename().string());
  std::sort(pages.begin(), pages.end());
  for (auto const& page : pages) {
    for (auto const& block : test::fenced_blocks(test::source_file(page), "flinch")) {
      SourceSet sources;
      Report report;
      auto const file = sources.add(page, block);
      auto const tree = syntax::parse(sources, file, {}, report);
      EXPECT_EQ(render(report.take(), sources), "");
      EXPECT_FALSE(tree.statements.empty()) << page;
      ++blocks;
    }
  }
  EXPECT_GE(blocks, 10U);
}

TEST(Docs, EveryStatementKindHasAnExample) {
  std::string all;
  for (auto const& block : test::fenced_blocks(test::source_file("docs/language.md"), "flinch"))
    all += "\n" + block;
  for (auto const* word : {"pack", "include", "source", "tier", "site", "breeds", "sign", "means",
                           "cause", "family", "rule", "alarm", "overlap", "care", "example"})
    EXPECT_NE(all.find("\n" + std::string(word) + " "), std::string::npos) << word;
}

}  // namespace
}  // namespace flinch
