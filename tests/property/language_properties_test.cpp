// What must hold for every text in the language.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <random>

#include "flinch/syntax/parse.hpp"
#include "flinch/syntax/print.hpp"
#include "flinch/syntax/reading.hpp"
#include "property/random_pack.hpp"
#include "support/small_pack.hpp"
#include "support/source_tree.hpp"

namespace flinch::test {
namespace {

syntax::File parsed(std::string const& text, std::string* messages = nullptr) {
  SourceSet sources;
  Report report;
  auto const file = sources.add("t.flinch", text);
  auto tree = syntax::parse(sources, file, {}, report);
  auto const said = render(report.take(), sources);
  if (messages != nullptr)
    *messages = said;
  else
    EXPECT_EQ(said, "");
  return tree;
}

TEST(LanguageProperties, PrintedRandomPacksReadBackTheSame) {
  for (unsigned seed = 0; seed < 200; ++seed) {
    auto const tree = parsed(random_pack(seed, Alarms::on_purpose));
    EXPECT_EQ(parsed(print(tree)), tree) << "seed " << seed;
  }
}

TEST(LanguageProperties, TheShippedPackReadsBackTheSame) {
  std::size_t files = 0;
  for (auto const& entry : std::filesystem::directory_iterator(source_path("rules/canine"))) {
    if (entry.path().extension() != ".flinch") continue;
    auto const tree = parsed(source_file("rules/canine/" + entry.path().filename().string()));
    EXPECT_EQ(parsed(print(tree)), tree) << entry.path().filename();
    ++files;
  }
  EXPECT_GE(files, 10U);
}

// Marks every third statement: they alone gain a reading, it fits, and all else stays as it was.
void mark_some(std::string const& text, std::string const& about) {
  std::string const reader = "A. \"Bo\" Smith, X 1";
  auto const before = parsed(text);
  std::vector<std::size_t> chosen;
  for (std::size_t i = 0; i < before.statements.size(); i += 3)
    if (syntax::name_of(before.statements[i]) != nullptr) chosen.push_back(i);
  auto const marked = syntax::with_readings(text, before, chosen, reader, "2026-12-01");
  auto const after = parsed(marked);
  ASSERT_EQ(after.statements.size(), before.statements.size()) << about;
  EXPECT_EQ(parsed(print(after)), after) << about;
  for (std::size_t i = 0; i < after.statements.size(); ++i) {
    auto const& readings = syntax::readings_of(after.statements[i]);
    bool const is_chosen = std::find(chosen.begin(), chosen.end(), i) != chosen.end();
    auto const had = syntax::readings_of(before.statements[i]).size();
    ASSERT_EQ(readings.size(), had + (is_chosen ? 1 : 0)) << about << ' ' << i;
    auto const mark = syntax::mark_of(before.statements[i]);
    EXPECT_EQ(syntax::mark_of(after.statements[i]), mark) << about;
    if (is_chosen) {
      EXPECT_EQ(readings.back().mark.value().text, mark) << about;
    }
  }
  auto const again = syntax::with_readings(marked, after, chosen, reader, "2027-01-31");
  EXPECT_EQ(again.size(), marked.size())
      << about << ": the later reading takes the earlier's place";
  EXPECT_EQ(parsed(again).statements.size(), after.statements.size()) << about;
}

TEST(LanguageProperties, AReadingIsAddedToItsStatementAlone) {
  for (unsigned seed = 0; seed < 30; ++seed)
    mark_some(random_pack(seed, Alarms::on_purpose), "seed " + std::to_string(seed));
  mark_some("# top\r\nsite paw \"paw\"  # beside\r\n  # below\r\nmeans m: a\r\n", "CR LF");
  mark_some("site paw \"a # b\"", "no line break at the end");
  for (auto const* file : {"alarms.flinch", "signs_keeper.flinch", "care_poisons.flinch"})
    mark_some(source_file(std::string("rules/canine/") + file), file);
}

// Cut, doubled and swapped pieces of a sound text: whatever comes out, places lie inside the text,
// and what could be read prints and reads back the same.
TEST(LanguageProperties, DamagedTextsNeitherCrashNorLie) {
  std::mt19937 random(42);
  auto const whole = random_pack(1, Alarms::on_purpose);
  auto const position = [&](std::size_t size) {
    return std::uniform_int_distribution<std::size_t>(0, size)(random);
  };
  for (int i = 0; i < 2000; ++i) {
    auto text = whole.substr(position(whole.size()), 400);
    for (int edits = 0; edits < 4; ++edits) {
      auto const at = position(text.size());
      switch (position(3)) {
        case 0:
          text.erase(at, position(10));
          break;
        case 1:
          text.insert(at, std::string(1, static_cast<char>(position(126) + 1)));
          break;
        case 2:
          text.insert(at, text.substr(position(text.size()), position(20)));
          break;
        default:
          text.insert(at, "\n");
      }
    }
    SourceSet sources;
    Report report;
    auto const file = sources.add("t.flinch", text);
    auto const tree = syntax::parse(sources, file, {}, report);
    for (auto const& d : report.take()) {
      EXPECT_LE(d.at.span.begin, d.at.span.end);
      EXPECT_LE(d.at.span.end, text.size());
    }
    auto const again = parsed(print(tree));
    EXPECT_EQ(again.statements, tree.statements) << text;
  }
}

}  // namespace
}  // namespace flinch::test
