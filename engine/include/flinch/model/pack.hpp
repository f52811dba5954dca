#pragma once
// A resolved pack: every name is an id, every quantity in its sign's unit, every check passed.
// Immutable once made by `load_pack`; the assessment's tables are built from it.
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <variant>
#include <vector>

#include "flinch/model/answer_kind.hpp"
#include "flinch/model/body_weight.hpp"
#include "flinch/model/breed_table.hpp"
#include "flinch/model/case.hpp"
#include "flinch/model/condition.hpp"
#include "flinch/model/outline.hpp"
#include "flinch/model/species.hpp"
#include "flinch/model/units.hpp"
#include "flinch/text/diagnostic.hpp"

namespace flinch {

enum class SourceId : std::uint32_t {};
enum class RuleId : std::uint32_t {};
enum class AlarmId : std::uint32_t {};
enum class FamilyId : std::uint32_t {};

template <class Id>
[[nodiscard]] constexpr std::size_t index(Id id) {
  return static_cast<std::size_t>(id);
}

using syntax::SeenAt;
using syntax::SeenBy;

/// A publication, or the honest absence of one (common practice, judgement).
struct Reference {
  std::string name;
  std::string text;
  std::string doi;
  std::string url;
  std::string grade;
  std::optional<syntax::ReadAs> read;
  Place at{};
};

/// Urgency, most urgent first in the pack's list.
struct Tier {
  std::string name;
  std::string title;
  double within_s = 0;         ///< see the patient within so many seconds
  std::optional<double> harm;  ///< missed cases against false alarms; none for the last tier
  std::string say;             ///< where to go and how soon, `until_then` behind it
  std::string until_then;      ///< what holds on the way; may be empty
  Place at{};
  /// P(a cause that needs this tier or higher) from which it is reached: 1 / (1 + harm).
  /// Source: Pauker SG, Kassirer JP (1980) N Engl J Med 302:1109-1117.
  [[nodiscard]] std::optional<double> threshold() const;
};

struct Site {
  std::string name;
  std::string title;
  std::optional<SiteId> inside;
  bool paired = false;
  std::vector<std::string> also_called;  ///< in everyday words
  Place at{};
};

/// A step or choice.
struct Value {
  std::string name;
  std::string label;
  std::vector<std::string> also_said{};  ///< words that mean this one
};

struct Sign {
  std::string name;
  std::string label;
  std::string ask;
  std::string help;
  AnswerKind kind = AnswerKind::yes_or_no;
  std::vector<SiteId> within;  ///< for sites: the choice; empty for all
  std::vector<Value> values;   ///< for steps and choices
  Unit unit;                   ///< for numbers
  double low = 0;              ///< for numbers: what is believable
  double high = 0;
  SeenBy seen_by = SeenBy::anyone;
  double takes_s = 0;
  bool may_hurt = false;
  bool tells_pain = false;          ///< how much pain it is in: shown of each visit, and over time
  bool asked_first = false;         ///< of every patient, right after what it came for
  bool lasts = false;               ///< a yes holds for good: a later visit begins with it
  bool yes_if_seen_before = false;  ///< a record of an earlier visit for the same trouble says yes
  bool yes_if_worse = false;        ///< so does a last visit than which it is worse now
  bool of_the_patient = false;      ///< age, weight, sex and the like: no question of its own
  std::optional<SignId> part_of;
  std::optional<Condition> applies_if;
  std::vector<std::string> also_said;  ///< words that mean the sign; those of a value stand there
  /// Share of keepers who tell of it unasked when it is there.
  std::optional<double> mentioned{};
  Place at;
};

/// What its kind of answer is like.
[[nodiscard]] inline AnswerTraits const& traits(Sign const& sign) { return traits(sign.kind); }

/// The signs that every pack has, at these places in its list.
namespace patient_sign {
/// `weight_confirmed` is the weight once more, told after the question whether it is right.
inline constexpr SignId age{0}, weight{1}, sex{2}, neutered{3}, size{4}, breed{5},
    weight_confirmed{6};
inline constexpr std::size_t count = 7;
}  // namespace patient_sign

struct Means {
  std::string name;
  std::string title;
  Condition condition;
  Place at{};
};

struct Cause {
  std::string name;
  std::string title;
  std::vector<SiteId> affects;
  double base = 0;  ///< relative weight among patients presented for suspected pain, as written
  TierId see{};
  bool not_pain = false;
  std::vector<std::string> also_called;  ///< what a vet would type, the clinical name first
  std::vector<std::string> next;
  std::string because;
  std::vector<SourceId> cites;
  Place at;
};

/// Causes that look alike: a rule that names the family speaks of each member.
struct Family {
  std::string name;
  std::string title;
  std::vector<CauseId> members;  ///< two at least, each once
  Place at{};
};

/// What one rule says of one cause; for `over` rules one share a band, otherwise one frequency.
/// With a sample it was counted, with a source alone derived from it, with neither it is a
/// judgement.
struct RuleEntry {
  CauseId cause{};
  std::vector<double> frequencies;
  std::optional<double> sample_size;
  std::optional<SourceId> source;
  std::optional<FamilyId> family{};  ///< by which the rule names the cause, if not by its own name
  Place at{};                        ///< of the cause's name, or the family's
};

/// One band of an `over` rule, as a condition on its sign.
struct Band {
  Test test;
  std::string text;
};

struct Rule {
  std::string name;
  std::string title;
  std::optional<Condition> condition;  ///< or bands
  SignId over{};
  std::vector<Band> bands;
  std::vector<double> usual;
  std::optional<double> usual_sample_size;
  std::optional<SourceId> usual_source;
  std::vector<RuleEntry> entries;
  std::string because;
  std::vector<SourceId> cites;
  Place at;
};

struct Alarm {
  std::string name;
  std::string title;
  Condition condition;
  TierId see{};
  std::string say;
  /// Care by its place in the pack: where the line of one of these is told, that of this is not.
  std::vector<std::uint32_t> gives_way_to;
  bool on_purpose = false;  ///< may use `not` over a danger sign
  /// The sign of which this is the floor: how soon a patient with it and nothing else is seen at
  /// the latest. It is called `SIGN_alone_TIER`, a second one of the same tier `SIGN_alone_TIER_2`.
  std::optional<SignId> floor_of{};
  std::string because;
  std::vector<SourceId> cites;
  Place at;

  /// What sets it off: its condition but for `unless`.
  [[nodiscard]] Condition const& trigger() const;
  /// What keeps it silent once it is known; null where the alarm has no `unless`.
  [[nodiscard]] Condition const* unless() const;
};

struct Overlap {
  std::string name;
  double share = 1;
  std::vector<RuleId> rules;
  Place at{};
};

/// A condition that opens or closes a measure, and the words for why; empty when none were given,
/// never so in a `stop if`.
struct CareGate {
  Condition condition;
  std::string reason;
};

/// An amount already taken, per kg of the patient, from which harm has been published.
struct ToxicLevel {
  double mg_per_kg = 0;
  std::optional<TierId> see;
  std::string harm;
};

/// What a loss of this share of the weight was seen to do.
struct Benefit {
  double share = 0;
  std::string text;
};

/// The figures of slimming by a score of body condition.
struct Slimming {
  double ideal_score = 0;
  double each_point = 0;                          ///< share of weight too much a point above it
  double slowest_a_week = 0, fastest_a_week = 0;  ///< shares of the weight
  std::vector<Benefit> benefits;
};

/// How likely one of the causes that a measure is for has to be, by the answers, for the measure to
/// be told; a judgement.
inline constexpr double likely_enough_for_care = 0.1;

/// Home care, resolved and checked; doses stay as written until they are computed for a patient.
struct Care {
  std::string name;
  std::string title;
  std::optional<syntax::Dose> give;
  std::string how;
  std::string say;  ///< `how` as one line of the script; empty: not in it
  /// Care by its place, before this one: where the line of one of these is told, that of this is
  /// not.
  std::vector<std::uint32_t> gives_way_to;
  std::string avoid;               ///< what not to do: then this is a warning, not a measure
  bool is_fasting = false;         ///< `avoid` says what goes on of food and water before a visit
  std::string otherwise;           ///< what goes on of them where nothing fasts
  std::string watch;               ///< what means "ring again"
  bool by_mouth = false;           ///< given by mouth, with a dose or without
  bool first_aid = false;          ///< does not wait at the top tier
  bool while_waiting = false;      ///< goes on while the patient waits to be seen within the day
  std::optional<SignId> slims_by;  ///< a score from which the weight to aim at is computed
  Slimming slimming;               ///< by that score
  std::optional<SignId> taken;     ///< a mass: how much of a substance was taken already
  std::optional<SignId> since;     ///< a time: how long ago
  std::vector<ToxicLevel> levels;  ///< from low to high
  std::optional<syntax::Quantity> at_most;
  std::vector<syntax::Form> forms;
  bool for_clinician = false;
  std::string problem;          ///< the heading under which the clinician reads it; may be empty
  std::vector<CauseId> causes;  ///< those it is `for`; empty: told whatever the cause
  std::optional<Condition> fit_if;
  std::vector<CareGate> never_if;
  std::vector<CareGate> ask_vet_if;
  std::vector<CareGate> stop_if;
  char grade = 'D';
  std::string because;
  std::vector<SourceId> cites;
  Place at;
};

/// How much of a measure is given at one time, in the unit of its dose.
struct PromisedAmount {
  std::optional<double> least;  ///< where a range is promised
  double most = 0;
  std::string unit;
};

/// How much of a form holds that: mL of a liquid, else so many tablets, capsules or spoons.
struct PromisedPortion {
  syntax::FormKind kind{};
  std::optional<double> least;  ///< where a range is promised
  double most = 0;
};

struct Promise {
  syntax::Promise::Kind kind{};
  std::uint32_t subject = 0;  ///< cause, tier, alarm or measure, by `kind`
  std::uint32_t rank = 0;     ///< for `among`
  std::optional<PromisedAmount> amount;
  std::optional<PromisedPortion> portion;
  std::string text;  ///< as written
};

struct Example {
  std::string name;
  std::string title;
  Case patient;
  std::vector<Promise> promises;
  Place at;
};

/// A warning that the owner of the pack has looked at and lets stand.
struct Accepted {
  Code warning{};
  std::string reason;
  std::optional<Place> statement;  ///< the name of the statement concerned; none: the whole pack
  Place at;
};

enum class ReadingState : std::uint8_t {
  stands,   ///< of the statement as it is now
  changed,  ///< of other words: the statement has changed since
  unmarked  ///< nobody can tell of which
};

/// A licensed reader's word that a statement was read.
struct Reading {
  std::string reader;  ///< name and licence
  std::string on;      ///< `2026-12-01`
  ReadingState state{};
  Place statement;  ///< the name of the statement
  Place at;         ///< of the reader
};

struct Pack {
  std::string name;
  std::string title;
  std::string version;
  std::string species;  ///< its key; empty where the pack names none
  SpeciesWords words;
  DosedWeights doses;
  WeightDoubts weight_doubts;
  /// Adult weight of each step of `size`, for patients whose breed does not tell.
  std::optional<std::vector<WeightRange>> size_by_weight;
  double grown_years = 0;  ///< age from which weight tells size
  bool is_never_neutered = false;
  /// The only sex that is never neutered, as an index of `sex`; its patients have `neutered` no.
  std::optional<std::uint32_t> sex_never_neutered;
  SeenAt seen_at = SeenAt::clinic;  ///< unless the practice says otherwise
  /// K of body surface in m2 = K x kg^(2/3).
  std::optional<double> body_surface;
  /// K of resting energy in kcal a day = K x kg^0.75.
  std::optional<double> resting_energy;
  SyringeMarks syringe_marks;
  std::optional<Outline> outline;
  double unlisted = 0;
  double hold_low = 0.005;
  double hold_high = 0.995;
  std::vector<Reference> sources;
  std::vector<SourceId> figure_sources;  ///< where figures outside of rules were counted
  std::vector<Tier> tiers;
  std::vector<Site> sites;
  BreedTable breeds;
  std::vector<BreedGroup> groups;                        ///< of the table and of the pack
  std::vector<std::vector<std::uint32_t>> group_breeds;  ///< sorted breed indices of each group
  std::vector<Sign> signs;
  std::vector<Means> means;
  std::vector<Cause> causes;
  std::vector<Family> families;
  std::vector<Rule> rules;
  std::vector<Alarm> alarms;
  std::vector<Overlap> overlaps;
  std::vector<Care> care;
  std::vector<Example> examples;
  std::vector<Accepted> accepted;
  std::vector<Reading> readings;          ///< in the order of the files
  std::vector<std::string> not_included;  ///< rule files of its folder that nothing includes
  std::size_t statements = 0;             ///< how many can be read: all but `include`
  Place at{};

  /// The sign that tells how much pain the patient is in, if one does.
  [[nodiscard]] std::optional<SignId> pain_sign() const;
  /// Whether some amount hangs on the weight: a dose per kg or in per cent of it, or a level.
  [[nodiscard]] bool doses_by_weight() const;
  /// Under which a case tells of the patient: the species, or `patient`.
  [[nodiscard]] std::string_view patient_key() const;
  [[nodiscard]] std::optional<SignId> find_sign(std::string_view name) const;
  [[nodiscard]] std::optional<SiteId> find_site(std::string_view name) const;
  /// Whether `outer` is `inner` or covers it.
  [[nodiscard]] bool covers(SiteId outer, SiteId inner) const;
  [[nodiscard]] Sign const& operator[](SignId id) const { return signs[index(id)]; }
  [[nodiscard]] Site const& operator[](SiteId id) const { return sites[index(id)]; }
  [[nodiscard]] Cause const& operator[](CauseId id) const { return causes[index(id)]; }
  [[nodiscard]] Family const& operator[](FamilyId id) const { return families[index(id)]; }
  [[nodiscard]] Rule const& operator[](RuleId id) const { return rules[index(id)]; }
  [[nodiscard]] Alarm const& operator[](AlarmId id) const { return alarms[index(id)]; }
  [[nodiscard]] Tier const& operator[](TierId id) const { return tiers[index(id)]; }
  [[nodiscard]] Reference const& operator[](SourceId id) const { return sources[index(id)]; }
  [[nodiscard]] Means const& operator[](MeansId id) const { return means[index(id)]; }

  std::unordered_map<std::string, SignId> sign_index;
  std::unordered_map<std::string, SiteId> site_index;
};

}  // namespace flinch
