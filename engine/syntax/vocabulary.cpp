#include "flinch/syntax/vocabulary.hpp"

#include <algorithm>
#include <variant>

#include "syntax/clauses.hpp"

namespace flinch::syntax {
namespace {

template <class T>
StatementWords words_of() {
  StatementWords out{opening<T>.keyword(), opening<T>.content, {}};
  for (auto const& clause : clauses_of<T>()) out.clauses.push_back(clause);
  return out;
}

template <class... T>
std::vector<StatementWords> words_of_all(std::variant<T...> const*) {
  return {words_of<T>()...};
}

}  // namespace

std::vector<StatementWords> const& statement_words() {
  static auto const words = words_of_all(static_cast<Statement const*>(nullptr));
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
