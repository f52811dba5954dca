// Writes the clauses of each statement into the EBNF of docs/language_reference.md, from the rows
// that the language itself is read by. What is between them stands by hand.
#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>

#include "flinch/syntax/vocabulary.hpp"

namespace flinch {
namespace {

constexpr std::size_t page_width = 116;
constexpr std::string_view margin = "             ";

std::string quoted_words(std::string_view phrase) {
  std::string out;
  for (std::size_t at = 0; at < phrase.size();) {
    auto const end = std::min(phrase.find(' ', at), phrase.size());
    out += fmt::format("{}\"{}\"", out.empty() ? "" : ", ", phrase.substr(at, end - at));
    at = end + 1;
  }
  return out;
}

std::string alternative(syntax::ClauseWords const& clause) {
  if (clause.phrase == "accept" || clause.phrase == "read by" ||
      clause.phrase == syntax::species_line)
    return std::string(clause.grammar);
  auto out = quoted_words(clause.phrase);
  if (!clause.grammar.empty()) out += fmt::format(", {}", clause.grammar);
  return out;
}

// `{ "a", text | "b" }`, broken into lines behind what stands before it.
std::string clauses_of(syntax::StatementWords const& statement, std::size_t column) {
  std::string out = "{ ";
  column += out.size();
  for (auto const& clause : statement.clauses) {
    auto const next = alternative(clause);
    bool const is_first = &clause == &statement.clauses.front();
    bool const is_last = &clause == &statement.clauses.back();
    if (!is_first && column + next.size() + (is_last ? 6 : 3) > page_width) {
      out += fmt::format("\n{}| ", margin);
      column = margin.size() + 2;
    } else if (!is_first) {
      out += " | ";
      column += 3;
    }
    out += next;
    column += next.size();
  }
  return out + " }";
}

// Where the outermost braces that end the production begin; `end` is that of its last one.
std::size_t opening_brace(std::string const& text, std::size_t end) {
  std::size_t depth = 0;
  for (auto at = end; at-- > 0;) {
    if (text[at] == '}') ++depth;
    if (text[at] == '{' && --depth == 0) return at;
  }
  return std::string::npos;
}

bool write_clauses(std::string& page) {
  for (auto const& statement : syntax::statement_words()) {
    if (statement.clauses.empty()) continue;
    auto const begin =
        page.find(fmt::format("\n{:<11}= \"{}\"", statement.keyword, statement.keyword));
    auto const end = begin == std::string::npos ? begin : page.find("} ;", begin);
    if (end == std::string::npos) {
      std::cerr << "no production with clauses for " << statement.keyword << '\n';
      return false;
    }
    auto const opened = opening_brace(page, end + 1);
    auto const line = page.rfind('\n', opened) + 1;
    page.replace(opened, end + 1 - opened, clauses_of(statement, opened - line));
  }
  return true;
}

int run(char const* from, char const* to) {
  std::ifstream in(from, std::ios::binary);
  std::string page{std::istreambuf_iterator<char>(in), {}};
  in.close();
  if (!write_clauses(page)) return 2;
  std::ofstream out(to, std::ios::binary);
  out << page;
  return out.flush() ? 0 : 1;
}

}  // namespace
}  // namespace flinch

int main(int argc, char** argv) {
  if (argc != 3) {
    std::cerr << "usage: grammar_page PAGE NEW_PAGE\n";
    return 2;
  }
  return flinch::run(argv[1], argv[2]);
}
