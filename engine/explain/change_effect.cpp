#include "explain/change_effect.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "flinch/explain/what_if.hpp"

namespace flinch {
bool ChangeEffect::meets(ChangeEffect const& other) const {
  for (std::size_t i = 0; i < touches.size(); ++i)
    if ((touches[i] & other.touches[i]) != 0) return true;
  return false;
}

EffectTaker::EffectTaker(Tables const& tables, Assessment const& before)
    : tables_(tables),
      before_(before),
      evidence_(evidence_of(before)),
      alarms_(fired(before)),
      applies_root_(tables.pack().signs.size(), -1) {
  highest_ = tables.log_prior(0) + evidence_[0];
  for (std::size_t i = 0; i < evidence_.size(); ++i)
    highest_ = std::max(highest_, tables.log_prior(i) + evidence_[i]);
  for (std::size_t i = 0; i < tables.root_count(); ++i)
    if (tables.root(i).kind == RootKind::applies)
      applies_root_[tables.root(i).subject] = static_cast<std::int32_t>(i);
}

std::vector<double> EffectTaker::evidence_of(Assessment const& result) const {
  std::vector<double> out(result.ranking.size());
  for (auto const& ranked : result.ranking)
    out[ranked.cause ? index(*ranked.cause) : out.size() - 1] = ranked.evidence;
  return out;
}

std::vector<std::int32_t> EffectTaker::fired(Assessment const& result) const {
  std::vector<std::int32_t> out(tables_.pack().tiers.size());
  for (auto const& alarm : result.alarms)
    if (alarm.truth == Truth::yes) ++out[index(tables_.pack()[alarm.alarm].see)];
  for (auto const& exposure : result.exposures)
    if (exposure.see) ++out[index(*exposure.see)];
  return out;
}

// Two changes meet when they bear on the same sign, on the parts of one whole, on one condition, on
// rules of one overlap, or on what was swallowed: the bits stand for signs (the topmost whole),
// conditions, overlaps, and the last for what was swallowed.
void EffectTaker::touch(SignId sign, std::vector<std::uint64_t>& bits) const {
  auto const& pack = tables_.pack();
  auto whole = sign;
  while (pack[whole].part_of) whole = *pack[whole].part_of;
  auto const first_root = pack.signs.size();
  auto const first_overlap = first_root + tables_.root_count();
  set_bit(bits, index(whole));
  // All that was swallowed hangs together, and on the weight.
  if (tables_.bears_on_taken(sign)) set_bit(bits, first_overlap + pack.overlaps.size());
  if (applies_root_[index(sign)] >= 0)
    set_bit(bits, first_root + static_cast<std::size_t>(applies_root_[index(sign)]));
  for (auto const root : tables_.roots_of(sign)) {
    set_bit(bits, first_root + root);
    if (tables_.root(root).kind != RootKind::rule) continue;
    auto const overlap = tables_.overlap_of(RuleId{tables_.root(root).subject});
    if (overlap >= 0) set_bit(bits, first_overlap + static_cast<std::size_t>(overlap));
  }
}

// Contributions come by rule, those of one rule in one order of causes.
std::vector<RuleDelta> EffectTaker::deltas_of(Assessment const& after) const {
  std::vector<RuleDelta> out;
  auto a = before_.contributions.begin();
  auto b = after.contributions.begin();
  auto const take = [&](Contribution const& c, double counted) {
    if (counted != 0) out.push_back({c.rule, c.cause, counted});
  };
  while (a != before_.contributions.end() || b != after.contributions.end()) {
    bool const is_gone =
        b == after.contributions.end() || (a != before_.contributions.end() && a->rule < b->rule);
    bool const is_new =
        a == before_.contributions.end() || (b != after.contributions.end() && b->rule < a->rule);
    if (is_gone) {
      take(*a, -a->counted());
      ++a;
    } else if (is_new) {
      take(*b, b->counted());
      ++b;
    } else {
      take(*b, b->counted() - a->counted());
      ++a;
      ++b;
    }
  }
  return out;
}

ChangeEffect EffectTaker::take(SignId changed, Assessment const& after) const {
  auto const& pack = tables_.pack();
  ChangeEffect out;
  out.deltas = deltas_of(after);
  auto const evidence = evidence_of(after);
  out.unscaled.resize(evidence.size());
  out.tier_sums.resize(pack.tiers.size());
  for (std::uint32_t i = 0; i < evidence.size(); ++i) {
    if (evidence[i] != evidence_[i])
      out.factors.push_back({i, std::exp(evidence[i] - evidence_[i])});
    out.unscaled[i] = std::exp(tables_.log_prior(i) + evidence[i] - highest_);
    out.sum += out.unscaled[i];
    if (i < pack.causes.size()) out.tier_sums[index(pack.causes[i].see)] += out.unscaled[i];
  }
  out.by_unscaled.resize(evidence.size());
  std::iota(out.by_unscaled.begin(), out.by_unscaled.end(), 0U);
  std::stable_sort(out.by_unscaled.begin(), out.by_unscaled.end(),
                   [&](auto a, auto b) { return out.unscaled[a] > out.unscaled[b]; });
  out.alarms = fired(after);
  for (std::size_t i = 0; i < out.alarms.size(); ++i) out.alarms[i] -= alarms_[i];
  out.counted_answers = static_cast<std::int32_t>(after.counted_answers) -
                        static_cast<std::int32_t>(before_.counted_answers);
  out.contradicts = adds_contradiction(before_, after);
  out.touches.resize((pack.signs.size() + tables_.root_count() + pack.overlaps.size() + 1) / 64 + 1);
  touch(changed, out.touches);
  for (std::uint32_t i = 0; i < pack.signs.size(); ++i) {
    auto const* a = before_.find(SignId{i});
    auto const* b = after.find(SignId{i});
    bool const is_same = a == nullptr || b == nullptr ? a == b : a->answer == b->answer;
    if (!is_same) touch(SignId{i}, out.touches);
  }
  return out;
}

}  // namespace flinch
