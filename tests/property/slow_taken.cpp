#include "property/slow_taken.hpp"

#include <algorithm>
#include <cmath>

#include "property/slow_evaluator.hpp"

namespace flinch::test {
namespace {

using Tier = std::optional<std::size_t>;

Tier more_urgent(Tier a, Tier b) { return !a ? b : !b ? a : std::min(*a, *b); }

class Weighing {
 public:
  Weighing(Pack const& pack, std::map<SignId, Answer> const& answers,
           std::set<SignId> const& cannot_tell)
      : pack_(pack), answers_(answers), cannot_tell_(cannot_tell) {}

  SlowTaken weigh() const {
    SlowTaken out;
    for (auto const& care : pack_.care) {
      if (!care.taken || it_was(care) == -1) continue;
      bool const counts = it_was(care) == 1 || (mg(care) && may_be(care)) || is_worst_guess(care);
      if (counts) out.counted.insert(care.name);
      auto& tier = counts ? out.tier : out.could_reach;
      tier = more_urgent(tier, asks_for(care));
    }
    return out;
  }

 private:
  // -1 it was not this, 0 it may have been, 1 it was.
  int it_was(Care const& care) const {
    return care.fit_if ? slow_truth(pack_, *care.fit_if, answers_) : 0;
  }

  // Milligrams; nothing where the amount is not known, or given as 0.
  std::optional<double> mg(Care const& care) const {
    auto const found = answers_.find(*care.taken);
    if (found == answers_.end()) return std::nullopt;
    auto const amount = std::get<double>(found->second);
    if (amount <= 0) return std::nullopt;
    return pack_[*care.taken].unit.name == "g" ? amount * 1000 : amount;
  }

  // Half a kilogram where the weight is unknown, not one of 0.5 to 100 kg, or can hardly be.
  double kg() const {
    auto const found = answers_.find(patient_sign::weight);
    if (found == answers_.end()) return 0.5;
    auto const weight = std::get<double>(found->second);
    return weight >= 0.5 && weight <= 100 && (is_said_twice(weight) || may_weigh(weight)) ? weight
                                                                                          : 0.5;
  }

  bool is_said_twice(double weight) const {
    auto const again = answers_.find(patient_sign::weight_confirmed);
    if (again == answers_.end()) return false;
    auto const kg = std::get<double>(again->second);
    return std::abs(weight - kg) <= std::max(weight, kg) / 100;
  }

  // All breeds of the drawn packs have a size and a weight.
  bool may_weigh(double weight) const {
    WeightRange usual;
    if (auto const breed = answers_.find(patient_sign::breed); breed != answers_.end())
      usual = pack_.breeds.breeds[std::get<Choice>(breed->second).index].adult_weight;
    else if (auto const size = answers_.find(patient_sign::size);
             size != answers_.end() && pack_.size_by_weight)
      usual = (*pack_.size_by_weight)[std::get<Choice>(size->second).index];
    else
      return true;
    auto const age = answers_.find(patient_sign::age);
    bool const is_grown = age != answers_.end() && pack_.size_by_weight &&
                          std::get<double>(age->second) >= pack_.grown_years;
    auto const above = std::min(2 * pack_.doses.lightest_kg, usual.high_kg / 4);
    auto const as_pounds = weight * 0.45359237;
    bool const is_of_pounds = usual.low_kg <= as_pounds && as_pounds <= usual.high_kg;
    return weight <= usual.high_kg * (is_of_pounds ? 1.6 : 1.7) + above &&
           (!is_grown || weight * 2 >= usual.low_kg);
  }

  // As if it was this one: by its levels, or as the most harmful amount where none is known.
  Tier asks_for(Care const& care) const {
    Tier out;
    for (auto const& level : care.levels) {
      bool const reached = !mg(care) || *mg(care) / kg() >= level.mg_per_kg * (1 - 1e-9);
      if (reached && level.see) out = more_urgent(out, index(*level.see));
    }
    return out;
  }

  static void signs_of(Pack const& pack, Condition const& c, std::set<SignId>& out) {
    if (c.kind == Condition::Kind::test) out.insert(c.test.sign);
    if (c.kind == Condition::Kind::meaning)
      signs_of(pack, pack.means[index(c.meaning)].condition, out);
    for (auto const& part : c.parts) signs_of(pack, part, out);
  }
  std::set<SignId> signs_of(Care const& care) const {
    std::set<SignId> out;
    if (care.fit_if) signs_of(pack_, *care.fit_if, out);
    return out;
  }

  // One of several that share an amount is known: the others are not guessed at, unless they were
  // asked for and nobody can tell.
  bool may_be(Care const& care) const {
    auto const signs = signs_of(care);
    bool const asked_in_vain = std::any_of(signs.begin(), signs.end(), [&](SignId sign) {
      return cannot_tell_.count(sign) != 0 && answers_.count(sign) == 0;
    });
    bool const another = std::any_of(pack_.care.begin(), pack_.care.end(), [&](Care const& other) {
      return other.taken == care.taken && it_was(other) == 1;
    });
    return asked_in_vain || !another;
  }

  // Something was taken, neither which nor how much is known.
  bool is_guess(Care const& care) const {
    if (!care.taken || !care.fit_if || it_was(care) != 0 || mg(care) || !may_be(care)) return false;
    if (!asks_for(care)) return false;
    for (auto const sign : signs_of(care))
      for (auto whole = pack_[sign].part_of; whole; whole = pack_[*whole].part_of)
        if (auto const known = answers_.find(*whole); known != answers_.end() &&
                                                      std::holds_alternative<bool>(known->second) &&
                                                      std::get<bool>(known->second))
          return true;
    return false;
  }

  // Of the guesses that share an amount only the worst counts: the most urgent, then the one that
  // harms by least, then the first.
  bool is_worst_guess(Care const& care) const {
    if (!is_guess(care)) return false;
    for (auto const& other : pack_.care) {
      if (&other == &care) continue;
      if (!is_guess(other) || other.taken != care.taken) continue;
      auto const mine = std::tuple(*asks_for(care), care.levels.front().mg_per_kg, &care);
      auto const its = std::tuple(*asks_for(other), other.levels.front().mg_per_kg, &other);
      if (its < mine) return false;
    }
    return true;
  }

  Pack const& pack_;
  std::map<SignId, Answer> const& answers_;
  std::set<SignId> const& cannot_tell_;
};

}  // namespace

SlowTaken weigh_taken_slowly(Pack const& pack, std::map<SignId, Answer> const& answers,
                             std::set<SignId> const& cannot_tell) {
  return Weighing(pack, answers, cannot_tell).weigh();
}

}  // namespace flinch::test
