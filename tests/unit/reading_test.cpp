// Who has read a statement, and by which mark a change of it shows.
#include "flinch/syntax/reading.hpp"

#include <gtest/gtest.h>

#include <set>

#include "flinch/explain/statements.hpp"
#include "flinch/syntax/parse.hpp"
#include "pack/shipped_pack.hpp"
#include "support/small_pack.hpp"

namespace flinch {
namespace {

std::string mark(std::string const& text) {
  SourceSet sources;
  Report report;
  auto const file = sources.add("t.flinch", text);
  auto const tree = syntax::parse(sources, file, {}, report);
  EXPECT_FALSE(report.has_errors()) << text;
  return syntax::mark_of(tree.statements.at(0));
}

// The check value of CRC-32 in the catalogue of parametrised CRC algorithms (G. Cook), from memory:
// CRC-32/ISO-HDLC of "123456789" is cbf43926.
TEST(Reading, TheMarkIsTheStandardChecksum) {
  EXPECT_EQ(syntax::mark_of_text("123456789"), "cbf43926");
}

// Marks stand in the files of those who use the program: another printing would make all unread.
TEST(Reading, AMarkStaysTheSameFromVersionToVersion) {
  EXPECT_EQ(mark("site paw \"paw\" in leg\n"), syntax::mark_of_text("site paw \"paw\" in leg\n"));
  EXPECT_EQ(mark("alarm a \"A\"\n  if x and y >= 39.5 C\n  see now\n  because \"b\"\n  cite s\n"),
            syntax::mark_of_text(
                "alarm a \"A\"\n  if x and y >= 39.5 C\n  see now\n  because \"b\"\n  cite s\n"));
}

TEST(Reading, LayoutCommentsAndReadingsDoNotChangeTheMark) {
  auto const plain = mark("rule r \"R\"\n  if a and b\n  usual 5%\n  in c 40%\n");
  EXPECT_EQ(mark("rule   r \"R\"  # why\n\n      in c 40 %\n  if a\n    and b\n  usual 5%\n"),
            plain);
  EXPECT_EQ(mark("rule r \"R\"\n  if a and b\n  usual 5%\n  in c 40%\n  read by \"A, B\" on "
                 "2026-12-01\n"),
            plain);
}

TEST(Reading, EveryWordAndFigureChangesTheMark) {
  auto const plain = mark("rule r \"R\"\n  if a and b\n  usual 5%\n  in c 40%\n");
  for (auto const* other : {"rule r \"R.\"\n  if a and b\n  usual 5%\n  in c 40%\n",
                            "rule r \"R\"\n  if a or b\n  usual 5%\n  in c 40%\n",
                            "rule r \"R\"\n  if a and b\n  usual 5%\n  in c 41%\n",
                            "rule r \"R\"\n  if a and b\n  usual 5%\n  in c 40% of 9 from s\n",
                            "rule q \"R\"\n  if a and b\n  usual 5%\n  in c 40%\n"})
    EXPECT_NE(mark(other), plain) << other;
}

TEST(Reading, OnlyDaysOfTheCalendarAreDates) {
  for (auto const* date : {"2026-12-01", "2024-02-29", "2000-02-29"})
    EXPECT_TRUE(syntax::is_date(date)) << date;
  for (auto const* date : {"2026-02-29", "1900-02-29", "2026-13-01", "2026-00-10", "2026-1-01", "",
                           "2026/12/01", "01-12-2026", "2026-12-01x", "+026-12-01"})
    EXPECT_FALSE(syntax::is_date(date)) << date;
}

TEST(Reading, AReaderHasALicence) {
  EXPECT_TRUE(syntax::is_reader("A. Smith, MRCVS 123"));
  for (auto const* reader : {"A. Smith", "A. Smith, ", ", MRCVS", ""})
    EXPECT_FALSE(syntax::is_reader(reader)) << reader;
}

TEST(Statements, EachOfTheShippedPackIsListedOnceTheHeaviestFirst) {
  Tables const tables(test::shipped_pack());
  auto const all = statements_by_weight(tables);
  EXPECT_EQ(all.size(), tables.pack().statements);
  std::set<std::pair<StatementKind, std::uint32_t>> seen;
  for (std::size_t i = 0; i < all.size(); ++i) {
    EXPECT_TRUE(seen.emplace(all[i].kind, all[i].index).second) << all[i].name;
    if (i > 0) {
      EXPECT_LE(all[i - 1].weight, all[i].weight);
    }
  }
  EXPECT_EQ(all.front().kind, StatementKind::alarm);
}

TEST(Statements, ThePackSaysPlainlyThatNobodyHasReadIt) {
  EXPECT_EQ(read_sentence(*test::shipped_pack()),
            "No statement of this pack has been read by a licensed vet.");
  EXPECT_EQ(count_read(*test::shipped_pack()).read, 0U);
}

}  // namespace
}  // namespace flinch
