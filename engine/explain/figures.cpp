#include "flinch/explain/figures.hpp"

#include <algorithm>

namespace flinch {
namespace {

// Whether the condition rests on hands or instruments alone.
bool takes_hands(Pack const& pack, Condition const& condition) {
  if (condition.kind == Condition::Kind::test)
    return pack[condition.test.sign].seen_by != SeenBy::anyone;
  if (condition.kind == Condition::Kind::meaning)
    return takes_hands(pack, pack[condition.meaning].condition);
  auto const part_does = [&](Condition const& part) { return takes_hands(pack, part); };
  // What needs one thing felt among others cannot be known by looking on.
  if (condition.kind == Condition::Kind::all)
    return std::any_of(condition.parts.begin(), condition.parts.end(), part_does);
  return std::all_of(condition.parts.begin(), condition.parts.end(), part_does);
}

}  // namespace

Backing backing(std::optional<double> sample_size, std::optional<SourceId> source) {
  if (sample_size) return Backing::counted;
  return source ? Backing::derived : Backing::judged;
}

Backing backing(RuleEntry const& entry) { return backing(entry.sample_size, entry.source); }

void BackingCounts::add(Backing kind) {
  ++(kind == Backing::counted ? counted : kind == Backing::derived ? derived : judged);
}

std::string body_region(Pack const& pack, Cause const& cause) {
  if (cause.affects.empty()) return "the whole " + pack.words.one;
  auto site = cause.affects.front();
  while (pack[site].inside) site = *pack[site].inside;
  return pack[site].title;
}

std::map<std::string, BackingCounts> count_figures(Pack const& pack) {
  std::map<std::string, BackingCounts> out;
  for (auto const& rule : pack.rules)
    for (auto const& entry : rule.entries)
      out[body_region(pack, pack[entry.cause])].add(backing(entry));
  return out;
}

std::vector<StrongClue> strong_clues(Pack const& pack) {
  constexpr double most_for_anyone = 5;
  constexpr double most_for_hands = 20;
  std::vector<StrongClue> out;
  for (std::uint32_t r = 0; r < pack.rules.size(); ++r) {
    auto const& rule = pack.rules[r];
    if (!rule.condition) continue;
    bool const hands = takes_hands(pack, *rule.condition);
    auto const most = hands ? most_for_hands : most_for_anyone;
    for (auto const& entry : rule.entries) {
      if (backing(entry) != Backing::judged) continue;
      auto const held = [&](double f) { return std::clamp(f, pack.hold_low, pack.hold_high); };
      auto const ratio = held(entry.frequencies.front()) / held(rule.usual.front());
      if (ratio > most) out.push_back({RuleId{r}, entry.cause, ratio, hands});
    }
  }
  std::stable_sort(out.begin(), out.end(),
                   [](StrongClue const& a, StrongClue const& b) { return a.ratio > b.ratio; });
  return out;
}

}  // namespace flinch
