#pragma once
// What the grammar's rules leave behind, token by token; `lower` turns it into the public tree.
// Kept apart because X3 fills only shapes of its own kind.
#include <boost/fusion/include/adapt_struct.hpp>
#include <boost/spirit/home/x3/support/ast/variant.hpp>
#include <optional>
#include <vector>

namespace flinch::syntax::shapes {

namespace x3 = boost::spirit::x3;

/// A token is where it stands in the text.
struct Token {
  char const* begin = nullptr;
  char const* end = nullptr;
};

struct Quantity {
  Token number;
  std::optional<Token> unit;
};
struct Sample {
  std::optional<Token> size;  ///< none: derived from the source
  Token source;
};
struct Frequency {
  Token count;
  Token scale;  ///< `%`, or the number after `per`
  std::optional<Sample> sample;
};
struct Frequencies {
  Token first;
  x3::variant<Token, std::vector<Token>> rest;  ///< the scale, or the other shares
  std::optional<Sample> sample;
};
struct InCause {
  Token cause;
  Frequencies frequencies;
};
struct Hold {
  Frequency low;
  Frequency high;
};

struct SitePlace {
  std::optional<Token> side;
  Token site;
};
struct AtSite {
  Token at;
  SitePlace place;
};
struct AtLeastStep {
  Token at_least;
  Token step;
};
struct IsValue {
  Token is;
  std::vector<Token> values;
};
struct Compares {
  Token comparison;
  Quantity bound;
};
struct Between {
  Token between;
  Quantity low;
  Quantity high;
};
struct InGroup {
  Token in;
  Token group;
};
using AnyTest = x3::variant<AtSite, AtLeastStep, IsValue, Compares, Between, InGroup>;
struct Test {
  Token sign;
  std::optional<AnyTest> test;
};

struct Negation;
struct Condition;
struct Counted;
struct Operand : x3::variant<Test, x3::forward_ast<Negation>, x3::forward_ast<Condition>,
                             x3::forward_ast<Counted>> {
  using base_type::base_type;
  using base_type::operator=;
};
struct Negation {
  Token word;
  Operand operand;
};
struct Link {
  Token word;  ///< `and` or `or`
  Operand operand;
};
struct Condition {
  Operand first;
  std::vector<Link> rest;
};
struct Counted {
  Token needed;
  std::vector<Condition> parts;
};

struct SpeciesWords {
  Token one;
  Token many;
};
struct Species {
  Token key;
  std::optional<SpeciesWords> words;
};
struct Called {
  Token part;
  Token first;
  std::vector<Token> others;
};
struct SourcedNumber {
  Token number;
  std::optional<Token> source;
};
struct SizeStep {
  Token name;
  std::optional<Quantity> up_to;
};

struct Accept {
  Token warning;
  Token reason;
};
struct Reading {
  Token reader;
  Token date;
  std::optional<Token> mark;
};
struct Head {
  Token name;
  std::optional<Token> title;
};
struct Site {
  Head head;
  std::optional<Token> inside;
  std::optional<Token> paired;
};
struct Breeds {
  Token name;
  std::vector<Token> members;
};
struct Means {
  Head head;
  Condition condition;
};
struct Family {
  Head head;
  std::vector<Token> members;
};
struct Overlap {
  Token name;
  Frequency shares;
  std::vector<Token> rules;
};

struct Value {
  Token name;
  std::optional<Token> label;
};
struct Said {
  Token words;
  std::optional<Token> value;
};
struct Sites {
  Token word;
  std::vector<Token> within;  ///< none: anywhere
};
struct Steps {
  Token word;
  std::vector<Value> values;
};
struct OneOf {
  Token words;
  std::vector<Value> values;
};
struct Measure {
  Token word;
  std::optional<Token> unit;
  Token low;
  Token high;
};
using Answer = x3::variant<Token, Sites, Steps, OneOf, Measure>;  ///< a token: yes or no

struct End {
  Token word;  ///< `under` or `over`
  Quantity bound;
};
struct Range {
  Quantity low;
  Quantity high;
};
struct Values {
  Token first;
  std::vector<Token> others;
};
using Band = x3::variant<End, Range, Values>;
struct Over {
  Token sign;
  std::vector<Band> bands;
};

using FloorTest = x3::variant<AtSite, AtLeastStep, Compares, Between, Values>;
struct Floor {
  Token see;
  std::optional<FloorTest> test;
  std::optional<Condition> unless;
  Token because;
  std::vector<Token> cites;
};

struct Every {
  Quantity least;
  std::optional<Quantity> most;
};
struct Dose {
  Quantity amount;
  std::optional<Quantity> up_to;
  std::optional<Token> per;
  std::optional<Token> route;
  std::optional<x3::variant<Every, Token>> interval;
  std::optional<Quantity> duration;
};
struct Gate {
  Condition condition;
  std::optional<Token> reason;
};
struct Level {
  Quantity per_kg;
  std::optional<Token> see;
  Token harm;
};
struct Benefit {
  Frequency from;
  Token text;
};
struct Form {
  Token kind;
  Quantity strength;
  std::optional<Token> per;
  std::optional<Token> splits;
};

struct Setting {
  Token name;
  x3::variant<Quantity, Token> value;
};
struct PatientFacts {
  Token species;
  std::vector<Setting> settings;
};
struct Finding {
  Token sign;
  std::vector<SitePlace> places;  ///< none: place unknown
};
struct RankedPromise {
  Token kind;
  Token rank;
  Token name;
};
struct NamedPromise {
  Token kind;
  Token name;
};
struct PromisedAmount {
  Quantity amount;
  std::optional<Quantity> up_to;
};
struct GivenPromise {
  Token kind;
  Token name;
  std::optional<PromisedAmount> amount;
  std::optional<PromisedAmount> portion;
};
using Promise = x3::variant<RankedPromise, GivenPromise, NamedPromise, Token>;

}  // namespace flinch::syntax::shapes

BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Quantity, number, unit)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Sample, size, source)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Frequency, count, scale, sample)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Frequencies, first, rest, sample)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::InCause, cause, frequencies)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Hold, low, high)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::SitePlace, side, site)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::AtSite, at, place)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::AtLeastStep, at_least, step)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::IsValue, is, values)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Compares, comparison, bound)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Between, between, low, high)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::InGroup, in, group)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Test, sign, test)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Negation, word, operand)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Link, word, operand)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Condition, first, rest)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Counted, needed, parts)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::SpeciesWords, one, many)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Species, key, words)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Called, part, first, others)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::SourcedNumber, number, source)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::SizeStep, name, up_to)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Accept, warning, reason)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Reading, reader, date, mark)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Head, name, title)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Site, head, inside, paired)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Breeds, name, members)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Means, head, condition)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Family, head, members)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Overlap, name, shares, rules)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Value, name, label)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Said, words, value)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Sites, word, within)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Steps, word, values)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::OneOf, words, values)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Measure, word, unit, low, high)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::End, word, bound)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Range, low, high)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Values, first, others)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Over, sign, bands)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Floor, see, test, unless, because, cites)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Every, least, most)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Dose, amount, up_to, per, route, interval,
                          duration)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Gate, condition, reason)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Level, per_kg, see, harm)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Benefit, from, text)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Form, kind, strength, per, splits)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Setting, name, value)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::PatientFacts, species, settings)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::Finding, sign, places)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::RankedPromise, kind, rank, name)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::PromisedAmount, amount, up_to)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::GivenPromise, kind, name, amount, portion)
BOOST_FUSION_ADAPT_STRUCT(flinch::syntax::shapes::NamedPromise, kind, name)
