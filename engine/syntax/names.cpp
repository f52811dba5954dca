#include "flinch/syntax/names.hpp"

namespace flinch::syntax {
namespace {

class Collector {
 public:
  std::vector<NamedPlace> take() { return std::move(out_); }

  void operator()(Include const&) {}
  void operator()(PackHead const& s) {
    define(NameKind::pack, s.name);
    if (s.unlisted) frequency(*s.unlisted);
    for (auto const* figure : {&s.body_surface, &s.resting_energy})
      if (*figure) use(NameKind::source, (*figure)->source);
    if (!s.hold) return;
    frequency(s.hold->low);
    frequency(s.hold->high);
  }
  void operator()(Source const& s) { define(NameKind::source, s.name); }
  void operator()(Tier const& s) { define(NameKind::tier, s.name); }
  void operator()(Site const& s) {
    define(NameKind::site, s.name);
    use(NameKind::site, s.inside);
  }
  void operator()(Breeds const& s) { define(NameKind::group, s.name); }
  void operator()(Sign const& s) {
    define(NameKind::sign, s.name);
    use(NameKind::sign, s.part_of);
    if (s.applies_if) condition(*s.applies_if);
    for (auto const& floor : s.alone) {
      use(NameKind::tier, floor.see);
      test(s.name, floor.test);
      if (floor.unless) condition(*floor.unless);
      use(NameKind::source, floor.cites);
    }
    if (!s.answer) return;
    if (auto const* sites = std::get_if<Sites>(&s.answer->kind)) use(NameKind::site, sites->within);
    if (auto const* steps = std::get_if<Steps>(&s.answer->kind)) values(s.name, steps->values);
    if (auto const* one_of = std::get_if<OneOf>(&s.answer->kind)) values(s.name, one_of->values);
    for (auto const& said : s.also_said)
      if (said.value) use_value(s.name, *said.value);
  }
  void operator()(Means const& s) {
    define(NameKind::sign, s.name);
    condition(s.condition);
  }
  void operator()(Cause const& s) {
    define(NameKind::cause, s.name);
    use(NameKind::site, s.affects);
    if (s.base) frequency(*s.base);
    use(NameKind::tier, s.see);
    use(NameKind::source, s.cites);
  }
  void operator()(Family const& s) {
    define(NameKind::cause, s.name);
    use(NameKind::cause, s.members);
  }
  void operator()(Rule const& s) {
    define(NameKind::rule, s.name);
    if (s.condition) condition(*s.condition);
    if (s.over) {
      use(NameKind::sign, s.over->sign);
      for (auto const& band : s.over->bands)
        for (auto const& value : band.values) use_value(s.over->sign, value);
    }
    if (s.usual) frequencies(*s.usual);
    for (auto const& in : s.in) {
      use(NameKind::cause, in.cause);
      frequencies(in.frequencies);
    }
    use(NameKind::source, s.cites);
  }
  void operator()(Alarm const& s) {
    define(NameKind::alarm, s.name);
    if (s.condition) condition(*s.condition);
    if (s.unless) condition(*s.unless);
    use(NameKind::tier, s.see);
    use(NameKind::care, s.gives_way_to);
    use(NameKind::source, s.cites);
  }
  void operator()(Overlap const& s) {
    define(NameKind::overlap, s.name);
    frequency(s.shares);
    use(NameKind::rule, s.rules);
  }
  void operator()(Care const& s) {
    define(NameKind::care, s.name);
    use(NameKind::cause, s.causes);
    use(NameKind::care, s.gives_way_to);
    use(NameKind::sign, s.taken);
    use(NameKind::sign, s.since);
    use(NameKind::sign, s.slims_by);
    for (auto const& benefit : s.benefits) frequency(benefit.from);
    for (auto const& level : s.levels) use(NameKind::tier, level.see);
    if (s.fit_if) condition(*s.fit_if);
    for (auto const* gates : {&s.never_if, &s.ask_vet_if, &s.stop_if})
      for (auto const& gate : *gates) condition(gate.condition);
    use(NameKind::source, s.cites);
  }
  void operator()(Example const& s) {
    define(NameKind::example, s.name);
    for (auto const* names : {&s.yes, &s.no, &s.unknown}) use(NameKind::sign, *names);
    for (auto const* findings : {&s.found, &s.clear})
      for (auto const& finding : *findings) {
        use(NameKind::sign, finding.sign);
        for (auto const& place : finding.places) use(NameKind::site, place.site);
      }
    for (auto const& facts : s.patient) settings(facts.settings);
    settings(s.with);
    for (auto const& promise : s.expect) expected(promise);
  }

 private:
  void settings(std::vector<Setting> const& all) {
    for (auto const& setting : all) {
      use(NameKind::sign, setting.name);
      if (auto const* value = std::get_if<Name>(&setting.value)) use_value(setting.name, *value);
    }
  }
  void add(NameKind kind, Role role, Name const& name, std::string_view sign = {}) {
    if (!name.text.empty()) out_.push_back({kind, role, &name, sign});
  }
  void define(NameKind kind, Name const& name) { add(kind, Role::definition, name); }
  void use(NameKind kind, Name const& name) { add(kind, Role::use, name); }
  void use(NameKind kind, std::optional<Name> const& name) {
    if (name) use(kind, *name);
  }
  void use(NameKind kind, std::vector<Name> const& names) {
    for (auto const& name : names) use(kind, name);
  }
  void use_value(Name const& sign, Name const& value) {
    add(NameKind::value, Role::use, value, sign.text);
  }
  void values(Name const& sign, std::vector<Value> const& values) {
    for (auto const& value : values) add(NameKind::value, Role::definition, value.name, sign.text);
  }

  void frequency(Frequency const& f) {
    if (f.sample) use(NameKind::source, f.sample->source);
  }
  void frequencies(Frequencies const& f) {
    if (f.single) frequency(*f.single);
    if (f.sample) use(NameKind::source, f.sample->source);
  }

  // The parser bounds how deep conditions nest.
  void condition(Condition const& c) {
    for (auto const& part : c.parts) condition(part);
    if (c.kind != Condition::Kind::test) return;
    use(NameKind::sign, c.test.sign);
    test(c.test.sign, c.test);
  }
  void test(Name const& sign, Test const& t) {
    if (auto const* at = std::get_if<AtSite>(&t.test)) use(NameKind::site, at->place.site);
    if (auto const* step = std::get_if<AtLeastStep>(&t.test)) use_value(sign, step->step);
    if (auto const* is = std::get_if<IsValue>(&t.test))
      for (auto const& value : is->values) use_value(sign, value);
    if (auto const* in = std::get_if<InGroup>(&t.test)) use(NameKind::group, in->group);
  }

  void expected(Promise const& promise) {
    switch (promise.kind) {
      case Promise::Kind::first:
      case Promise::Kind::not_first:
      case Promise::Kind::among:
        return use(NameKind::cause, promise.name);
      case Promise::Kind::tier:
      case Promise::Kind::tier_at_least:
      case Promise::Kind::ceiling:
        return use(NameKind::tier, promise.name);
      case Promise::Kind::alarm:
      case Promise::Kind::not_alarm:
        return use(NameKind::alarm, promise.name);
      case Promise::Kind::offered:
      case Promise::Kind::not_offered:
      case Promise::Kind::withheld:
      case Promise::Kind::ask_first:
        return use(NameKind::care, promise.name);
      case Promise::Kind::nothing_told:
        return;
    }
  }

  std::vector<NamedPlace> out_;
};

}  // namespace

std::vector<NamedPlace> names_in(Statement const& statement) {
  Collector collector;
  std::visit(collector, statement);
  return collector.take();
}

}  // namespace flinch::syntax
