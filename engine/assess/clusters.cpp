#include "assess/clusters.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "assess/effects.hpp"
#include "assess/evaluate.hpp"

namespace flinch {
namespace {

constexpr std::uint64_t most_states_of_cluster = std::uint64_t{1} << 16U;
constexpr std::uint64_t most_cluster_states = std::uint64_t{1} << 20U;
constexpr std::uint64_t uncountable = std::numeric_limits<std::uint64_t>::max();

// The unknown included, and that nobody mentioned the sign.
std::uint32_t outcomes_of(Tables const& tables, RuleId rule) {
  auto const silent = tables.unmentioned();
  bool const may_be_silent =
      std::any_of(silent.begin(), silent.end(), [&](auto const& one) { return one.rule == rule; });
  return 1 + tables.outcomes(rule) + (may_be_silent ? 1 : 0);
}

// How far rules can move a cause together at most, in natural logarithms.
double reach(Tables const& tables, std::span<RuleId const> rules) {
  double sum = 0;
  for (auto const rule : rules) {
    double furthest = 0;
    for (auto const& entry : tables.entries(rule))
      for (std::uint32_t band = 0; band + 1 < outcomes_of(tables, rule); ++band)
        furthest = std::max(furthest, std::abs(tables.weight(entry, band)));
    sum += furthest;
  }
  return sum;
}

std::vector<SignId> signs_of(Tables const& tables, std::span<RuleId const> rules) {
  std::vector<SignId> out;
  for (auto const rule : rules)
    for (auto const& step : tables.steps(tables.rule_root(rule)))
      if (step.kind == Tables::Step::Kind::leaf) out.push_back(tables.leaves()[step.detail].sign);
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

// Whether the answer to one sign alone, by its cell, tells the outcomes of the rules.
bool hangs_on_cells_of_one(Tables const& tables, Cells const& cells,
                           std::span<RuleId const> rules) {
  auto const signs = signs_of(tables, rules);
  return signs.size() == 1 && cells.is_divided(signs.front());
}

std::vector<std::vector<RuleId>> by_overlap(Tables const& tables) {
  std::vector<std::vector<RuleId>> out(tables.pack().overlaps.size());
  for (std::uint32_t r = 0; r < tables.pack().rules.size(); ++r)
    if (auto const overlap = tables.overlap_of(RuleId{r}); overlap >= 0)
      out[static_cast<std::size_t>(overlap)].push_back(RuleId{r});
    else
      out.push_back({RuleId{r}});
  std::erase_if(out, [](auto const& rules) { return rules.empty(); });
  return out;
}

}  // namespace

Clusters::Clusters(Tables const& tables, Cells const& cells) {
  in_cluster_.resize(tables.pack().rules.size());
  std::vector<std::vector<RuleId>> own(tables.pack().signs.size());
  std::vector<std::vector<std::uint32_t>> on(tables.pack().signs.size());
  for (auto const& rules : by_overlap(tables)) {
    auto const signs = signs_of(tables, rules);
    if (hangs_on_cells_of_one(tables, cells, rules)) {
      auto& all = own[index(signs.front())];
      all.insert(all.end(), rules.begin(), rules.end());
      if (reach(tables, all) <= Effects::furthest) continue;
      all.resize(all.size() - rules.size());
    }
    for (auto const sign : signs)
      if (cells.is_divided(sign))
        on[index(sign)].push_back(static_cast<std::uint32_t>(clusters_.size()));
    add_cluster(tables, rules);
  }
  add_own(tables, cells, own);
  add_parts(tables, cells, on);
}

void Clusters::number_states(Cluster& cluster, std::uint64_t states) {
  cluster.keeping = states == uncountable ? Keeping::none : Keeping::coded;
  if (states > most_states_of_cluster || states_ + states > most_cluster_states) return;
  cluster.keeping = Keeping::numbered;
  cluster.first_state = states_;
  states_ += static_cast<std::uint32_t>(states);
}

void Clusters::add_cluster(Tables const& tables, std::span<RuleId const> rules) {
  Cluster cluster;
  cluster.first_rule = static_cast<std::uint32_t>(members_.size());
  cluster.rule_count = static_cast<std::uint32_t>(rules.size());
  std::uint64_t states = 1;
  for (auto const rule : rules) {
    Member const member{rule, outcomes_of(tables, rule), states};
    members_.push_back(member);
    in_cluster_[index(rule)] = {static_cast<std::uint32_t>(clusters_.size()), member.place};
    states = states > uncountable / member.outcomes ? uncountable : states * member.outcomes;
  }
  if (states == uncountable)  // its state tells nothing
    for (auto i = cluster.first_rule; i < members_.size(); ++i)
      members_[i].place = in_cluster_[index(members_[i].rule)].place = 0;
  number_states(cluster, states);
  clusters_.push_back(cluster);
}

void Clusters::add_own(Tables const& tables, Cells const& cells,
                       std::vector<std::vector<RuleId>>& own) {
  for (std::uint32_t s = 0; s < own.size(); ++s) {
    std::sort(own[s].begin(), own[s].end());
    Cluster cluster;
    cluster.first_rule = static_cast<std::uint32_t>(members_.size());
    cluster.rule_count = static_cast<std::uint32_t>(own[s].size());
    for (auto const rule : own[s]) members_.push_back({rule, outcomes_of(tables, rule), 0});
    if (!own[s].empty()) number_states(cluster, cells.count(SignId{s}));
    own_.push_back(cluster);
  }
}

void Clusters::add_parts(Tables const& tables, Cells const& cells,
                         std::span<std::vector<std::uint32_t> const> on) {
  std::vector<Truth> stack(tables.deepest_stack() + 1);
  on_rows_.push_back(0);
  for (std::uint32_t s = 0; s < on.size(); ++s) {
    SignId const sign{s};
    for (auto const cluster : on[s]) {
      std::vector<std::uint64_t> parts(cells.count(sign));
      bool has_parts = false;
      for (auto const& member : members(clusters_[cluster])) {
        auto const rules = std::span(&member.rule, 1);
        if (signs_of(tables, rules).front() != sign || !hangs_on_cells_of_one(tables, cells, rules))
          continue;
        has_parts = true;
        for (std::uint32_t cell = 1; cell < parts.size(); ++cell)
          parts[cell] += member.place * root_outcome(tables, tables.rule_root(member.rule), stack,
                                                     [&](Tables::Leaf const& leaf) {
                                                       return cells.truth(leaf, cell);
                                                     });
      }
      if (!has_parts) continue;
      on_sign_.push_back({cluster, static_cast<std::uint32_t>(parts_.size())});
      parts_.insert(parts_.end(), parts.begin(), parts.end());
    }
    on_rows_.push_back(static_cast<std::uint32_t>(on_sign_.size()));
  }
}

}  // namespace flinch
