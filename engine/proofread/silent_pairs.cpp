// Causes that compete in some example while a rule that was answered speaks clearly of one of them
// and is silent on the other.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <string>

#include "flinch/assess/assessment.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/proofread/proofread.hpp"
#include "proofread/remarks.hpp"

namespace flinch {
namespace {

// Those that compete: the first of the listed causes in an example's ranking.
constexpr std::size_t competing = 5;

class SilentPairs {
 public:
  SilentPairs(Tables const& tables, Remarks& remarks)
      : tables_(tables), pack_(tables.pack()), remarks_(remarks) {}

  void find() {
    Assessor assessor(tables_);
    for (auto const& example : pack_.examples) look(example, assessor.assess(example.patient));
    std::vector<Pair> pairs;
    for (auto const& [key, pair] : strongest_) pairs.push_back(pair);
    std::stable_sort(pairs.begin(), pairs.end(), [](Pair const& a, Pair const& b) {
      return std::abs(a.weight) > std::abs(b.weight);
    });
    for (auto const& pair : pairs) report(pair);
  }

 private:
  struct Pair {
    RuleId rule{};
    CauseId spoken{};
    CauseId silent{};
    double weight = 0;
    Example const* example = nullptr;
  };

  void look(Example const& example, Assessment const& result) {
    std::vector<CauseId> first;
    for (auto const& ranked : result.ranking)
      if (ranked.cause && first.size() < competing) first.push_back(*ranked.cause);
    for (auto const& outcome : result.rules) {
      if (outcome.truth == Truth::unknown) continue;
      for (auto const silent : first) {
        if (names(outcome.rule, silent)) continue;
        for (auto const& entry : tables_.entries(outcome.rule)) {
          if (std::find(first.begin(), first.end(), entry.cause) == first.end()) continue;
          note({outcome.rule, entry.cause, silent, tables_.weight(entry, outcome.band), &example});
        }
      }
    }
  }

  // Of a rule and the cause that it is silent on, the cause of which it speaks most clearly.
  void note(Pair const& pair) {
    if (std::abs(decibans(pair.weight)) < clear_decibans) return;
    auto const [at, is_new] = strongest_.emplace(std::pair(pair.rule, pair.silent), pair);
    if (!is_new && std::abs(pair.weight) > std::abs(at->second.weight)) at->second = pair;
  }

  [[nodiscard]] bool names(RuleId rule, CauseId cause) const {
    auto const entries = tables_.entries(rule);
    return std::any_of(entries.begin(), entries.end(),
                       [&](Tables::Entry const& entry) { return entry.cause == cause; });
  }

  void report(Pair const& pair) {
    auto const& rule = pack_[pair.rule];
    remarks_.add(
        Code::silent_pair, rule.at, {rule.at, pack_[pair.silent].at},
        fmt::format("rule `{}` speaks {} `{}` ({:+.1f} dB) and is silent on `{}`", rule.name,
                    pair.weight > 0 ? "for" : "against", pack_[pair.spoken].name,
                    decibans(pair.weight), pack_[pair.silent].name),
        fmt::format("both are among the first {} of example `{}`, where the rule is known: the "
                    "cause that is not named has the sign by coincidence only",
                    competing, pair.example->name),
        "name it with its own frequency, or accept that the sign is a coincidence in it");
  }

  Tables const& tables_;
  Pack const& pack_;
  Remarks& remarks_;
  std::map<std::pair<RuleId, CauseId>, Pair> strongest_;
};

}  // namespace

void find_silent_pairs(Tables const& tables, Remarks& remarks) {
  SilentPairs(tables, remarks).find();
}

}  // namespace flinch
