#include "flinch/explain/likely_dangers.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace flinch {
namespace {

double after(double chance, double weight) {
  auto const odds = chance / (1 - chance) * std::exp(weight);
  return std::isfinite(odds) ? odds / (1 + odds) : 1;
}

}  // namespace

double chance_if_found(Tables const& tables, Assessment const& result, SignId sign, TierId tier) {
  auto const& pack = tables.pack();
  double most = 0;
  for (auto const at : tables.roots_of(sign)) {
    auto const& root = tables.root(at);
    RuleId const rule{root.subject};
    if (root.kind != RootKind::rule || result.truth(rule) != Truth::unknown) continue;
    auto const outcomes = root.is_banded ? pack[rule].bands.size() : 1U;
    for (auto const& entry : tables.entries(rule)) {
      if (pack[entry.cause].see > tier) continue;
      auto const now = result.judgement.posterior(entry.cause);
      for (std::uint32_t outcome = 0; outcome < outcomes; ++outcome)
        most = std::max(most, after(now, tables.weight(entry, outcome)));
    }
  }
  for (auto const part : tables.parts_of(sign))
    most = std::max(most, chance_if_found(tables, result, SignId{part}, tier));
  return most;
}

std::vector<OpenQuestion> likely_dangers(Tables const& tables, Assessment const& result) {
  struct Weighed {
    OpenQuestion question;
    double chance = 0;
  };
  std::vector<Weighed> weighed;
  for (auto& question : open_questions(tables, result)) {
    auto const chance = chance_if_found(tables, result, question.sign, question.could_reach);
    weighed.push_back({std::move(question), chance});
  }
  auto const rank = [](Weighed const& one) {
    auto const& question = one.question;
    bool const needs_others = question.alone_reaches != question.could_reach;
    return std::tuple(question.could_reach, question.could_not_tell, needs_others, -one.chance);
  };
  std::stable_sort(weighed.begin(), weighed.end(),
                   [&](Weighed const& a, Weighed const& b) { return rank(a) < rank(b); });
  std::vector<OpenQuestion> out;
  for (auto& one : weighed) out.push_back(std::move(one.question));
  return out;
}

}  // namespace flinch
