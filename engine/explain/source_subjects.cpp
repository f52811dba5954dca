#include "flinch/explain/source_subjects.hpp"

#include <algorithm>

namespace flinch {
namespace {

template <typename Id>
bool has(std::vector<Id> const& list, Id id) {
  return std::find(list.begin(), list.end(), id) != list.end();
}

}  // namespace

SourceSubjects::SourceSubjects(Pack const& pack) : pack_(pack), causes_(pack.sources.size()) {
  auto const speaks = [&](SourceId source, CauseId cause) {
    auto& causes = causes_[index(source)];
    if (!has(causes, cause)) causes.push_back(cause);
  };
  for (std::uint32_t c = 0; c < pack.causes.size(); ++c)
    for (auto const source : pack.causes[c].cites) speaks(source, CauseId{c});
  for (auto const& rule : pack.rules)
    for (auto const& entry : rule.entries)
      if (entry.source) speaks(*entry.source, entry.cause);
  // Practice and judgement, which carry a grade, are no series of anything.
  for (std::size_t s = 0; s < causes_.size(); ++s)
    if (!pack.sources[s].grade.empty()) causes_[s].clear();
}

std::vector<SourceId> SourceSubjects::at(RuleId rule, CauseId cause) const {
  std::vector<SourceId> out;
  for (auto const& entry : pack_[rule].entries)
    if (entry.cause == cause && entry.source) out.push_back(*entry.source);
  for (auto const source : pack_[rule].cites) {
    auto const& causes = causes_[index(source)];
    if (!has(out, source) && (causes.empty() || has(causes, cause))) out.push_back(source);
  }
  return out;
}

}  // namespace flinch
