#include "flinch/syntax/vocabulary.hpp"

#include <algorithm>

#include "syntax/clauses.hpp"

namespace flinch::syntax {
namespace {

template <class T>
StatementWords with_clauses(std::string_view keyword, Content content = Content::symbols) {
  StatementWords out{keyword, content, {}};
  for (auto const& clause : clauses_of<T>()) out.clauses.push_back(clause);
  return out;
}

}  // namespace

std::vector<StatementWords> const& statement_words() {
  static std::vector<StatementWords> const words = {
      with_clauses<Include>("include"), with_clauses<PackHead>("pack"),
      with_clauses<Source>("source"),   with_clauses<Tier>("tier"),
      with_clauses<Site>("site"),       with_clauses<Breeds>("breeds"),
      with_clauses<Sign>("sign"),       with_clauses<Means>("means", Content::condition),
      with_clauses<Cause>("cause"),     with_clauses<Family>("family"),
      with_clauses<Rule>("rule"),       with_clauses<Alarm>("alarm"),
      with_clauses<Overlap>("overlap"), with_clauses<Care>("care"),
      with_clauses<Example>("example"),
  };
  return words;
}

StatementWords const* find_statement_words(std::string_view keyword) {
  auto const& all = statement_words();
  auto const found = std::find_if(all.begin(), all.end(), [&](StatementWords const& words) {
    return words.keyword == keyword;
  });
  return found == all.end() ? nullptr : &*found;
}

}  // namespace flinch::syntax
