// Searching for the smallest changes of answers: each alone, and, for what no single one does, all
// pairs that could do it by their bounds.
#include <algorithm>
#include <array>
#include <tuple>

#include "explain/change_pairs.hpp"
#include "explain/telling_answers.hpp"
#include "flinch/explain/what_if.hpp"

namespace flinch {
namespace {

enum class Aim : std::uint8_t { higher_tier, lower_tier, other_first };
constexpr std::size_t aims = 3;

struct Hit {
  std::size_t first = 0;
  std::size_t second = 0;  ///< the same as `first` for a single change
  std::size_t tier = 0;
};

class Search {
 public:
  Search(Tables const& tables, Assessor& assessor, Case const& patient, std::size_t shown,
         std::array<bool, aims> wanted)
      : pack_(tables.pack()),
        assessor_(assessor),
        patient_(patient),
        shown_(shown),
        pairs_(tables, assessor, patient, telling_changes(tables, patient)),
        before_(pairs_.outlook_before()),
        is_sought_{wanted[0], wanted[1], wanted[2] && !pairs_.before().nothing_told} {}

  SmallestChanges run() {
    for (std::size_t i = 0; i < pairs_.count(); ++i) note(i, i, pairs_.alone(i));
    // An aim that one answer reaches needs no two.
    for (std::size_t aim = 0; aim < aims; ++aim)
      is_sought_[aim] = is_sought_[aim] && hits_[aim].empty();
    if (std::find(is_sought_.begin(), is_sought_.end(), true) != is_sought_.end()) search_pairs();
    return {keep(Aim::higher_tier), keep(Aim::lower_tier), keep(Aim::other_first)};
  }

 private:
  void search_pairs() {
    for (std::size_t i = 0; i < pairs_.count(); ++i) {
      pairs_.begin(i);
      for (std::size_t j = i + 1; j < pairs_.count(); ++j) {
        if (pairs_[i].sign == pairs_[j].sign) continue;
        auto const bounds = pairs_.meet(j);
        if (bounds && could_serve(*bounds)) note(i, j, pairs_.together());
      }
    }
  }

  [[nodiscard]] bool is_sought(Aim aim) const { return is_sought_[static_cast<std::size_t>(aim)]; }

  [[nodiscard]] bool could_serve(ChangePairs::Bounds const& bounds) const {
    return (is_sought(Aim::higher_tier) && bounds.highest < before_.tier) ||
           (is_sought(Aim::lower_tier) && bounds.lowest > before_.tier) ||
           (is_sought(Aim::other_first) && bounds.may_change_first);
  }

  [[nodiscard]] bool serves(Aim aim, Outlook const& after) const {
    switch (aim) {
      case Aim::higher_tier:
        return after.tier < before_.tier;
      case Aim::lower_tier:
        return after.tier > before_.tier && after.tier < pack_.tiers.size();
      case Aim::other_first:
        return after.first != before_.first;
    }
    return false;
  }

  void note(std::size_t i, std::size_t j, std::optional<Outlook> const& after) {
    if (!after) return;
    for (std::size_t aim = 0; aim < aims; ++aim)
      if (is_sought_[aim] && serves(static_cast<Aim>(aim), *after))
        hits_[aim].push_back({i, j, after->tier});
  }

  std::vector<ChangeSet> keep(Aim aim) {
    auto& hits = hits_[static_cast<std::size_t>(aim)];
    auto const effort = [&](Hit const& hit) {
      auto const seen = [&](std::size_t i) {
        return static_cast<int>(pack_[pairs_[i].sign].seen_by);
      };
      return std::tuple(aim == Aim::higher_tier ? hit.tier : 0, seen(hit.first) + seen(hit.second),
                        hit.first, hit.second);
    };
    std::sort(hits.begin(), hits.end(),
              [&](Hit const& a, Hit const& b) { return effort(a) < effort(b); });
    std::vector<ChangeSet> out;
    for (auto const& hit : hits) {
      if (out.size() == shown_) break;
      auto changes = pairs_.changes_of(hit.first, hit.second);
      auto const after = assessor_.assess(with_changes(patient_, changes));
      if (!serves(aim, pairs_.outlook_of(after.judgement))) continue;
      out.push_back({std::move(changes), after.judgement.tier, after.ranking.front().cause,
                     after.ranking.front().posterior});
    }
    return out;
  }

  Pack const& pack_;
  Assessor& assessor_;
  Case const& patient_;
  std::size_t shown_;
  ChangePairs pairs_;
  Outlook before_;
  std::array<bool, aims> is_sought_{};
  std::array<std::vector<Hit>, aims> hits_;
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
