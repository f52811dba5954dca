// Writes docs/interview.md: how many questions the interview needs on the examples of the shipped
// pack, against asking in file order and in random order.
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <map>
#include <random>

#include "pack/interview_run.hpp"
#include "pack/shipped_pack.hpp"

namespace flinch::test {
namespace {

struct Sample {
  std::vector<std::size_t> values;

  [[nodiscard]] std::size_t at(double share) {
    std::sort(values.begin(), values.end());
    auto const place = static_cast<std::size_t>(share * static_cast<double>(values.size()));
    return values.empty() ? 0 : values[std::min(place, values.size() - 1)];
  }
  [[nodiscard]] std::string row(std::string const& name) {
    return fmt::format("| {} | {} | {} | {} | {} |\n", name, values.size(), at(0.5), at(0.9),
                       at(1));
  }
};

constexpr char const* head = R"(# How many questions an interview needs

Written by a program from the shipped pack and compared by the test suite; build `update-reports` to
write it anew. Every example of the pack is interviewed: questions are answered from the example and
from what follows from it by meaning, and "can't tell" where it is silent. The examples tell little, so
most answers here are "can't tell".

A screen is one question, or up to eight that are answered together. The five facts of the dog (age,
weight, breed, sex and whether it is neutered) are four screens.

## Until the tier stands

How much is asked until the tier is the one at which the interview ends, for someone who can examine
everything:

| how | examples | median | nine in ten within | worst |
|---|---|---|---|---|
)";

class Writer {
 public:
  Writer() : pack_(shipped_pack()), tables_(pack_), assessor_(tables_) {}

  std::string write() {
    measure();
    std::string out = head;
    out += screens_to_tier_.row("the interview, screens");
    out += questions_to_tier_.row("the interview, lines of them");
    out += in_order_.row("in the order of the files, questions");
    out += at_random_.row("in random order, questions");
    out +=
        "\nBy the tier at the end, screens of the interview:\n\n"
        "| tier | examples | median | nine in ten within | worst |\n|---|---|---|---|---|\n";
    for (auto& [tier, sample] : by_tier_)
      out += sample.row(tier < pack_->tiers.size() ? pack_->tiers[tier].name : "nothing told");
    out +=
        "\n## Until nothing more is worth asking\n\n"
        "| what | examples | median | nine in ten within | worst |\n|---|---|---|---|---|\n";
    out += screens_.row("screens");
    out += questions_.row("lines of them");
    out += denied_screens_.row("screens, when all that the example is silent about is no");
    out += denied_questions_.row("lines of them");
    out += fmt::format(
        "\nOf {} examples, {} end with the tier and {} with the first cause of the whole file.\n",
        pack_->examples.size(), same_tier_, same_first_);
    out += limits();
    return out;
  }

 private:
  void measure() {
    Interview interview(tables_, Reader::clinician);
    std::vector<SignId> order;
    for (std::uint32_t i = 0; i < pack_->signs.size(); ++i) order.push_back(SignId{i});
    std::mt19937 random(20261125);
    for (auto const& example : pack_->examples) {
      auto const whole = assessor_.assess(example.dog);
      auto const run = run_interview(tables_, interview, whole);
      screens_to_tier_.values.push_back(run.screens_to_tier);
      questions_to_tier_.values.push_back(run.questions_to_tier);
      screens_.values.push_back(run.screens);
      questions_.values.push_back(run.questions);
      auto const denied = run_interview(tables_, interview, whole, Silence::no);
      denied_screens_.values.push_back(denied.screens);
      denied_questions_.values.push_back(denied.questions);
      auto const tier = run.tier ? index(*run.tier) : pack_->tiers.size();
      by_tier_[tier].values.push_back(run.screens_to_tier);
      same_tier_ += run.tier == whole.judgement.tier ? 1 : 0;
      same_first_ += run.first == first_cause(whole) ? 1 : 0;
      in_order_.values.push_back(run_in_order(tables_, order, whole).questions_to_tier);
      auto shuffled = order;
      for (auto i = shuffled.size(); i > 1; --i)  // the same on every library
        std::swap(shuffled[i - 1], shuffled[random() % i]);
      at_random_.values.push_back(run_in_order(tables_, shuffled, whole).questions_to_tier);
    }
  }

  // What the chosen limits are worth.
  std::string limits() {
    std::string out =
        "\n## The limits\n\nA question worth fewer bits than `least_bits` is not worth asking; one "
        "worth `alone_bits` is asked alone.\nOther choices, on the same examples:\n\n"
        "| least bits | bits to be asked alone | median screens to the tier | median screens in "
        "all | other tier | other first cause |\n|---|---|---|---|---|---|\n";
    for (auto const& [least, alone] : {std::pair{0.002, 0.2},
                                       {0.003, 0.2},
                                       {0.005, 0.2},
                                       {0.01, 0.2},
                                       {0.02, 0.2},
                                       {0.002, 0.05},
                                       {0.002, 0.1},
                                       {0.002, 0.4}}) {
      InterviewLimits limits;
      limits.least_bits = least;
      limits.alone_bits = alone;
      Interview interview(tables_, Reader::clinician, limits);
      Sample to_tier;
      Sample all;
      std::size_t other_tier = 0;
      std::size_t other_first = 0;
      for (auto const& example : pack_->examples) {
        auto const whole = assessor_.assess(example.dog);
        auto const run = run_interview(tables_, interview, whole);
        to_tier.values.push_back(run.screens_to_tier);
        all.values.push_back(run.screens);
        other_tier += run.tier != whole.judgement.tier ? 1 : 0;
        other_first += run.first != first_cause(whole) ? 1 : 0;
      }
      out += fmt::format("| {} | {} | {} | {} | {} | {} |\n", least, alone, to_tier.at(0.5),
                         all.at(0.5), other_tier, other_first);
    }
    return out;
  }

  std::shared_ptr<Pack const> pack_;
  Tables tables_;
  Assessor assessor_;
  Sample screens_to_tier_, questions_to_tier_, screens_, questions_, in_order_, at_random_;
  Sample denied_screens_, denied_questions_;
  std::map<std::size_t, Sample> by_tier_;
  std::size_t same_tier_ = 0;
  std::size_t same_first_ = 0;
};

}  // namespace
}  // namespace flinch::test

int main(int count, char** arguments) {
  if (count != 2) {
    std::fputs("usage: interview_page OUTPUT\n", stderr);
    return 2;
  }
  std::ofstream file(arguments[1], std::ios::binary);
  file << flinch::test::Writer().write();
  file.close();
  return file ? 0 : 1;
}
