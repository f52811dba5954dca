#include "model/worlds.hpp"

#include <algorithm>

#include "model/typical_answers.hpp"
#include "model/walk.hpp"

namespace flinch {
namespace {

constexpr std::size_t most_sites = 6;  // marks of one sign whose subsets are tried

// Of an answer that is not by sites.
bool test_holds(Pack const& pack, Test const& test, Answer const& answer) {
  if (auto const* yes = std::get_if<bool>(&answer)) return *yes;
  if (auto const* number = std::get_if<double>(&answer)) return lies_within(test, *number);
  auto const value = std::get<Choice>(answer).index;
  if (test.kind == Test::Kind::at_least) return value >= test.values.front();
  auto const& values =
      test.kind == Test::Kind::in_group ? pack.group_breeds[index(test.group)] : test.values;
  return std::find(values.begin(), values.end(), value) != values.end();
}

}  // namespace

std::size_t SignWorlds::add(Test const& test) {
  auto const found = std::find(tests_.begin(), tests_.end(), test);
  if (found != tests_.end()) return static_cast<std::size_t>(found - tests_.begin());
  tests_.push_back(test);
  return tests_.size() - 1;
}

std::optional<std::vector<SignWorlds::World>> SignWorlds::worlds() const {
  auto const& kind = traits(pack_[sign_]);
  std::vector<World> out;
  if (kind.has_places) {
    auto found = sites();
    if (!found) return std::nullopt;
    out = std::move(*found);
  }
  if (kind.is_breed) out = {World(tests_.size(), false)};  // of no known breed
  std::vector<double> limits;
  for (auto const& test : tests_) limits.insert(limits.end(), {test.low, test.high});
  for (auto const& answer : typical_answers(pack_, sign_, std::move(limits))) {
    World world;
    for (auto const& test : tests_) world.push_back(test_holds(pack_, test, answer));
    out.push_back(std::move(world));
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

std::optional<std::vector<SignWorlds::World>> SignWorlds::sites() const {
  std::vector<SiteMark> marks;
  for (auto const& test : tests_)
    if (test.kind == Test::Kind::at_site) marks.push_back(test.mark);
  std::vector<World> out = {World(tests_.size(), false)};
  auto const count = marks.size();
  if (count > most_sites) return std::nullopt;
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
// Found at a site is found.
bool SignWorlds::says_yes(World const& world) const {
  return std::find(world.begin(), world.end(), true) != world.end();
}
// Found at none of the sites asked for, it may be elsewhere: only `holds` tells.
bool SignWorlds::says_no(World const& world) const {
  for (std::size_t i = 0; i < tests_.size(); ++i)
    if (tests_[i].kind == Test::Kind::holds && !world[i]) return true;
  return false;
}

Worlds::Worlds(Pack const& pack, std::vector<Condition const*> const& conditions) : pack_(pack) {
  for (auto const* condition : conditions)
    walk_tests(pack, *condition, [&](Condition const& leaf, Polarity) {
      auto& worlds = signs_.try_emplace(index(leaf.test.sign), pack, leaf.test.sign).first->second;
      tests_.emplace(&leaf, std::pair(index(leaf.test.sign), worlds.add(leaf.test)));
    });
}

bool Worlds::start(std::size_t most_tests) {
  wheels_.clear();
  std::size_t combinations = 1;
  for (auto const& [sign, worlds] : signs_) {
    auto of_sign = worlds.worlds();
    if (!of_sign) return false;
    combinations *= of_sign->size();
    if (combinations * tests_.size() > most_tests) return false;
    wheels_[sign] = {std::move(*of_sign), 0};
  }
  return is_possible() || next();
}

bool Worlds::next() {
  while (turn())
    if (is_possible()) return true;
  return false;
}

// Turns the first wheel, and at its end the next one.
bool Worlds::turn() {
  for (auto& [sign, wheel] : wheels_) {
    if (++wheel.at < wheel.worlds.size()) return true;
    wheel.at = 0;
  }
  return false;
}

// A part cannot be yes while its whole is no.
bool Worlds::is_possible() const {
  for (auto const& [sign, wheel] : wheels_) {
    if (!pack_.signs[sign].part_of) continue;
    if (!signs_.at(sign).says_yes(wheel.worlds[wheel.at])) continue;
    for (auto whole = pack_.signs[sign].part_of; whole; whole = pack_[*whole].part_of)
      if (auto const other = wheels_.find(index(*whole)); other != wheels_.end())
        if (signs_.at(index(*whole)).says_no(other->second.worlds[other->second.at])) return false;
  }
  return true;
}

bool Worlds::holds(Condition const& c) const {
  auto const part_holds = [&](Condition const& part) { return holds(part); };
  switch (c.kind) {
    case Condition::Kind::test: {
      auto const [sign, test] = tests_.at(&c);
      auto const& wheel = wheels_.at(sign);
      return wheel.worlds[wheel.at][test];
    }
    case Condition::Kind::meaning:
      return holds(pack_[c.meaning].condition);
    case Condition::Kind::negation:
    case Condition::Kind::unless:
      return !holds(c.parts.front());
    default:
      return std::count_if(c.parts.begin(), c.parts.end(), part_holds) >= needed_parts(c);
  }
}

}  // namespace flinch
