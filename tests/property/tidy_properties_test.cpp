// What must hold of the layout of every text: random packs whose blanks, line breaks and comments
// fall where the language lets them.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <random>

#include "flinch/syntax/parse.hpp"
#include "flinch/syntax/print.hpp"
#include "flinch/syntax/tidy.hpp"
#include "flinch/syntax/vocabulary.hpp"
#include "property/random_pack.hpp"
#include "support/source_tree.hpp"
#include "support/tries.hpp"

namespace flinch::test {
namespace {

std::optional<syntax::File> parsed(std::string const& text) {
  SourceSet sources;
  Report report;
  auto tree = syntax::parse(sources, sources.add("t.flinch", text), {}, report);
  if (report.has_errors()) return std::nullopt;
  return tree;
}

std::string tidied(std::string const& text) {
  SourceSet sources;
  Report report;
  auto const out = syntax::tidy(sources, sources.add("t.flinch", text), {}, report);
  EXPECT_TRUE(out) << render(report.take(), sources);
  return out.value_or("");
}

// A sound text whose blanks are others: what stands between two symbols becomes any mixture of
// blanks, comments and line breaks that goes on with the same clause.
class Shaker {
 public:
  explicit Shaker(unsigned seed) : random_(seed) {}

  std::string shake(std::string const& text) {
    std::string out = chance(20) ? "\xEF\xBB\xBF" : "";
    bool const is_crlf = chance(20);
    own_lines(out, "");
    bool in_text = false;
    std::size_t phrase_end = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
      char const c = text[i];
      if (c == '"' && text[i - 1] != '\\') in_text = !in_text;
      if (c == '\n') {
        blanks(out, 0);
        if (chance(10)) out += ' ' + comment();  // without the blank a grade would go on
        out += '\n';
        bool const is_statement = text.substr(i + 1, 1) != " ";
        own_lines(out, is_statement || chance(50) ? "" : "  ");
        phrase_end = end_of_phrase(text, i + 1);
      } else if (c == ' ' && in_text && chance(20)) {
        out += chance(50) ? "\n   " : " \t\n ";
      } else if (c == ' ' && !in_text) {
        blanks(out, 1);
        if (i >= phrase_end && chance(6)) {
          if (chance(60)) out += ' ' + comment();
          out += "\n";
          own_lines(out, "    ");
          out += "    ";
        }
      } else {
        out += c;
        if (c == ',' && !in_text && chance(10)) out += "\n  ";
        if (c == '(' && chance(20)) out += "  ";
      }
    }
    if (is_crlf) {
      std::string crlf;
      for (char const c : out) crlf += c == '\n' ? "\r\n" : std::string(1, c);
      out = crlf;
    }
    return out;
  }

  [[nodiscard]] std::vector<std::string> const& comments() const { return comments_; }

 private:
  bool chance(int percent) { return std::uniform_int_distribution(1, 100)(random_) <= percent; }
  void blanks(std::string& out, int at_least) {
    for (int i = 0; i < at_least || chance(30); ++i) out += chance(80) ? ' ' : '\t';
  }
  std::string comment() {
    comments_.push_back("#" + std::string(chance(70) ? " note " : "x\"") +
                        std::to_string(comments_.size()) + (chance(20) ? ", site q" : ""));
    return comments_.back() + (chance(20) ? "  " : "");
  }
  // The species and the fact behind it.
  static std::size_t end_of_species(std::string const& text, std::size_t at) {
    auto const key = std::min(text.find(' ', at), text.size());
    auto const fact = std::min(text.find_first_not_of(' ', key), text.size());
    for (auto const one : syntax::patient_facts)
      if (text.compare(fact, one.size(), one) == 0) return fact + one.size();
    return at;
  }
  // A dose up to the `by` of its route: on a line of its own `by mouth` begins a clause.
  static std::size_t end_of_amount(std::string const& text, std::size_t at) {
    auto const by = text.find(" by ", at);
    return by < text.find('\n', at) ? by + 3 : at;
  }
  // A clause's own words stay on one line, and apart by blanks alone.
  static std::size_t end_of_phrase(std::string const& text, std::size_t at) {
    at = std::min(text.find_first_not_of(' ', at), text.size());
    auto longest = at;
    for (auto const& statement : syntax::statement_words())
      for (auto const& clause : statement.clauses)
        if (clause.phrase == syntax::species_line)
          longest = std::max(longest, end_of_species(text, at));
        else if (clause.phrase == "give" && text.compare(at, 5, "give ") == 0)
          longest = std::max(longest, end_of_amount(text, at));
        else if (text.compare(at, clause.phrase.size(), clause.phrase) == 0)
          longest = std::max(longest, at + clause.phrase.size());
    return longest;
  }
  void own_lines(std::string& out, std::string const& indent) {
    while (chance(12)) {
      if (chance(50)) out += indent + (chance(30) ? " " : "") + comment();
      out += '\n';
    }
  }

  std::mt19937 random_;
  std::vector<std::string> comments_;
};

// The comments of a tidy text by a second reading of its lines; texts stand on one line there.
std::vector<std::string> comments_by_line(std::string const& text) {
  std::vector<std::string> out;
  bool in_text = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\\' && in_text) {
      ++i;
    } else if (text[i] == '"') {
      in_text = !in_text;
    } else if (text[i] == '#' && !in_text) {
      auto const end = text.find('\n', i);
      out.push_back(text.substr(i, end - i));
      i = end;
    }
  }
  return out;
}

// Whether the text was a shaking of the same meaning at all, and then what must hold.
bool expect_tidied(std::string const& plain, unsigned seed) {
  Shaker shaker(seed);
  auto const text = shaker.shake(plain);
  auto const tree = parsed(text);
  // A line break before a name that is a clause's word begins that clause: another text.
  if (!tree || !(*tree == parsed(plain))) return false;
  auto const tidy = tidied(text);
  EXPECT_EQ(parsed(tidy), tree) << text;
  EXPECT_EQ(comments_by_line(tidy), shaker.comments()) << text << "\n---\n" << tidy;
  EXPECT_EQ(tidied(tidy), tidy) << text;
  EXPECT_TRUE(syntax::says_the_same(text, tidy));
  EXPECT_EQ(tidy.find("\n\n\n"), std::string::npos);
  EXPECT_EQ(tidy.find('\r'), std::string::npos);
  EXPECT_EQ(tidy.find(" \n"), std::string::npos);
  return true;
}

TEST(TidyProperties, ShakenRandomPacksComeOutTheSameAndStayTidy) {
  std::size_t tried = 0;
  for (unsigned seed = 0; seed < tries(400); ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    tried += expect_tidied(random_pack(seed, Alarms::on_purpose), seed) ? 1 : 0;
  }
  // A break before a word that begins a clause makes another text, which is not tried.
  EXPECT_GE(tried, tries(250));
}

TEST(TidyProperties, ShippedFilesShakenOrNotComeOutTheSameAndStayTidy) {
  std::size_t files = 0;
  std::size_t tried = 0;
  for (auto const& entry : std::filesystem::directory_iterator(source_path("rules/canine"))) {
    if (entry.path().extension() != ".flinch") continue;
    SCOPED_TRACE(entry.path().filename());
    auto const text = source_file("rules/canine/" + entry.path().filename().string());
    auto const tree = parsed(text);
    ASSERT_TRUE(tree);
    auto const tidy = tidied(text);
    EXPECT_EQ(parsed(tidy), tree);
    EXPECT_EQ(tidied(tidy), tidy);
    EXPECT_EQ(comments_by_line(tidy), comments_by_line(text));
    ++files;
    for (unsigned seed = 0; seed < tries(5); ++seed) {
      SCOPED_TRACE("seed " + std::to_string(seed));
      tried += expect_tidied(print(*tree), seed) ? 1 : 0;
    }
  }
  EXPECT_GE(files, 10U);
  EXPECT_GE(5 * tried, 3 * tries(5) * files);
}

}  // namespace
}  // namespace flinch::test
