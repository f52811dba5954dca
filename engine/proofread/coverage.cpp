#include "flinch/proofread/coverage.hpp"

#include <fmt/format.h>

#include "flinch/assess/evaluator.hpp"

namespace flinch {
namespace {

constexpr double far_above = 10;  // of a level: a slip of the decimal point would pass unnoticed

template <class Id>
std::vector<Id> without_any(std::vector<std::size_t> const& counts) {
  std::vector<Id> out;
  for (std::uint32_t i = 0; i < counts.size(); ++i)
    if (counts[i] == 0) out.push_back(Id{i});
  return out;
}

std::vector<CareGate> const& gates_of(Care const& care, GateClause clause) {
  return clause == GateClause::never_if     ? care.never_if
         : clause == GateClause::ask_vet_if ? care.ask_vet_if
                                            : care.stop_if;
}

}  // namespace

std::string_view clause_text(GateClause clause) {
  switch (clause) {
    case GateClause::fit_if:
      return "fit if";
    case GateClause::never_if:
      return "never if";
    case GateClause::ask_vet_if:
      return "ask vet if";
    case GateClause::stop_if:
      break;
  }
  return "stop if";
}

std::string gate_text(Pack const& pack, GateOfCare const& gate) {
  auto out = fmt::format("`{}`", clause_text(gate.clause));
  if (gate.clause == GateClause::fit_if) return out;
  auto const& all = gates_of(pack.care[gate.care], gate.clause);
  if (all.size() > 1) out += fmt::format(" {}", gate.number + 1);
  auto const& reason = all[gate.number].reason;
  return reason.empty() ? out : fmt::format("{}, \"{}\"", out, reason);
}

Coverage::Coverage(Tables const& tables)
    : tables_(&tables),
      rules_(tables.pack().rules.size()),
      alarms_(tables.pack().alarms.size()),
      held_back_(alarms_.size()) {
  auto const& all = tables.pack().care;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (all[i].fit_if) gates_.push_back({{i, GateClause::fit_if, 0}});
    for (auto const clause : {GateClause::never_if, GateClause::ask_vet_if, GateClause::stop_if})
      for (std::size_t number = 0; number < gates_of(all[i], clause).size(); ++number)
        gates_.push_back({{i, clause, number}});
  }
}

void Coverage::add(Assessment const& result) {
  ++patients_;
  for (auto const& rule : result.rules)
    if (rule.truth == Truth::yes) ++rules_[index(rule.rule)];
  for (auto const alarm : result.judgement.fired) ++alarms_[index(alarm)];
  Evaluator const evaluator(*tables_, result.knowledge);
  for (auto const& outcome : result.alarms) {
    auto const& alarm = tables_->pack()[outcome.alarm];
    if (alarm.unless() != nullptr && outcome.truth == Truth::no &&
        evaluator.truth(alarm.trigger()) == Truth::yes)
      ++held_back_[index(outcome.alarm)];
  }
  for (auto const& exposure : result.judgement.exposures) {
    auto const& care = tables_->pack().care[exposure.care];
    // What has no `fit if` is never known to be it.
    bool const is_it = exposure.is_this == Truth::yes || !care.fit_if;
    if (!is_it || !exposure.mg_per_kg) continue;
    auto const& levels = care.levels;
    for (auto const reached : exposure.reached)
      if (levels[reached].see && levels[reached].see == exposure.see &&
          *exposure.mg_per_kg < far_above * levels[reached].mg_per_kg)
        ++levels_[{exposure.care, reached}];
  }
  for (auto& [gate, was_true, was_false] : gates_) {
    if (was_true && was_false) continue;
    auto const& care = tables_->pack().care[gate.care];
    auto const truth = evaluator.truth(gate.clause == GateClause::fit_if
                                           ? *care.fit_if
                                           : gates_of(care, gate.clause)[gate.number].condition);
    was_true = was_true || truth == Truth::yes;
    was_false = was_false || truth == Truth::no;
  }
}

std::vector<UntriedGate> Coverage::untried_gates() const {
  std::vector<UntriedGate> out;
  for (auto const& one : gates_)
    if (!one.was_true || !one.was_false) out.push_back(one);
  return out;
}

std::vector<RuleId> Coverage::silent_rules() const { return without_any<RuleId>(rules_); }

std::vector<AlarmId> Coverage::silent_alarms() const { return without_any<AlarmId>(alarms_); }

Coverage cover_examples(Tables const& tables) {
  Coverage out(tables);
  Assessor assessor(tables);
  for (auto const& example : tables.pack().examples) out.add(assessor.assess(example.patient));
  return out;
}

}  // namespace flinch
