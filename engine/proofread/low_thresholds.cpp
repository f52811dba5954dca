// Tiers whose threshold the base rates reach alone, or together with what the patient is.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "flinch/assess/assessment.hpp"
#include "flinch/model/choice.hpp"
#include "model/typical_answers.hpp"
#include "model/walk.hpp"
#include "proofread/remarks.hpp"

namespace flinch {
namespace {

constexpr std::size_t most_patients = 50000;

// Answers to the patient's own signs that rules tell apart.
class Signalments {
 public:
  explicit Signalments(Pack const& pack) : pack_(pack), tests_(patient_sign::count) {
    for (auto const& rule : pack.rules) {
      if (rule.condition)
        walk_tests(pack, *rule.condition, [&](Condition const& leaf, Polarity) { add(leaf.test); });
      for (auto const& band : rule.bands) add(band.test);
    }
  }

  // Of numbers those between the limits.
  [[nodiscard]] std::vector<Answer> answers(SignId sign) const {
    auto const& tests = tests_[index(sign)];
    if (tests.empty()) return {};
    if (traits(pack_[sign]).is_breed) return breeds();
    std::vector<double> limits;
    for (auto const& test : tests) limits.insert(limits.end(), {test.low, test.high});
    auto out = typical_answers(pack_, sign, std::move(limits));
    if (!traits(pack_[sign]).is_number) return out;
    std::vector<Answer> between;
    for (std::size_t i = 1; i < out.size(); i += 2) between.push_back(out[i]);
    return between;
  }

 private:
  void add(Test const& test) {
    if (index(test.sign) < patient_sign::count) tests_[index(test.sign)].push_back(test);
  }

  // One breed of each kind: the same groups, as far as rules ask for them, and the same size.
  [[nodiscard]] std::vector<Answer> breeds() const {
    std::map<std::pair<std::vector<bool>, int>, std::uint32_t> kinds;
    for (std::uint32_t breed = 0; breed < pack_.breeds.breeds.size(); ++breed) {
      std::vector<bool> groups;
      for (auto const& test : tests_[index(patient_sign::breed)]) {
        auto const& members = pack_.group_breeds[index(test.group)];
        groups.push_back(std::binary_search(members.begin(), members.end(), breed));
      }
      auto const size = pack_.breeds.breeds[breed].size;
      kinds.try_emplace({std::move(groups), size ? static_cast<int>(*size) : -1}, breed);
    }
    std::vector<Answer> out;
    for (auto const& [kind, breed] : kinds) out.emplace_back(Choice{breed});
    return out;
  }

  Pack const& pack_;
  std::vector<std::vector<Test>> tests_;
};

class LowThresholds {
 public:
  LowThresholds(Tables const& tables, Remarks& remarks)
      : pack_(tables.pack()), remarks_(remarks), assessor_(tables) {
    Signalments const signalments(pack_);
    std::size_t patients = 1;
    for (std::uint32_t i = 0; i < patient_sign::count; ++i) {
      SignId const sign{i};
      // Size and weight follow from the breed, where there are breeds: no toy patient of 90 kg.
      bool const follows = sign == patient_sign::size || sign == patient_sign::weight;
      if (follows && !pack_.breeds.breeds.empty()) continue;
      auto answers = signalments.answers(sign);
      patients *= std::max<std::size_t>(1, answers.size());
      if (!answers.empty() && patients <= most_patients)
        choices_.emplace_back(sign, std::move(answers));
    }
  }

  void find() {
    auto const bare = assessor_.assess({}).judgement.tiers;
    highest_.resize(bare.size());
    try_patients(0);
    // The last tier has no threshold: a patient stays there when nothing asks for more.
    for (std::uint32_t i = 0; i + 1 < bare.size(); ++i) {
      if (bare[i].is_reached)
        report(TierId{i}, bare[i], {});
      else if (highest_[i].chance.is_reached)
        report(TierId{i}, highest_[i].chance, highest_[i].patient);
    }
  }

 private:
  struct Highest {
    TierChance chance;
    Case patient;
  };

  // Every patient that the rules tell apart, from the choice at `at` on.
  void try_patients(std::size_t at) {
    if (at == choices_.size()) {
      auto const tiers = assessor_.assess(patient_).judgement.tiers;
      for (std::size_t i = 0; i < tiers.size(); ++i)
        if (tiers[i].probability > highest_[i].chance.probability)
          highest_[i] = {tiers[i], patient_};
      return;
    }
    for (auto const& answer : choices_[at].second) {
      if (choices_[at].first == patient_sign::neutered && answer == Answer(true) &&
          is_never_neutered())
        continue;
      patient_.answers.emplace_back(choices_[at].first, answer);
      try_patients(at + 1);
      patient_.answers.pop_back();
    }
  }

  // The sex stands before `neutered` among the choices.
  [[nodiscard]] bool is_never_neutered() const {
    return pack_.is_never_neutered ||
           std::any_of(patient_.answers.begin(), patient_.answers.end(), [&](auto const& answer) {
             return answer.first == patient_sign::sex && pack_.sex_never_neutered &&
                    std::get<Choice>(answer.second).index == *pack_.sex_never_neutered;
           });
  }

  [[nodiscard]] std::string described(Case const& patient) const {
    std::string out;
    for (auto const& [sign, answer] : patient.answers) {
      auto const& s = pack_[sign];
      auto const value = std::visit(
          [&]<class T>(T const& a) -> std::string {
            if constexpr (std::is_same_v<T, bool>) return a ? "yes" : "no";
            if constexpr (std::is_same_v<T, double>)
              return fmt::format("{:.3g} {}", a, s.unit.name);
            if constexpr (std::is_same_v<T, Choice>) return choice_name(pack_, s, a);
            return {};
          },
          answer);
      out += fmt::format("{}{} {}", out.empty() ? "" : ", ", s.name, value);
    }
    return out;
  }

  void report(TierId id, TierChance const& chance, Case const& patient) {
    auto const& tier = pack_[id];
    auto const numbers = fmt::format("{:.1f} % where {:.1f} % are enough", 100 * chance.probability,
                                     100 * chance.threshold.value_or(0));
    auto const what =
        patient.answers.empty()
            ? fmt::format("the base rates alone reach the tier `{}`: {}", tier.name, numbers)
            : fmt::format("the base rates of some {} reach the tier `{}` alone: {}",
                          pack_.words.many, tier.name, numbers);
    auto const why =
        patient.answers.empty()
            ? std::string("answers that say nothing are enough to come out there")
            : fmt::format("such {} is: {}", with_article(pack_.words.one), described(patient));
    remarks_.add(Code::tier_by_base_rates, tier.at, {tier.at}, what, why,
                 "lower `harm`, or look at the bases of the causes that need it");
  }

  Pack const& pack_;
  Remarks& remarks_;
  Assessor assessor_;
  std::vector<std::pair<SignId, std::vector<Answer>>> choices_;
  std::vector<Highest> highest_;  // of each tier
  Case patient_;
};

}  // namespace

void find_low_thresholds(Tables const& tables, Remarks& remarks) {
  LowThresholds(tables, remarks).find();
}

}  // namespace flinch
