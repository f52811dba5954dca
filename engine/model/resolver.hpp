#pragma once
// From the syntax trees of a pack's files to the pack: names become ids, quantities are converted,
// and what cannot be meant is reported. One class, because everything shares the tables of names;
// its members live in one file for each part of the job.
#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "flinch/model/pack.hpp"
#include "flinch/syntax/tree.hpp"
#include "flinch/text/diagnostic.hpp"
#include "model/symbols.hpp"

namespace flinch {

/// Steps, choices or sizes of one sign: they are kept as bits.
inline constexpr std::size_t most_values = 64;

class Resolver {
 public:
  /// `left_out` are rule files beside the pack that nothing includes; a pack that is not `is_whole`
  /// asks for a file that could not be read.
  Resolver(std::vector<syntax::File> const& files, BreedTable breeds, std::vector<LeftOut> left_out,
           bool is_whole, Report& report);

  /// The pack as far as it could be resolved; sound only if the report has no errors.
  [[nodiscard]] Pack resolve();

 private:
  template <class T>
  struct Written {
    T const* statement;
    syntax::Damage const* damage = nullptr;  ///< where a clause was lost to a syntax error

    [[nodiscard]] bool damaged() const { return damage != nullptr; }
    /// A clause that may have been lost was reported already.
    [[nodiscard]] bool has_lost(std::string_view clause) const {
      return damaged() &&
             (damage->is_wide || std::find(damage->clauses.begin(), damage->clauses.end(),
                                           clause) != damage->clauses.end());
    }
  };

  // resolve_names.cpp: which statements there are, what they are called, which warnings they
  // accept, who has read them
  void collect(syntax::File const& file);
  void forgive_what_is_left_out();
  /// A sign whose answer could not be read: nothing can be said of what is written of it.
  [[nodiscard]] bool is_kind_unknown(std::uint32_t sign) const;
  [[nodiscard]] std::vector<Symbols*> used_names();
  [[nodiscard]] std::vector<std::string_view> keywords_of(Symbols const& names) const;
  void define_names();
  void define_floors();
  void names_by_their_words();
  void accepts();
  void readings();

  // resolve_head.cpp: pack, sources, tiers
  void pack_head();
  void sources();
  void source_is_found(syntax::Source const& written);
  void tiers();
  [[nodiscard]] std::optional<TierId> tier_named(syntax::Name const& name);
  [[nodiscard]] std::string tiers_there_are(std::string_view asked) const;

  // resolve_vocabulary.cpp: sites, breeds, signs, means
  void sites();
  void titles_of_sites_are_their_own();
  void groups();
  void signs();
  void sign_answer(Written<syntax::Sign> const& written, Sign& out);
  void sign_relations();
  void means();
  void resolve_meaning(std::size_t meaning, std::size_t depth);
  void also_said(syntax::Sign const& s, Sign& out);
  [[nodiscard]] std::vector<Value> values(std::vector<syntax::Value> const& written,
                                          std::string_view kind);

  // resolve_species.cpp: what the pack says of its species
  void species(syntax::PackHead const& head);
  void neutering(syntax::PackHead const& head);
  void words_apart(syntax::PackHead const& head);
  void body_surface(syntax::PackHead const& head);
  [[nodiscard]] std::optional<double> figure(std::optional<syntax::SourcedNumber> const& written);
  void finest_mark(std::optional<syntax::Quantity> const& written, double& mL);
  void believable(syntax::PackHead const& head);
  void weight_doubts(syntax::PackHead const& head);
  void sizes(syntax::PackHead const& head);
  [[nodiscard]] std::optional<double> kilograms(syntax::Quantity const& written);

  // resolve_condition.cpp
  [[nodiscard]] std::optional<Condition> condition(syntax::Condition const& written);
  [[nodiscard]] std::optional<Condition> part(syntax::Condition const& written);
  void parts_differ(Condition const& joined);
  [[nodiscard]] Condition with_unless(Condition trigger,
                                      std::optional<syntax::Condition> const& unless);
  [[nodiscard]] std::size_t tests_in(Condition const& condition) const;
  [[nodiscard]] bool names_an_answer(syntax::Name const& name);
  [[nodiscard]] std::optional<Condition> test(syntax::Test const& written);
  [[nodiscard]] std::optional<std::uint32_t> value_of(Sign const& sign, syntax::Name const& name);
  [[nodiscard]] std::optional<double> amount(Sign const& sign, syntax::Quantity const& written);
  [[nodiscard]] bool fill(Test& test, Sign const& sign, std::monostate);
  [[nodiscard]] bool fill(Test& test, Sign const& sign, syntax::AtSite const& at);
  [[nodiscard]] bool fill(Test& test, Sign const& sign, syntax::AtLeastStep const& at_least);
  [[nodiscard]] bool fill(Test& test, Sign const& sign, syntax::IsValue const& is);
  [[nodiscard]] bool fill(Test& test, Sign const& sign, syntax::Compares const& compares);
  [[nodiscard]] bool fill(Test& test, Sign const& sign, syntax::Between const& between);
  [[nodiscard]] bool fill(Test& test, Sign const& sign, syntax::InGroup const& in);

  // resolve_ranking.cpp: causes, families, rules, overlaps
  void causes();
  void families();
  [[nodiscard]] std::optional<CauseId> cause_named(syntax::Name const& name);
  [[nodiscard]] std::optional<std::uint32_t> cause_or_family_named(syntax::Name const& name);
  void rules();
  void rule_bands(syntax::Over const& written, Rule& out);
  void check_number_bands(syntax::Over const& written, Rule const& rule);
  void check_value_bands(syntax::Over const& written, Rule const& rule);
  void rule_frequencies(Written<syntax::Rule> const& written, Rule& out);
  void rule_entries(syntax::Rule const& written, Rule& out);
  void family_entries(syntax::InCause const& in, RuleEntry const& figure, Rule& out);
  [[nodiscard]] std::vector<double> shares(syntax::Frequencies const& written, Rule const& rule);
  /// With its sample, which nothing else of the pack keeps.
  [[nodiscard]] std::optional<double> frequency(syntax::Frequency const& written);
  [[nodiscard]] std::optional<double> proportion(syntax::Frequency const& written);
  void sample(std::optional<syntax::Sample> const& written, std::optional<double>& size,
              std::optional<SourceId>& source);
  void overlaps();

  // resolve_advice.cpp: alarms, care
  void alarms();
  void floors();
  [[nodiscard]] std::optional<Condition> floor_condition(syntax::Sign const& sign,
                                                         syntax::Floor const& floor);
  void care();
  void care_painkiller(syntax::Care const& written);
  void care_fasting(syntax::Care const& written, Care& out);
  void care_slimming(Written<syntax::Care> const& written, Care& out);

  // resolve_amounts.cpp: doses, and levels of what was taken
  void needs_weights(syntax::Care const& written);
  void care_dose(Written<syntax::Care> const& entry);
  void care_way(syntax::Name const& way);
  void care_range(syntax::Dose const& dose);
  void care_interval(syntax::Dose const& dose);
  void care_forms(syntax::Care const& written);
  /// Whether what is said of the form fits it; if not, that is reported.
  [[nodiscard]] bool is_sound(syntax::Form const& form);
  void care_exposure(Written<syntax::Care> const& entry, Care& out);
  void is_no_less_urgent(syntax::Level const& written, ToxicLevel const& level,
                         ToxicLevel const& less);
  void name_signs_that_fit(Dimension dimension, std::string_view example, Diagnostic& error) const;
  void can_be_reached(syntax::Level const& written, ToxicLevel const& level, Care const& care);

  // resolve_examples.cpp: patients, and what is promised of them
  void examples();
  void example_answers(syntax::Example const& written, Example& out);
  [[nodiscard]] std::optional<Promise> promise(syntax::Promise const& written);
  [[nodiscard]] std::optional<PromisedAmount> promised_amount(syntax::Promise const& written);
  [[nodiscard]] std::optional<PromisedPortion> promised_portion(syntax::Promise const& written);

  void missing(std::string_view kind, syntax::Name const& name, std::string_view clause);
  void missing_harm(syntax::Name const& tier);
  template <class T>
  void rationale(std::string_view kind, Written<T> const& written, std::string& because,
                 std::vector<SourceId>& cites);
  [[nodiscard]] std::vector<SourceId> cited(std::vector<syntax::Name> const& names);
  /// The words of `also called`; those without a word in them are reported.
  [[nodiscard]] std::vector<std::string> other_calls(std::vector<syntax::Text> const& written);
  [[nodiscard]] std::optional<double> quantity(syntax::Quantity const& written,
                                               Dimension dimension);

  std::vector<syntax::File> const& files_;
  std::vector<LeftOut> left_out_;
  bool is_whole_ = true;
  Report& report_;
  Pack pack_;

  std::vector<Written<syntax::PackHead>> written_packs_;
  std::vector<Written<syntax::Source>> written_sources_;
  std::vector<Written<syntax::Tier>> written_tiers_;
  std::vector<Written<syntax::Site>> written_sites_;
  std::vector<Written<syntax::Breeds>> written_breeds_;
  std::vector<Written<syntax::Sign>> written_signs_;
  std::vector<Written<syntax::Means>> written_means_;
  std::vector<Written<syntax::Cause>> written_causes_;
  std::vector<Written<syntax::Family>> written_families_;
  std::vector<Written<syntax::Rule>> written_rules_;
  std::vector<Written<syntax::Alarm>> written_alarms_;
  std::vector<Written<syntax::Overlap>> written_overlaps_;
  std::vector<Written<syntax::Care>> written_care_;
  std::vector<Written<syntax::Example>> written_examples_;

  Symbols source_names_{"source"}, tier_names_{"tier"}, site_names_{"site"},
      group_names_{"group of breeds"}, sign_names_{"sign"}, cause_names_{"cause"},
      rule_names_{"rule"}, alarm_names_{"alarm"}, overlap_names_{"overlap"}, care_names_{"care"},
      example_names_{"example"};
  bool is_unnamed_told_ = false;          ///< that an example names a species, and the pack none
  std::vector<std::size_t> means_tests_;  ///< how many tests each meaning opens up to
  std::uint32_t first_means_ = 0;         ///< indices of sign_names_ from here on are meanings
  std::vector<std::string> floor_names_;  ///< of all signs, in their order
  std::uint32_t first_family_ = 0;        ///< indices of cause_names_ from here on are families
};

}  // namespace flinch
