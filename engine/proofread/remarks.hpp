#pragma once
// Remarks being gathered, and the looks that make them: one file a kind of remark.
#include <string>
#include <vector>

#include "flinch/assess/tables.hpp"
#include "flinch/text/diagnostic.hpp"

namespace flinch {

/// A warning, and the names of the statements in which it may be accepted.
struct Remark {
  Diagnostic warning;
  std::vector<Place> statements;
  std::string must_name;  ///< what the reason of an `accept` must name; empty: nothing
};

class Remarks {
 public:
  /// What is remarkable at a place inside the statements, why that matters, and what can be done.
  Diagnostic& add(Code code, Place at, std::vector<Place> statements, std::string what,
                  std::string why, std::string remedy);
  /// The remark added last is accepted only by a reason that names this.
  void must_name(std::string name) { all_.back().must_name = std::move(name); }
  [[nodiscard]] std::vector<Remark> take() { return std::move(all_); }

 private:
  std::vector<Remark> all_;
};

/// Things that nothing uses: signs, answers, meanings, sites, groups, families, tiers, sources;
/// causes that no rule speaks for.
void find_unused(Pack const& pack, Remarks& remarks);

/// Rules that count one answer twice.
void find_repeats(Tables const& tables, Remarks& remarks);

/// Overlaps and figures that change nothing, questions asked twice, judged figures that weigh much
/// or say always or never, rules whose figures may have changed places.
void find_odd_figures(Tables const& tables, Remarks& remarks);

/// Steps that do not begin with the usual, questions for the clinic that every patient is asked,
/// names that differ by a letter.
void find_odd_signs(Pack const& pack, Remarks& remarks);

/// What asks for the last tier, and causes of the most urgent tier that no alarm looks out for.
void find_odd_tiers(Pack const& pack, Remarks& remarks);

/// Causes that another listed one precedes whatever the answers are. The difference between the
/// two is bounded from above, rule by rule and jointly for rules over one sign; a cause that only
/// several others together keep from the first place, or that an overlap does, is not found.
void find_never_first(Tables const& tables, Remarks& remarks);

/// Figures of two rules that cannot both be right: a part more frequent than its whole, a condition
/// joined by `and` more frequent than one of its parts, shares of answers that exclude each other
/// and do not come to the whole.
void find_impossible_pairs(Pack const& pack, Remarks& remarks);

/// Rules that in some example speak clearly of one of the first causes and are silent on another:
/// of each rule and cause that it is silent on one remark, the heaviest first.
void find_silent_pairs(Tables const& tables, Remarks& remarks);

/// Alarms that no example sets off; those with `unless` that none shows both standing and held
/// back; levels of what was taken that set a tier and that no example just reaches.
void find_untested(Tables const& tables, Remarks& remarks);

/// An `unless` that a danger sign of the same or a more urgent tier makes true: adding that sign
/// would hold the alarm back.
void find_calming_dangers(Pack const& pack, Remarks& remarks);

/// Doses whose amount no example promises; intervals and durations too short or too long, limits
/// that cap every dose, forms that can measure none.
void find_odd_doses(Pack const& pack, Remarks& remarks);

/// Measures that are barred whenever they fit, fasts behind one that always comes first, first aid
/// for some patients that is not said.
void find_idle_care(Pack const& pack, Remarks& remarks);

/// Tiers whose threshold the base rates reach alone, or together with what the patient is: age,
/// sex, neutered and breed in every combination that the rules tell apart (size and weight in a
/// pack without breeds), up to 50,000; signs beyond that stay unknown.
void find_low_thresholds(Tables const& tables, Remarks& remarks);

/// Tiers whose words speak of food or drink: what goes on of these is told by `fasting`.
void find_food_in_tiers(Pack const& pack, Remarks& remarks);

/// Texts that send the patient somewhere, in a pack that says that the vet comes to it.
void find_sent_away(Pack const& pack, Remarks& remarks);

/// Readings of other words than those that stand there, or of nobody knows which.
void find_stale_readings(Pack const& pack, Remarks& remarks);

}  // namespace flinch
