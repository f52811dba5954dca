#include "flinch/audit/compare.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>
#include <tuple>

namespace flinch {
namespace {

// One pack's view of a case.
struct OnePack {
  explicit OnePack(Tables const& its_tables)
      : tables(its_tables), pack(its_tables.pack()), assessor(its_tables) {}

  [[nodiscard]] Standing standing() const {
    auto const& first = result.ranking.front();
    return {result.judgement.tier ? pack[*result.judgement.tier].name : "",
            first.cause ? pack[*first.cause].name : "", first.posterior};
  }
  /// Seconds until the patient is seen; without a tier, longer than any.
  [[nodiscard]] double wait() const {
    return result.judgement.tier ? pack[*result.judgement.tier].within_s
                                 : std::numeric_limits<double>::infinity();
  }
  [[nodiscard]] std::optional<CauseId> find(std::string const& name) const {
    for (std::uint32_t i = 0; i < pack.causes.size(); ++i)
      if (pack.causes[i].name == name) return CauseId{i};
    return std::nullopt;
  }
  [[nodiscard]] double probability(std::string const& cause) const {
    auto const id = find(cause);
    return id ? result.judgement.posterior(id) : 0;
  }

  Tables const& tables;
  Pack const& pack;
  Assessor assessor;
  Assessment result;
};

class Comparer {
 public:
  Comparer(Tables const& before, Tables const& after) : before_(before), after_(after) {
    std::set<double> waits;
    for (auto const* pack : {&before_.pack, &after_.pack})
      for (auto const& tier : pack->tiers) waits.insert(tier.within_s);
    waits.insert(std::numeric_limits<double>::infinity());
    for (auto const wait : waits)
      step_of_wait_.emplace(wait, static_cast<int>(step_of_wait_.size()));
  }

  Comparison run(std::span<CasePair const> cases, EachCase const& each) {
    Comparison out;
    for (auto const& one : cases) {
      if (each) each(out.cases);
      ++out.cases;
      before_.result = before_.assessor.assess(one.before);
      after_.result = after_.assessor.assess(one.after);
      auto movement = move(one);
      bool const other_first = movement.before.first != movement.after.first;
      // Packs may give one and the same tier another name.
      if (movement.steps_later == 0 && !other_first) continue;
      if (movement.steps_later > 0) ++out.later;
      if (movement.steps_later < 0) ++out.sooner;
      if (other_first) ++out.other_first;
      movement.why = why(movement);
      out.movements.push_back(std::move(movement));
    }
    std::stable_sort(out.movements.begin(), out.movements.end(),
                     [](Movement const& a, Movement const& b) {
                       return std::tuple(severity(a), -std::abs(a.steps_later)) <
                              std::tuple(severity(b), -std::abs(b.steps_later));
                     });
    return out;
  }

 private:
  [[nodiscard]] Movement move(CasePair const& one) const {
    Movement out;
    out.name = one.name;
    out.before = before_.standing();
    out.after = after_.standing();
    out.steps_later = step_of_wait_.at(after_.wait()) - step_of_wait_.at(before_.wait());
    auto const& truth = one.after.outcome;
    if (!truth) return out;
    if (truth->needed) {
      out.is_needed_known = true;
      // Without a tier the last one is what is heard.
      auto const given = after_.result.judgement.tier.value_or(
          TierId{static_cast<std::uint32_t>(after_.pack.tiers.size() - 1)});
      out.is_under_triaged = given > *truth->needed;
    }
    if (truth->is_cause_known) {
      auto const name = truth->cause ? after_.pack[*truth->cause].name : std::string();
      out.lost_true_cause = out.before.first == name && out.after.first != name;
    }
    return out;
  }

  static int severity(Movement const& m) {
    if (m.steps_later > 0) return m.is_under_triaged ? 0 : m.is_needed_known ? 2 : 1;
    if (m.lost_true_cause) return 3;
    return m.steps_later == 0 ? 4 : 5;
  }

  // The causes whose standing made the change: both first ones, and where the tier moved the one
  // that needs it and whose probability moved most.
  [[nodiscard]] std::vector<std::string> causes_that_count(Movement const& m) const {
    std::vector<std::string> out;
    auto const add = [&](std::string const& name) {
      if (!name.empty() && std::find(out.begin(), out.end(), name) == out.end())
        out.push_back(name);
    };
    if (m.before.first != m.after.first) {
      add(m.before.first);
      add(m.after.first);
    }
    if (m.steps_later == 0) return out;
    auto const& urgent = m.steps_later > 0 ? before_ : after_;
    auto const wait = urgent.wait();
    std::string most;
    double largest = 0;
    for (auto const& cause : urgent.pack.causes) {
      if (urgent.pack[cause.see].within_s > wait) continue;
      auto const moved = std::abs(after_.probability(cause.name) - before_.probability(cause.name));
      if (moved > largest) {
        largest = moved;
        most = cause.name;
      }
    }
    add(most);
    return out;
  }

  [[nodiscard]] std::vector<Difference> why(Movement const& m) const {
    auto out = differences(m, causes_that_count(m));
    // What moved a cause may be nothing but the others' weight.
    if (out.empty()) out = differences(m, all_causes());
    std::stable_sort(out.begin(), out.end(), [](Difference const& a, Difference const& b) {
      auto const is_alarm = [](Difference const& d) { return d.kind == Difference::Kind::alarm; };
      if (is_alarm(a) != is_alarm(b)) return is_alarm(a);
      return std::abs(a.change()) > std::abs(b.change());
    });
    return out;
  }

  [[nodiscard]] std::vector<std::string> all_causes() const {
    std::set<std::string> names;
    for (auto const* pack : {&before_.pack, &after_.pack})
      for (auto const& cause : pack->causes) names.insert(cause.name);
    return {names.begin(), names.end()};
  }

  [[nodiscard]] std::vector<Difference> differences(Movement const& m,
                                                    std::vector<std::string> const& causes) const {
    std::vector<Difference> out;
    for (auto const& cause : causes) {
      add_rules(cause, out);
      add_base(cause, out);
    }
    if (m.steps_later != 0) {
      add_alarms(out);
      add_thresholds(out);
    }
    std::erase_if(out, [](Difference const& d) { return std::abs(d.change()) < 1e-9; });
    return out;
  }

  void add_rules(std::string const& cause, std::vector<Difference>& out) const {
    std::map<std::string, Difference> by_rule;
    auto const gather = [&](OnePack const& one_pack, double Difference::*when) {
      auto const id = one_pack.find(cause);
      for (auto const& contribution : one_pack.result.contributions) {
        if (contribution.cause != id) continue;
        auto const& rule = one_pack.pack[contribution.rule];
        auto& one = by_rule[rule.name];
        one.kind = Difference::Kind::rule;
        one.name = rule.name;
        one.title = rule.title;
        one.cause = cause;
        one.*when = contribution.counted();
      }
    };
    gather(before_, &Difference::before);
    gather(after_, &Difference::after);
    for (auto& [name, one] : by_rule) out.push_back(std::move(one));
  }

  void add_base(std::string const& cause, std::vector<Difference>& out) const {
    auto const was = before_.find(cause);
    auto const is = after_.find(cause);
    if (!was || !is) return;  // a cause that came or went shows by its rules
    out.push_back({Difference::Kind::base, cause, after_.pack[*is].title, cause,
                   before_.tables.log_prior(index(*was)), after_.tables.log_prior(index(*is))});
  }

  void add_alarms(std::vector<Difference>& out) const {
    std::map<std::string, Difference> by_alarm;
    auto const gather = [&](OnePack const& one_pack, double Difference::*when) {
      for (auto const id : one_pack.result.judgement.fired) {
        auto const& alarm = one_pack.pack[id];
        auto& one = by_alarm[alarm.name];
        one.kind = Difference::Kind::alarm;
        one.name = alarm.name;
        one.title = alarm.title;
        one.*when = 1;
      }
    };
    gather(before_, &Difference::before);
    gather(after_, &Difference::after);
    for (auto& [name, one] : by_alarm) out.push_back(std::move(one));
  }

  void add_thresholds(std::vector<Difference>& out) const {
    for (auto const& tier : after_.pack.tiers)
      for (auto const& earlier : before_.pack.tiers)
        if (earlier.name == tier.name)
          out.push_back({Difference::Kind::harm, tier.name, tier.title, "",
                         earlier.threshold().value_or(0), tier.threshold().value_or(0)});
  }

  OnePack before_;
  OnePack after_;
  std::map<double, int> step_of_wait_;
};

}  // namespace

Comparison compare(Tables const& before, Tables const& after, std::span<CasePair const> cases,
                   EachCase const& each) {
  return Comparer(before, after).run(cases, each);
}

}  // namespace flinch
