#include "explain/change_effect.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "flinch/explain/what_if.hpp"

namespace flinch {

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
  for (auto const alarm : result.judgement.fired) ++out[index(tables_.pack()[alarm].see)];
  for (auto const& exposure : result.judgement.exposures)
    if (exposure.see) ++out[index(*exposure.see)];
  return out;
}

// Two changes meet when they bear on the same sign, on the parts of one whole, on one condition, on
// rules of one overlap, or on what was swallowed: the numbers stand for signs (the topmost whole),
// conditions, overlaps, and the last for what was swallowed.
std::size_t EffectTaker::touchable() const {
  auto const& pack = tables_.pack();
  return pack.signs.size() + tables_.root_count() + pack.overlaps.size() + 1;
}

void EffectTaker::touch(SignId sign, std::vector<std::uint32_t>& touches) const {
  auto const& pack = tables_.pack();
  auto whole = sign;
  while (pack[whole].part_of) whole = *pack[whole].part_of;
  auto const first_root = pack.signs.size();
  auto const first_overlap = first_root + tables_.root_count();
  auto const add = [&](std::size_t i) { touches.push_back(static_cast<std::uint32_t>(i)); };
  add(index(whole));
  // All that was swallowed hangs together, and on the weight.
  if (tables_.bears_on_taken(sign)) add(touchable() - 1);
  if (applies_root_[index(sign)] >= 0)
    add(first_root + static_cast<std::size_t>(applies_root_[index(sign)]));
  for (auto const root : tables_.roots_of(sign)) {
    add(first_root + root);
    if (tables_.root(root).kind != RootKind::rule) continue;
    auto const overlap = tables_.overlap_of(RuleId{tables_.root(root).subject});
    if (overlap >= 0) add(first_overlap + static_cast<std::size_t>(overlap));
  }
}

// Known answers come in the order of the signs.
std::vector<std::uint32_t> EffectTaker::touches_of(SignId changed, Assessment const& after) const {
  std::vector<std::uint32_t> out;
  touch(changed, out);
  auto a = before_.knowledge.known.begin();
  auto b = after.knowledge.known.begin();
  while (a != before_.knowledge.known.end() || b != after.knowledge.known.end()) {
    if (b == after.knowledge.known.end() ||
        (a != before_.knowledge.known.end() && a->sign < b->sign)) {
      touch((a++)->sign, out);
    } else if (a == before_.knowledge.known.end() || b->sign < a->sign) {
      touch((b++)->sign, out);
    } else {
      if (a->answer != b->answer) touch(a->sign, out);
      ++a;
      ++b;
    }
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
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

// Outcomes come in the order of the rules; one without contributions weighs nothing.
std::vector<OverlapDelta> EffectTaker::overlapping_in(Assessment const& after) const {
  std::vector<OverlapDelta> out;
  auto a = before_.rules.begin();
  auto b = after.rules.begin();
  auto const weight = [&](RuleOutcome const* outcome, Tables::Entry const& entry) {
    return outcome == nullptr || outcome->contribution_count == 0
               ? 0
               : tables_.weight(entry, outcome->band);
  };
  while (a != before_.rules.end() || b != after.rules.end()) {
    bool const has_a = a != before_.rules.end() && (b == after.rules.end() || a->rule <= b->rule);
    bool const has_b = b != after.rules.end() && (a == before_.rules.end() || b->rule <= a->rule);
    auto const* old_outcome = has_a ? &*a++ : nullptr;
    auto const* new_outcome = has_b ? &*b++ : nullptr;
    auto const rule = old_outcome != nullptr ? old_outcome->rule : new_outcome->rule;
    if (tables_.overlap_of(rule) < 0) continue;
    for (auto const& entry : tables_.entries(rule))
      if (auto const more = weight(new_outcome, entry) - weight(old_outcome, entry); more != 0)
        out.push_back({rule, entry.cause, more});
  }
  return out;
}

ChangeEffect EffectTaker::take(SignId changed, Assessment const& after) const {
  auto const& pack = tables_.pack();
  ChangeEffect out;
  out.deltas = deltas_of(after);
  out.overlapping = overlapping_in(after);
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
  out.told_signs = static_cast<std::int32_t>(after.judgement.told_signs) -
                   static_cast<std::int32_t>(before_.judgement.told_signs);
  out.contradicts = adds_contradiction(before_, after);
  out.touches = touches_of(changed, after);
  return out;
}

}  // namespace flinch
