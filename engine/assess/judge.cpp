#include "assess/judge.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <utility>

namespace flinch {

void Judgement::most_probable(std::size_t count, std::vector<std::uint32_t>& out) const {
  count = std::min(count, posteriors.size());
  auto const is_before = [&](std::uint32_t a, std::uint32_t b) {
    return posteriors[a] != posteriors[b] ? posteriors[a] > posteriors[b] : a < b;
  };
  out.resize(count);
  std::iota(out.begin(), out.end(), 0U);
  std::sort(out.begin(), out.end(), is_before);
  // Few of the others come among the first.
  for (auto i = static_cast<std::uint32_t>(count); i < posteriors.size() && count > 0; ++i) {
    if (!is_before(i, out.back())) continue;
    out.pop_back();
    out.insert(std::upper_bound(out.begin(), out.end(), i, is_before), i);
  }
}

Assessor::Judge::Judge(Tables const& tables)
    : tables_(tables),
      known_(tables),
      effects_(tables),
      exponents_(tables.pack().causes.size() + 1),
      cluster_marks_(tables.clusters().size()),
      alarm_marks_(tables.pack().alarms.size()),
      states_(tables.clusters().size()) {}

Judgement const& Assessor::Judge::judge(Case const& dog) {
  known_.take(dog);
  out_.contradictions = known_.contradictions();
  evaluate_touched();
  weigh();
  set_posteriors();
  set_ranking_tier();
  set_alarm_tier();
  return out_;
}

// The alarms, and which clusters are to be weighed.
void Assessor::Judge::evaluate_touched() {
  ++case_;
  if (case_ == 0) {  // after four thousand million cases the marks begin anew
    std::fill(cluster_marks_.begin(), cluster_marks_.end(), 0U);
    std::fill(alarm_marks_.begin(), alarm_marks_.end(), 0U);
    case_ = 1;
  }
  clusters_.clear();
  alarms_.clear();
  out_.counted_answers = 0;
  for (auto const& [sign, answer, origin, from] : known_.all()) {
    if (origin == Origin::given && tables_.is_counted(sign)) ++out_.counted_answers;
    auto const cell = known_.cell(sign);
    for (auto const& on : tables_.clusters().on(sign)) {
      if (cluster_marks_[on.cluster] != case_) {
        cluster_marks_[on.cluster] = case_;
        states_[on.cluster] = 0;
        clusters_.push_back(on.cluster);
      }
      if (cell != Cells::uncut) states_[on.cluster] += tables_.clusters().part(on, cell);
    }
    for (auto const alarm : tables_.alarms_of(sign)) {
      if (alarm_marks_[alarm] == case_) continue;
      alarm_marks_[alarm] = case_;
      AlarmId const id{alarm};
      alarms_.push_back({id, truth_of_outcome(known_.outcome(tables_.place(id)))});
    }
  }
}

void Assessor::Judge::weigh() {
  out_.posteriors.assign(tables_.priors().begin(), tables_.priors().end());
  reach_ = 0;
  for (auto const& known : known_.all())
    if (auto const cell = known_.cell(known.sign); cell != Cells::uncut)
      apply(effects_.of_answer(known.sign, cell));
  for (auto const cluster : clusters_) apply_cluster(cluster);
}

void Assessor::Judge::apply_cluster(std::uint32_t cluster) {
  auto const& clusters = tables_.clusters();
  auto const& its = clusters[cluster];
  if (its.keeping == Clusters::Keeping::none) {
    decided_.clear();
    for (auto const& member : clusters.members(its))
      if (auto const now = outcome(member.rule)) decided_.push_back({member.rule, now - 1});
    apply(effects_.of_outcomes(decided_));
    return;
  }
  auto state = states_[cluster];
  for (auto const& member : clusters.run(its)) state += member.place * outcome(member.rule);
  if (state > 0) apply(effects_.of_state(cluster, state));
}

void Assessor::Judge::apply(Effect const& effect) {
  if (effect.reach > Effects::furthest) {
    normalise();
    for (auto const& [cause, factor] : effect.factors) {
      out_.posteriors[cause] *= factor;
      normalise(cause);
    }
    return;
  }
  reach_ += effect.reach;
  if (reach_ > 2 * Effects::furthest) {
    normalise();
    reach_ = effect.reach;
  }
  for (auto const& [cause, factor] : effect.factors) out_.posteriors[cause] *= factor;
}

void Assessor::Judge::normalise(std::size_t cause) {
  int exponent = 0;
  out_.posteriors[cause] = std::frexp(out_.posteriors[cause], &exponent);
  exponents_[cause] += exponent;
  has_exponents_ = true;
}

void Assessor::Judge::normalise() {
  for (std::size_t i = 0; i < exponents_.size(); ++i) normalise(i);
  reach_ = 0;
}

void Assessor::Judge::take_exponents() {
  normalise();
  auto& weights = out_.posteriors;
  int highest = std::numeric_limits<int>::min();
  for (std::size_t i = 0; i < weights.size(); ++i)
    if (weights[i] > 0) highest = std::max(highest, exponents_[i]);
  for (std::size_t i = 0; i < weights.size(); ++i)
    weights[i] = std::ldexp(weights[i], exponents_[i] - highest);
  std::fill(exponents_.begin(), exponents_.end(), 0);
  has_exponents_ = false;
}

// From weights to probabilities: of the causes, and of a cause that needs each tier or a higher
// one.
void Assessor::Judge::set_posteriors() {
  if (has_exponents_) take_exponents();
  auto const thresholds = tables_.thresholds();
  out_.tiers.resize(thresholds.size());
  double sum = 0;
  for (std::uint32_t i = 0; i < thresholds.size(); ++i) {
    for (auto const cause : tables_.causes_of(TierId{i})) sum += out_.posteriors[index(cause)];
    out_.tiers[i].probability = sum;
  }
  auto const share = 1 / (sum + out_.posteriors.back());
  for (auto& tier : out_.tiers) tier.probability *= share;
  for (auto& weight : out_.posteriors) weight *= share;
}

void Assessor::Judge::set_ranking_tier() {
  auto const thresholds = tables_.thresholds();
  out_.too_few_answers = out_.counted_answers < tables_.pack().needs_answers;
  out_.ranking_tier.reset();
  for (std::uint32_t i = 0; i < thresholds.size(); ++i) {
    auto& tier = out_.tiers[i];
    tier.threshold = thresholds[i];
    // Rounding must not lower a tier: a probability at the threshold reaches it.
    constexpr double rounding = 1e-12;
    tier.is_reached = !tier.threshold || tier.probability >= *tier.threshold * (1 - rounding);
    if (tier.is_reached && !out_.too_few_answers && !out_.ranking_tier)
      out_.ranking_tier = TierId{i};
  }
}

// Of most dogs nothing is said that bears on it.
Swallowed Assessor::Judge::swallowed() const {
  auto const signs = tables_.signs_of_taken();
  if (std::none_of(signs.begin(), signs.end(), [&](SignId sign) { return known_.knows(sign); }))
    return {{}, tables_.highest_of_taken()};
  Assessment told;
  told.known = known_.copied();
  return weigh_exposures(tables_, told);
}

void Assessor::Judge::set_alarm_tier() {
  auto const higher = [](std::optional<TierId> a, std::optional<TierId> b) {
    return !a ? b : !b ? a : std::min(*a, *b);
  };
  possible_.assign(tables_.alarms_by_tier().begin(), tables_.alarms_by_tier().end());
  out_.fired.clear();
  out_.alarm_tier.reset();
  for (auto const& [alarm, truth] : alarms_) {
    if (truth == Truth::unknown) continue;
    auto const see = tables_.tier_of(alarm);
    if (truth == Truth::no) {
      --possible_[index(see)];
      continue;
    }
    out_.alarm_tier = higher(out_.alarm_tier, see);
    out_.fired.push_back(alarm);
  }
  std::sort(out_.fired.begin(), out_.fired.end());
  auto taken = swallowed();
  for (auto const& exposure : taken.exposures)
    out_.alarm_tier = higher(out_.alarm_tier, exposure.see);
  out_.exposures = std::move(taken.exposures);
  out_.tier = higher(out_.alarm_tier, out_.ranking_tier);
  out_.ceiling = higher(out_.tier, taken.could_reach);
  auto const first = std::find_if(possible_.begin(), possible_.end(),
                                  [](std::uint32_t alarms) { return alarms > 0; });
  if (first != possible_.end())
    out_.ceiling =
        higher(out_.ceiling, TierId{static_cast<std::uint32_t>(first - possible_.begin())});
}

}  // namespace flinch
