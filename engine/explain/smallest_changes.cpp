// Searching for the smallest changes of answers. Singles are all assessed. Pairs are many, and most
// of them could not reach an aim by any account: bounds leave these out. The weights of two changes
// that share no condition, overlap or family of signs simply add up, so such a pair is reckoned
// from its two singles. Those that meet are assessed together; and, at the end, those that are
// kept.
#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

#include "explain/change_effect.hpp"
#include "explain/change_reach.hpp"
#include "explain/sum_bounds.hpp"
#include "explain/telling_answers.hpp"
#include "flinch/explain/what_if.hpp"

namespace flinch {
namespace {

enum class Aim : std::uint8_t { higher_tier, lower_tier, other_first };
constexpr std::size_t aims = 3;

// Near a threshold or a tie rounding may decide: there the pair is assessed.
constexpr double near = 1e-9;

struct Result {
  std::optional<TierId> tier;
  std::optional<CauseId> first;
  double first_posterior = 0;
  bool is_certain = true;
};

struct Hit {
  std::size_t first = 0;
  std::size_t second = 0;  ///< the same as `first` for a single change
  std::optional<TierId> tier;
};

class Search {
 public:
  Search(Tables const& tables, Assessor& assessor, Case const& patient, std::size_t shown,
         std::array<bool, aims> wanted)
      : pack_(tables.pack()),
        assessor_(assessor),
        patient_(patient),
        shown_(shown),
        wanted_(wanted),
        before_(assessor.assess(patient)),
        taker_(tables, before_),
        reach_(tables, before_),
        sum_bounds_(tables.pack(), before_),
        changes_(telling_changes(tables, patient)),
        affected_(before_.ranking.size()),
        reaches_(pack_.signs.size()) {}

  SmallestChanges run() {
    bool const is_topmost = before_.judgement.tier && index(*before_.judgement.tier) == 0;
    is_sought_ = {wanted_[0] && !is_topmost, wanted_[1] && before_.judgement.tier.has_value(),
                  wanted_[2] && !before_.judgement.nothing_told};
    std::array<std::vector<Hit>, aims> hits;
    for (std::size_t i = 0; i < changes_.size(); ++i) {
      auto const after = assess(i, i);
      effects_.push_back(taker_.take(changes_[i].sign, after));
      bounds_.push_back(sum_bounds_.of(effects_.back()));
      if (!adds_contradiction(before_, after)) note(i, i, result_of(after), hits);
    }
    // An aim that one answer reaches needs no two.
    for (std::size_t aim = 0; aim < aims; ++aim)
      is_sought_[aim] = is_sought_[aim] && hits[aim].empty();
    if (std::find(is_sought_.begin(), is_sought_.end(), true) != is_sought_.end())
      search_pairs(hits);
    return {keep(Aim::higher_tier, hits), keep(Aim::lower_tier, hits),
            keep(Aim::other_first, hits)};
  }

 private:
  void search_pairs(std::array<std::vector<Hit>, aims>& hits) {
    std::vector<std::vector<std::size_t>> touching(taker_.touchable());
    for (std::size_t i = 0; i < changes_.size(); ++i)
      for (auto const thing : effects_[i].touches) touching[thing].push_back(i);
    for (std::size_t i = 0; i < changes_.size(); ++i) {
      meets_.assign(changes_.size(), false);
      for (auto const thing : effects_[i].touches)
        for (auto const other : touching[thing]) meets_[other] = true;
      for (auto const& factor : effects_[i].factors) affected_[factor.cause] = true;
      for (std::size_t j = i + 1; j < changes_.size(); ++j)
        if (changes_[j].sign != changes_[i].sign) note(i, j, result_of_pair(i, j), hits);
      for (auto const& factor : effects_[i].factors) affected_[factor.cause] = false;
    }
  }

  // With `meets_` filled for `i`.
  [[nodiscard]] std::optional<Result> result_of_pair(std::size_t i, std::size_t j) {
    bool const meets = meets_[j];
    if (!meets) {
      if (effects_[i].contradicts || effects_[j].contradicts) return std::nullopt;
      if (!sum_could_serve(i, j)) return std::nullopt;
      auto const added_up = add_up(i, j);
      if (added_up.is_certain) return added_up;
    }
    if (meets && !could_serve(i, j)) return std::nullopt;
    auto const after = assess(i, j);
    if (adds_contradiction(before_, after)) return std::nullopt;
    return result_of(after);
  }

  [[nodiscard]] bool could_serve(std::size_t i, std::size_t j) {
    reach_.take({reach_of(changes_[i].sign), effects_[i]},
                {reach_of(changes_[j].sign), effects_[j]});
    return (is_sought(Aim::other_first) && reach_.could_change_first()) ||
           (is_sought(Aim::lower_tier) && reach_.could_lower_tier()) ||
           (is_sought(Aim::higher_tier) && reach_.could_raise_tier());
  }

  // The same for two that do not meet.
  [[nodiscard]] bool sum_could_serve(std::size_t i, std::size_t j) const {
    auto const& a = bounds_[i];
    auto const& b = bounds_[j];
    return (is_sought(Aim::other_first) && sum_bounds_.could_change_first(a, b)) ||
           (is_sought(Aim::lower_tier) && sum_could_lower_tier(i, j)) ||
           (is_sought(Aim::higher_tier) && sum_could_raise_tier(i, j));
  }
  [[nodiscard]] bool sum_could_lower_tier(std::size_t i, std::size_t j) const {
    auto const tier = index(*before_.judgement.tier);
    for (std::size_t t = 0; t <= tier; ++t)
      if (alarms_with(t, i, j) > 0) return false;
    if (!is_told_with(i, j)) return true;
    return pack_.tiers[tier].threshold() && sum_bounds_.could_miss(tier, bounds_[i], bounds_[j]);
  }
  [[nodiscard]] bool sum_could_raise_tier(std::size_t i, std::size_t j) const {
    if (!before_.judgement.tier) return true;
    for (std::size_t t = 0; t < index(*before_.judgement.tier); ++t) {
      if (alarms_with(t, i, j) > 0) return true;
      if (!is_told_with(i, j)) continue;
      if (!pack_.tiers[t].threshold() || sum_bounds_.could_reach(t, bounds_[i], bounds_[j]))
        return true;
    }
    return false;
  }
  /// How many alarms, and things taken, ask for the tier with both, which do not meet.
  [[nodiscard]] std::int32_t alarms_with(std::size_t tier, std::size_t i, std::size_t j) const {
    return taker_.alarms_before()[tier] + effects_[i].alarms[tier] + effects_[j].alarms[tier];
  }
  /// Whether some sign is told with both.
  [[nodiscard]] bool is_told_with(std::size_t i, std::size_t j) const {
    return static_cast<std::int32_t>(before_.judgement.told_signs) + effects_[i].told_signs +
               effects_[j].told_signs >
           0;
  }

  [[nodiscard]] SignReach const& reach_of(SignId sign) {
    auto& reach = reaches_[index(sign)];
    if (reach.rules.empty()) reach = reach_.of_sign(sign);
    return reach;
  }
  [[nodiscard]] bool is_sought(Aim aim) const { return is_sought_[static_cast<std::size_t>(aim)]; }

  // The causes of `i` are marked in `affected_`; its factors go upon the probabilities of `j`.
  [[nodiscard]] Result add_up(std::size_t i, std::size_t j) {
    auto const& one = effects_[i];
    auto const& other = effects_[j];
    Result out;
    auto sum = other.sum;
    tier_sums_ = other.tier_sums;
    double highest = -1;
    std::uint32_t first = 0;
    double second_highest = -1;
    auto const offer = [&](std::uint32_t cause, double probability) {
      if (probability > highest || (probability == highest && cause < first)) {
        second_highest = highest;
        highest = probability;
        first = cause;
      } else {
        second_highest = std::max(second_highest, probability);
      }
    };
    for (auto const& [cause, factor] : one.factors) {
      auto const probability = other.unscaled[cause] * factor;
      auto const more = probability - other.unscaled[cause];
      sum += more;
      if (cause < pack_.causes.size()) tier_sums_[index(pack_.causes[cause].see)] += more;
      offer(cause, probability);
    }
    // Of those that `one` leaves alone the two most probable are enough.
    int left = 2;
    for (auto const cause : other.by_unscaled) {
      if (affected_[cause]) continue;
      offer(cause, other.unscaled[cause]);
      if (--left == 0) break;
    }
    if (first < pack_.causes.size()) out.first = CauseId{first};
    out.is_certain = highest - second_highest > near * highest;
    read_tier(i, j, sum, out);
    return out;
  }

  void read_tier(std::size_t i, std::size_t j, double sum, Result& out) const {
    bool const is_told = is_told_with(i, j);
    double needing_more = 0;
    for (std::uint32_t t = 0; t < pack_.tiers.size() && !out.tier; ++t) {
      bool reached = alarms_with(t, i, j) > 0;
      needing_more += tier_sums_[t] / sum;
      auto const threshold = pack_.tiers[t].threshold();
      if (is_told && !threshold) reached = true;
      if (is_told && threshold) {
        reached = reached || needing_more >= *threshold;
        if (std::abs(needing_more - *threshold) < near) out.is_certain = false;
      }
      if (reached) out.tier = TierId{t};
    }
  }

  [[nodiscard]] static Result result_of(Assessment const& after) {
    return {after.judgement.tier, after.ranking.front().cause, after.ranking.front().posterior,
            true};
  }

  void note(std::size_t i, std::size_t j, std::optional<Result> const& result,
            std::array<std::vector<Hit>, aims>& hits) const {
    if (!result) return;
    for (std::size_t aim = 0; aim < aims; ++aim)
      if (is_sought_[aim] && serves(static_cast<Aim>(aim), *result))
        hits[aim].push_back({i, j, result->tier});
  }

  [[nodiscard]] bool serves(Aim aim, Result const& result) const {
    switch (aim) {
      case Aim::higher_tier:
        return result.tier && (!before_.judgement.tier || *result.tier < *before_.judgement.tier);
      case Aim::lower_tier:
        return before_.judgement.tier && result.tier && *result.tier > *before_.judgement.tier;
      case Aim::other_first:
        return result.first != before_.ranking.front().cause;
    }
    return false;
  }

  [[nodiscard]] Assessment assess(std::size_t i, std::size_t j) {
    return assessor_.assess(with_changes(patient_, changes_of(i, j)));
  }
  [[nodiscard]] std::vector<Change> changes_of(std::size_t i, std::size_t j) const {
    if (i == j) return {changes_[i]};
    return {changes_[i], changes_[j]};
  }

  std::vector<ChangeSet> keep(Aim aim, std::array<std::vector<Hit>, aims>& all) {
    auto& hits = all[static_cast<std::size_t>(aim)];
    auto const effort = [&](Hit const& hit) {
      auto const seen = [&](std::size_t i) {
        return static_cast<int>(pack_[changes_[i].sign].seen_by);
      };
      return std::tuple(aim == Aim::higher_tier ? hit.tier : std::nullopt,
                        seen(hit.first) + seen(hit.second), hit.first, hit.second);
    };
    std::sort(hits.begin(), hits.end(),
              [&](Hit const& a, Hit const& b) { return effort(a) < effort(b); });
    std::vector<ChangeSet> out;
    for (auto const& hit : hits) {
      if (out.size() == shown_) break;
      auto const after = assess(hit.first, hit.second);
      if (!serves(aim, result_of(after))) continue;
      out.push_back({changes_of(hit.first, hit.second), after.judgement.tier,
                     after.ranking.front().cause, after.ranking.front().posterior});
    }
    return out;
  }

  Pack const& pack_;
  Assessor& assessor_;
  Case const& patient_;
  std::size_t shown_;
  std::array<bool, aims> wanted_{};
  Assessment before_;
  EffectTaker taker_;
  PairReach reach_;
  SumBounds sum_bounds_;
  std::vector<Change> changes_;
  std::vector<ChangeEffect> effects_;
  std::vector<SumBound> bounds_;  ///< of each change
  std::array<bool, aims> is_sought_{};
  std::vector<bool> meets_;  ///< of each change: whether it meets the first of the pair in hand
  std::vector<bool> affected_;
  std::vector<SignReach> reaches_;  ///< of each sign, empty until it is asked for
  std::vector<double> tier_sums_;
};

}  // namespace

SmallestChanges smallest_changes(Tables const& tables, Assessor& assessor, Case const& patient,
                                 std::size_t shown) {
  if (patient.came_for.empty())
    return Search(tables, assessor, patient, shown, {true, true, true}).run();
  // What was not mentioned bears on the ranking alone: tiers are searched as if nobody had come for
  // anything.
  auto silent = patient;
  silent.came_for.clear();
  auto out = Search(tables, assessor, silent, shown, {true, true, false}).run();
  out.other_first =
      Search(tables, assessor, patient, shown, {false, false, true}).run().other_first;
  for (auto* sets : {&out.higher_tier, &out.lower_tier})
    for (auto& set : *sets) {
      auto const first = assessor.assess(with_changes(patient, set.changes)).ranking.front();
      set.first = first.cause;
      set.first_posterior = first.posterior;
    }
  return out;
}

}  // namespace flinch
