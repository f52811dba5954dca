// Signs and meanings that nothing uses, causes that nothing speaks for.
#include <fmt/format.h>

#include "model/checks.hpp"

namespace flinch {
namespace {

class Uses {
 public:
  explicit Uses(Pack const& pack)
      : pack_(pack), signs_(pack.signs.size()), means_(pack.means.size()) {
    for (auto const& rule : pack.rules) {
      if (rule.condition) mark(*rule.condition);
      if (!rule.bands.empty()) signs_[index(rule.over)] = true;
    }
    for (auto const& alarm : pack.alarms) mark(alarm.condition);
    for (auto const& care : pack.care) {
      if (care.fit_if) mark(*care.fit_if);
      for (auto const* gates : {&care.never_if, &care.ask_vet_if, &care.stop_if})
        for (auto const& gate : *gates) mark(gate.condition);
      for (auto const& sign : {care.taken, care.since, care.slims_by})
        if (sign) signs_[index(*sign)] = true;
    }
    for (auto const& sign : pack.signs)
      if (sign.applies_if) mark(*sign.applies_if);
    // A whole is used through its parts, and a part may settle its whole.
    for (bool changed = true; changed;) {
      changed = false;
      for (std::size_t i = 0; i < pack.signs.size(); ++i) {
        auto const whole = pack.signs[i].part_of;
        if (!whole || signs_[i] == signs_[index(*whole)]) continue;
        signs_[i] = signs_[index(*whole)] = true;
        changed = true;
      }
    }
  }
  [[nodiscard]] bool sign(std::size_t i) const { return signs_[i]; }
  [[nodiscard]] bool meaning(std::size_t i) const { return means_[i]; }

 private:
  void mark(Condition const& c) {
    if (c.kind == Condition::Kind::test) signs_[index(c.test.sign)] = true;
    if (c.kind == Condition::Kind::meaning && !means_[index(c.meaning)]) {
      means_[index(c.meaning)] = true;
      mark(pack_[c.meaning].condition);
    }
    for (auto const& part : c.parts) mark(part);
  }

  Pack const& pack_;
  std::vector<bool> signs_;
  std::vector<bool> means_;
};

}  // namespace

void check_use(Pack const& pack, Report& report) {
  Uses const uses(pack);
  for (std::size_t i = dog_sign::count; i < pack.signs.size(); ++i)
    if (!uses.sign(i))
      report.warning(Code::unused_sign, pack.signs[i].at,
                     fmt::format("no rule, alarm or care uses the sign `{}`", pack.signs[i].name));
  for (std::size_t i = 0; i < pack.means.size(); ++i)
    if (!uses.meaning(i))
      report.warning(Code::unused_meaning, pack.means[i].condition.at,
                     fmt::format("nothing uses the meaning `{}`", pack.means[i].name));
  std::vector<bool> named(pack.causes.size());
  for (auto const& rule : pack.rules)
    for (auto const& entry : rule.entries) named[index(entry.cause)] = true;
  for (std::size_t i = 0; i < pack.causes.size(); ++i)
    if (!named[i])
      report.warning(Code::silent_cause, pack.causes[i].at,
                     fmt::format("no rule speaks for the cause `{}`", pack.causes[i].name));
}

}  // namespace flinch
