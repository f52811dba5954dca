#pragma once
// What every part of a review writes: weights, the answers behind them, sources, trees.
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "flinch/assess/uncertainty.hpp"
#include "flinch/explain/cause.hpp"
#include "flinch/explain/condition.hpp"
#include "flinch/explain/contrast.hpp"
#include "flinch/explain/rule.hpp"
#include "flinch/explain/tier.hpp"
#include "flinch/explain/what_if.hpp"
#include "look/page.hpp"
#include "review/review_request.hpp"

namespace flinch::cli {

class ReviewPage {
 public:
  ReviewPage(Reviewed const& reviewed, Look const& look)
      : reviewed_(reviewed),
        pack_(reviewed.tables.pack()),
        uncertainty_(reviewed.tables, reviewed.result),
        page_(look) {}

  /// Everything for and against a cause, with sources, and what is open.
  void cause(std::optional<CauseId> cause);
  void rule(RuleId rule);
  void alarm(AlarmId alarm);
  void between(std::optional<CauseId> first, std::optional<CauseId> second);
  void tier();
  void changes();
  void what_if(std::vector<Change> const& changes);
  void overview();
  [[nodiscard]] std::string take();

 private:
  /// `+11.5 dB  strongly for      ` and the text behind it, wrapped.
  void weighed(double nats, std::string_view text);
  void rule_weight(RuleWeight const& weight, CauseId cause, bool is_full);
  void cause_weights(CauseExplanation const& why);
  void added_up(CauseExplanation const& why);
  void open_rules(std::vector<OpenRule> const& open);
  void contrast_rules(Contrast const& c);
  void contrast_open(Contrast const& c, std::size_t shown);
  [[nodiscard]] std::string verdict(Contrast const& c) const;
  void rationale(std::string const& because, std::vector<SourceId> const& cites);
  void tree(ConditionNode const& node, std::size_t indent);
  void ways(std::vector<WayToFire> const& ways, std::vector<SignId> const& other_facts);
  void bands(RuleExplanation const& why);
  void tier_line(std::optional<TierId> tier);
  void tier_reasons(TierExplanation const& why);
  void alarms(TierExplanation const& why);
  void tier_by_ranking(TierReason const& reason);
  void contradictions();
  void alike_causes();
  void what_if_result(WhatIf const& what);
  void what_if_shifts(WhatIf const& what);
  void change_sets(std::string_view heading, std::vector<ChangeSet> const& sets,
                   bool is_first_told);
  void first_causes(std::size_t shown);
  void result_line(std::string_view when, Assessment const& result);
  void look_closer();

  [[nodiscard]] std::string answers(std::vector<SignId> const& signs) const;
  [[nodiscard]] std::string labels(std::vector<SignId> const& signs) const;
  [[nodiscard]] std::string outcome_text(RuleId rule, Truth truth, std::uint32_t band) const;
  [[nodiscard]] std::string changes_text(std::span<Change const> changes) const;
  [[nodiscard]] std::string_view bullet() const;

  Reviewed reviewed_;
  Pack const& pack_;
  Uncertainty uncertainty_;
  Page page_;
};

}  // namespace flinch::cli
