#include "explain/change_pairs.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <functional>
#include <limits>
#include <numeric>
#include <utility>

#include "flinch/explain/what_if.hpp"

namespace flinch {
namespace {

// Where so little decides, it may be rounding: there the pair is judged as a whole.
constexpr double rounding = 1e-9;
// A bound is kept a little wide: rounding must not leave a pair out.
constexpr double slack = 1e-6;
constexpr double infinity = std::numeric_limits<double>::infinity();

void set_bit(std::vector<std::uint64_t>& bits, std::size_t i) {
  bits[i / 64] |= std::uint64_t{1} << (i % 64);
}

// What a list of others has at the place, or else what stands there.
template <class T>
T at(std::vector<std::pair<std::uint32_t, T>> const& others, std::vector<T> const& before,
     std::size_t place) {
  auto const found = std::lower_bound(others.begin(), others.end(), place,
                                      [](auto const& one, std::size_t i) { return one.first < i; });
  return found != others.end() && found->first == place ? found->second : before[place];
}

bool has_bit(std::vector<std::uint64_t> const& bits, std::size_t i) {
  return (bits[i / 64] >> (i % 64) & 1U) != 0;
}

}  // namespace

// Bits stand for signs, one more for all that was swallowed, for roots and for clusters.
ChangePairs::ChangePairs(Tables const& tables, Assessor& assessor, Case const& patient,
                         std::vector<Change> changes)
    : tables_(tables),
      assessor_(assessor),
      patient_(patient),
      changes_(std::move(changes)),
      known_(tables),
      effects_(tables),
      first_root_(tables.pack().signs.size() + 1),
      first_cluster_(first_root_ + tables.root_count()),
      before_(assessor.judge(patient)),
      stack_(tables.deepest_stack() + 1),
      alarms_(tables.thresholds().size()),
      shifts_(tables.clusters().size()) {
  for (std::uint32_t tier = 0; tier < tables.thresholds().size(); ++tier) {
    for (auto const cause : tables.causes_of(TierId{tier}))
      order_.push_back(static_cast<std::uint32_t>(cause));
    ends_.push_back(order_.size());
  }
  order_.push_back(static_cast<std::uint32_t>(order_.size()));
  places_.resize(order_.size());
  for (std::size_t i = 0; i < order_.size(); ++i) places_[order_[i]] = i;
  chances_.resize(order_.size());
  outlook_before_ = outlook_of(before_);
  standing_before_ = {std::vector(tables.leaves().size(), Truth::unknown),
                      std::vector<std::uint32_t>(tables.root_count()),
                      std::vector<std::uint64_t>(tables.clusters().size())};
  base_ = state(patient, before_, std::nullopt);
  standing_before_ = standing_;
  known_before_ = known_.copied(patient);
  singles_.reserve(changes_.size());
  for (auto const& change : changes_) {
    auto const changed = with_changes(patient, std::span(&change, 1));
    auto const& judgement = assessor.judge(changed);
    singles_.push_back(state(changed, judgement, change.sign));
    singles_.back().alone = outlook_of(judgement);
    set_odds(singles_.back());
  }
}

ChangePairs::State ChangePairs::state(Case const& patient, Judgement const& judgement,
                                      std::optional<SignId> changed) {
  State out;
  standing_ = standing_before_;
  for (auto const cause : order_) out.chances.push_back(judgement.posteriors[cause]);
  out.alarms.resize(ends_.size());
  out.taken.resize(ends_.size());
  for (auto const alarm : judgement.fired) ++out.alarms[index(tables_.tier_of(alarm))];
  for (auto const& exposure : judgement.exposures)
    if (exposure.see) ++out.taken[index(*exposure.see)];
  out.told_signs = static_cast<std::int32_t>(judgement.told_signs);
  out.contradicts = adds_contradiction(before_, judgement);
  out.touched.resize((first_cluster_ + tables_.clusters().size()) / 64 + 1);
  out.near.resize(out.touched.size());
  known_.learn_all(patient);
  auto const known = known_.all();
  auto old = known_before_.known.begin();
  auto const old_end = known_before_.known.end();
  auto now = known.begin();
  while (old != old_end || now != known.end()) {
    bool const was = now == known.end() || (old != old_end && old->sign <= now->sign);
    bool const is = old == old_end || (now != known.end() && now->sign <= old->sign);
    // A whole may stay a yes by its parts, against what was answered.
    bool const is_changed = (is ? now->sign : old->sign) == changed;
    bool const was_disputed = was && known_before_.is_disputed(old->sign);
    bool const is_as_sure = was_disputed == (is && known_.is_disputed(now->sign));
    if (!was || !is || is_changed || !is_as_sure || old->answer != *now->answer)
      touch(is ? now->sign : old->sign, is ? now->answer : nullptr, out);
    if (was) ++old;
    if (is) ++now;
  }
  // A change may settle a clash that another change would settle as well, or not at all.
  for (auto const sign : known_before_.disputed) set_bit(out.near, index(sign));
  set_outcomes(patient, out);
  return out;
}

void ChangePairs::touch(SignId sign, Answer const* now, State& state) {
  set_bit(state.touched, index(sign));
  touch_family(sign, state);
  if (tables_.bears_on_taken(sign)) set_bit(state.touched, first_root_ - 1);
  if (tables_.pack()[sign].applies_if)
    set_bit(state.touched, first_root_ + tables_.applies_root(sign));
  for (auto const at : tables_.roots_of(sign)) {
    set_bit(state.touched, first_root_ + at);
    for (auto const& step : tables_.steps(tables_.root(at))) {
      if (step.kind != Tables::Step::Kind::leaf) continue;
      auto const& leaf = tables_.leaves()[step.detail];
      if (leaf.sign != sign) continue;
      auto& truth = standing_.truths[step.detail];
      truth = now == nullptr ? Truth::unknown : known_.truth(leaf);
      state.truths.emplace_back(step.detail, truth);
    }
  }
}

// Where a whole is known by its parts, what one of them says hangs on all others.
void ChangePairs::touch_family(SignId sign, State& state) const {
  auto top = sign;
  for (auto whole = tables_.whole_of(sign); whole; whole = tables_.whole_of(*whole)) {
    set_bit(state.near, index(*whole));
    auto const* known = known_before_.find(*whole);
    if (known != nullptr && known->origin == Origin::from_part) top = *whole;
  }
  std::vector<SignId> below{top};
  while (!below.empty()) {
    auto const next = below.back();
    below.pop_back();
    set_bit(state.near, index(next));
    for (auto const part : tables_.parts_of(next)) below.push_back(SignId{part});
  }
}

// A rule whose sign nobody mentioned comes out so, beside true, false and unknown.
void ChangePairs::set_outcomes(Case const& patient, State& state) {
  auto const& clusters = tables_.clusters();
  auto& outcomes = standing_.outcomes;
  auto const truth_of = [&](Tables::Leaf const& leaf) {
    return standing_.truths[static_cast<std::size_t>(&leaf - tables_.leaves().data())];
  };
  for (std::uint32_t i = 0; i < tables_.root_count(); ++i)
    if (has_bit(state.touched, first_root_ + i))
      outcomes[i] = root_outcome(tables_, tables_.root(i), stack_, truth_of);
  if (!patient.came_for.empty())
    for (auto const& [rule, sign, mentioned] : tables_.unmentioned())
      if (!known_.knows(sign) && std::find(patient.cannot_tell.begin(), patient.cannot_tell.end(),
                                           sign) == patient.cannot_tell.end())
        outcomes[tables_.place(rule)] = 1 + Tables::band_not_mentioned;
  for (std::uint32_t i = 0; i < tables_.pack().rules.size(); ++i) {
    auto const& its = clusters.in_cluster(RuleId{i});
    auto const place = tables_.place(RuleId{i});
    if (its.cluster == Clusters::own_of_sign) continue;
    standing_.clusters[its.cluster] +=
        its.place * (std::uint64_t{outcomes[place]} - standing_before_.outcomes[place]);
    if (has_bit(state.touched, first_root_ + place))
      set_bit(state.touched, first_cluster_ + its.cluster);
  }
  for (std::uint32_t i = 0; i < outcomes.size(); ++i)
    if (has_bit(state.touched, first_root_ + i)) state.outcomes.emplace_back(i, outcomes[i]);
  for (std::uint32_t i = 0; i < standing_.clusters.size(); ++i)
    if (has_bit(state.touched, first_cluster_ + i))
      state.clusters.emplace_back(i, standing_.clusters[i]);
  std::sort(state.truths.begin(), state.truths.end());
  for (std::size_t i = 0; i < state.near.size(); ++i) state.near[i] |= state.touched[i];
}

void ChangePairs::set_odds(State& state) const {
  auto const add = [&](auto const& is_for, auto const& join) {
    double chance = 0, others = 0;
    double most = 0, least = infinity, most_of_others = 0, least_of_others = infinity;
    for (std::size_t i = 0; i < order_.size(); ++i) {
      auto const now = state.chances[i];
      auto const move = base_.chances[i] > 0 ? now / base_.chances[i] : 1;
      bool const is = is_for(i);
      (is ? chance : others) = join(is ? chance : others, now);
      (is ? most : most_of_others) = std::max(is ? most : most_of_others, move);
      (is ? least : least_of_others) = std::min(is ? least : least_of_others, move);
    }
    state.odds.push_back(chance / others);
    state.most.push_back(most / least_of_others);
    state.least.push_back(least / most_of_others);
  };
  for (auto const end : ends_) add([&](std::size_t i) { return i < end; }, std::plus<>());
  add([&](std::size_t i) { return order_[i] != outlook_before_.first; },
      [](double a, double b) { return std::max(a, b); });
}

std::optional<Outlook> ChangePairs::judged(std::size_t one, std::size_t other) {
  auto const patient = with_changes(patient_, changes_of(one, other));
  auto const& judgement = assessor_.judge(patient);
  if (adds_contradiction(before_, judgement)) return std::nullopt;
  return outlook_of(judgement);
}

Outlook ChangePairs::outlook_of(Judgement const& judgement) {
  judgement.most_probable(1, head_);
  return {judgement.tier ? index(*judgement.tier) : ends_.size(), head_.front()};
}

std::vector<Change> ChangePairs::changes_of(std::size_t one, std::size_t other) const {
  if (one == other) return {changes_[one]};
  return {changes_[one], changes_[other]};
}

void ChangePairs::begin(std::size_t first) {
  one_ = first;
  factors_ = singles_[first].chances;
  for (std::size_t i = 0; i < factors_.size(); ++i)
    factors_[i] = base_.chances[i] > 0 ? factors_[i] / base_.chances[i] : 0;
}

std::optional<ChangePairs::Bounds> ChangePairs::meet(std::size_t second) {
  other_ = second;
  auto const& a = singles_[one_];
  auto const& b = singles_[other_];
  for (std::size_t t = 0; t < alarms_.size(); ++t)
    alarms_[t] = a.alarms[t] + b.alarms[t] - base_.alarms[t];
  is_told_ = a.told_signs + b.told_signs > base_.told_signs;
  is_whole_ = !join_shared();
  if (is_whole_) return Bounds{0, alarms_.size(), true};
  if (a.contradicts || b.contradicts) return std::nullopt;
  if (!is_taken_)
    for (std::size_t t = 0; t < alarms_.size(); ++t)
      alarms_[t] += a.taken[t] + b.taken[t] - base_.taken[t];
  bool const is_product = joined_.empty();
  auto const most = [&](std::size_t i) {
    return is_product ? (1 + slack) * std::min(a.odds[i] * b.most[i], b.odds[i] * a.most[i])
                      : infinity;
  };
  auto const least = [&](std::size_t i) {
    return is_product ? (1 - slack) * std::max(a.odds[i] * b.least[i], b.odds[i] * a.least[i]) : 0;
  };
  auto const chance = [](double odds) { return 1 - 1 / (1 + odds); };
  Bounds out{tier_by([&](std::size_t t) { return chance(most(t)); }),
             tier_by([&](std::size_t t) { return chance(least(t)); }), most(alarms_.size()) >= 1};
  if (auto const highest = tables_.highest_of_taken(); highest && is_taken_)
    out.highest = std::min(out.highest, index(*highest));
  return out;
}

// Whether the pair comes apart; `joined_` and `is_taken_` tell where it does not.
bool ChangePairs::join_shared() {
  joined_.clear();
  is_taken_ = false;
  auto const& a = singles_[one_].touched;
  auto const& b = singles_[other_].near;
  // Most pairs share nothing.
  if (std::transform_reduce(a.begin(), a.end(), b.begin(), std::uint64_t{0}, std::bit_or<>(),
                            std::bit_and<>()) == 0)
    return true;
  bool comes_apart = true;
  for (std::size_t word = 0; word < a.size(); ++word)
    for (auto bits = a[word] & b[word]; bits != 0; bits &= bits - 1) {
      auto const at = word * 64 + static_cast<std::size_t>(std::countr_zero(bits));
      if (at + 1 == first_root_)
        is_taken_ = true;
      else if (at < first_root_)
        comes_apart = false;
      else if (at < first_cluster_)
        comes_apart = comes_apart && run_again(at - first_root_);
      else
        join(static_cast<std::uint32_t>(at - first_cluster_));
    }
  return comes_apart;
}

bool ChangePairs::run_again(std::size_t place) {
  auto const& root = tables_.root(place);
  if (root.kind == RootKind::taken) return is_taken_;
  if (root.kind != RootKind::rule && root.kind != RootKind::alarm) return false;
  auto const& a = singles_[one_];
  auto const& b = singles_[other_];
  auto const joint = root_outcome(tables_, root, stack_, [&](Tables::Leaf const& leaf) {
    auto const& before = standing_before_.truths;
    auto const i = static_cast<std::size_t>(&leaf - tables_.leaves().data());
    auto const truth = at(a.truths, before, i);
    return truth != before[i] ? truth : at(b.truths, before, i);
  });
  auto const before = standing_before_.outcomes[place];
  auto const one = at(a.outcomes, standing_before_.outcomes, place);
  auto const other = at(b.outcomes, standing_before_.outcomes, place);
  if (root.kind == RootKind::alarm) {
    auto const fired = [](std::uint32_t outcome) { return outcome == 1 ? 1 : 0; };
    alarms_[index(tables_.tier_of(AlarmId{root.subject}))] +=
        fired(joint) - fired(one) - fired(other) + fired(before);
    return true;
  }
  auto const& its = tables_.clusters().in_cluster(RuleId{root.subject});
  shifts_[its.cluster] += its.place * (std::uint64_t{joint} - one - other + before);
  return true;
}

// Where one of the two leaves the cluster as it is, its effect is that of the other.
void ChangePairs::join(std::uint32_t cluster) {
  auto const shift = std::exchange(shifts_[cluster], std::uint64_t{0});
  auto const before = standing_before_.clusters[cluster];
  auto const one = at(singles_[one_].clusters, standing_before_.clusters, cluster);
  auto const other = at(singles_[other_].clusters, standing_before_.clusters, cluster);
  if (shift == 0 && (one == before || other == before)) return;
  joined_.push_back({cluster, one, other, one + other - before + shift});
}

std::optional<Outlook> ChangePairs::together() {
  if (is_whole_ || is_taken_) return judged(one_, other_);
  auto const& chances = singles_[other_].chances;
  std::transform(factors_.begin(), factors_.end(), chances.begin(), chances_.begin(),
                 std::multiplies<>());
  for (auto const& [cluster, one, other, joint] : joined_)
    if (!multiply(cluster, joint, false) || !multiply(cluster, one, true) ||
        !multiply(cluster, other, true) ||
        !multiply(cluster, standing_before_.clusters[cluster], false))
      return judged(one_, other_);
  auto const total = std::reduce(chances_.begin(), chances_.end());
  if (!std::isfinite(total) || total <= 0) return judged(one_, other_);
  std::vector<double> needing(ends_.size());
  for (std::size_t t = 0, from = 0; t < ends_.size(); from = ends_[t++])
    needing[t] = (t == 0 ? 0 : needing[t - 1]) +
                 std::reduce(chances_.begin() + static_cast<std::ptrdiff_t>(from),
                             chances_.begin() + static_cast<std::ptrdiff_t>(ends_[t])) /
                     total;
  auto const tier = tier_by([&](std::size_t t) { return needing[t] + rounding; });
  if (tier != tier_by([&](std::size_t t) { return needing[t] - rounding; }))
    return judged(one_, other_);
  auto const first = std::max_element(chances_.begin(), chances_.end());
  auto const highest = std::exchange(*first, 0.0);
  if (*std::max_element(chances_.begin(), chances_.end()) >= highest * (1 - rounding))
    return judged(one_, other_);
  return Outlook{tier, order_[static_cast<std::size_t>(first - chances_.begin())]};
}

// Whether it is within the reach of a product.
bool ChangePairs::multiply(std::uint32_t cluster, std::uint64_t state, bool is_gone) {
  if (tables_.clusters()[cluster].keeping == Clusters::Keeping::none) return false;
  if (state == 0) return true;
  auto const effect = effects_.of_state(cluster, state);
  if (effect.reach > Effects::furthest) return false;
  for (auto const& [cause, factor] : effect.factors)
    chances_[places_[cause]] *= is_gone ? 1 / factor : factor;
  return true;
}

// The tier that is reached by alarms or by these chances of needing each tier or a higher one; past
// the last: none.
template <class Chance>
std::size_t ChangePairs::tier_by(Chance const& chance) const {
  for (std::size_t t = 0; t < alarms_.size(); ++t) {
    if (alarms_[t] > 0) return t;
    auto const& threshold = tables_.thresholds()[t];
    if (is_told_ && (!threshold || chance(t) >= *threshold)) return t;
  }
  return alarms_.size();
}

}  // namespace flinch
