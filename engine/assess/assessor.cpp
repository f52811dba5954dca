// Truth of what the known answers bear on, the ranking, and the tiers.
#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "assess/evaluate.hpp"
#include "flinch/assess/assessment.hpp"

namespace flinch {

Assessor::Assessor(Tables const& tables)
    : tables_(tables),
      known_at_(tables.pack().signs.size(), -1),
      touched_(tables.root_count()),
      stack_(tables.deepest_stack() + 1),
      evidence_(tables.pack().causes.size() + 1) {}

Assessment Assessor::assess(Case const& dog) {
  take_answers(dog);
  evaluate_touched();
  count_overlaps();
  rank();
  set_tiers();
  for (auto const& known : out_.known) known_at_[index(known.sign)] = -1;
  return std::exchange(out_, {});
}

Truth Assessor::leaf(Tables::Leaf const& leaf) const {
  auto const at = known_at_[index(leaf.sign)];
  if (at < 0) return Truth::unknown;
  return leaf_truth(tables_, leaf, out_.known[static_cast<std::size_t>(at)].answer);
}

Truth Assessor::evaluate(Tables::Root const& root) {
  return flinch::evaluate(tables_, root, stack_, [&](Tables::Leaf const& l) { return leaf(l); });
}

// A condition none of whose signs is known is unknown, so only what hangs on known signs is looked
// at.
void Assessor::evaluate_touched() {
  touched_roots_.clear();
  for (auto const& known : out_.known)
    for (auto const root : tables_.roots_of(known.sign))
      if (!touched_[root]) {
        touched_[root] = true;
        touched_roots_.push_back(root);
      }
  std::sort(touched_roots_.begin(), touched_roots_.end());
  for (auto const i : touched_roots_) {
    touched_[i] = false;
    auto const& root = tables_.root(i);
    if (root.kind == RootKind::rule) evaluate_rule(root);
    if (root.kind == RootKind::alarm)
      out_.alarms.push_back({AlarmId{root.subject}, evaluate(root)});
  }
}

void Assessor::evaluate_rule(Tables::Root const& root) {
  RuleOutcome outcome{RuleId{root.subject}, Truth::unknown, 0,
                      static_cast<std::uint32_t>(out_.contributions.size()), 0};
  if (root.is_banded) {
    auto const bands = tables_.steps(root);
    for (std::uint32_t band = 0; band < bands.size(); ++band)
      if (leaf(tables_.leaves()[bands[band].detail]) == Truth::yes) {
        outcome.truth = Truth::yes;
        outcome.band = band;
      }
  } else {
    outcome.truth = evaluate(root);
    outcome.band = outcome.truth == Truth::yes ? 0 : 1;
  }
  if (outcome.truth != Truth::unknown)
    for (auto const& entry : tables_.entries(outcome.rule))
      out_.contributions.push_back(
          {outcome.rule, entry.cause, tables_.weight(entry, outcome.band), 1});
  outcome.contribution_count =
      static_cast<std::uint32_t>(out_.contributions.size()) - outcome.first_contribution;
  out_.rules.push_back(outcome);
}

// Within an overlap, for each cause and each direction: the strongest in full, the next by the
// share, the next by its square. Equal weights keep the order of the pack.
void Assessor::count_overlaps() {
  overlapping_.clear();
  for (std::uint32_t i = 0; i < out_.contributions.size(); ++i) {
    auto const& contribution = out_.contributions[i];
    auto const overlap = tables_.overlap_of(contribution.rule);
    if (overlap < 0) continue;
    auto const direction = contribution.weight > 0 ? 1U : 0U;
    overlapping_.push_back({static_cast<std::uint64_t>(overlap) << 33U |
                                static_cast<std::uint64_t>(contribution.cause) << 1U | direction,
                            std::abs(contribution.weight), i});
  }
  // Contributions come by rule, so the place settles equal weights.
  std::sort(overlapping_.begin(), overlapping_.end(),
            [](Overlapping const& a, Overlapping const& b) {
              if (a.group != b.group) return a.group < b.group;
              return a.strength != b.strength ? a.strength > b.strength : a.place < b.place;
            });
  for (std::size_t i = 1; i < overlapping_.size(); ++i) {
    if (overlapping_[i].group != overlapping_[i - 1].group) continue;
    auto const share = tables_.pack().overlaps[overlapping_[i].group >> 33U].share;
    out_.contributions[overlapping_[i].place].share =
        out_.contributions[overlapping_[i - 1].place].share * share;
  }
}

void Assessor::rank() {
  auto const causes = tables_.pack().causes.size();
  std::fill(evidence_.begin(), evidence_.end(), 0.0);
  for (auto const& contribution : out_.contributions)
    evidence_[index(contribution.cause)] += contribution.counted();
  out_.ranking.resize(causes + 1);
  auto highest = -std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i <= causes; ++i)
    highest = std::max(highest, tables_.log_prior(i) + evidence_[i]);
  double sum = 0;
  for (std::size_t i = 0; i <= causes; ++i) {
    auto& ranked = out_.ranking[i];
    if (i < causes) ranked.cause = CauseId{static_cast<std::uint32_t>(i)};
    ranked.prior = tables_.prior(i);
    ranked.evidence = evidence_[i];
    ranked.posterior = std::exp(tables_.log_prior(i) + evidence_[i] - highest);
    sum += ranked.posterior;
  }
  for (auto& ranked : out_.ranking) ranked.posterior /= sum;
  std::stable_sort(out_.ranking.begin(), out_.ranking.end(),
                   [](Ranked const& a, Ranked const& b) { return a.posterior > b.posterior; });
}

// Of most dogs nothing is said that bears on it.
Swallowed Assessor::swallowed() const {
  auto const signs = tables_.signs_of_taken();
  bool const is_told = std::any_of(signs.begin(), signs.end(),
                                   [&](SignId sign) { return known_at_[index(sign)] >= 0; });
  return is_told ? weigh_exposures(tables_, out_) : Swallowed{{}, tables_.highest_of_taken()};
}

void Assessor::set_tiers() {
  auto const& pack = tables_.pack();
  auto const higher = [](std::optional<TierId> a, std::optional<TierId> b) {
    return !a ? b : !b ? a : std::min(*a, *b);
  };
  out_.tiers.resize(pack.tiers.size());
  for (auto const& ranked : out_.ranking)
    if (ranked.cause) out_.tiers[index(pack[*ranked.cause].see)].probability += ranked.posterior;
  double needing_more = 0;
  out_.too_few_answers = out_.counted_answers < pack.needs_answers;
  for (std::size_t i = 0; i < out_.tiers.size(); ++i) {
    auto& tier = out_.tiers[i];
    needing_more += tier.probability;
    tier.probability = needing_more;
    tier.threshold = pack.tiers[i].threshold();
    // Rounding must not lower a tier: a probability at the threshold reaches it.
    constexpr double rounding = 1e-12;
    tier.is_reached = !tier.threshold || tier.probability >= *tier.threshold * (1 - rounding);
    if (tier.is_reached && !out_.too_few_answers && !out_.ranking_tier)
      out_.ranking_tier = TierId{static_cast<std::uint32_t>(i)};
  }
  auto possible = std::vector(tables_.alarms_by_tier().begin(), tables_.alarms_by_tier().end());
  for (auto const& alarm : out_.alarms) {
    auto const see = pack[alarm.alarm].see;
    if (alarm.truth == Truth::yes) out_.alarm_tier = higher(out_.alarm_tier, see);
    if (alarm.truth == Truth::no) --possible[index(see)];
  }
  auto taken = swallowed();
  for (auto const& exposure : taken.exposures)
    out_.alarm_tier = higher(out_.alarm_tier, exposure.see);
  out_.exposures = std::move(taken.exposures);
  out_.tier = higher(out_.alarm_tier, out_.ranking_tier);
  out_.ceiling = higher(out_.tier, taken.could_reach);
  for (std::uint32_t i = 0; i < possible.size(); ++i)
    if (possible[i] > 0) {
      out_.ceiling = higher(out_.ceiling, TierId{i});
      break;
    }
}

}  // namespace flinch
