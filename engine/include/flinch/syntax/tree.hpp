#pragma once
// The syntax tree of a rule file: what was written, nothing checked yet. `parse` makes it, `print`
// writes it back; parse(print(tree)) == tree. docs/language_reference.md has the grammar.
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "flinch/text/source.hpp"

namespace flinch::syntax {

/// An identifier or another single word, as written.
struct Name {
  std::string text;
  Place at;
  friend bool operator==(Name const&, Name const&) = default;
};

/// A quoted text: escapes resolved, each run of blanks with a line break in it made one space.
struct Text {
  std::string text;
  Place at;
  friend bool operator==(Text const&, Text const&) = default;
};

struct Number {
  double value = 0;
  Place at;
  friend bool operator==(Number const&, Number const&) = default;
};

/// A number and the unit as written (`C`, `years`, `per minute`), empty when there is none.
struct Quantity {
  double value = 0;
  std::string unit;
  Place at;
  friend bool operator==(Quantity const&, Quantity const&) = default;
};

/// How many were counted, and in which source it is printed; or only what it was derived from.
struct Sample {
  std::optional<Number> size;
  Name source;
  friend bool operator==(Sample const&, Sample const&) = default;
};

/// `12%` (out_of 100) or `3 per 1000`.
struct Frequency {
  double count = 0;
  double out_of = 100;
  std::optional<Sample> sample;
  Place at;
  friend bool operator==(Frequency const&, Frequency const&) = default;
};

/// One frequency, or the per-cent shares of the bands of an `over` rule.
struct Frequencies {
  std::optional<Frequency> single;
  std::vector<Number> shares;
  std::optional<Sample> sample;  ///< of the shares; a single frequency has its own
  Place at;
  friend bool operator==(Frequencies const&, Frequencies const&) = default;
};

enum class Side : std::uint8_t { any, left, right };

struct SitePlace {
  Side side = Side::any;
  Name site;
  Place at;
  friend bool operator==(SitePlace const&, SitePlace const&) = default;
};

enum class Comparison : std::uint8_t { at_least, above, at_most, below };

struct AtSite {
  SitePlace place;
  friend bool operator==(AtSite const&, AtSite const&) = default;
};
struct AtLeastStep {
  Name step;
  friend bool operator==(AtLeastStep const&, AtLeastStep const&) = default;
};
struct IsValue {
  std::vector<Name> values;  ///< any of them
  friend bool operator==(IsValue const&, IsValue const&) = default;
};
struct Compares {
  Comparison comparison{};
  Quantity bound;
  friend bool operator==(Compares const&, Compares const&) = default;
};
struct Between {
  Quantity low;  ///< takes the unit of `high` when it has none
  Quantity high;
  friend bool operator==(Between const&, Between const&) = default;
};
struct InGroup {
  Name group;
  friend bool operator==(InGroup const&, InGroup const&) = default;
};

struct Test {
  Name sign;
  std::variant<std::monostate, AtSite, AtLeastStep, IsValue, Compares, Between, InGroup> test;
  friend bool operator==(Test const&, Test const&) = default;
};

struct Condition {
  enum class Kind : std::uint8_t { test, negation, all, any, count };
  Kind kind = Kind::test;
  Test test;                     ///< for `test`
  Number needed;                 ///< for `count`: at least so many of the parts
  std::vector<Condition> parts;  ///< for the others
  Place at;
  friend bool operator==(Condition const&, Condition const&) = default;
};

// --- statements --------------------------------------------------------------------------------

struct Include {
  Text file;
  friend bool operator==(Include const&, Include const&) = default;
};

/// `accept WARNING "reason"`: a warning that may stand, and why.
struct Accept {
  Name warning;
  Text reason;
  friend bool operator==(Accept const&, Accept const&) = default;
};

/// `read by "NAME, LICENCE" on DATE mark MARK`: who has read the statement, and which text of it.
struct Reading {
  Text reader;
  Name date;                 ///< `2026-12-01`
  std::optional<Name> mark;  ///< see `mark_of`; none: nobody can tell what was read
  friend bool operator==(Reading const&, Reading const&) = default;
};

/// What every named statement begins with, the warnings that it accepts, and who has read it.
struct Head {
  Name name;
  std::optional<Text> title;
  std::vector<Accept> accepts{};
  std::vector<Reading> readings{};
  friend bool operator==(Head const&, Head const&) = default;
};

struct Hold {
  Frequency low;
  Frequency high;
  friend bool operator==(Hold const&, Hold const&) = default;
};

/// `rabbit "rabbit", "rabbits"`
struct Species {
  Name key;
  std::optional<Text> one;
  std::optional<Text> many;  ///< given with `one`, or not at all
  friend bool operator==(Species const&, Species const&) = default;
};

/// `female "doe" or "jill"`
struct Called {
  Name part;  ///< `male`, `female`, `young`, `neutered male` or `neutered female`
  std::vector<Text> words;
  friend bool operator==(Called const&, Called const&) = default;
};

/// `never neutered female`
struct NeverNeutered {
  std::optional<Name> sex;  ///< `male` or `female`; both where none is named
  friend bool operator==(NeverNeutered const&, NeverNeutered const&) = default;
};

struct Range {
  Quantity low;  ///< takes the unit of `high` when it has none
  Quantity high;
  friend bool operator==(Range const&, Range const&) = default;
};

/// `small to 10 kg`
struct SizeStep {
  Name name;
  std::optional<Quantity> up_to;
  friend bool operator==(SizeStep const&, SizeStep const&) = default;
};

/// `70 from merck_nutrition`
struct SourcedNumber {
  Number number;
  std::optional<Name> source;
  friend bool operator==(SourcedNumber const&, SourcedNumber const&) = default;
};

/// Where a patient that must be seen is seen: it is brought, or the vet comes to it.
enum class SeenAt : std::uint8_t { clinic, home };

struct PackHead : Head {
  std::optional<Species> species;
  std::optional<Name> version;
  std::vector<Called> called;
  std::optional<Quantity> oldest;
  std::optional<Range> weight;
  std::optional<Range> doses;  ///< weights for which amounts are computed
  std::vector<SizeStep> sizes;
  std::optional<Quantity> grown;          ///< age from which weight tells size
  std::optional<Quantity> doubted_above;  ///< shares of the usual weight, in per cent
  std::optional<Quantity> doubted_below;
  std::optional<Quantity> pounds_doubted_above;
  std::optional<Quantity> leeway;  ///< a mass
  std::optional<NeverNeutered> never_neutered;
  std::optional<SeenAt> seen_at;
  std::optional<SourcedNumber> body_surface;
  std::optional<SourcedNumber> resting_energy;
  std::optional<Quantity> drawn_up;  ///< the finest mark of what is drawn up to be swallowed
  std::optional<Quantity> injected;  ///< of what is injected
  std::optional<Text> breed_table;
  std::optional<Text> outline;
  std::optional<Frequency> unlisted;
  std::optional<Hold> hold;
  friend bool operator==(PackHead const&, PackHead const&) = default;
};

/// How much of a source its citer had read.
enum class ReadAs : std::uint8_t { in_full, abstract, quoted, from_memory };

struct Source : Head {
  std::optional<Text> text;
  std::optional<Name> doi;
  std::optional<Name> url;
  std::optional<Name> grade;
  std::optional<ReadAs> read;
  friend bool operator==(Source const&, Source const&) = default;
};

struct Tier : Head {
  std::optional<Quantity> within;
  std::optional<Number> harm;
  std::optional<Text> say;
  std::optional<Text> until_then;  ///< told behind `say`, or behind the words of the practice
  friend bool operator==(Tier const&, Tier const&) = default;
};

struct Site : Head {
  std::optional<Name> inside;
  bool paired = false;
  std::vector<Text> also_called;  ///< in everyday words
  friend bool operator==(Site const&, Site const&) = default;
};

struct Breeds {
  Name name;
  std::vector<Name> members;
  std::vector<Accept> accepts{};
  std::vector<Reading> readings{};
  friend bool operator==(Breeds const&, Breeds const&) = default;
};

/// A step or choice with its lay wording.
struct Value {
  Name name;
  std::optional<Text> label;
  friend bool operator==(Value const&, Value const&) = default;
};

/// Other words for a sign, or for one of its steps or choices.
struct Said {
  Text words;
  std::optional<Name> value;
  friend bool operator==(Said const&, Said const&) = default;
};

struct YesOrNo {
  friend bool operator==(YesOrNo const&, YesOrNo const&) = default;
};
struct Sites {
  std::vector<Name> within;  ///< empty: all sites
  friend bool operator==(Sites const&, Sites const&) = default;
};
struct Steps {
  std::vector<Value> values;
  friend bool operator==(Steps const&, Steps const&) = default;
};
struct OneOf {
  std::vector<Value> values;
  friend bool operator==(OneOf const&, OneOf const&) = default;
};
struct Measure {
  std::optional<Name> unit;
  Number low;
  Number high;
  friend bool operator==(Measure const&, Measure const&) = default;
};
struct Answer {
  std::variant<YesOrNo, Sites, Steps, OneOf, Measure> kind;
  Place at;
  friend bool operator==(Answer const&, Answer const&) = default;
};

enum class SeenBy : std::uint8_t { anyone, hands, clinic };

/// How soon a patient with the sign and nothing else is seen at the latest.
struct Floor {
  Name see;
  Test test;  ///< which answers it holds for; of the sign it stands in, which is not named again
  std::optional<Condition> unless;
  Text because;
  std::vector<Name> cites;
  friend bool operator==(Floor const&, Floor const&) = default;
};

struct Sign : Head {
  std::optional<Text> ask;
  std::optional<Text> help;
  std::optional<Answer> answer;
  std::optional<SeenBy> seen_by;
  std::optional<Quantity> takes;
  bool may_hurt = false;
  bool tells_pain = false;
  bool asked_first = false;
  bool lasts = false;
  bool yes_if_seen_before = false;
  bool yes_if_worse = false;
  std::optional<Name> part_of;
  std::optional<Condition> applies_if;
  std::vector<Floor> alone;
  std::vector<Said> also_said;
  std::optional<Frequency> mentioned;
  friend bool operator==(Sign const&, Sign const&) = default;
};

struct Means : Head {
  Condition condition;
  friend bool operator==(Means const&, Means const&) = default;
};

struct Cause : Head {
  std::vector<Name> affects;
  std::optional<Frequency> base;
  std::optional<Name> see;
  bool not_pain = false;
  std::vector<Text> also_called;  ///< the clinical name first
  std::vector<Text> next;
  std::optional<Text> because;
  std::vector<Name> cites;
  friend bool operator==(Cause const&, Cause const&) = default;
};

/// Causes that look alike; a rule may name the family in their place.
struct Family : Head {
  std::vector<Name> members;
  friend bool operator==(Family const&, Family const&) = default;
};

/// One band of an `over` rule: from `low` up to, not including, `high`; or a set of values.
struct Band {
  std::optional<Quantity> low;
  std::optional<Quantity> high;
  std::vector<Name> values;
  Place at;
  friend bool operator==(Band const&, Band const&) = default;
};

struct Over {
  Name sign;
  std::vector<Band> bands;
  friend bool operator==(Over const&, Over const&) = default;
};

/// `in CAUSE FREQUENCIES`
struct InCause {
  Name cause;  ///< or a family
  Frequencies frequencies;
  friend bool operator==(InCause const&, InCause const&) = default;
};

struct Rule : Head {
  std::optional<Condition> condition;
  std::optional<Over> over;
  std::optional<Frequencies> usual;
  std::vector<InCause> in;
  std::optional<Text> because;
  std::vector<Name> cites;
  friend bool operator==(Rule const&, Rule const&) = default;
};

struct Alarm : Head {
  std::optional<Condition> condition;
  std::optional<Condition> unless;
  std::optional<Name> see;
  std::optional<Text> say;
  std::vector<Name> gives_way_to;  ///< care whose `say` stands in the place of this one's
  std::optional<Text> on_purpose;
  std::optional<Text> because;
  std::vector<Name> cites;
  friend bool operator==(Alarm const&, Alarm const&) = default;
};

struct Overlap {
  Name name;
  Frequency shares;
  std::vector<Name> rules;
  std::vector<Accept> accepts{};
  std::vector<Reading> readings{};
  friend bool operator==(Overlap const&, Overlap const&) = default;
};

enum class PerWeight : std::uint8_t { no, kg, kg_three_quarters };

struct Dose {
  Quantity amount;  ///< the least, when `up_to` is given
  std::optional<Quantity> up_to;
  PerWeight per = PerWeight::no;
  std::optional<Name> route;  ///< with its first word: `by mouth`, `into the vein`
  std::optional<Quantity> every;
  std::optional<Quantity> every_up_to;  ///< of a range of intervals
  std::optional<Name> often;            ///< in the place of `every`: `twice a day`
  std::optional<Quantity> duration;
  friend bool operator==(Dose const&, Dose const&) = default;
};

/// Whether these words say a way that is known: `by mouth`, `into the vein`. One that is not could
/// not be held back as what goes by mouth is.
[[nodiscard]] bool is_known_way(std::string_view route);
/// The ways that begin with `by`: "by mouth", "by injection".
[[nodiscard]] std::vector<std::string> ways_known();
/// The places behind `on the`, `into the` and `under the`.
[[nodiscard]] std::vector<std::string> places_known();
/// The way that is probably meant by these words: `over the back` is "onto the back", `by beak` "by
/// mouth". Nothing where they name no place that is known.
[[nodiscard]] std::optional<std::string> meant_way(std::string_view words);
/// Whether what is given is swallowed or stays in the mouth: `by drench`, `under the tongue`.
[[nodiscard]] bool is_by_mouth(Dose const& dose);
/// Whether it goes through a needle.
[[nodiscard]] bool is_injected(Dose const& dose);

enum class FormKind : std::uint8_t { tablet, capsule, liquid, spoon };
enum class Splits : std::uint8_t { whole, halves, quarters };

struct Form {
  FormKind kind{};
  Quantity strength;
  std::optional<Name> per;  ///< the unit of volume: of a liquid, and of nothing else
  Splits splits = Splits::whole;
  Place splits_at{};  ///< empty where they are not written
  friend bool operator==(Form const&, Form const&) = default;
};

/// A condition that opens or closes a measure, and what to say when it does.
struct Gate {
  Condition condition;
  std::optional<Text> reason;
  friend bool operator==(Gate const&, Gate const&) = default;
};

/// An amount already taken, per kg, from which harm has been published.
struct Level {
  Quantity per_kg;
  std::optional<Name> see;  ///< the tier that it asks for
  Text harm;
  friend bool operator==(Level const&, Level const&) = default;
};

/// What a loss of this share of the weight was seen to do.
struct Benefit {
  Frequency from;
  Text text;
  friend bool operator==(Benefit const&, Benefit const&) = default;
};

struct Care : Head {
  std::optional<Dose> give;
  std::optional<Text> how;
  std::optional<Text> say;         ///< `how` as one line of a script
  std::vector<Name> gives_way_to;  ///< care whose `say` stands in the place of this one's
  std::optional<Text> avoid;       ///< what not to do
  std::optional<Text> watch;       ///< what means "ring again"
  std::optional<Text> fasting;     ///< what goes on of food and water before a visit
  std::optional<Text> otherwise;   ///< what goes on of them where nothing fasts
  bool by_mouth = false;           ///< for a measure without `give`
  bool first_aid = false;          ///< does not wait at the top tier
  bool while_waiting = false;      ///< does not wait at a tier within the day
  std::optional<Name> slims_by;    ///< the sign that is a score of body condition
  std::optional<Number> ideal_score;
  std::optional<Frequency> each_point;  ///< overweight by each point above it
  std::optional<Hold> lost_a_week;      ///< of the weight
  std::vector<Benefit> benefits;
  std::optional<Name> taken;  ///< the sign that says how much was taken
  std::optional<Name> since;  ///< the sign that says how long ago
  std::vector<Level> levels;
  std::optional<Quantity> at_most;
  std::vector<Form> forms;
  bool for_clinician = false;
  std::optional<Text> problem;  ///< the heading under which the clinician reads it
  std::vector<Name> causes;     ///< what it is for
  std::optional<Condition> fit_if;
  std::vector<Gate> never_if;
  std::vector<Gate> ask_vet_if;
  std::vector<Gate> stop_if;
  std::optional<Name> grade;
  std::optional<Text> because;
  std::vector<Name> cites;
  friend bool operator==(Care const&, Care const&) = default;
};

/// `age 11 years`, `breed pug`
struct Setting {
  Name name;
  std::variant<Quantity, Name> value;
  friend bool operator==(Setting const&, Setting const&) = default;
};

/// `rabbit age 2 years, sex male`
struct PatientFacts {
  Name species;
  std::vector<Setting> settings;
  friend bool operator==(PatientFacts const&, PatientFacts const&) = default;
};

/// `found tender at left elbow`; no places: found, the place unknown.
struct Finding {
  Name sign;
  std::vector<SitePlace> places;
  friend bool operator==(Finding const&, Finding const&) = default;
};

struct Promise {
  enum class Kind : std::uint8_t {
    first,
    not_first,
    among,
    tier,
    tier_at_least,
    ceiling,
    alarm,
    not_alarm,
    offered,
    not_offered,
    withheld,
    ask_first,
    nothing_told
  };
  Kind kind{};
  Name name;    ///< the cause, tier, alarm or measure
  Number rank;  ///< for `among`
  /// For `offered` and `ask first`: how much, the most at one time; or from the least to the most.
  std::optional<Quantity> amount;  ///< takes the unit of `up_to` when it has none
  std::optional<Quantity> up_to;
  Place at;
  /// What of a `form` holds that, `in 4 mL` or `in 1.5 tablets`; or from the least to the most.
  std::optional<Quantity> portion{};  ///< takes the unit of `portion_up_to` when it has none
  std::optional<Quantity> portion_up_to{};
  friend bool operator==(Promise const&, Promise const&) = default;
};

struct Example : Head {
  std::vector<PatientFacts> patient;  ///< one a line
  std::vector<Name> yes;
  std::vector<Name> no;
  std::vector<Name> unknown;
  std::vector<Finding> found;
  std::vector<Finding> clear;
  std::vector<Setting> with;
  std::vector<Promise> expect;
  friend bool operator==(Example const&, Example const&) = default;
};

using Statement = std::variant<Include, PackHead, Source, Tier, Site, Breeds, Sign, Means, Cause,
                               Family, Rule, Alarm, Overlap, Care, Example>;

/// The statements of one file, in order.
/// A statement that could not be read.
struct Lost {
  std::string keyword;             ///< as written, known or not
  std::vector<std::string> names;  ///< what it may be called by those who use it
  bool is_unreadable = false;      ///< its name is none: it may be called anything
  friend bool operator==(Lost const&, Lost const&) = default;
};

/// A statement that lost a clause, or several, to a syntax error.
struct Damage {
  std::size_t statement = 0;              ///< its index
  std::vector<std::string_view> clauses;  ///< the words of those that could not be read
  bool is_wide = false;                   ///< others may be lost with them
  friend bool operator==(Damage const&, Damage const&) = default;
};

/// Words where a name was wanted, which may be those that people read: `affects front leg`.
struct WordsForName {
  Place error_at;         ///< of the mistake that was reported
  Place at;               ///< of the words, and the quotes around them
  std::string words;      ///< without quotes
  std::string_view kind;  ///< what was wanted, by the keyword of its statement
  friend bool operator==(WordsForName const&, WordsForName const&) = default;
};

struct File {
  std::vector<Statement> statements;
  std::vector<Damage> damaged;  ///< in the order of the statements
  std::vector<Lost> lost;
  std::vector<WordsForName> words_for_names{};
  friend bool operator==(File const&, File const&) = default;
};

}  // namespace flinch::syntax
