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
constexpr Clause<T> accept_clause{"accept", append<grammar::accept, &T::accepts>,
                                  R"(accept never-first "Rare, and found by another test.")",
                                  Often::repeatedly, Content::reference};
template <class T>
constexpr Clause<T> read_by_clause{"read by", append<grammar::reading, &T::readings>,
                                   R"(read by "A. Smith, MRCVS 123" on 2026-12-01)",
                                   Often::repeatedly, Content::reference};
template <class T>
constexpr std::array in_every_statement = {accept_clause<T>, read_by_clause<T>};

constexpr std::array pack_clauses = {
    Clause<PackHead>{"species", fill<grammar::species, &PackHead::species>,
                     R"(species NAME "ONE", "MANY")"},
    Clause<PackHead>{"version", fill<visible, &PackHead::version>, "version 1.0", Often::once,
                     Content::reference},
    Clause<PackHead>{"called", append_all<grammar::called, &PackHead::called>,
                     R"(called male "WORD", female "WORD", young "WORD" or "WORD")",
                     Often::repeatedly},
    Clause<PackHead>{"age up to", fill<quantity, &PackHead::oldest>, "age up to 15 years"},
    Clause<PackHead>{"weight from", fill<range, &PackHead::weight>, "weight from 0.5 to 12 kg"},
    Clause<PackHead>{"doses from", fill<range, &PackHead::doses>, "doses from 0.8 to 10 kg"},
    Clause<PackHead>{"sizes", fill<grammar::sizes, &PackHead::sizes>, "sizes small to 2 kg, large"},
    Clause<PackHead>{"grown at", fill<quantity, &PackHead::grown>, "grown at 8 months"},
    Clause<PackHead>{"never neutered", mark<&PackHead::never_neutered>, "never neutered"},
    Clause<PackHead>{"body surface", fill<sourced_number, &PackHead::body_surface>,
                     "body surface 9.5 from smith2020"},
    Clause<PackHead>{"resting energy", fill<sourced_number, &PackHead::resting_energy>,
                     "resting energy 70 from smith2020"},
    Clause<PackHead>{"drawn up in", fill<quantity, &PackHead::drawn_up>, "drawn up in 0.1 mL"},
    Clause<PackHead>{"injected in", fill<quantity, &PackHead::injected>, "injected in 0.05 mL"},
    Clause<PackHead>{"outline", fill<text, &PackHead::outline>, R"(outline "outline.yaml")"},
    Clause<PackHead>{"breed table", fill<text, &PackHead::breed_table>,
                     R"(breed table "breeds.yaml")"},
    Clause<PackHead>{"unlisted", fill<frequency, &PackHead::unlisted>, "unlisted 60 per 1000"},
    Clause<PackHead>{"hold", fill<hold, &PackHead::hold>, "hold 0.5% to 99.5%"},
    accept_clause<PackHead>,
    read_by_clause<PackHead>,
};

constexpr std::array source_clauses = {
    Clause<Source>{"text", fill<text, &Source::text>,
                   R"(text "Smith A (2020) Pain of the elbow. Vet J 1:2")"},
    Clause<Source>{"doi", fill<visible, &Source::doi>, "doi 10.1000/182", Often::once,
                   Content::reference},
    Clause<Source>{"url", fill<visible, &Source::url>, "url https://example.org/pain", Often::once,
                   Content::reference},
    Clause<Source>{"grade", fill<visible, &Source::grade>, "grade common-practice", Often::once,
                   Content::reference},
    read_by_clause<Source>,
    Clause<Source>{"read", fill<read_as, &Source::read>, "read in full"},
    accept_clause<Source>,
};

constexpr std::array tier_clauses = {
    Clause<Tier>{"within", fill<quantity, &Tier::within>, "within 12 hours"},
    Clause<Tier>{"harm", fill<number, &Tier::harm>, "harm 19"},
    Clause<Tier>{"say", fill<text, &Tier::say>, R"(say "Leave for the clinic now.")"},
    Clause<Tier>{"until then", fill<text, &Tier::until_then>,
                 R"(until then "Keep it warm and quiet.")"},
    accept_clause<Tier>,
    read_by_clause<Tier>,
};

constexpr std::array site_clauses = {
    Clause<Site>{"also called", append_all<texts, &Site::also_called>,
                 R"(also called "foot", "pad")", Often::repeatedly},
    accept_clause<Site>,
    read_by_clause<Site>,
};

constexpr std::array sign_clauses = {
    Clause<Sign>{"ask", fill<text, &Sign::ask>, R"(ask "Does it limp?")"},
    Clause<Sign>{"help", fill<text, &Sign::help>, R"(help "Watch it walk on a hard floor.")"},
    Clause<Sign>{"answer", fill<answer, &Sign::answer>, "answer yes or no"},
    Clause<Sign>{"seen by", fill<seen_by, &Sign::seen_by>, "seen by anyone"},
    Clause<Sign>{"takes", fill<quantity, &Sign::takes>, "takes 5 minutes"},
    Clause<Sign>{"may hurt", mark<&Sign::may_hurt>, "may hurt"},
    Clause<Sign>{"asked first", mark<&Sign::asked_first>, "asked first"},
    Clause<Sign>{"lasts", mark<&Sign::lasts>, "lasts"},
    Clause<Sign>{"yes if seen before", mark<&Sign::yes_if_seen_before>, "yes if seen before"},
    Clause<Sign>{"yes if worse than before", mark<&Sign::yes_if_worse>, "yes if worse than before"},
    Clause<Sign>{"part of", fill<name, &Sign::part_of>, "part of breathing_trouble"},
    Clause<Sign>{"applies if", fill<condition, &Sign::applies_if>, "applies if sex is male",
                 Often::once, Content::condition},
    Clause<Sign>{"alone see", append<grammar::floor, &Sign::alone>,
                 R"(alone see today because "It cannot wait." cite smith2020)", Often::repeatedly},
    Clause<Sign>{"also said", append_all<said, &Sign::also_said>,
                 R"(also said "hobbles", "on three legs")", Often::repeatedly},
    Clause<Sign>{"mentioned", fill<frequency, &Sign::mentioned>, "mentioned 90%"},
    accept_clause<Sign>,
    read_by_clause<Sign>,
};

constexpr std::array cause_clauses = {
    Clause<Cause>{"affects", append_all<names, &Cause::affects>, "affects elbow, shoulder",
                  Often::repeatedly},
    Clause<Cause>{"base", fill<frequency, &Cause::base>, "base 20 per 1000"},
    Clause<Cause>{"see", fill<name, &Cause::see>, "see today"},
    Clause<Cause>{"not pain", mark<&Cause::not_pain>, "not pain"},
    Clause<Cause>{"also called", append_all<texts, &Cause::also_called>,
                  R"(also called "elbow OA", "worn elbow")", Often::repeatedly},
    Clause<Cause>{"next", append<text, &Cause::next>, R"(next "Radiographs of both elbows")",
                  Often::repeatedly},
    Clause<Cause>{"because", fill<text, &Cause::because>,
                  R"(because "Why it holds, in a sentence.")"},
    Clause<Cause>{"cite", append_all<names, &Cause::cites>, "cite smith2020, jones2019",
                  Often::repeatedly},
    accept_clause<Cause>,
    read_by_clause<Cause>,
};

constexpr std::array rule_clauses = {
    Clause<Rule>{"if", fill<condition, &Rule::condition>, "if limps and not lame_before",
                 Often::once, Content::condition},
    Clause<Rule>{"over", fill<over, &Rule::over>,
                 "over age: under 1 year, 1 to 7 years, over 7 years"},
    Clause<Rule>{"usual", fill<frequencies, &Rule::usual>, "usual 5%"},
    Clause<Rule>{"in", append_all<in_causes, &Rule::in>, "in sprain 80%, fracture 95%",
                 Often::repeatedly},
    Clause<Rule>{"because", fill<text, &Rule::because>,
                 R"(because "Why it holds, in a sentence.")"},
    Clause<Rule>{"cite", append_all<names, &Rule::cites>, "cite smith2020, jones2019",
                 Often::repeatedly},
    accept_clause<Rule>,
    read_by_clause<Rule>,
};

constexpr std::array alarm_clauses = {
    Clause<Alarm>{"if", fill<condition, &Alarm::condition>, "if belly_swollen and retches",
                  Often::once, Content::condition},
    Clause<Alarm>{"unless", fill<condition, &Alarm::unless>, "unless onset is months", Often::once,
                  Content::condition},
    Clause<Alarm>{"see", fill<name, &Alarm::see>, "see now"},
    Clause<Alarm>{"say", fill<text, &Alarm::say>, R"(say "No food, no water. Leave now.")"},
    Clause<Alarm>{"gives way to", append_all<names, &Alarm::gives_way_to>, "gives way to cold_pack",
                  Often::repeatedly},
    Clause<Alarm>{"on purpose", fill<text, &Alarm::on_purpose>,
                  R"(on purpose "Why the whole, and not a part, sets the tier.")"},
    Clause<Alarm>{"because", fill<text, &Alarm::because>,
                  R"(because "Why it holds, in a sentence.")"},
    Clause<Alarm>{"cite", append_all<names, &Alarm::cites>, "cite smith2020, jones2019",
                  Often::repeatedly},
    accept_clause<Alarm>,
    read_by_clause<Alarm>,
};

constexpr std::array care_clauses = {
    Clause<Care>{"give", fill<dose, &Care::give>,
                 "give 10 mg per kg by mouth every 8 hours for 5 days"},
    Clause<Care>{"how", fill<text, &Care::how>, R"(how "Wrap the pack in a towel.")"},
    Clause<Care>{"say", fill<text, &Care::say>, R"(say "Hold a cold pack to it.")"},
    Clause<Care>{"gives way to", append_all<names, &Care::gives_way_to>, "gives way to cold_pack",
                 Often::repeatedly},
    Clause<Care>{"avoid", fill<text, &Care::avoid>, R"(avoid "No stairs, no jumping.")"},
    Clause<Care>{"watch", fill<text, &Care::watch>, R"(watch "The colour of the gums.")"},
    Clause<Care>{"fasting", fill<text, &Care::fasting>,
                 R"(fasting "Food and water stay with it.")"},
    Clause<Care>{"otherwise", fill<text, &Care::otherwise>,
                 R"(otherwise "Its usual food and water go on.")"},
    Clause<Care>{"by mouth", mark<&Care::by_mouth>, "by mouth"},
    Clause<Care>{"first aid", mark<&Care::first_aid>, "first aid"},
    Clause<Care>{"while waiting", mark<&Care::while_waiting>, "while waiting"},
    Clause<Care>{"slims by", fill<name, &Care::slims_by>, "slims by body_condition"},
    Clause<Care>{"ideal score", fill<number, &Care::ideal_score>, "ideal score 5"},
    Clause<Care>{"each point", fill<frequency, &Care::each_point>, "each point 10%"},
    Clause<Care>{"lost a week", fill<hold, &Care::lost_a_week>, "lost a week 1% to 2%"},
    Clause<Care>{"benefit", append<benefit, &Care::benefits>,
                 R"(benefit 6% "It limped less after losing so much.")", Often::repeatedly},
    Clause<Care>{"taken", fill<name, &Care::taken>, "taken chocolate_eaten"},
    Clause<Care>{"since", fill<name, &Care::since>, "since eaten_since"},
    Clause<Care>{"level", append<level, &Care::levels>, R"(level 20 mg per kg see now "fits")",
                 Often::repeatedly},
    Clause<Care>{"at most", fill<quantity, &Care::at_most>, "at most 100 mg"},
    Clause<Care>{"form", append<form, &Care::forms>, "form tablet 50 mg in halves",
                 Often::repeatedly},
    Clause<Care>{"for clinician", mark_and_fill<&Care::for_clinician, &Care::problem>,
                 R"(for clinician "dry eyes")"},
    Clause<Care>{"for", append_all<names, &Care::causes>, "for sprain, fracture",
                 Often::repeatedly},
    Clause<Care>{"fit if", fill<condition, &Care::fit_if>, "fit if limps", Often::once,
                 Content::condition},
    Clause<Care>{"never if", append<gate, &Care::never_if>,
                 R"(never if pregnant "It harms the unborn.")", Often::repeatedly,
                 Content::condition},
    Clause<Care>{"ask vet if", append<gate, &Care::ask_vet_if>,
                 R"(ask vet if off_food "One that eats little is seen first.")", Often::repeatedly,
                 Content::condition},
    Clause<Care>{"stop if", append<gate, &Care::stop_if>,
                 R"(stop if vomits "Stop when it vomits.")", Often::repeatedly, Content::condition},
    Clause<Care>{"grade", fill<visible, &Care::grade>, "grade C", Often::once, Content::reference},
    Clause<Care>{"because", fill<text, &Care::because>,
                 R"(because "Why it holds, in a sentence.")"},
    Clause<Care>{"cite", append_all<names, &Care::cites>, "cite smith2020, jones2019",
                 Often::repeatedly},
    accept_clause<Care>,
    read_by_clause<Care>,
};

constexpr std::array example_clauses = {
    Clause<Example>{"yes", append_all<names, &Example::yes>, "yes limps, lame_before",
                    Often::repeatedly},
    Clause<Example>{"no", append_all<names, &Example::no>, "no vomits, retches", Often::repeatedly},
    Clause<Example>{"unknown", append_all<names, &Example::unknown>, "unknown coughs",
                    Often::repeatedly},
    Clause<Example>{"found", append<found, &Example::found>, "found lame at left elbow",
                    Often::repeatedly},
    Clause<Example>{"clear", append<grammar::clear, &Example::clear>, "clear lame at right elbow",
                    Often::repeatedly},
    Clause<Example>{"with", append_all<settings, &Example::with>,
                    "with appetite less, temperature 39.8 C", Often::repeatedly},
    Clause<Example>{"expect", append_all<promises, &Example::expect>,
                    "expect first sprain, tier visit, offered cold_pack", Often::repeatedly},
    accept_clause<Example>,
    Clause<Example>{species_line, append<grammar::patient_facts, &Example::patient>,
                    "SPECIES age 2 years, weight 2 kg, sex female", Often::repeatedly},
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
