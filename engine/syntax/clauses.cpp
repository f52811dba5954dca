#include "syntax/clauses.hpp"

#include <array>
#include <iterator>

namespace flinch::syntax {
namespace {

// Readers made from a production and the member that it fills.

template <auto production, auto member, class T>
bool fill(Stretch const& stretch, Report& report, T& statement) {
  auto value = production(stretch, report);
  if (!value) return false;
  statement.*member = std::move(*value);
  return true;
}

template <auto production, auto member, class T>
bool append(Stretch const& stretch, Report& report, T& statement) {
  auto value = production(stretch, report);
  if (!value) return false;
  (statement.*member).push_back(std::move(*value));
  return true;
}

template <auto production, auto member, class T>
bool append_all(Stretch const& stretch, Report& report, T& statement) {
  auto values = production(stretch, report);
  if (!values) return false;
  (statement.*member)
      .insert((statement.*member).end(), std::make_move_iterator(values->begin()),
              std::make_move_iterator(values->end()));
  return true;
}

template <auto member, class T>
bool mark(Stretch const& stretch, Report& report, T& statement) {
  statement.*member = true;
  return grammar::nothing(stretch, report);
}

// Words that stand alone, or with a text behind them.
template <auto flag, auto member, class T>
bool mark_and_fill(Stretch const& stretch, Report& report, T& statement) {
  statement.*flag = true;
  return grammar::text_or_nothing(stretch, report, statement.*member);
}

using namespace grammar;

// Every statement has these clauses; those that are whole without clauses have no others.
template <class T>
constexpr Clause<T> accept_clause{"accept", append<grammar::accept, &T::accepts>, Often::repeatedly,
                                  Content::reference};
template <class T>
constexpr Clause<T> read_by_clause{"read by", append<grammar::reading, &T::readings>,
                                   Often::repeatedly, Content::reference};
template <class T>
constexpr std::array in_every_statement = {accept_clause<T>, read_by_clause<T>};

constexpr std::array pack_clauses = {
    Clause<PackHead>{"species", fill<grammar::species, &PackHead::species>},
    Clause<PackHead>{"version", fill<visible, &PackHead::version>, Often::once, Content::reference},
    Clause<PackHead>{"called", append_all<grammar::called, &PackHead::called>, Often::repeatedly},
    Clause<PackHead>{"age up to", fill<quantity, &PackHead::oldest>},
    Clause<PackHead>{"weight from", fill<range, &PackHead::weight>},
    Clause<PackHead>{"doses from", fill<range, &PackHead::doses>},
    Clause<PackHead>{"sizes", fill<grammar::sizes, &PackHead::sizes>},
    Clause<PackHead>{"grown at", fill<quantity, &PackHead::grown>},
    Clause<PackHead>{"never neutered", mark<&PackHead::never_neutered>},
    Clause<PackHead>{"body surface", fill<sourced_number, &PackHead::body_surface>},
    Clause<PackHead>{"resting energy", fill<sourced_number, &PackHead::resting_energy>},
    Clause<PackHead>{"drawn up in", fill<quantity, &PackHead::drawn_up>},
    Clause<PackHead>{"injected in", fill<quantity, &PackHead::injected>},
    Clause<PackHead>{"outline", fill<text, &PackHead::outline>},
    Clause<PackHead>{"breed table", fill<text, &PackHead::breed_table>},
    Clause<PackHead>{"unlisted", fill<frequency, &PackHead::unlisted>},
    Clause<PackHead>{"hold", fill<hold, &PackHead::hold>},
    accept_clause<PackHead>,
    read_by_clause<PackHead>,
};

constexpr std::array source_clauses = {
    Clause<Source>{"text", fill<text, &Source::text>},
    Clause<Source>{"doi", fill<visible, &Source::doi>, Often::once, Content::reference},
    Clause<Source>{"url", fill<visible, &Source::url>, Often::once, Content::reference},
    Clause<Source>{"grade", fill<visible, &Source::grade>, Often::once, Content::reference},
    read_by_clause<Source>,
    Clause<Source>{"read", fill<read_as, &Source::read>},
    accept_clause<Source>,
};

constexpr std::array tier_clauses = {
    Clause<Tier>{"within", fill<quantity, &Tier::within>},
    Clause<Tier>{"harm", fill<number, &Tier::harm>},
    Clause<Tier>{"say", fill<text, &Tier::say>},
    Clause<Tier>{"until then", fill<text, &Tier::until_then>},
    accept_clause<Tier>,
    read_by_clause<Tier>,
};

constexpr std::array site_clauses = {
    Clause<Site>{"also called", append_all<texts, &Site::also_called>, Often::repeatedly},
    accept_clause<Site>,
    read_by_clause<Site>,
};

constexpr std::array sign_clauses = {
    Clause<Sign>{"ask", fill<text, &Sign::ask>},
    Clause<Sign>{"help", fill<text, &Sign::help>},
    Clause<Sign>{"answer", fill<answer, &Sign::answer>},
    Clause<Sign>{"seen by", fill<seen_by, &Sign::seen_by>},
    Clause<Sign>{"takes", fill<quantity, &Sign::takes>},
    Clause<Sign>{"may hurt", mark<&Sign::may_hurt>},
    Clause<Sign>{"asked first", mark<&Sign::asked_first>},
    Clause<Sign>{"lasts", mark<&Sign::lasts>},
    Clause<Sign>{"yes if seen before", mark<&Sign::yes_if_seen_before>},
    Clause<Sign>{"yes if worse than before", mark<&Sign::yes_if_worse>},
    Clause<Sign>{"part of", fill<name, &Sign::part_of>},
    Clause<Sign>{"applies if", fill<condition, &Sign::applies_if>, Often::once, Content::condition},
    Clause<Sign>{"alone see", append<grammar::floor, &Sign::alone>, Often::repeatedly},
    Clause<Sign>{"also said", append_all<said, &Sign::also_said>, Often::repeatedly},
    Clause<Sign>{"mentioned", fill<frequency, &Sign::mentioned>},
    accept_clause<Sign>,
    read_by_clause<Sign>,
};

constexpr std::array cause_clauses = {
    Clause<Cause>{"affects", append_all<names, &Cause::affects>, Often::repeatedly},
    Clause<Cause>{"base", fill<frequency, &Cause::base>},
    Clause<Cause>{"see", fill<name, &Cause::see>},
    Clause<Cause>{"not pain", mark<&Cause::not_pain>},
    Clause<Cause>{"also called", append_all<texts, &Cause::also_called>, Often::repeatedly},
    Clause<Cause>{"next", append<text, &Cause::next>, Often::repeatedly},
    Clause<Cause>{"because", fill<text, &Cause::because>},
    Clause<Cause>{"cite", append_all<names, &Cause::cites>, Often::repeatedly},
    accept_clause<Cause>,
    read_by_clause<Cause>,
};

constexpr std::array rule_clauses = {
    Clause<Rule>{"if", fill<condition, &Rule::condition>, Often::once, Content::condition},
    Clause<Rule>{"over", fill<over, &Rule::over>},
    Clause<Rule>{"usual", fill<frequencies, &Rule::usual>},
    Clause<Rule>{"in", append_all<in_causes, &Rule::in>, Often::repeatedly},
    Clause<Rule>{"because", fill<text, &Rule::because>},
    Clause<Rule>{"cite", append_all<names, &Rule::cites>, Often::repeatedly},
    accept_clause<Rule>,
    read_by_clause<Rule>,
};

constexpr std::array alarm_clauses = {
    Clause<Alarm>{"if", fill<condition, &Alarm::condition>, Often::once, Content::condition},
    Clause<Alarm>{"see", fill<name, &Alarm::see>},
    Clause<Alarm>{"say", fill<text, &Alarm::say>},
    Clause<Alarm>{"gives way to", append_all<names, &Alarm::gives_way_to>, Often::repeatedly},
    Clause<Alarm>{"on purpose", fill<text, &Alarm::on_purpose>},
    Clause<Alarm>{"because", fill<text, &Alarm::because>},
    Clause<Alarm>{"cite", append_all<names, &Alarm::cites>, Often::repeatedly},
    accept_clause<Alarm>,
    read_by_clause<Alarm>,
};

constexpr std::array care_clauses = {
    Clause<Care>{"give", fill<dose, &Care::give>},
    Clause<Care>{"how", fill<text, &Care::how>},
    Clause<Care>{"say", fill<text, &Care::say>},
    Clause<Care>{"gives way to", append_all<names, &Care::gives_way_to>, Often::repeatedly},
    Clause<Care>{"avoid", fill<text, &Care::avoid>},
    Clause<Care>{"watch", fill<text, &Care::watch>},
    Clause<Care>{"fasting", fill<text, &Care::fasting>},
    Clause<Care>{"otherwise", fill<text, &Care::otherwise>},
    Clause<Care>{"by mouth", mark<&Care::by_mouth>},
    Clause<Care>{"first aid", mark<&Care::first_aid>},
    Clause<Care>{"while waiting", mark<&Care::while_waiting>},
    Clause<Care>{"slims by", fill<name, &Care::slims_by>},
    Clause<Care>{"ideal score", fill<number, &Care::ideal_score>},
    Clause<Care>{"each point", fill<frequency, &Care::each_point>},
    Clause<Care>{"lost a week", fill<hold, &Care::lost_a_week>},
    Clause<Care>{"benefit", append<benefit, &Care::benefits>, Often::repeatedly},
    Clause<Care>{"taken", fill<name, &Care::taken>},
    Clause<Care>{"since", fill<name, &Care::since>},
    Clause<Care>{"level", append<level, &Care::levels>, Often::repeatedly},
    Clause<Care>{"at most", fill<quantity, &Care::at_most>},
    Clause<Care>{"form", append<form, &Care::forms>, Often::repeatedly},
    Clause<Care>{"for clinician", mark_and_fill<&Care::for_clinician, &Care::problem>},
    Clause<Care>{"for", append_all<names, &Care::causes>, Often::repeatedly},
    Clause<Care>{"fit if", fill<condition, &Care::fit_if>, Often::once, Content::condition},
    Clause<Care>{"never if", append<gate, &Care::never_if>, Often::repeatedly, Content::condition},
    Clause<Care>{"ask vet if", append<gate, &Care::ask_vet_if>, Often::repeatedly,
                 Content::condition},
    Clause<Care>{"stop if", append<gate, &Care::stop_if>, Often::repeatedly, Content::condition},
    Clause<Care>{"grade", fill<visible, &Care::grade>, Often::once, Content::reference},
    Clause<Care>{"because", fill<text, &Care::because>},
    Clause<Care>{"cite", append_all<names, &Care::cites>, Often::repeatedly},
    accept_clause<Care>,
    read_by_clause<Care>,
};

constexpr std::array example_clauses = {
    Clause<Example>{"yes", append_all<names, &Example::yes>, Often::repeatedly},
    Clause<Example>{"no", append_all<names, &Example::no>, Often::repeatedly},
    Clause<Example>{"unknown", append_all<names, &Example::unknown>, Often::repeatedly},
    Clause<Example>{"found", append<found, &Example::found>, Often::repeatedly},
    Clause<Example>{"clear", append<grammar::clear, &Example::clear>, Often::repeatedly},
    Clause<Example>{"with", append_all<settings, &Example::with>, Often::repeatedly},
    Clause<Example>{"expect", append_all<promises, &Example::expect>, Often::repeatedly},
    accept_clause<Example>,
    Clause<Example>{species_line, append<grammar::patient_facts, &Example::patient>,
                    Often::repeatedly},
    read_by_clause<Example>,
};

}  // namespace

template <>
std::span<Clause<PackHead> const> clauses_of() {
  return pack_clauses;
}
template <>
std::span<Clause<Source> const> clauses_of() {
  return source_clauses;
}
template <>
std::span<Clause<Tier> const> clauses_of() {
  return tier_clauses;
}
template <>
std::span<Clause<Site> const> clauses_of() {
  return site_clauses;
}
template <>
std::span<Clause<Breeds> const> clauses_of() {
  return in_every_statement<Breeds>;
}
template <>
std::span<Clause<Means> const> clauses_of() {
  return in_every_statement<Means>;
}
template <>
std::span<Clause<Family> const> clauses_of() {
  return in_every_statement<Family>;
}
template <>
std::span<Clause<Overlap> const> clauses_of() {
  return in_every_statement<Overlap>;
}
template <>
std::span<Clause<Include> const> clauses_of() {
  return {};
}
template <>
std::span<Clause<Sign> const> clauses_of() {
  return sign_clauses;
}
template <>
std::span<Clause<Cause> const> clauses_of() {
  return cause_clauses;
}
template <>
std::span<Clause<Rule> const> clauses_of() {
  return rule_clauses;
}
template <>
std::span<Clause<Alarm> const> clauses_of() {
  return alarm_clauses;
}
template <>
std::span<Clause<Care> const> clauses_of() {
  return care_clauses;
}
template <>
std::span<Clause<Example> const> clauses_of() {
  return example_clauses;
}

}  // namespace flinch::syntax
