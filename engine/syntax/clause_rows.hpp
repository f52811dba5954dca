#pragma once
// How the row of a clause is made from a production and the member that it fills.
#include <array>
#include <iterator>
#include <type_traits>

#include "syntax/clause_contents.hpp"
#include "syntax/clauses.hpp"
#include "syntax/written.hpp"

namespace flinch::syntax::clause_rows {

inline void write_line(std::string_view words, std::string_view content, std::string& out) {
  out += "  ";
  out += words;
  if (!content.empty()) (out += ' ') += content;
  out += '\n';
}

/// The line of a patient begins with the pack's species.
template <class V>
std::string_view words_before(ClauseWords const& clause, V const& value) {
  if constexpr (std::is_same_v<V, PatientFacts>)
    return value.species.text;
  else
    return clause.phrase;
}

/// A row of which the production tells what it holds.
template <class T, auto production>
constexpr Clause<T> row(std::string_view phrase, std::string_view form, Often often) {
  using V = typename decltype(production(std::declval<Stretch const&>(),
                                         std::declval<Report&>()))::value_type;
  static_assert(!contents_of<V>.grammar.empty(), "say what the production reads in contents_of");
  return {{phrase, content_of<V>, form, contents_of<V>.holds, contents_of<V>.grammar, {}}, often};
}

/// At most one value.
template <class T, auto production, auto member>
constexpr Clause<T> once(std::string_view phrase, std::string_view form) {
  auto out = row<T, production>(phrase, form, Often::once);
  out.read = [](Stretch const& stretch, Report& report, T& statement) {
    auto value = production(stretch, report);
    if (!value) return false;
    statement.*member = std::move(*value);
    return true;
  };
  out.write = [](ClauseWords const& clause, T const& statement, std::string& text) {
    if (auto const& value = statement.*member) write_line(clause.phrase, written(*value), text);
  };
  out.collect = [](ClauseWords const& clause, T const& statement, NameCollector& names) {
    if (auto const& value = statement.*member) names.value(*value, clause.refers);
  };
  return out;
}

/// One run of characters, such as an address.
template <class T, auto member>
constexpr Clause<T> word(std::string_view phrase, std::string_view form) {
  auto out = once<T, grammar::visible, member>(phrase, form);
  out.content = Content::reference;
  out.holds = Holds::other;
  out.grammar = "reference";
  return out;
}

template <class T, auto member>
void collect_all(ClauseWords const& clause, T const& statement, NameCollector& names) {
  for (auto const& value : statement.*member) names.value(value, clause.refers);
}

template <class T, auto member>
void write_each(ClauseWords const& clause, T const& statement, std::string& text) {
  for (auto const& value : statement.*member)
    write_line(words_before(clause, value), written(value), text);
}

template <class T, auto production, auto member>
bool append_all(Stretch const& stretch, Report& report, T& statement) {
  auto values = production(stretch, report);
  if (!values) return false;
  (statement.*member)
      .insert((statement.*member).end(), std::make_move_iterator(values->begin()),
              std::make_move_iterator(values->end()));
  return true;
}

/// Any number of clauses with one value each, printed one a line.
template <class T, auto production, auto member>
constexpr Clause<T> each(std::string_view phrase, std::string_view form) {
  auto out = row<T, production>(phrase, form, Often::repeatedly);
  out.read = [](Stretch const& stretch, Report& report, T& statement) {
    auto value = production(stretch, report);
    if (!value) return false;
    (statement.*member).push_back(std::move(*value));
    return true;
  };
  out.write = write_each<T, member>;
  out.collect = collect_all<T, member>;
  return out;
}

/// Any number of clauses with several values each, printed one a line.
template <class T, auto production, auto member>
constexpr Clause<T> each_of(std::string_view phrase, std::string_view form) {
  auto out = row<T, production>(phrase, form, Often::repeatedly);
  out.read = append_all<T, production, member>;
  out.write = write_each<T, member>;
  out.collect = collect_all<T, member>;
  return out;
}

/// Any number of clauses with several values each, printed as one.
template <class T, auto production, auto member>
constexpr Clause<T> list(std::string_view phrase, std::string_view form,
                         Often often = Often::repeatedly) {
  auto out = row<T, production>(phrase, form, often);
  out.read = append_all<T, production, member>;
  out.write = [](ClauseWords const& clause, T const& statement, std::string& text) {
    if (auto const& values = statement.*member; !values.empty())
      write_line(clause.phrase, written(values), text);
  };
  out.collect = collect_all<T, member>;
  return out;
}

/// Words that stand alone.
template <class T, auto member>
constexpr Clause<T> flag(std::string_view phrase) {
  Clause<T> out{{phrase, Content::symbols, phrase}};
  out.read = [](Stretch const& stretch, Report& report, T& statement) {
    statement.*member = true;
    return grammar::nothing(stretch, report);
  };
  out.write = [](ClauseWords const& clause, T const& statement, std::string& text) {
    if (statement.*member) write_line(clause.phrase, {}, text);
  };
  out.collect = [](ClauseWords const&, T const&, NameCollector&) {};
  return out;
}

/// Words that stand alone, or with a text behind them.
template <class T, auto is_there, auto member>
constexpr Clause<T> flag_or_text(std::string_view phrase, std::string_view form) {
  auto out = flag<T, is_there>(phrase);
  out.form = form;
  out.read = [](Stretch const& stretch, Report& report, T& statement) {
    statement.*is_there = true;
    return grammar::text_or_nothing(stretch, report, statement.*member);
  };
  out.write = [](ClauseWords const& clause, T const& statement, std::string& text) {
    if (statement.*is_there)
      write_line(clause.phrase, statement.*member ? written(*(statement.*member)) : "", text);
  };
  return out;
}

}  // namespace flinch::syntax::clause_rows
