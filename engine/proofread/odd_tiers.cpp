// What asks for the last tier, and causes that cannot wait and set off no alarm.
#include <fmt/format.h>

#include <algorithm>

#include "model/walk.hpp"
#include "proofread/remarks.hpp"

namespace flinch {
namespace {

// A patient stays in the last tier when nothing asks for more.
void find_last_tier(Pack const& pack, Remarks& remarks) {
  if (pack.tiers.size() < 2) return;
  TierId const last{static_cast<std::uint32_t>(pack.tiers.size() - 1)};
  auto const say = [&](Place at, Place statement, std::string const& subject) {
    remarks.add(Code::last_tier, at, {statement},
                fmt::format("{} asks for the last tier, `{}`, and raises nothing", subject,
                            pack[last].name),
                "a patient stays there by itself when nothing asks for more",
                "name the tier that is meant in its `see`, or take it out");
  };
  for (auto const& alarm : pack.alarms)
    if (alarm.see == last)
      say(alarm.at, alarm.floor_of ? pack[*alarm.floor_of].at : alarm.at,
          fmt::format("the {} `{}`", alarm.floor_of ? "floor" : "alarm", alarm.name));
  for (auto const& care : pack.care)
    for (auto const& level : care.levels)
      if (level.see == last) say(care.at, care.at, fmt::format("a level of `{}`", care.name));
}

class Dangers {
 public:
  explicit Dangers(Pack const& pack) : pack_(pack), alarmed_(pack.signs.size()) {
    for (auto const& alarm : pack.alarms)
      if (alarm.see == TierId{0})
        walk_tests(pack, alarm.trigger(), [&](Condition const& leaf, Polarity) {
          for (std::optional<SignId> sign = leaf.test.sign; sign; sign = pack[*sign].part_of)
            alarmed_[index(*sign)] = true;
        });
  }

  // Whether some rule speaks for the cause by a sign of such an alarm, or none speaks for it.
  [[nodiscard]] bool looks_out_for(CauseId cause) const {
    bool is_told = false;
    for (auto const& rule : pack_.rules) {
      auto const entry = std::find_if(rule.entries.begin(), rule.entries.end(),
                                      [&](auto const& one) { return one.cause == cause; });
      if (entry == rule.entries.end() || entry->frequencies.empty() || rule.usual.empty()) continue;
      if (rule.condition && entry->frequencies.front() <= rule.usual.front()) continue;
      bool is_alarmed = !rule.condition && is_known(rule.over);
      bool is_of_patient = !rule.condition && pack_[rule.over].of_the_patient;
      if (rule.condition)
        walk_tests(pack_, *rule.condition, [&](Condition const& leaf, Polarity) {
          is_alarmed = is_alarmed || is_known(leaf.test.sign);
          is_of_patient = is_of_patient || pack_[leaf.test.sign].of_the_patient;
        });
      if (is_alarmed) return true;
      is_told = is_told || !is_of_patient;
    }
    return !is_told;
  }

 private:
  [[nodiscard]] bool is_known(SignId sign) const {
    for (std::optional<SignId> one = sign; one; one = pack_[*one].part_of)
      if (alarmed_[index(*one)]) return true;
    return false;
  }

  Pack const& pack_;
  std::vector<bool> alarmed_;
};

}  // namespace

void find_odd_tiers(Pack const& pack, Remarks& remarks) {
  find_last_tier(pack, remarks);
  if (pack.tiers.size() < 2) return;
  Dangers const dangers(pack);
  for (std::uint32_t i = 0; i < pack.causes.size(); ++i) {
    auto const& cause = pack.causes[i];
    if (cause.see != TierId{0} || dangers.looks_out_for(CauseId{i})) continue;
    remarks.add(
        Code::unalarmed_cause, cause.at, {cause.at},
        fmt::format("`{}` cannot wait, and no sign that speaks for it stands in an alarm or "
                    "floor of the tier `{}`",
                    cause.name, pack.tiers.front().name),
        "as long as other causes are likelier, nothing says that it is urgent",
        fmt::format("write the alarm that shows it, or a floor: `alone see {}` in its sign",
                    pack.tiers.front().name));
  }
}

}  // namespace flinch
