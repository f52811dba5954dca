#include "flinch/syntax/names.hpp"

#include "flinch/syntax/reading.hpp"
#include "syntax/clauses.hpp"
#include "syntax/name_collector.hpp"

namespace flinch::syntax {
namespace {

// The names in a statement's first line, its own among them.
class FirstLine {
 public:
  explicit FirstLine(NameCollector& out) : out_(out) {}

  void operator()(Include const&) {}
  void operator()(PackHead const& s) { out_.define(NameKind::pack, s.name); }
  void operator()(Source const& s) { out_.define(NameKind::source, s.name); }
  void operator()(Tier const& s) { out_.define(NameKind::tier, s.name); }
  void operator()(Site const& s) {
    out_.define(NameKind::site, s.name);
    if (s.inside) out_.use(NameKind::site, *s.inside);
  }
  void operator()(Breeds const& s) { out_.define(NameKind::group, s.name); }
  void operator()(Sign const& s) { out_.define(NameKind::sign, s.name); }
  void operator()(Means const& s) {
    out_.define(NameKind::sign, s.name);
    out_.condition(s.condition);
  }
  void operator()(Cause const& s) { out_.define(NameKind::cause, s.name); }
  void operator()(Family const& s) {
    out_.define(NameKind::cause, s.name);
    for (auto const& member : s.members) out_.use(NameKind::cause, member);
  }
  void operator()(Rule const& s) { out_.define(NameKind::rule, s.name); }
  void operator()(Alarm const& s) { out_.define(NameKind::alarm, s.name); }
  void operator()(Overlap const& s) {
    out_.define(NameKind::overlap, s.name);
    out_.value(s.shares, std::nullopt);
    for (auto const& rule : s.rules) out_.use(NameKind::rule, rule);
  }
  void operator()(Care const& s) { out_.define(NameKind::care, s.name); }
  void operator()(Example const& s) { out_.define(NameKind::example, s.name); }

 private:
  NameCollector& out_;
};

}  // namespace

std::vector<NamedPlace> names_in(Statement const& statement) {
  NameCollector out(name_of(statement));
  std::visit(FirstLine(out), statement);
  std::visit(
      [&]<class T>(T const& s) {
        for (auto const& clause : clauses_of<T>()) clause.collect(clause, s, out);
      },
      statement);
  return out.take();
}

}  // namespace flinch::syntax
