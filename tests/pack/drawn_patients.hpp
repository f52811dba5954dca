#pragma once
// Dogs drawn from a pack's own frequencies: a cause, then answers as the rules say they come with
// it.
#include <functional>
#include <map>
#include <optional>

#include "flinch/assess/assessment.hpp"
#include "pack/chance.hpp"

namespace flinch::test {

struct DrawnPatient {
  std::optional<CauseId> truth;  ///< none: none of the listed causes
  Case patient;
};

/// Draws one answer for each rule over a single sign, or over alternatives joined by `or`; the
/// first rule that bears on a sign decides it. Rules over several signs at once are left to what
/// the others drew. Answers are drawn apart from each other, though in life they come together.
class PatientDrawer {
 public:
  PatientDrawer(Tables const& tables, Chance& chance);
  /// A dog with this cause (none: without any), of whose answers `hidden` (0 to 1) are left out;
  /// age, sex and the like are always known.
  [[nodiscard]] DrawnPatient draw(std::optional<CauseId> truth, double hidden);
  /// The dog that speaks most for a cause: every rule over allowed signs has the outcome in which
  /// the cause is more frequent than usual. Rules over breeds and over several signs at once are
  /// left out.
  [[nodiscard]] Case typical(CauseId cause, std::function<bool(SignId)> const& allowed);
  /// A cause by the pack's base rates.
  [[nodiscard]] std::optional<CauseId> draw_cause();

 private:
  using Answers = std::map<SignId, Answer>;
  void draw_rule(Rule const& rule, std::optional<CauseId> truth, Answers& answers);
  void draw_tests(std::vector<Test const*> const& tests, double frequency, Answers& answers);
  void draw_band(Rule const& rule, std::vector<double> const& shares, Answers& answers);
  void settle(Test const& test, bool is_true, Answers& answers);
  [[nodiscard]] double unremarkable(SignId number) const;
  void settle_sites(Test const& test, bool is_true, Answers& answers);
  void drop_contradictions(Case& patient);

  Tables const& tables_;
  Pack const& pack_;
  Assessor assessor_;
  Chance& chance_;
};

}  // namespace flinch::test
