// The grammar of the rule language, in Boost.Spirit X3; the only file that compiles it.
#include "syntax/grammar.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "flinch/syntax/fixed_words.hpp"
#include "flinch/text/display.hpp"
#include "syntax/hints.hpp"
#include "syntax/layout.hpp"
#include "syntax/lower.hpp"
#include "syntax/terminals.hpp"
#include "syntax/written_elsewhere.hpp"

namespace flinch::syntax {
namespace {

using namespace terminals;

// --- depth ------------------------------------------------------------------------------------

struct Nesting {
  std::size_t depth = 0;
  std::size_t deepest = 0;
};
struct nesting_tag {};
constexpr char const* nested_less = "less nesting";  // what is "expected" where the limit is passed

// Counts up and down around a recursive rule: X3 recurses on the stack, and input is hostile.
template <class Subject>
struct NestedDirective : x3::unary_parser<Subject, NestedDirective<Subject>> {
  using base = x3::unary_parser<Subject, NestedDirective<Subject>>;
  static bool const is_pass_through_unary = true;
  static bool const handles_container = Subject::handles_container;
  constexpr explicit NestedDirective(Subject const& s) : base(s) {}
  template <class Context, class RContext, class Attribute>
  bool parse(It& first, It const& last, Context const& context, RContext& rcontext,
             Attribute& attribute) const {
    auto& nesting = x3::get<nesting_tag>(context).get();
    if (nesting.depth == nesting.deepest) throw x3::expectation_failure<It>(first, nested_less);
    ++nesting.depth;
    bool const matched = this->subject.parse(first, last, context, rcontext, attribute);
    --nesting.depth;
    return matched;
  }
};
struct NestedGenerator {
  template <class Subject>
  constexpr auto operator[](Subject const& subject) const {
    return NestedDirective<Subject>(subject);
  }
};
constexpr NestedGenerator nested;

// --- tokens -----------------------------------------------------------------------------------

NameToken const a_name("a name");
NameToken const a_sign("the name of a sign");
NameToken const a_site("the name of a site");
NameToken const a_step("the name of a step");
NameToken const a_value("the name of a value");
NameToken const a_group("the name of a group of breeds");
NameToken const a_cause("the name of a cause");
NameToken const a_cause_or_family("the name of a cause or a family");
NameToken const a_tier("the name of a tier");
NameToken const a_source("the name of a source");
NumberToken const a_number("a number");
NumberToken const an_amount("an amount such as `39.5 C`");
NumberToken const a_frequency("a frequency such as `12%`");
NumberToken const a_count("a whole number");
VisibleToken const a_visible("a reference or a grade");
VisibleToken const a_warning("the name of a warning");
VisibleToken const a_date("a date such as `2026-12-01`");
VisibleToken const a_mark("the mark of the text that was read");
TextToken const a_text;
UnitToken const a_unit;
PlainUnitToken const a_plain_unit;
RouteToken const a_route;
PerWeightToken const a_weight_basis;
EndOfClause const clause_end;
Mark const comma(",");
Mark const colon(":");
Mark const opening("(");
Mark const closing(")");

// --- productions ------------------------------------------------------------------------------

template <class Id, class Attribute>
using Rule = x3::rule<Id, Attribute>;

Rule<struct quantity_id, shapes::Quantity> const quantity = "an amount such as `39.5 C`";
auto const quantity_def = an_amount >> -a_unit;

Rule<struct sample_id, shapes::Sample> const sample =
    "a sample such as `of 70 from SOURCE`, or `derived from SOURCE`";
auto const sample_def = ((Word("of") > a_count) | Word("derived")) > Word("from") > a_source;

Rule<struct scale_id, shapes::Token> const scale = "`%` or `per 1000`";
auto const scale_def = KeptMark("%") | (Word("per") > a_count);

Rule<struct frequency_id, shapes::Frequency> const frequency = "a frequency such as `12%`";
auto const frequency_def = a_frequency > scale > -sample;

Rule<struct shares_id, std::vector<shapes::Token>> const shares = "the shares of the other bands";
auto const shares_def = +a_number;
Rule<struct share_or_scale_id, x3::variant<shapes::Token, std::vector<shapes::Token>>> const
    scale_or_shares = "`%`, `per 1000` or the shares of the other bands";
auto const scale_or_shares_def = scale | shares;
Rule<struct frequencies_id, shapes::Frequencies> const frequencies =
    "a frequency such as `12%`, or one share for each band";
auto const frequencies_def = a_frequency > scale_or_shares > -sample;

Rule<struct in_cause_id, shapes::InCause> const in_cause = "a cause and its frequency";
auto const in_cause_def = a_cause_or_family > frequencies;
Rule<struct in_causes_id, std::vector<shapes::InCause>> const in_causes =
    "a cause and its frequency";
auto const in_causes_def = in_cause % comma;

Rule<struct hold_id, shapes::Hold> const hold = "limits such as `0.5% to 99.5%`";
auto const hold_def = frequency > Word("to") > frequency;

Rule<struct species_words_id, shapes::SpeciesWords> const species_words =
    "the words for one and for many";
Rule<struct species_many_id, shapes::Token> const species_many =
    "the word for many behind the word for one, as in `\"one\", \"many\"`,";
auto const species_many_def = comma >> a_text;
auto const species_words_def = a_text > species_many;
Rule<struct species_id, shapes::Species> const species = "the name of a species";
auto const species_def = a_name >> -species_words;
Rule<struct called_id, shapes::Called> const called =
    "`male`, `female`, `young`, `neutered male` or `neutered female`, and its word";
auto const called_def = (KeptWord("male") | KeptWord("female") | KeptWord("young") |
                         KeptWord("neutered male") | KeptWord("neutered female")) > a_text >
                        *(Word("or") > a_text);
Rule<struct called_list_id, std::vector<shapes::Called>> const called_list =
    "`male`, `female`, `young`, `neutered male` or `neutered female`, and its word";
auto const called_list_def = called % comma;
Rule<struct quantities_id, shapes::Range> const quantities = "a range such as `0.5 to 12 kg`";
auto const quantities_def = quantity > Word("to") > quantity;
Rule<struct sourced_number_id, shapes::SourcedNumber> const sourced_number =
    "a number, and the source behind `from`";
auto const sourced_number_def = a_number > -(Word("from") > a_source);
Rule<struct size_step_id, shapes::SizeStep> const size_step = "a size such as `small to 10 kg`";
auto const size_step_def = a_step >> -(Word("to") > quantity);
Rule<struct size_steps_id, std::vector<shapes::SizeStep>> const size_steps =
    "sizes such as `small to 10 kg, large`";
auto const size_steps_def = size_step % comma;

Rule<struct site_place_id, shapes::SitePlace> const site_place = "the name of a site";
auto const site_place_def = -(KeptWord("left") | KeptWord("right")) >> a_site;

Rule<struct comparison_id, shapes::Token> const comparison = "a comparison";
auto const comparison_def = KeptMark(">=") | KeptMark(">") | KeptMark("<=") | KeptMark("<") |
                            KeptWord("over") | KeptWord("under");

Rule<struct at_step_id, shapes::AtLeastStep> const at_step = "`at least STEP`";
auto const at_step_def = KeptWord("at least") > a_step;
Rule<struct at_site_id, shapes::AtSite> const at_site = "`at SITE`";
auto const at_site_def = KeptWord("at") > site_place;
Rule<struct is_value_id, shapes::IsValue> const is_value = "`is VALUE`";
// `or` goes on with this list only before a bare name that no further test follows.
Rule<struct value_list_id, std::vector<shapes::Token>> const value_list = "the name of a value";
auto const test_follows = Word("at") | Word("is") | Word("between") | Word("over") | Word("under") |
                          Word("in") | Mark(">") | Mark("<");
auto const another_value = Word("or") >> a_value >> !test_follows;
auto const value_list_def = a_value >> *another_value;
auto const is_value_def = KeptWord("is") > value_list;
Rule<struct compares_id, shapes::Compares> const compares = "a comparison";
auto const compares_def = comparison > quantity;
Rule<struct between_id, shapes::Between> const between = "`between A and B`";
auto const between_def = KeptWord("between") > quantity > Word("and") > quantity;
Rule<struct in_group_id, shapes::InGroup> const in_group = "`in GROUP`";
auto const in_group_def = KeptWord("in") > a_group;
Rule<struct any_test_id, shapes::AnyTest> const any_test = "a test";
auto const any_test_def = at_step | at_site | is_value | between | compares | in_group;
Rule<struct test_id, shapes::Test> const test = "a sign";
auto const test_def = a_sign >> -any_test;

Rule<struct condition_id, shapes::Condition> const condition = "a condition";
Rule<struct operand_id, shapes::Operand> const operand = "a condition";
Rule<struct negation_id, shapes::Negation> const negation = "`not`";
auto const negation_def = KeptWord("not") > operand;
Rule<struct group_id, shapes::Condition> const group = "a condition in parentheses";
auto const group_def = opening > condition > closing;
Rule<struct parts_id, std::vector<shapes::Condition>> const parts = "conditions";
auto const parts_def = condition % comma;
Rule<struct counted_id, shapes::Counted> const counted = "`at least N of (...)`";
auto const counted_def = Word("at") > Word("least") > a_count > Word("of") > opening > parts
                         > closing;
auto const operand_def = nested[negation | group | counted | test];
Rule<struct link_id, shapes::Link> const link = "`and` or `or`";
auto const link_def = (KeptWord("and") | KeptWord("or")) > operand;
auto const condition_def = operand >> *link;

Rule<struct names_id, std::vector<shapes::Token>> const names = "a name";
auto const names_def = a_name % comma;
Rule<struct texts_id, std::vector<shapes::Token>> const texts = "a text in double quotes";
auto const texts_def = a_text % comma;

Rule<struct head_id, shapes::Head> const head = "a name";
auto const head_def = a_name >> -a_text;
Rule<struct site_id, shapes::Site> const site = "a site";
auto const site_def = head >> -(Word("in") > a_site) >> -KeptWord("paired");
Rule<struct breeds_id, shapes::Breeds> const breeds = "a group of breeds";
auto const breeds_def = a_name > names;
Rule<struct means_id, shapes::Means> const means = "a meaning";
auto const means_def = head > colon > condition;
Rule<struct family_id, shapes::Family> const family = "a family of causes";
auto const family_def = head > colon > names;
Rule<struct overlap_id, shapes::Overlap> const overlap = "an overlap";
auto const overlap_def = a_name > Word("shares") > frequency > colon > names;

Rule<struct accept_id, shapes::Accept> const accept = "the name of a warning";
auto const accept_def = a_warning > a_text;
Rule<struct reading_id, shapes::Reading> const reading = "a name and a licence in double quotes";
auto const reading_def = a_text > Word("on") > a_date > -(Word("mark") > a_mark);

Rule<struct value_id, shapes::Value> const value = "the name of a value";
auto const value_def = a_value >> -a_text;
Rule<struct said_id, shapes::Said> const said = "a text in double quotes";
auto const said_def = a_text >> -(Word("is") > a_value);
Rule<struct said_list_id, std::vector<shapes::Said>> const said_list = "a text in double quotes";
auto const said_list_def = said % comma;
Rule<struct sites_id, shapes::Sites> const sites = "`sites`";
auto const sites_def = KeptWord("sites") >> -(Word("in") > names);
Rule<struct values_id, std::vector<shapes::Value>> const values = "the name of a value";
auto const values_def = value % comma;
Rule<struct steps_id, shapes::Steps> const steps = "`steps`";
auto const steps_def = KeptWord("steps") > values;
Rule<struct one_of_id, shapes::OneOf> const one_of = "`one of`";
auto const one_of_def = KeptWord("one of") > values;
Rule<struct measure_id, shapes::Measure> const measure = "`number`";
auto const measure_def = KeptWord("number") > -(Word("in") > a_unit) > Word("from") > a_number >
                         Word("to") > a_number;
Rule<struct answer_id, shapes::Answer> const answer =
    "`yes or no`, `sites`, `steps`, `one of` or `number`";
auto const answer_def = KeptWord("yes or no") | sites | steps | one_of | measure;

Rule<struct end_id, shapes::End> const end_band = "`under` or `over`";
auto const end_band_def = (KeptWord("under") | KeptWord("over")) > quantity;
Rule<struct range_id, shapes::Range> const range_band = "`A to B`";
auto const range_band_def = quantity > Word("to") > quantity;
Rule<struct value_band_id, shapes::Values> const value_band = "the name of a value";
auto const value_band_def = a_value >> *(Word("or") > a_value);
Rule<struct band_id, shapes::Band> const band = "a band such as `under 1 year`, `1 to 7 years`";
auto const band_def = end_band | range_band | value_band;
Rule<struct bands_id, std::vector<shapes::Band>> const bands =
    "a band such as `under 1 year`, `1 to 7 years`";
auto const bands_def = band % comma;
Rule<struct over_id, shapes::Over> const over = "bands";
auto const over_def = a_sign > colon > bands;

Rule<struct floor_test_id, shapes::FloorTest> const floor_test =
    "a value, `at least STEP`, `at SITE` or a comparison";
auto const floor_test_def = at_step | at_site | between | compares | value_band;
Rule<struct floor_id, shapes::Floor> const floor = "the name of a tier";
auto const floor_def = a_tier > -(Word("if") > floor_test) > -(Word("unless") > condition) >
                       Word("because") > a_text > Word("cite") > names;

Rule<struct dose_id, shapes::Dose> const dose = "an amount such as `10 mg per kg`";
Rule<struct every_id, shapes::Every> const every = "an interval such as `every 8 hours`";
auto const every_def = Word("every") > quantity > -(Word("to") > quantity);
Rule<struct often_id, shapes::Token> const often =
    "`once a day`, `twice a day`, `three times a day` or `four times a day`";
auto const often_def = KeptWord("once a day") | KeptWord("twice a day") |
                       KeptWord("three times a day") | KeptWord("four times a day");
Rule<struct interval_id, x3::variant<shapes::Every, shapes::Token>> const interval =
    "an interval such as `every 8 hours`";
auto const often_begins = Word("once") | Word("twice") | Word("three") | Word("four");
auto const interval_def = every | (&often_begins > often);
auto const route_begins = Word("by") | Word("under") | Word("into") | Word("onto") | Word("on");
Rule<struct route_id, shapes::Token> const route =
    "a way such as `by mouth`, `under the skin`, `into the vein`";
auto const route_def = &route_begins > a_route;
auto const dose_def = quantity >> -(Word("to") > quantity) >> -a_weight_basis >> -route >> -interval
                      >> -(Word("for") > quantity);
// `100 mg per mL` is a mass and its volume here, not one unit.
Rule<struct held_id, shapes::Quantity> const held = "an amount such as `100 mg`";
auto const held_def = an_amount >> -a_plain_unit;
Rule<struct form_id, shapes::Form> const form = "`tablet`, `capsule`, `liquid` or `spoon`";
auto const form_def = (KeptWord("tablet") | KeptWord("capsule") | KeptWord("liquid") |
                       KeptWord("spoon")) > held > -(Word("per") > a_plain_unit) >
                      -(KeptWord("whole") | KeptWord("in halves") | KeptWord("in quarters"));

Rule<struct gate_id, shapes::Gate> const gate = "a condition";
auto const gate_def = condition >> -a_text;
Rule<struct level_id, shapes::Level> const level = "a level such as `25 mg per kg \"vomiting\"`";
auto const level_def = quantity > Word("per kg") > -(Word("see") > a_name) > a_text;

Rule<struct benefit_id, shapes::Benefit> const benefit =
    "a share of the weight such as `6%`, and a text";
auto const benefit_def = frequency > a_text;

Rule<struct setting_value_id, x3::variant<shapes::Quantity, shapes::Token>> const setting_value =
    "a value or an amount";
auto const setting_value_def = quantity | a_value;
Rule<struct setting_id, shapes::Setting> const setting = "a name and its value";
auto const setting_def = a_name > setting_value;
Rule<struct settings_id, std::vector<shapes::Setting>> const settings = "a name and its value";
auto const settings_def = setting % comma;

Rule<struct told_facts_id, shapes::PatientFacts> const told_facts = "facts of the patient";
auto const told_facts_def = a_name > settings;

Rule<struct places_id, std::vector<shapes::SitePlace>> const places = "the name of a site";
auto const places_def = site_place % comma;
Rule<struct found_id, shapes::Finding> const found = "the name of a sign";
auto const found_def = a_sign >> -(Word("at") > places);
Rule<struct clear_id, shapes::Finding> const clear = "the name of a sign";
auto const clear_def = a_sign > Word("at") > places;

template <class Fits>
AnyPhrase promises_that(Fits const& fits) {
  std::vector<std::string_view> phrases;
  for (auto const& row : promise_words)
    if (fits(row)) phrases.push_back(row.words);
  return AnyPhrase(std::move(phrases));
}
AnyPhrase const any_promise = promises_that([](PromiseWords const&) { return true; });
AnyPhrase const bare_promise = promises_that([](PromiseWords const& p) { return !p.refers; });
AnyPhrase const with_rank = promises_that([](PromiseWords const& p) { return p.takes_rank; });
AnyPhrase const with_amount = promises_that([](PromiseWords const& p) { return p.takes_amount; });
AnyPhrase const with_name = promises_that(
    [](PromiseWords const& p) { return p.refers && !p.takes_rank && !p.takes_amount; });
std::string const any_promise_words = any_promise.what();

Rule<struct ranked_id, shapes::RankedPromise> const ranked_promise = "a promise";
auto const ranked_promise_def = with_rank > a_count > a_cause;
Rule<struct named_id, shapes::NamedPromise> const named_promise = "a promise";
auto const named_promise_def = with_name > a_name;
Rule<struct promised_amount_id, shapes::PromisedAmount> const promised_amount =
    "an amount such as `20 mg`";
auto const promised_amount_def = quantity >> -(Word("to") > quantity);
Rule<struct promised_portion_id, shapes::PromisedAmount> const promised_portion =
    "what is drawn up or counted such as `4 mL`, `1.5 tablets`";
auto const promised_portion_def = quantity >> -(Word("to") > quantity);
Rule<struct given_promise_id, shapes::GivenPromise> const given_promise = "a promise";
auto const given_promise_def = with_amount > a_name > -promised_amount >
                               -(Word("in") > promised_portion);
Rule<struct promise_id, shapes::Promise> const promise = any_promise_words.c_str();
auto const promise_def = bare_promise | ranked_promise | given_promise | named_promise;
Rule<struct promises_id, std::vector<shapes::Promise>> const promises = any_promise_words.c_str();
auto const promises_def = promise % comma;

AnyPhrase const seen_by({seen_by_words.begin(), seen_by_words.end()});
AnyPhrase const seen_at({seen_at_words.begin(), seen_at_words.end()});
AnyPhrase const read_as({read_as_words.begin(), read_as_words.end()});

BOOST_SPIRIT_DEFINE(quantity, sample, scale, frequency, shares, scale_or_shares, frequencies,
                    in_cause, in_causes, hold)
BOOST_SPIRIT_DEFINE(species_words, species_many, species, called, called_list, quantities,
                    sourced_number, size_step, size_steps)
BOOST_SPIRIT_DEFINE(site_place, comparison, at_step, at_site, value_list, is_value, compares,
                    between, in_group, any_test, test)
BOOST_SPIRIT_DEFINE(condition, operand, negation, group, parts, counted, link)
BOOST_SPIRIT_DEFINE(names, texts, accept, reading, head, site, breeds, means, family, overlap)
BOOST_SPIRIT_DEFINE(value, values, said, said_list, sites, steps, one_of, measure, answer)
BOOST_SPIRIT_DEFINE(end_band, range_band, value_band, band, bands, over)
BOOST_SPIRIT_DEFINE(floor_test, floor)
BOOST_SPIRIT_DEFINE(every, often, interval, route, held)
BOOST_SPIRIT_DEFINE(dose, form, gate, level, benefit, setting_value, setting, settings, told_facts)
BOOST_SPIRIT_DEFINE(places, found, clear, ranked_promise, named_promise, promised_amount,
                    promised_portion, given_promise, promise, promises)

// --- running one production -------------------------------------------------------------------

// The token that stands where something else was expected, cut to what fits in a message.
std::string_view found_token(It p, It end) {
  constexpr std::ptrdiff_t longest = 40;
  It stop = word_end(p, end);
  if (stop == p)  // a mark: one character, however many bytes it takes
    for (++stop; stop != end && (static_cast<unsigned char>(*stop) & 0xC0U) == 0x80U;) ++stop;
  auto const length = static_cast<std::size_t>(std::min(stop - p, longest));
  std::string_view const token(p, static_cast<std::size_t>(end - p));
  return token.substr(0, std::max<std::size_t>(1, whole_character(token, length)));
}

// Where the last token before `p` ends: a line break between would put the caret on the wrong line.
It last_end(It begin, It p) {
  while (p != begin && is_blank(p[-1])) --p;
  return p;
}

// `today because ...`: the words of another clause of what has a tier, which belong on the next
// line; or several tiers.
bool meant_as_clause(std::string_view written) {
  for (std::uint32_t at = 0; at < written.size();) {
    auto const word = word_at(written, at);
    if (word == "and" || word == "or") return true;
    for (auto const* keyword : {"cause", "alarm"})
      if (clause_at(written, at, find_statement_words(keyword)->clauses) != nullptr) return true;
    at += static_cast<std::uint32_t>(std::max<std::size_t>(1, word.size()));
  }
  return false;
}

// What was probably meant, or else how the clause is written.
void remedy(Stretch const& stretch, std::optional<Hint> hint, Diagnostic& error) {
  if (hint) {
    error.notes.push_back({std::move(hint->note), {}});
    error.instead = std::move(hint->instead);
  } else if (!stretch.form.empty()) {
    error.notes.push_back({fmt::format("written as in `{}`", stretch.form), {}});
  }
}

void report_expected(Stretch const& stretch, It begin, It where, It end, std::string const& what,
                     Report& report) {
  auto const offset = [&](It p) {
    return static_cast<std::uint32_t>(p - stretch.file_text.data());
  };
  It const p = skip_blanks(where, end);
  if (what == nested_less) {
    report.error(Code::too_deep, {stretch.file, {offset(p), offset(p)}},
                 fmt::format("conditions nest more than {} deep", stretch.deepest));
    return;
  }
  if (p >= end) {  // blanks behind the last word lie outside the stretch
    auto const at = offset(last_end(begin, std::min(where, end)));
    auto& error = report.error(Code::expected, {stretch.file, {at, at}},
                               fmt::format("expected {} after this", what));
    remedy(stretch,
           writing_hint({stretch.file_text, stretch.span, stretch.span.end, what, stretch.content,
                         stretch.form, stretch.holds}),
           error);
    return;
  }
  bool const is_open_text = *p == '"' && TextToken::match(p, end) == nullptr;
  if (is_open_text) return;  // reported where the lines were read
  auto const token = found_token(p, end);
  auto hint = writing_hint({stretch.file_text, stretch.span, offset(p), what, stretch.content,
                            stretch.form, stretch.holds});
  Span const place = hint && hint->over ? *hint->over : Span{offset(p), offset(p + token.size())};
  bool const is_more = place.begin != offset(p) || place.end > offset(p + token.size());
  auto const seen =
      is_more ? stretch.file_text.substr(place.begin, place.end - place.begin) : token;
  auto const unseen = unseen_character(seen);
  auto& error = report.error(
      Code::expected, {stretch.file, place},
      fmt::format("expected {}, found `{}`", hint && hint->expected ? hint->expected : what.c_str(),
                  unseen ? *unseen : std::string(shown(seen))));
  remedy(stretch, std::move(hint), error);
}

template <class Production, class Shape>
bool run(Production const& production, Shape& shape, Stretch const& stretch, Report& report) {
  It const begin = stretch.file_text.data() + stretch.span.begin;
  It const end = stretch.file_text.data() + stretch.span.end;
  It p = begin;
  Nesting nesting{0, stretch.deepest};
  auto const whole = x3::with<nesting_tag>(std::ref(nesting))[x3::eps > production > clause_end];
  try {
    return x3::parse(p, end, whole, shape);
  } catch (x3::expectation_failure<It> const& failure) {
    report_expected(stretch, begin, failure.where(), end, failure.which(), report);
    return false;
  }
}

template <class Tree, class Shape, class Production>
std::optional<Tree> read(Production const& production, Stretch const& stretch, Report& report) {
  Shape shape;
  if (!run(production, shape, stretch, report)) return std::nullopt;
  return Lowering(stretch, report).lower(shape);
}

}  // namespace

namespace grammar {

using shapes::Token;
using Tokens = std::vector<Token>;

std::optional<Text> text(Stretch const& s, Report& r) {
  Token token;
  if (!run(a_text, token, s, r)) return std::nullopt;
  return Lowering(s, r).text(token);
}
std::optional<std::vector<Text>> texts(Stretch const& s, Report& r) {
  Tokens tokens;
  if (!run(syntax::texts, tokens, s, r)) return std::nullopt;
  return Lowering(s, r).texts(tokens);
}
std::optional<std::vector<Said>> said(Stretch const& s, Report& r) {
  return read<std::vector<Said>, std::vector<shapes::Said>>(syntax::said_list, s, r);
}
std::optional<Name> name(Stretch const& s, Report& r) {
  Token token;
  if (!run(a_name, token, s, r)) return std::nullopt;
  return Lowering(s, r).name(token);
}
std::optional<Name> tier(Stretch const& s, Report& r) {
  Report own;
  if (auto out = name(s, own)) return out;
  auto const begin =
      skip_blanks(s.file_text.data() + s.span.begin, s.file_text.data() + s.span.end);
  Span const words{static_cast<std::uint32_t>(begin - s.file_text.data()),
                   static_cast<std::uint32_t>(last_end(begin, s.file_text.data() + s.span.end) -
                                              s.file_text.data())};
  auto const written = s.file_text.substr(words.begin, words.end - words.begin);
  bool const is_of_words =
      !written.empty() && std::all_of(written.begin(), written.end(), [](char c) {
        return is_word_part(c) || c == ' ' || c == '.';
      });
  if (!is_of_words) return name(s, r);
  if (meant_as_clause(written)) {
    auto clause_behind = s;  // two words there are no name in two parts
    clause_behind.holds = Holds::other;
    return name(clause_behind, r);
  }
  return Name{std::string(written), {s.file, words}};
}
std::optional<std::vector<Name>> names(Stretch const& s, Report& r) {
  Tokens tokens;
  if (!run(syntax::names, tokens, s, r)) return std::nullopt;
  return Lowering(s, r).names(tokens);
}
std::optional<Name> visible(Stretch const& s, Report& r) {
  Token token;
  if (!run(a_visible, token, s, r)) return std::nullopt;
  return Lowering(s, r).name(token);
}
std::optional<Number> number(Stretch const& s, Report& r) {
  Token token;
  if (!run(a_number, token, s, r)) return std::nullopt;
  return Lowering(s, r).number(token);
}
std::optional<Quantity> quantity(Stretch const& s, Report& r) {
  return read<Quantity, shapes::Quantity>(syntax::quantity, s, r);
}
std::optional<Frequency> frequency(Stretch const& s, Report& r) {
  return read<Frequency, shapes::Frequency>(syntax::frequency, s, r);
}
std::optional<Frequencies> frequencies(Stretch const& s, Report& r) {
  return read<Frequencies, shapes::Frequencies>(syntax::frequencies, s, r);
}
std::optional<std::vector<InCause>> in_causes(Stretch const& s, Report& r) {
  return read<std::vector<InCause>, std::vector<shapes::InCause>>(syntax::in_causes, s, r);
}
std::optional<Hold> hold(Stretch const& s, Report& r) {
  return read<Hold, shapes::Hold>(syntax::hold, s, r);
}
std::optional<Species> species(Stretch const& s, Report& r) {
  return read<Species, shapes::Species>(syntax::species, s, r);
}
std::optional<std::vector<Called>> called(Stretch const& s, Report& r) {
  return read<std::vector<Called>, std::vector<shapes::Called>>(syntax::called_list, s, r);
}
std::optional<NeverNeutered> never_neutered(Stretch const& s, Report& r) {
  Tokens tokens;
  if (!run(x3::repeat(0, 1)[KeptWord("male") | KeptWord("female")], tokens, s, r))
    return std::nullopt;
  NeverNeutered out;
  if (!tokens.empty()) out.sex = Lowering(s, r).name(tokens.front());
  return out;
}
std::optional<Range> range(Stretch const& s, Report& r) {
  return read<Range, shapes::Range>(syntax::quantities, s, r);
}
std::optional<SourcedNumber> sourced_number(Stretch const& s, Report& r) {
  return read<SourcedNumber, shapes::SourcedNumber>(syntax::sourced_number, s, r);
}
std::optional<std::vector<SizeStep>> sizes(Stretch const& s, Report& r) {
  return read<std::vector<SizeStep>, std::vector<shapes::SizeStep>>(syntax::size_steps, s, r);
}
std::optional<Condition> condition(Stretch const& s, Report& r) {
  return read<Condition, shapes::Condition>(syntax::condition, s, r);
}
std::optional<Over> over(Stretch const& s, Report& r) {
  return read<Over, shapes::Over>(syntax::over, s, r);
}
std::optional<Head> head(Stretch const& s, Report& r) {
  return read<Head, shapes::Head>(syntax::head, s, r);
}
std::optional<Accept> accept(Stretch const& s, Report& r) {
  return read<Accept, shapes::Accept>(syntax::accept, s, r);
}
std::optional<Reading> reading(Stretch const& s, Report& r) {
  return read<Reading, shapes::Reading>(syntax::reading, s, r);
}
std::optional<Include> include(Stretch const& s, Report& r) {
  auto file = text(s, r);
  return file ? std::optional(Include{std::move(*file)}) : std::nullopt;
}
std::optional<Site> site(Stretch const& s, Report& r) {
  return read<Site, shapes::Site>(syntax::site, s, r);
}
std::optional<Breeds> breeds(Stretch const& s, Report& r) {
  return read<Breeds, shapes::Breeds>(syntax::breeds, s, r);
}
std::optional<Means> means(Stretch const& s, Report& r) {
  return read<Means, shapes::Means>(syntax::means, s, r);
}
std::optional<Family> family(Stretch const& s, Report& r) {
  return read<Family, shapes::Family>(syntax::family, s, r);
}
std::optional<Overlap> overlap(Stretch const& s, Report& r) {
  return read<Overlap, shapes::Overlap>(syntax::overlap, s, r);
}
std::optional<Answer> answer(Stretch const& s, Report& r) {
  return read<Answer, shapes::Answer>(syntax::answer, s, r);
}
std::optional<Floor> floor(Stretch const& s, Report& r) {
  shapes::Floor shape;
  if (!run(syntax::floor, shape, s, r)) return std::nullopt;
  return Lowering(s, r).lower(shape);
}
std::optional<SeenBy> seen_by(Stretch const& s, Report& r) {
  Token token;
  if (!run(syntax::seen_by, token, s, r)) return std::nullopt;
  return Lowering(s, r).seen_by(token);
}
std::optional<SeenAt> seen_at(Stretch const& s, Report& r) {
  Token token;
  if (!run(syntax::seen_at, token, s, r)) return std::nullopt;
  return Lowering(s, r).seen_at(token);
}
std::optional<ReadAs> read_as(Stretch const& s, Report& r) {
  Token token;
  if (!run(syntax::read_as, token, s, r)) return std::nullopt;
  return Lowering(s, r).read_as(token);
}
std::optional<Dose> dose(Stretch const& s, Report& r) {
  return read<Dose, shapes::Dose>(syntax::dose, s, r);
}
std::optional<Form> form(Stretch const& s, Report& r) {
  return read<Form, shapes::Form>(syntax::form, s, r);
}
std::optional<Gate> gate(Stretch const& s, Report& r) {
  shapes::Gate shape;
  if (!run(syntax::gate, shape, s, r)) return std::nullopt;
  return Lowering(s, r).lower(shape);
}
std::optional<Level> level(Stretch const& s, Report& r) {
  return read<Level, shapes::Level>(syntax::level, s, r);
}
std::optional<Benefit> benefit(Stretch const& s, Report& r) {
  return read<Benefit, shapes::Benefit>(syntax::benefit, s, r);
}
std::optional<std::vector<Setting>> settings(Stretch const& s, Report& r) {
  return read<std::vector<Setting>, std::vector<shapes::Setting>>(syntax::settings, s, r);
}
std::optional<PatientFacts> patient_facts(Stretch const& s, Report& r) {
  return read<PatientFacts, shapes::PatientFacts>(syntax::told_facts, s, r);
}
std::optional<Finding> found(Stretch const& s, Report& r) {
  return read<Finding, shapes::Finding>(syntax::found, s, r);
}
std::optional<Finding> clear(Stretch const& s, Report& r) {
  return read<Finding, shapes::Finding>(syntax::clear, s, r);
}
std::optional<std::vector<Promise>> promises(Stretch const& s, Report& r) {
  return read<std::vector<Promise>, std::vector<shapes::Promise>>(syntax::promises, s, r);
}
bool text_or_nothing(Stretch const& s, Report& r, std::optional<Text>& out) {
  Tokens tokens;
  if (!run(x3::repeat(0, 1)[a_text], tokens, s, r)) return false;
  if (!tokens.empty()) out = Lowering(s, r).text(tokens.front());
  return true;
}
bool nothing(Stretch const& s, Report& r) { return run(x3::eps, x3::unused, s, r); }

}  // namespace grammar
}  // namespace flinch::syntax
