#include "syntax/clauses.hpp"

#include "syntax/clause_rows.hpp"

namespace flinch::syntax {
namespace {

using namespace clause_rows;
using namespace grammar;

// Every statement has these clauses; those that are whole without clauses have no others.
template <class T>
constexpr Clause<T> accept_clause = each<T, grammar::accept, &T::accepts>(
    "accept", R"(accept never-first "Rare, and found by another test.")");
template <class T>
constexpr Clause<T> read_by_clause = each<T, grammar::reading, &T::readings>(
    "read by", R"(read by "A. Smith, MRCVS 123" on 2026-12-01)");
template <class T>
constexpr std::array in_every_statement = {accept_clause<T>, read_by_clause<T>};

constexpr std::array pack_clauses = {
    once<PackHead, grammar::species, &PackHead::species>("species",
                                                         R"(species NAME "ONE", "MANY")"),
    word<PackHead, &PackHead::version>("version", "version 1.0"),
    list<PackHead, grammar::called, &PackHead::called>(
        "called", R"(called male "WORD", female "WORD", young "WORD" or "WORD")"),
    once<PackHead, quantity, &PackHead::oldest>("age up to", "age up to 15 years"),
    once<PackHead, range, &PackHead::weight>("weight from", "weight from 0.5 to 12 kg"),
    once<PackHead, quantity, &PackHead::doubted_above>("weight doubted above",
                                                       "weight doubted above 170%"),
    once<PackHead, quantity, &PackHead::doubted_below>("weight doubted below",
                                                       "weight doubted below 50%"),
    once<PackHead, quantity, &PackHead::pounds_doubted_above>("pounds doubted above",
                                                              "pounds doubted above 160%"),
    once<PackHead, quantity, &PackHead::leeway>("weight leeway", "weight leeway 1 kg"),
    once<PackHead, range, &PackHead::doses>("doses from", "doses from 0.8 to 10 kg"),
    list<PackHead, grammar::sizes, &PackHead::sizes>("sizes", "sizes small to 2 kg, large",
                                                     Often::once),
    once<PackHead, quantity, &PackHead::grown>("grown at", "grown at 8 months"),
    once<PackHead, grammar::never_neutered, &PackHead::never_neutered>("never neutered",
                                                                       "never neutered"),
    once<PackHead, seen_at, &PackHead::seen_at>("seen at", "seen at home"),
    once<PackHead, sourced_number, &PackHead::body_surface>("body surface",
                                                            "body surface 9.5 from smith2020"),
    once<PackHead, sourced_number, &PackHead::resting_energy>("resting energy",
                                                              "resting energy 70 from smith2020"),
    once<PackHead, quantity, &PackHead::drawn_up>("drawn up in", "drawn up in 0.1 mL"),
    once<PackHead, quantity, &PackHead::injected>("injected in", "injected in 0.05 mL"),
    once<PackHead, text, &PackHead::breed_table>("breed table", R"(breed table "breeds.yaml")"),
    once<PackHead, text, &PackHead::outline>("outline", R"(outline "outline.yaml")"),
    once<PackHead, frequency, &PackHead::unlisted>("unlisted", "unlisted 60 per 1000"),
    once<PackHead, hold, &PackHead::hold>("hold", "hold 0.5% to 99.5%"),
    accept_clause<PackHead>,
    read_by_clause<PackHead>,
};

constexpr std::array source_clauses = {
    once<Source, text, &Source::text>("text",
                                      R"(text "Smith A (2020) Pain of the elbow. Vet J 1:2")"),
    word<Source, &Source::doi>("doi", "doi 10.1000/182"),
    word<Source, &Source::url>("url", "url https://example.org/pain"),
    word<Source, &Source::grade>("grade", "grade common-practice").written_as("grade"),
    once<Source, read_as, &Source::read>("read", "read in full"),
    accept_clause<Source>,
    read_by_clause<Source>,
};

constexpr std::array tier_clauses = {
    once<Tier, quantity, &Tier::within>("within", "within 12 hours"),
    once<Tier, number, &Tier::harm>("harm", "harm 19"),
    once<Tier, text, &Tier::say>("say", R"(say "Leave for the clinic now.")"),
    once<Tier, text, &Tier::until_then>("until then", R"(until then "Keep it warm and quiet.")"),
    accept_clause<Tier>,
    read_by_clause<Tier>,
};

constexpr std::array site_clauses = {
    list<Site, texts, &Site::also_called>("also called", R"(also called "foot", "pad")"),
    accept_clause<Site>,
    read_by_clause<Site>,
};

constexpr std::array sign_clauses = {
    once<Sign, text, &Sign::ask>("ask", R"(ask "Does it limp?")"),
    once<Sign, text, &Sign::help>("help", R"(help "Watch it walk on a hard floor.")"),
    once<Sign, answer, &Sign::answer>("answer", "answer yes or no"),
    once<Sign, seen_by, &Sign::seen_by>("seen by", "seen by anyone"),
    once<Sign, quantity, &Sign::takes>("takes", "takes 5 minutes"),
    flag<Sign, &Sign::may_hurt>("may hurt"),
    flag<Sign, &Sign::tells_pain>("tells pain"),
    flag<Sign, &Sign::asked_first>("asked first"),
    flag<Sign, &Sign::lasts>("lasts"),
    flag<Sign, &Sign::yes_if_seen_before>("yes if seen before"),
    flag<Sign, &Sign::yes_if_worse>("yes if worse than before"),
    once<Sign, name, &Sign::part_of>("part of", "part of breathing_trouble").of(NameKind::sign),
    once<Sign, condition, &Sign::applies_if>("applies if", "applies if sex is male"),
    each<Sign, grammar::floor, &Sign::alone>(
        "alone see",
        R"(alone see today if severe unless onset is months because "It cannot wait." cite smith2020)"),
    list<Sign, said, &Sign::also_said>("also said", R"(also said "hobbles", "on three legs")"),
    once<Sign, frequency, &Sign::mentioned>("mentioned", "mentioned 90%"),
    accept_clause<Sign>,
    read_by_clause<Sign>,
};

constexpr std::array cause_clauses = {
    flag<Cause, &Cause::not_pain>("not pain"),
    list<Cause, names, &Cause::affects>("affects", "affects elbow, shoulder").of(NameKind::site),
    once<Cause, frequency, &Cause::base>("base", "base 20 per 1000"),
    once<Cause, grammar::tier, &Cause::see>("see", "see today").of(NameKind::tier),
    list<Cause, texts, &Cause::also_called>("also called",
                                            R"(also called "elbow OA", "worn elbow")"),
    each<Cause, text, &Cause::next>("next", R"(next "Radiographs of both elbows")"),
    once<Cause, text, &Cause::because>("because", R"(because "Why it holds, in a sentence.")"),
    list<Cause, names, &Cause::cites>("cite", "cite smith2020, jones2019").of(NameKind::source),
    accept_clause<Cause>,
    read_by_clause<Cause>,
};

constexpr std::array rule_clauses = {
    once<Rule, condition, &Rule::condition>("if", "if limps and not lame_before"),
    once<Rule, over, &Rule::over>("over", "over age: under 1 year, 1 to 7 years, over 7 years"),
    once<Rule, frequencies, &Rule::usual>("usual", "usual 5%"),
    each_of<Rule, in_causes, &Rule::in>("in", "in sprain 80%, fracture 95%"),
    once<Rule, text, &Rule::because>("because", R"(because "Why it holds, in a sentence.")"),
    list<Rule, names, &Rule::cites>("cite", "cite smith2020, jones2019").of(NameKind::source),
    accept_clause<Rule>,
    read_by_clause<Rule>,
};

constexpr std::array alarm_clauses = {
    once<Alarm, condition, &Alarm::condition>("if", "if belly_swollen and retches"),
    once<Alarm, condition, &Alarm::unless>("unless", "unless onset is months"),
    once<Alarm, grammar::tier, &Alarm::see>("see", "see now").of(NameKind::tier),
    once<Alarm, text, &Alarm::say>("say", R"(say "No food, no water. Leave now.")"),
    list<Alarm, names, &Alarm::gives_way_to>("gives way to", "gives way to cold_pack")
        .of(NameKind::care),
    once<Alarm, text, &Alarm::on_purpose>(
        "on purpose", R"(on purpose "Why the whole, and not a part, sets the tier.")"),
    once<Alarm, text, &Alarm::because>("because", R"(because "Why it holds, in a sentence.")"),
    list<Alarm, names, &Alarm::cites>("cite", "cite smith2020, jones2019").of(NameKind::source),
    accept_clause<Alarm>,
    read_by_clause<Alarm>,
};

constexpr std::array care_clauses = {
    flag_or_text<Care, &Care::for_clinician, &Care::problem>("for clinician",
                                                             R"(for clinician "dry eyes")")
        .written_as("[ text ]"),
    list<Care, names, &Care::causes>("for", "for sprain, fracture").of(NameKind::cause),
    once<Care, dose, &Care::give>("give", "give 10 mg per kg by mouth every 8 hours for 5 days"),
    flag<Care, &Care::by_mouth>("by mouth"),
    flag<Care, &Care::first_aid>("first aid"),
    flag<Care, &Care::while_waiting>("while waiting"),
    once<Care, name, &Care::slims_by>("slims by", "slims by body_condition").of(NameKind::sign),
    once<Care, number, &Care::ideal_score>("ideal score", "ideal score 5"),
    once<Care, frequency, &Care::each_point>("each point", "each point 10%"),
    once<Care, hold, &Care::lost_a_week>("lost a week", "lost a week 1% to 2%"),
    each<Care, benefit, &Care::benefits>("benefit",
                                         R"(benefit 6% "It limped less after losing so much.")"),
    once<Care, text, &Care::how>("how", R"(how "Wrap the pack in a towel.")"),
    once<Care, text, &Care::say>("say", R"(say "Hold a cold pack to it.")"),
    list<Care, names, &Care::gives_way_to>("gives way to", "gives way to cold_pack")
        .of(NameKind::care),
    once<Care, text, &Care::avoid>("avoid", R"(avoid "No stairs, no jumping.")"),
    once<Care, text, &Care::watch>("watch", R"(watch "The colour of the gums.")"),
    once<Care, text, &Care::fasting>("fasting", R"(fasting "Food and water stay with it.")"),
    once<Care, text, &Care::otherwise>("otherwise",
                                       R"(otherwise "Its usual food and water go on.")"),
    once<Care, name, &Care::taken>("taken", "taken chocolate_eaten").of(NameKind::sign),
    once<Care, name, &Care::since>("since", "since eaten_since").of(NameKind::sign),
    each<Care, level, &Care::levels>("level", R"(level 20 mg per kg see now "fits")"),
    once<Care, quantity, &Care::at_most>("at most", "at most 100 mg"),
    each<Care, form, &Care::forms>("form", "form tablet 50 mg in halves"),
    once<Care, condition, &Care::fit_if>("fit if", "fit if limps"),
    each<Care, gate, &Care::never_if>("never if", R"(never if pregnant "It harms the unborn.")"),
    each<Care, gate, &Care::ask_vet_if>(
        "ask vet if", R"(ask vet if off_food "One that eats little is seen first.")"),
    each<Care, gate, &Care::stop_if>("stop if", R"(stop if vomits "Stop when it vomits.")"),
    word<Care, &Care::grade>("grade", "grade C").written_as("grade"),
    once<Care, text, &Care::because>("because", R"(because "Why it holds, in a sentence.")"),
    list<Care, names, &Care::cites>("cite", "cite smith2020, jones2019").of(NameKind::source),
    accept_clause<Care>,
    read_by_clause<Care>,
};

constexpr std::array example_clauses = {
    each<Example, grammar::patient_facts, &Example::patient>(
        species_line, "SPECIES age 2 years, weight 2 kg, sex female"),
    list<Example, names, &Example::yes>("yes", "yes limps, lame_before")
        .of(NameKind::sign)
        .as(Holds::yes_or_no),
    list<Example, names, &Example::no>("no", "no vomits, retches")
        .of(NameKind::sign)
        .as(Holds::yes_or_no),
    list<Example, names, &Example::unknown>("unknown", "unknown coughs").of(NameKind::sign),
    each<Example, found, &Example::found>("found", "found lame at left elbow"),
    each<Example, grammar::clear, &Example::clear>("clear", "clear lame at right elbow")
        .written_as(R"(name, "at", place, { ",", place })"),
    list<Example, settings, &Example::with>("with", "with appetite less, temperature 39.8 C"),
    list<Example, promises, &Example::expect>(
        "expect", "expect first sprain, tier visit, offered eye_drops 2 mg"),
    accept_clause<Example>,
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
