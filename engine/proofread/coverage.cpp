#include "flinch/proofread/coverage.hpp"

namespace flinch {
namespace {

template <class Id>
std::vector<Id> without_any(std::vector<std::size_t> const& counts) {
  std::vector<Id> out;
  for (std::uint32_t i = 0; i < counts.size(); ++i)
    if (counts[i] == 0) out.push_back(Id{i});
  return out;
}

}  // namespace

Coverage::Coverage(Pack const& pack) : rules_(pack.rules.size()), alarms_(pack.alarms.size()) {}

void Coverage::add(Assessment const& result) {
  ++patients_;
  for (auto const& rule : result.rules)
    if (rule.truth == Truth::yes) ++rules_[index(rule.rule)];
  for (auto const alarm : result.judgement.fired) ++alarms_[index(alarm)];
}

std::vector<RuleId> Coverage::silent_rules() const { return without_any<RuleId>(rules_); }

std::vector<AlarmId> Coverage::silent_alarms() const { return without_any<AlarmId>(alarms_); }

Coverage cover_examples(Tables const& tables) {
  Coverage out(tables.pack());
  Assessor assessor(tables);
  for (auto const& example : tables.pack().examples) out.add(assessor.assess(example.patient));
  return out;
}

}  // namespace flinch
