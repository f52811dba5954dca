#pragma once
// Dogs made to order for the shipped pack: answers that make a condition true or false, and a well
// dog of whom everything was asked.
#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <stdexcept>

#include "flinch/model/pack.hpp"
#include "model/told.hpp"

namespace flinch::test {

using Answers = std::map<SignId, Answer>;

// Writes answers that make conditions true or false.
class Author {
 public:
  explicit Author(Pack const& pack) : pack_(pack) {}

  void make(Condition const& condition, bool wanted, Answers& answers) const {
    using Kind = Condition::Kind;
    switch (condition.kind) {
      case Kind::test:
        return test(condition.test, wanted, answers);
      case Kind::meaning:
        return make(pack_[condition.meaning].condition, wanted, answers);
      case Kind::negation:
      case Kind::unless:
        return make(condition.parts.front(), !wanted, answers);
      default:
        break;
    }
    // An `or` is true by one part, an `and` by all; false the other way round.
    bool const takes_one = (condition.kind == Kind::any) == wanted && condition.kind != Kind::count;
    if (takes_one) return make(condition.parts.front(), wanted, answers);
    for (auto const& part : condition.parts) make(part, wanted, answers);
  }

  void signs(Condition const& condition, std::set<SignId>& out) const {
    if (condition.kind == Condition::Kind::test) {
      for (std::optional<SignId> sign = condition.test.sign; sign; sign = pack_[*sign].part_of)
        out.insert(*sign);
      if (condition.test.sign == patient_sign::breed || condition.test.sign == patient_sign::weight)
        out.insert(patient_sign::size);
    }
    if (condition.kind == Condition::Kind::meaning) signs(pack_[condition.meaning].condition, out);
    for (auto const& part : condition.parts) signs(part, out);
  }

 private:
  void test(Test const& test, bool wanted, Answers& answers) const {
    auto& answer = answers[test.sign];
    auto const& sign = pack_[test.sign];
    switch (test.kind) {
      case Test::Kind::holds:
        if (sign.kind == AnswerKind::sites)
          answer = Findings{wanted, !wanted, {}, {}};
        else
          answer = wanted;
        return;
      case Test::Kind::at_site:
        answer = wanted ? Findings{true, false, {test.mark}, {}} : Findings{false, true, {}, {}};
        return;
      case Test::Kind::is_value:
      case Test::Kind::at_least:
        answer = Choice{value(test, wanted)};
        return;
      case Test::Kind::in_range:
        if (auto const* now = std::get_if<double>(&answer))
          if (is_inside(test, *now) == wanted) return;
        answer = number(test, sign, wanted);
        return;
      case Test::Kind::in_group:
        answer = Choice{breed(test, wanted)};
        return;
    }
  }
  [[nodiscard]] std::uint32_t value(Test const& test, bool wanted) const {
    auto const& values = pack_[test.sign].values;
    for (std::uint32_t i = 0; i < values.size(); ++i) {
      bool const is_in =
          test.kind == Test::Kind::at_least
              ? i >= test.values.front()
              : std::find(test.values.begin(), test.values.end(), i) != test.values.end();
      if (is_in == wanted) return i;
    }
    throw std::logic_error("no such value");
  }
  static bool is_inside(Test const& test, double value) {
    return (test.low_included ? value >= test.low : value > test.low) &&
           (test.high_included ? value <= test.high : value < test.high);
  }
  static double number(Test const& test, Sign const& sign, bool wanted) {
    double const low = std::isinf(test.low) ? sign.low : test.low;
    double const high = std::isinf(test.high) ? sign.high : test.high;
    double const step = (sign.high - sign.low) / 1e6;
    for (double const guess : {low + step, high - step, low - step, high + step}) {
      if (is_inside(test, guess) == wanted && guess > 0) return guess;
    }
    throw std::logic_error("no such number");
  }
  [[nodiscard]] std::uint32_t breed(Test const& test, bool wanted) const {
    auto const& members = pack_.group_breeds[index(test.group)];
    if (wanted) return members.front();
    for (std::uint32_t i = 0;; ++i)
      if (std::find(members.begin(), members.end(), i) == members.end()) return i;
  }

  Pack const& pack_;
};

// A well dog of whom everything was asked; she may bear pups, so that every question applies.
inline Answers well_patient(Pack const& pack) {
  Answers out;
  Told const tells(pack);
  for (std::uint32_t i = patient_sign::count; i < pack.signs.size(); ++i) {
    auto const& sign = pack.signs[i];
    if (sign.kind == AnswerKind::yes_or_no) out[SignId{i}] = false;
    if (sign.kind == AnswerKind::sites) out[SignId{i}] = Findings{false, true, {}, {}};
    // The first that tells of nothing; a choice without one ("which poison") is left unanswered.
    if (sign.kind != AnswerKind::steps && sign.kind != AnswerKind::one_of) continue;
    for (std::uint32_t value = 0; value < sign.values.size(); ++value)
      if (!tells(SignId{i}, Choice{value})) {
        out[SignId{i}] = Choice{value};
        break;
      }
  }
  out[patient_sign::age] = 5.0;
  out[patient_sign::weight] = 20.0;
  out[patient_sign::sex] = Choice{1};
  out[patient_sign::neutered] = false;
  out[*pack.find_sign("temperature")] = 38.5;
  out[*pack.find_sign("heart_rate")] = 90.0;
  out[*pack.find_sign("breathing_rate")] = 20.0;
  out[*pack.find_sign("capillary_refill")] = 1.5;
  out[*pack.find_sign("red_cells")] = 45.0;
  out[*pack.find_sign("eye_pressure")] = 15.0;
  out[*pack.find_sign("onset")] = Choice{1};
  out[*pack.find_sign("duration")] = Choice{3};
  return out;
}

}  // namespace flinch::test
