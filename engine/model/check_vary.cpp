// Conditions that can never be true, or never be false.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "model/checks.hpp"
#include "model/walk.hpp"

namespace flinch {
namespace {

constexpr std::size_t most_tests_tried = 400000;  // over all combinations, for one condition
constexpr std::size_t most_sites = 6;             // marks of one sign whose subsets are tried

using World = std::vector<bool>;  // the truth of each of a sign's tests

// Everything that one sign's answer can make of the tests on it.
class SignWorlds {
 public:
  SignWorlds(Pack const& pack, SignId sign) : pack_(pack), sign_(sign) {}

  std::size_t add(Test const& test) {
    auto const found = std::find(tests_.begin(), tests_.end(), test);
    if (found != tests_.end()) return static_cast<std::size_t>(found - tests_.begin());
    tests_.push_back(test);
    return tests_.size() - 1;
  }
  [[nodiscard]] SignId sign() const { return sign_; }
  [[nodiscard]] std::vector<World> worlds() const {
    std::vector<World> out;
    switch (pack_[sign_].kind) {
      case AnswerKind::yes_or_no:
        out = {World(tests_.size(), false), World(tests_.size(), true)};
        break;
      case AnswerKind::sites:
        out = sites();
        break;
      case AnswerKind::steps:
      case AnswerKind::one_of:
        for (std::uint32_t value = 0; value < pack_[sign_].values.size(); ++value)
          out.push_back(choice(value));
        break;
      case AnswerKind::number:
        out = numbers();
        break;
      case AnswerKind::breed:
        out = breeds();
        break;
    }
    std::sort(out.begin(), out.end());
    out.erase(std::unique(out.begin(), out.end()), out.end());
    return out;
  }

 private:
  [[nodiscard]] World choice(std::uint32_t value) const {
    World world;
    for (auto const& test : tests_)
      world.push_back(test.kind == Test::Kind::at_least
                          ? value >= test.values.front()
                          : std::find(test.values.begin(), test.values.end(), value) !=
                                test.values.end());
    return world;
  }
  [[nodiscard]] std::vector<World> numbers() const {
    auto const& sign = pack_[sign_];
    std::vector<double> points = {sign.low, sign.high};
    for (auto const& test : tests_)
      for (auto const bound : {test.low, test.high})
        if (bound >= sign.low && bound <= sign.high) points.push_back(bound);
    std::sort(points.begin(), points.end());
    auto const bounds = points;
    for (std::size_t i = 1; i < bounds.size(); ++i)
      points.push_back((bounds[i - 1] + bounds[i]) / 2);
    std::vector<World> out;
    for (auto const value : points) {
      World world;
      for (auto const& test : tests_) {
        bool const above = test.low_included ? value >= test.low : value > test.low;
        bool const below = test.high_included ? value <= test.high : value < test.high;
        world.push_back(above && below);
      }
      out.push_back(std::move(world));
    }
    return out;
  }
  [[nodiscard]] std::vector<World> sites() const {
    std::vector<SiteMark> marks;
    for (auto const& test : tests_)
      if (test.kind == Test::Kind::at_site) marks.push_back(test.mark);
    std::vector<World> out = {World(tests_.size(), false)};
    auto const count = std::min(marks.size(), most_sites);
    for (std::size_t subset = 0; subset < (std::size_t{1} << count); ++subset) {
      World world;
      for (auto const& test : tests_) {
        bool is_true = test.kind == Test::Kind::holds;  // found: here, or somewhere else
        for (std::size_t i = 0; i < count && !is_true; ++i)
          is_true = (subset >> i & 1U) != 0 && pack_.covers(test.mark.site, marks[i].site) &&
                    (test.mark.side == Side::any || test.mark.side == marks[i].side);
        world.push_back(is_true);
      }
      out.push_back(std::move(world));
    }
    return out;
  }
  [[nodiscard]] std::vector<World> breeds() const {
    std::vector<World> out = {World(tests_.size(), false)};
    for (std::uint32_t breed = 0; breed < pack_.breeds.breeds.size(); ++breed) {
      World world;
      for (auto const& test : tests_) {
        auto const& members = pack_.group_breeds[index(test.group)];
        world.push_back(std::binary_search(members.begin(), members.end(), breed));
      }
      out.push_back(std::move(world));
    }
    return out;
  }

  Pack const& pack_;
  SignId sign_;
  std::vector<Test> tests_;
};

class Variation {
 public:
  Variation(Pack const& pack, Condition const& condition) : pack_(pack), condition_(condition) {
    walk_tests(pack, condition, [&](Condition const& leaf, Polarity) {
      auto& worlds = signs_.try_emplace(index(leaf.test.sign), pack, leaf.test.sign).first->second;
      tests_.emplace(&leaf, std::pair(index(leaf.test.sign), worlds.add(leaf.test)));
    });
  }

  enum class Verdict { varies, never_true, never_false, not_tried };

  [[nodiscard]] Verdict verdict() {
    std::size_t combinations = 1;
    for (auto const& [sign, worlds] : signs_) {
      choices_[sign] = worlds.worlds();
      combinations *= choices_[sign].size();
      if (combinations * tests_.size() > most_tests_tried) return Verdict::not_tried;
    }
    bool seen_true = false;
    bool seen_false = false;
    for (std::size_t i = 0; i < combinations && !(seen_true && seen_false); ++i) {
      auto rest = i;
      for (auto const& [sign, worlds] : choices_) {
        world_[sign] = &worlds[rest % worlds.size()];
        rest /= worlds.size();
      }
      if (!possible()) continue;
      (holds(condition_) ? seen_true : seen_false) = true;
    }
    return !seen_true ? Verdict::never_true : !seen_false ? Verdict::never_false : Verdict::varies;
  }

 private:
  // A part cannot be yes while its whole is no. Each of these signs has the one test `holds`.
  [[nodiscard]] bool possible() const {
    for (auto const& [sign, world] : world_)
      for (auto whole = pack_.signs[sign].part_of; whole && world->front();
           whole = pack_[*whole].part_of)
        if (auto const other = world_.find(index(*whole));
            other != world_.end() && !other->second->front())
          return false;
    return true;
  }
  [[nodiscard]] bool holds(Condition const& c) const {
    auto const part_holds = [&](Condition const& part) { return holds(part); };
    switch (c.kind) {
      case Condition::Kind::test: {
        auto const [sign, test] = tests_.at(&c);
        return (*world_.at(sign))[test];
      }
      case Condition::Kind::meaning:
        return holds(pack_[c.meaning].condition);
      case Condition::Kind::negation:
        return !holds(c.parts.front());
      case Condition::Kind::all:
        return std::all_of(c.parts.begin(), c.parts.end(), part_holds);
      case Condition::Kind::any:
        return std::any_of(c.parts.begin(), c.parts.end(), part_holds);
      case Condition::Kind::count:
        return std::count_if(c.parts.begin(), c.parts.end(), part_holds) >= c.needed;
    }
    return false;
  }

  Pack const& pack_;
  Condition const& condition_;
  std::map<std::size_t, SignWorlds> signs_;
  std::map<Condition const*, std::pair<std::size_t, std::size_t>> tests_;
  std::map<std::size_t, std::vector<World>> choices_;
  std::map<std::size_t, World const*> world_;
};

void check(Pack const& pack, std::string_view kind, std::string const& name,
           Condition const& condition, Report& report) {
  auto const verdict = Variation(pack, condition).verdict();
  if (verdict == Variation::Verdict::never_true)
    report.error(Code::never_true, condition.at,
                 fmt::format("the condition of {} `{}` can never be true", kind, name));
  else if (verdict == Variation::Verdict::never_false)
    report.error(Code::never_false, condition.at,
                 fmt::format("the condition of {} `{}` can never be false", kind, name));
}

}  // namespace

void check_conditions_vary(Pack const& pack, Report& report) {
  for (auto const& rule : pack.rules)
    if (rule.condition) check(pack, "rule", rule.name, *rule.condition, report);
  for (auto const& alarm : pack.alarms) check(pack, "alarm", alarm.name, alarm.condition, report);
}

}  // namespace flinch
