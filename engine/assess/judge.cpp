#include "assess/judge.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <numeric>
#include <utility>

#include "flinch/model/yes_and_no.hpp"

namespace flinch {

namespace {

// A probability without its last binary places, which hang on the order in which it was multiplied
// out: two that are the same but for rounding hardly ever differ in it. The bits of numbers from
// zero on are in the order of the numbers.
std::uint64_t sure_part(double probability) {
  constexpr std::uint64_t unsure_places = 12;
  auto const bits = std::bit_cast<std::uint64_t>(probability);
  return (bits + (std::uint64_t{1} << (unsure_places - 1))) >> unsure_places;
}

std::optional<TierId> higher(std::optional<TierId> a, std::optional<TierId> b) {
  return !a ? b : !b ? a : std::min(*a, *b);
}

}  // namespace

void Judgement::most_probable(std::size_t count, std::vector<std::uint32_t>& out) const {
  count = std::min(count, posteriors.size());
  out.resize(count);
  if (count == 0) return;
  std::iota(out.begin(), out.end(), 0U);
  std::sort(out.begin(), out.end(), [&](std::uint32_t a, std::uint32_t b) {
    auto const of_a = sure_part(posteriors[a]);
    auto const of_b = sure_part(posteriors[b]);
    return of_a != of_b ? of_a > of_b : a < b;
  });
  // Few of the others come among the first.
  auto least = sure_part(posteriors[out.back()]);
  for (auto i = static_cast<std::uint32_t>(count); i < posteriors.size(); ++i) {
    auto const its = sure_part(posteriors[i]);
    if (its <= least) continue;
    auto at = count - 1;
    for (; at > 0 && its > sure_part(posteriors[out[at - 1]]); --at) out[at] = out[at - 1];
    out[at] = i;
    least = sure_part(posteriors[out.back()]);
  }
}

Assessor::Judge::Judge(Tables const& tables)
    : tables_(tables),
      known_(tables),
      effects_(tables),
      exponents_(tables.pack().causes.size() + 1),
      roots_(tables.root_count() + 1),
      clusters_(tables.clusters().size() + 1),
      root_states_(tables.root_count()),
      cluster_states_(tables.clusters().size()) {
  for (std::uint32_t i = 0; i < tables.root_count(); ++i) {
    auto const& root = tables.root(i);
    RootTarget target{tables.inputs().first_state(i), root.kind == RootKind::alarm, root.subject,
                      0};
    if (root.kind == RootKind::rule) {
      auto const& its = tables.clusters().in_cluster(RuleId{root.subject});
      target.subject = its.cluster;
      target.place = its.place;
    }
    root_targets_.push_back(target);
  }
}

Judgement const& Assessor::Judge::judge(Case const& patient) {
  known_.learn_all(patient);
  out_.contradictions = known_.contradictions();
  touch();
  evaluate_touched();
  weigh();
  set_posteriors();
  set_tier_chances();
  set_ranking_tier();
  set_alarm_tier(patient);
  find_unmentioned(patient);
  if (!unmentioned_.empty()) weigh_unmentioned();
  return out_;
}

// What was asked and could not be told is not silence.
void Assessor::Judge::find_unmentioned(Case const& patient) {
  unmentioned_.clear();
  out_.by_answers.clear();
  if (patient.came_for.empty()) return;
  for (auto const& [rule, sign, mentioned] : tables_.unmentioned())
    if (!known_.knows(sign) && std::find(patient.cannot_tell.begin(), patient.cannot_tell.end(),
                                         sign) == patient.cannot_tell.end())
      unmentioned_.push_back(rule);
}

// In the ranking alone, once the tier is set. Overlaps join what was said and what was not, so all
// rules are weighed anew.
void Assessor::Judge::weigh_unmentioned() {
  out_.by_answers = out_.posteriors;
  decided_.clear();
  auto next = unmentioned_.begin();
  for (std::uint32_t i = 0; i < tables_.pack().rules.size(); ++i) {
    RuleId const rule{i};
    if (next != unmentioned_.end() && *next == rule) {
      decided_.push_back({rule, Tables::band_not_mentioned});
      ++next;
    } else if (auto const now = outcome(rule)) {
      decided_.push_back({rule, now - 1});
    }
  }
  out_.posteriors.assign(tables_.priors().begin(), tables_.priors().end());
  reach_ = 0;
  apply(effects_.of_outcomes(decided_));
  set_posteriors();
}

// What the known answers bear on, and what each adds to the states of it.
void Assessor::Judge::touch() {
  root_count_ = 0;
  cluster_count_ = 0;
  out_.told_signs = 0;
  auto const& inputs = tables_.inputs();
  auto const& clusters = tables_.clusters();
  for (auto const& [sign, answer, origin, from] : known_.all()) {
    if (origin == Origin::given && tables_.is_told(sign, *answer)) ++out_.told_signs;
    auto const cell = known_.cell(sign);
    if (cell == Cells::undivided) {
      for (auto const& input : inputs.undivided(sign))
        add_to_root(input.root, known_.part(input, cell));
      continue;
    }
    for (auto const& [root, part] : inputs.root_parts(sign, cell)) add_to_root(root, part);
    for (auto const& on : clusters.on(sign)) add_to_cluster(on.cluster, clusters.part(on, cell));
  }
}

// Whether it is the first is as good as chance: no branch hangs on it.
void Assessor::Judge::add_to_root(std::uint32_t root, std::uint32_t part) {
  auto& state = root_states_[root];
  auto const is_first = state == 0 ? 1U : 0U;
  roots_[root_count_] = root;
  root_count_ += is_first;
  state += is_first + part;
}

void Assessor::Judge::add_to_cluster(std::uint32_t cluster, std::uint64_t part) {
  auto& state = cluster_states_[cluster];
  auto const is_first = state == 0 ? 1U : 0U;
  clusters_[cluster_count_] = cluster;
  cluster_count_ += is_first;
  state += is_first + part;
}

void Assessor::Judge::evaluate_touched() {
  alarms_.clear();
  for (auto const place : std::span(roots_).first(root_count_)) {
    auto const added = std::exchange(root_states_[place], 0U) - 1;
    auto const& target = root_targets_[place];
    auto const outcome = known_.outcome(place, target.first_state + added);
    if (target.is_alarm)
      alarms_.push_back({AlarmId{target.subject}, truth_of_outcome(outcome)});
    else if (outcome > 0)
      add_to_cluster(target.subject, target.place * outcome);
  }
}

void Assessor::Judge::weigh() {
  out_.posteriors.assign(tables_.priors().begin(), tables_.priors().end());
  reach_ = 0;
  for (auto const& known : known_.all())
    if (auto const cell = known_.cell(known.sign); cell != Cells::undivided)
      apply(effects_.of_answer(known.sign, cell));
  for (auto const cluster : std::span(clusters_).first(cluster_count_)) apply_cluster(cluster);
}

void Assessor::Judge::apply_cluster(std::uint32_t cluster) {
  auto const& its = tables_.clusters()[cluster];
  auto const state = std::exchange(cluster_states_[cluster], std::uint64_t{0}) - 1;
  if (its.keeping != Clusters::Keeping::none) {
    if (state > 0) apply(effects_.of_state(cluster, state));
    return;
  }
  decided_.clear();
  for (auto const& member : tables_.clusters().members(its))
    if (auto const now = outcome(member.rule)) decided_.push_back({member.rule, now - 1});
  apply(effects_.of_outcomes(decided_));
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

// From weights to probabilities. Summed by tier, so that a sum and its parts round alike.
void Assessor::Judge::set_posteriors() {
  if (has_exponents_) take_exponents();
  double sum = 0;
  for (std::uint32_t i = 0; i < tables_.thresholds().size(); ++i)
    for (auto const cause : tables_.causes_of(TierId{i})) sum += out_.posteriors[index(cause)];
  auto const share = 1 / (sum + out_.posteriors.back());
  for (auto& weight : out_.posteriors) weight *= share;
}

// Of a cause that needs each tier or a higher one.
void Assessor::Judge::set_tier_chances() {
  out_.tiers.resize(tables_.thresholds().size());
  double sum = 0;
  for (std::uint32_t i = 0; i < out_.tiers.size(); ++i) {
    for (auto const cause : tables_.causes_of(TierId{i})) sum += out_.posteriors[index(cause)];
    out_.tiers[i].probability = sum;
  }
}

void Assessor::Judge::set_ranking_tier() {
  auto const thresholds = tables_.thresholds();
  out_.nothing_told = out_.told_signs == 0;
  out_.ranking_tier.reset();
  for (std::uint32_t i = 0; i < thresholds.size(); ++i) {
    auto& tier = out_.tiers[i];
    tier.threshold = thresholds[i];
    // Rounding must not lower a tier: a probability at the threshold reaches it.
    constexpr double rounding = 1e-12;
    tier.is_reached = !tier.threshold || tier.probability >= *tier.threshold * (1 - rounding);
    if (tier.is_reached && !out_.nothing_told && !out_.ranking_tier) out_.ranking_tier = TierId{i};
  }
}

// Of most patients nothing is said that bears on it, or only that it took none of some.
Swallowed Assessor::Judge::swallowed(Case const& patient) {
  auto const signs = tables_.signs_of_taken();
  bool const is_none = std::all_of(signs.begin(), signs.end(), [&](SignId sign) {
    return !known_.knows(sign) || says_no(*known_.answer(sign));
  });
  Swallowed out;
  for (auto const& substance : tables_.substances()) {
    auto const truth =
        substance.root ? truth_of_outcome(known_.outcome(*substance.root)) : Truth::unknown;
    if (!is_none || truth == Truth::yes) return weigh_exposures(tables_, known_.copied(patient));
    if (truth == Truth::unknown) out.could_reach = higher(out.could_reach, substance.see);
  }
  return out;
}

void Assessor::Judge::set_alarm_tier(Case const& patient) {
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
  auto taken = swallowed(patient);
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
