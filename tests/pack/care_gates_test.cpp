// The shipped care files: each contraindication, known true, known false and unknown.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <stdexcept>

#include "flinch/care/plan.hpp"
#include "pack/made_patients.hpp"
#include "pack/shipped_pack.hpp"

namespace flinch::test {
namespace {

class CareGatesOfThePack : public ::testing::Test {
 protected:
  std::shared_ptr<Pack const> pack = shipped_pack();
  Tables tables{pack};
  Assessor assessor{tables};
  Author author{*pack};

  [[nodiscard]] PlannedMeasure planned(std::size_t care, Answers const& answers) {
    Case patient;
    patient.answers.assign(answers.begin(), answers.end());
    auto const plan = plan_care(tables, assessor.assess(patient), Reader::clinician);
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
    auto answers = well_patient(*pack);
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
    if (care.is_fasting) {  // a fast: it fits or not, and is tried by itself
      EXPECT_TRUE(care.never_if.empty() && care.ask_vet_if.empty()) << care.name;
      continue;
    }
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
      // An answer that two gates need leaves the more cautious of them open.
      EXPECT_GE(doubtful, when_unknown) << care.name << " not asked: " << gate.reason;
      EXPECT_NE(doubtful, Advice::withheld) << care.name << " not asked: " << gate.reason;
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
  EXPECT_GE(contraindications, 200U);
  EXPECT_GE(to_ask, 80U);
}

TEST_F(CareGatesOfThePack, AStopSignThatIsThereWithholds) {
  std::size_t signs = 0;
  for (std::size_t i = 0; i < pack->care.size(); ++i) {
    auto const& care = pack->care[i];
    for (auto const& gate : care.stop_if) {
      ++signs;
      EXPECT_FALSE(gate.reason.empty()) << care.name;
      auto answers = fitting(care);
      author.make(gate.condition, true, answers);
      // A temperature that stops the cooling is not the one for which it was begun.
      if (care.name == "cool_first") answers[*pack->find_sign("does_not_cool")] = true;
      auto const measure = planned(i, answers);
      EXPECT_EQ(measure.advice, Advice::withheld) << care.name << ": " << gate.reason;
      bool const is_told =
          std::any_of(measure.gates.begin(), measure.gates.end(), [&](ClosedGate const& told) {
            return told.kind == GateKind::stop && told.reason == gate.reason;
          });
      EXPECT_TRUE(is_told) << care.name << " does not say: " << gate.reason;
    }
  }
  EXPECT_GE(signs, 15U);
}

TEST_F(CareGatesOfThePack, NoMeasureOffersAHumanPainkiller) {
  for (auto const& care : pack->care) {
    bool const is_for_keepers =
        !care.for_clinician && !care.taken && care.avoid.empty() && care.watch.empty();
    EXPECT_FALSE(care.taken && care.give) << care.name;
    if (!is_for_keepers) continue;
    for (auto const* word :
         {"aspirin", "salicyl", "paracetamol", "acetaminophen", "ibuprofen", "naproxen",
          "diclofenac", "flurbiprofen", "ketoprofen", "codeine", "tramadol"})
      for (auto const& text : {care.name, care.title, care.how})
        EXPECT_EQ(text.find(word), std::string::npos) << care.name << ": " << text;
  }
  std::set<std::string> doses_by_mouth;
  for (auto const& care : pack->care)
    if (care.give && care.by_mouth && !care.for_clinician) doses_by_mouth.insert(care.name);
  EXPECT_EQ(doses_by_mouth,
            (std::set<std::string>{"fish_oil", "mussel_powder", "collagen_two", "glucosamine",
                                   "chondroitin", "msm", "flax_oil"}))
      << "a new dose for keepers must be thought over here";
}

TEST_F(CareGatesOfThePack, NothingByMouthIsOfferedAtTheTopTierToAnyone) {
  auto answers = well_patient(*pack);
  answers[*pack->find_sign("known_arthritis")] = true;
  answers[*pack->find_sign("stiff_after_rest")] = true;
  Case well;
  well.answers.assign(answers.begin(), answers.end());
  answers[*pack->find_sign("breathing_trouble")] = true;
  Case ill;
  ill.answers.assign(answers.begin(), answers.end());
  for (auto const reader : {Reader::keeper, Reader::nurse, Reader::clinician}) {
    auto const offered = [&](Case const& patient) {
      auto const plan = plan_care(tables, assessor.assess(patient), reader);
      return std::count_if(plan.measures.begin(), plan.measures.end(), [&](auto const& measure) {
        return pack->care[measure.care].by_mouth && measure.advice == Advice::offered;
      });
    };
    EXPECT_GE(offered(well), 5) << "the same dog, well, may have them";
    EXPECT_EQ(offered(ill), 0);
  }
}

// Water goes for dry retching, a swollen belly, what comes up, or a dog that cannot swallow: for
// nothing else, and never because something is unknown.
TEST_F(CareGatesOfThePack, WaterStaysUnlessItComesUpOrCannotBeSwallowed) {
  auto const plan_of = [&](std::string const& name, bool is_known) {
    auto answers = is_known ? well_patient(*pack) : Answers{};
    answers[*pack->find_sign("road_accident")] = true;  // seen now, whatever else
    if (!name.empty()) answers[*pack->find_sign(name)] = true;
    Case patient;
    patient.answers.assign(answers.begin(), answers.end());
    return plan_care(tables, assessor.assess(patient), Reader::keeper);
  };
  auto const fast = [&](CarePlan const& plan) {
    return plan.fast ? pack->care[plan.avoid[*plan.fast].care].name : std::string("none");
  };
  auto const water = [&](CarePlan const& plan) {
    for (auto const& measure : plan.measures)
      if (pack->care[measure.care].name == "water_at_hand") return measure.advice;
    return Advice::ask_first;
  };
  for (bool const is_known : {true, false}) {
    for (auto const* name : {"retching_dry", "belly_swollen", "regurgitates", "vomiting",
                             "collapsed", "seizure", "keeps_nothing_down"})
      EXPECT_EQ(water(plan_of(name, is_known)), Advice::withheld) << name;
    for (auto const* name :
         {"", "known_kidney_disease", "human_painkiller", "lethargic", "anti_inflammatory",
          "diarrhoea", "breathing_trouble", "ate_poison", "string_seen", "squinting"}) {
      auto const plan = plan_of(name, is_known);
      EXPECT_EQ(water(plan), Advice::offered) << name;
      auto const told = fast(plan);
      EXPECT_TRUE(told == "no_food_before_surgery" || told == "short_fast") << name << ' ' << told;
    }
    for (auto const* name : {"retching_dry", "belly_swollen", "regurgitates", "collapsed"})
      EXPECT_EQ(fast(plan_of(name, is_known)), "no_food_no_water") << name;
    EXPECT_EQ(fast(plan_of("vomiting", is_known)), "no_food_sips");
    EXPECT_EQ(fast(plan_of("known_diabetes", is_known)), "short_fast");
  }
}

// Never a number beside an answer that forbids it, for anyone, whatever is known of the rest.
TEST_F(CareGatesOfThePack, NoDoseStandsBesideAGateThatIsTrue) {
  std::size_t held = 0;
  for (std::size_t i = 0; i < pack->care.size(); ++i) {
    auto const& care = pack->care[i];
    if (!care.give) continue;
    for (auto const* gates : {&care.never_if, &care.ask_vet_if})
      for (auto const& gate : *gates) {
        auto answers = fitting(care);
        author.make(gate.condition, true, answers);
        auto const measure = planned(i, answers);
        bool const is_given = measure.dose && std::holds_alternative<GivenDose>(*measure.dose);
        EXPECT_FALSE(is_given) << care.name << ": " << gate.reason;
        ++held;
      }
  }
  EXPECT_GE(held, 150U);
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
