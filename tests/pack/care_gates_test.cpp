// The shipped care files: each contraindication, known true, known false and unknown.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <stdexcept>

#include "flinch/care/plan.hpp"
#include "pack/shipped_pack.hpp"

namespace flinch::test {
namespace {

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
      if (condition.test.sign == dog_sign::breed || condition.test.sign == dog_sign::weight)
        out.insert(dog_sign::size);
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
Answers well_dog(Pack const& pack) {
  Answers out;
  for (std::uint32_t i = dog_sign::count; i < pack.signs.size(); ++i) {
    auto const& sign = pack.signs[i];
    if (sign.kind == AnswerKind::yes_or_no) out[SignId{i}] = false;
    if (sign.kind == AnswerKind::sites) out[SignId{i}] = Findings{false, true, {}, {}};
    if (sign.kind == AnswerKind::steps || sign.kind == AnswerKind::one_of)
      out[SignId{i}] = Choice{0};
  }
  out[dog_sign::age] = 5.0 * 365.25 * 86400;
  out[dog_sign::weight] = 20.0;
  out[dog_sign::sex] = Choice{1};
  out[dog_sign::neutered] = false;
  out[*pack.find_sign("temperature")] = 38.5;
  out[*pack.find_sign("heart_rate")] = 90.0;
  out[*pack.find_sign("breathing_rate")] = 20.0;
  out[*pack.find_sign("capillary_refill")] = 1.5;
  out[*pack.find_sign("onset")] = Choice{1};
  out[*pack.find_sign("duration")] = Choice{3};
  return out;
}

class CareGatesOfThePack : public ::testing::Test {
 protected:
  std::shared_ptr<Pack const> pack = shipped_pack();
  Tables tables{pack};
  Assessor assessor{tables};
  Author author{*pack};

  [[nodiscard]] PlannedMeasure planned(std::size_t care, Answers const& answers) {
    Case dog;
    dog.answers.assign(answers.begin(), answers.end());
    auto const plan = plan_care(tables, assessor.assess(dog), CareReader::clinician);
    for (auto const* list : {&plan.measures, &plan.avoid, &plan.watch})
      for (auto const& measure : *list)
        if (measure.care == care) return measure;
    throw std::runtime_error("not planned: " + pack->care[care].name);
  }
  // The gates that the pack wrote, apart from the mouth and the tier, which are tried elsewhere.
  [[nodiscard]] static Advice advice_of_pack(PlannedMeasure const& measure) {
    auto advice = Advice::offered;
    for (auto const& gate : measure.gates) {
      if (gate.kind == GateKind::never)
        advice = std::max(advice, gate.truth == Truth::yes ? Advice::withheld : Advice::ask_first);
      if (gate.kind == GateKind::ask_vet) advice = std::max(advice, Advice::ask_vet);
    }
    return advice;
  }
  // All gates known to be false, then what the measure is for made true.
  [[nodiscard]] Answers fitting(Care const& care) const {
    auto answers = well_dog(*pack);
    for (auto const* gates : {&care.never_if, &care.ask_vet_if})
      for (auto const& gate : *gates) author.make(gate.condition, false, answers);
    if (care.fit_if) author.make(*care.fit_if, true, answers);
    return answers;
  }
};

TEST_F(CareGatesOfThePack, EachContraindicationTrueFalseUnknown) {
  std::size_t contraindications = 0;
  std::size_t to_ask = 0;
  for (std::size_t i = 0; i < pack->care.size(); ++i) {
    auto const& care = pack->care[i];
    if (care.taken) continue;
    auto const open = fitting(care);
    EXPECT_EQ(advice_of_pack(planned(i, open)), Advice::offered)
        << care.name << ": known false must offer";
    auto const try_gate = [&](CareGate const& gate, Advice when_true, Advice when_unknown) {
      auto closed = open;
      author.make(gate.condition, true, closed);
      auto const refused = planned(i, closed);
      EXPECT_EQ(advice_of_pack(refused), when_true) << care.name << ": " << gate.reason;
      bool const is_told =
          std::any_of(refused.gates.begin(), refused.gates.end(), [&](ClosedGate const& told) {
            return told.truth == Truth::yes && told.reason == gate.reason && !told.signs.empty();
          });
      EXPECT_TRUE(is_told) << care.name << " does not say: " << gate.reason;
      EXPECT_FALSE(gate.reason.empty()) << care.name;
      auto unknown = open;
      std::set<SignId> asked;
      author.signs(gate.condition, asked);
      for (auto const sign : asked) unknown.erase(sign);
      if (care.fit_if) author.make(*care.fit_if, true, unknown);
      auto const doubtful = advice_of_pack(planned(i, unknown));
      EXPECT_EQ(doubtful, when_unknown) << care.name << " not asked: " << gate.reason;
    };
    for (auto const& gate : care.never_if) {
      ++contraindications;
      try_gate(gate, Advice::withheld, Advice::ask_first);
    }
    for (auto const& gate : care.ask_vet_if) {
      ++to_ask;
      try_gate(gate, Advice::ask_vet, Advice::ask_vet);
    }
  }
  EXPECT_GE(contraindications, 150U);
  EXPECT_GE(to_ask, 40U);
}

TEST_F(CareGatesOfThePack, NoMeasureOffersAHumanPainkiller) {
  for (auto const& care : pack->care) {
    bool const names_one = care.name.find("aspirin") == 0 || care.name.find("paracetamol") == 0 ||
                           care.name.find("ibuprofen") == 0 || care.name.find("naproxen") == 0;
    if (!names_one) continue;
    EXPECT_TRUE(care.for_clinician || care.taken) << care.name;
    EXPECT_FALSE(care.taken && care.give) << care.name;
  }
  std::size_t doses_by_mouth = 0;
  for (auto const& care : pack->care)
    if (care.give && care.by_mouth && !care.for_clinician) ++doses_by_mouth;
  EXPECT_EQ(doses_by_mouth, 7U) << "a new dose for keepers must be thought over here";
}

TEST_F(CareGatesOfThePack, NothingByMouthIsOfferedAtTheTopTierToAnyone) {
  auto answers = well_dog(*pack);
  answers[*pack->find_sign("known_arthritis")] = true;
  answers[*pack->find_sign("stiff_after_rest")] = true;
  Case well;
  well.answers.assign(answers.begin(), answers.end());
  answers[*pack->find_sign("breathing_trouble")] = true;
  Case ill;
  ill.answers.assign(answers.begin(), answers.end());
  for (auto const audience : {CareReader::keeper, CareReader::nurse, CareReader::clinician}) {
    auto const offered = [&](Case const& dog) {
      auto const plan = plan_care(tables, assessor.assess(dog), audience);
      return std::count_if(plan.measures.begin(), plan.measures.end(), [&](auto const& measure) {
        return pack->care[measure.care].by_mouth && measure.advice == Advice::offered;
      });
    };
    EXPECT_GE(offered(well), 5) << "the same dog, well, may have them";
    EXPECT_EQ(offered(ill), 0);
  }
}

TEST_F(CareGatesOfThePack, AtLeastFortyMeasuresEachWithReasonAndSource) {
  EXPECT_GE(pack->care.size(), 40U);
  for (auto const& care : pack->care) {
    EXPECT_FALSE(care.because.empty()) << care.name;
    EXPECT_FALSE(care.cites.empty()) << care.name;
  }
}

}  // namespace
}  // namespace flinch::test
