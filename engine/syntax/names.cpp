#include "flinch/syntax/names.hpp"

#include <type_traits>
#include <variant>

#include "flinch/syntax/reading.hpp"
#include "syntax/clauses.hpp"
#include "syntax/name_collector.hpp"

namespace flinch::syntax {
namespace {

// The names that stand in a statement's first line beside its own.
template <class T>
void beside_name(T const&, NameCollector&) {}
void beside_name(Site const& s, NameCollector& out) {
  if (s.inside) out.use(NameKind::site, *s.inside);
}
void beside_name(Means const& s, NameCollector& out) { out.condition(s.condition); }
void beside_name(Family const& s, NameCollector& out) {
  for (auto const& member : s.members) out.use(NameKind::cause, member);
}
void beside_name(Overlap const& s, NameCollector& out) {
  out.value(s.shares, std::nullopt);
  for (auto const& rule : s.rules) out.use(NameKind::rule, rule);
}

}  // namespace

std::vector<NamedPlace> names_in(Statement const& statement) {
  NameCollector out(name_of(statement));
  std::visit(
      [&]<class T>(T const& s) {
        if constexpr (!std::is_same_v<T, Include>) out.define(opening<T>.defines, s.name);
        beside_name(s, out);
        for (auto const& clause : clauses_of<T>()) clause.collect(clause, s, out);
      },
      statement);
  return out.take();
}

}  // namespace flinch::syntax
