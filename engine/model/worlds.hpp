#pragma once
// Everything that known answers can make of a few conditions together, tried one by one.
#include <map>
#include <utility>
#include <vector>

#include "flinch/model/pack.hpp"

namespace flinch {

/// What the answers to one sign can make of the tests on it: each possible line of truths, once.
class SignWorlds {
 public:
  using World = std::vector<bool>;  ///< the truth of each test, in the order of `add`

  SignWorlds(Pack const& pack, SignId sign) : pack_(pack), sign_(sign) {}

  /// The place of the test in a world; a test that is there already keeps its place.
  std::size_t add(Test const& test);
  [[nodiscard]] std::size_t test_count() const { return tests_.size(); }
  /// Nothing when the tests name too many sites to try all that can be found.
  [[nodiscard]] std::optional<std::vector<World>> worlds() const;
  /// Of a sign that is there or not: whether it is there in this world, whether it is known not to
  /// be. Neither, where the world only says of some sites that it is not there.
  [[nodiscard]] bool says_yes(World const& world) const;
  [[nodiscard]] bool says_no(World const& world) const;

 private:
  [[nodiscard]] std::optional<std::vector<World>> sites() const;

  Pack const& pack_;
  SignId sign_;
  std::vector<Test> tests_;
};

/// The possible combinations of the answers on which conditions hang. A part that is yes while its
/// whole is no is impossible and left out; other ties between signs (`applies if`, the size that
/// follows from the breed) are not looked at, so that some combinations cannot occur in a patient.
class Worlds {
 public:
  /// All must outlive this.
  Worlds(Pack const& pack, std::vector<Condition const*> const& conditions);

  [[nodiscard]] std::size_t sign_count() const { return signs_.size(); }

  /// Goes to the first world; false when there are more than can be tried: more than
  /// `most_tests` truths of tests, or too many sites.
  [[nodiscard]] bool start(std::size_t most_tests);
  /// Goes to the next world; false when there is none.
  [[nodiscard]] bool next();
  /// Whether the condition holds in this world.
  [[nodiscard]] bool holds(Condition const& condition) const;

 private:
  struct Wheel {
    std::vector<SignWorlds::World> worlds;
    std::size_t at = 0;
  };
  [[nodiscard]] bool turn();
  [[nodiscard]] bool is_possible() const;

  Pack const& pack_;
  std::map<std::size_t, SignWorlds> signs_;
  std::map<Condition const*, std::pair<std::size_t, std::size_t>> tests_;  ///< sign, place
  std::map<std::size_t, Wheel> wheels_;
};

}  // namespace flinch
