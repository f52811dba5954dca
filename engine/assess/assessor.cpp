// A judgement with all that explains it.
#include <algorithm>

#include "assess/judge.hpp"
#include "flinch/assess/assessment.hpp"

namespace flinch {
namespace {

std::vector<RuleId> touched_rules(Tables const& tables, std::vector<Known> const& known,
                                  std::span<RuleId const> unmentioned) {
  std::vector<RuleId> out(unmentioned.begin(), unmentioned.end());
  for (auto const& one : known)
    for (auto const root : tables.roots_of(one.sign))
      if (tables.root(root).kind == RootKind::rule)
        out.push_back(RuleId{tables.root(root).subject});
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

std::vector<Ranked> ranking(Tables const& tables, Judgement const& judgement,
                            std::vector<Contribution> const& contributions) {
  auto const causes = tables.pack().causes.size();
  auto const& by_answers = judgement.posteriors_by_answers();
  std::vector<double> evidence(causes + 1);
  for (auto const& contribution : contributions)
    evidence[index(contribution.cause)] += contribution.counted();
  std::vector<std::uint32_t> order;
  judgement.most_probable(causes + 1, order);
  std::vector<Ranked> out;
  out.reserve(order.size());
  for (auto const i : order) {
    auto const cause = i < causes ? std::optional(CauseId{i}) : std::nullopt;
    out.push_back({cause, tables.priors()[i], evidence[i], judgement.posteriors[i], by_answers[i]});
  }
  return out;
}

// In a list in the order of `id`; null where none has it.
template <class T, class Id>
T const* find_in_order(std::vector<T> const& all, Id T::*id, Id wanted) {
  auto const found = std::lower_bound(all.begin(), all.end(), wanted,
                                      [&](T const& one, Id other) { return one.*id < other; });
  return found != all.end() && (*found).*id == wanted ? &*found : nullptr;
}

}  // namespace

RuleOutcome const* Assessment::find(RuleId rule) const {
  return find_in_order(rules, &RuleOutcome::rule, rule);
}

Truth Assessment::truth(RuleId rule) const {
  auto const* outcome = find(rule);
  return outcome == nullptr ? Truth::unknown : outcome->truth;
}

Truth Assessment::truth(AlarmId alarm) const {
  auto const* outcome = find_in_order(alarms, &AlarmOutcome::alarm, alarm);
  return outcome == nullptr ? Truth::unknown : outcome->truth;
}

std::span<Contribution const> Assessment::contributions_of(RuleId rule) const {
  auto const* outcome = find(rule);
  return outcome == nullptr ? std::span<Contribution const>() : contributions_of(*outcome);
}

std::span<Contribution const> Assessment::contributions_of(RuleOutcome const& rule) const {
  return std::span(contributions).subspan(rule.first_contribution, rule.contribution_count);
}

std::size_t Assessment::place(std::optional<CauseId> cause) const {
  auto const at = std::find_if(ranking.begin(), ranking.end(),
                               [&](Ranked const& one) { return one.cause == cause; });
  return static_cast<std::size_t>(at - ranking.begin());
}

Assessor::Assessor(Tables const& tables) : judge_(std::make_unique<Judge>(tables)) {}
Assessor::~Assessor() = default;
Assessor::Assessor(Assessor&&) noexcept = default;
Assessor& Assessor::operator=(Assessor&&) noexcept = default;

Judgement const& Assessor::judge(Case const& patient) { return judge_->judge(patient); }

Assessment Assessor::assess(Case const& patient) {
  auto const& tables = judge_->tables();
  Assessment out;
  out.judgement = judge_->judge(patient);
  out.knowledge = judge_->known().copied(patient);
  auto const unmentioned = judge_->unmentioned();
  std::vector<Decided> decided;
  std::uint32_t first = 0;
  for (auto const rule : touched_rules(tables, out.knowledge.known, unmentioned)) {
    auto const outcome = judge_->outcome(rule);
    bool const is_banded = tables.rule_root(rule).is_banded;
    RuleOutcome one{rule, Truth::unknown, is_banded ? 0U : 1U, first, 0};
    // What nobody mentioned stays unknown, and weighs all the same.
    bool const is_silent = std::binary_search(unmentioned.begin(), unmentioned.end(), rule);
    if (is_silent || outcome > 0) {
      one.band = is_silent ? Tables::band_not_mentioned : outcome - 1;
      if (!is_silent) one.truth = is_banded || one.band == 0 ? Truth::yes : Truth::no;
      one.contribution_count = static_cast<std::uint32_t>(tables.entries(rule).size());
      decided.push_back({rule, one.band});
      first += one.contribution_count;
    }
    out.rules.push_back(one);
  }
  out.contributions = judge_->contributions(decided);
  out.ranking = ranking(tables, out.judgement, out.contributions);
  out.alarms.assign(judge_->alarms().begin(), judge_->alarms().end());
  std::sort(out.alarms.begin(), out.alarms.end(),
            [](AlarmOutcome const& a, AlarmOutcome const& b) { return a.alarm < b.alarm; });
  return out;
}

}  // namespace flinch
