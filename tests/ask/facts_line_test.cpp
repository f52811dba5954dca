// One line as answers to several questions: nothing is taken that was not said.
#include "ask/joined_answers.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "flinch/explain/reasons.hpp"
#include "pack/shipped_pack.hpp"

namespace flinch::test {
namespace {

Pack const& pack_here() {
  static auto const made = shipped_pack();
  return *made;
}

std::vector<SignId> const facts = {patient_sign::age, patient_sign::sex, patient_sign::neutered,
                                   patient_sign::breed, patient_sign::weight};

std::string text_of(cli::JoinedReply const& reply) {
  auto const& pack = pack_here();
  std::vector<std::string> parts;
  for (auto const& [sign, answer] : reply.answers)
    parts.push_back(pack[sign].name + " " + answer_text(pack, sign, answer));
  for (auto const sign : reply.cannot_tell) parts.push_back(pack[sign].name + "?");
  std::sort(parts.begin(), parts.end());
  std::string out;
  for (auto const& part : parts) out += (out.empty() ? "" : "; ") + part;
  return out;
}

std::string facts_of(std::string const& line) {
  return text_of(cli::read_facts(pack_here(), facts, line, {{2026, 11, 25}, {}}));
}

TEST(JoinedAnswers, FactsInAnyOrderAreTheSame) {
  std::vector<std::string> parts = {"8 years", "male neutered", "Labrador", "31,5 kg"};
  std::mt19937 random(20261130);
  auto const expected = facts_of("8 years, male neutered, Labrador, 31,5 kg");
  EXPECT_EQ(expected,
            "age 8 years; breed Labrador Retriever; neutered yes; sex male; weight 31.5 kg");
  for (int i = 0; i < 24; ++i) {
    for (auto left = parts.size(); left > 1; --left)
      std::swap(parts[left - 1], parts[random() % left]);
    std::string line;
    for (auto const& part : parts) line += (line.empty() ? "" : ", ") + part;
    EXPECT_EQ(facts_of(line), expected) << line;
  }
}

TEST(JoinedAnswers, ABareNumberIsNeitherAgeNorWeight) {
  EXPECT_EQ(facts_of("8"), "");
  EXPECT_EQ(facts_of("8, lab, 30"), "breed Labrador Retriever");
  auto const reply = cli::read_facts(pack_here(), facts, "8, lab", {{2026, 11, 25}, {}});
  EXPECT_NE(reply.remark.find("the age or the weight"), std::string::npos) << reply.remark;
}

TEST(JoinedAnswers, WhatIsToldTwiceAndNotAlikeIsTold) {
  EXPECT_EQ(facts_of("8 years, 9 years, lab"), "breed Labrador Retriever");
  EXPECT_EQ(facts_of("8 years, 8 years"), "age 8 years");
}

TEST(JoinedAnswers, NobodyCanTell) {
  EXPECT_EQ(facts_of("?"), "age?; breed?; neutered?; sex?; weight?");
}

TEST(JoinedAnswers, ABreedThatIsNearIsAsked) {
  auto const reply = cli::read_facts(pack_here(), facts, "pomeranien", {{2026, 11, 25}, {}});
  EXPECT_TRUE(reply.answers.empty());
  EXPECT_TRUE(reply.suggested.has_value());
}

std::vector<SignId> choices() {
  std::vector<SignId> out;
  for (auto const* name : {"onset", "pain_degree", "appetite"})
    out.push_back(*pack_here().find_sign(name));
  return out;
}

std::string choices_of(std::string const& line) {
  return text_of(cli::read_choices(pack_here(), choices(), line));
}

TEST(JoinedAnswers, NumbersOfChoicesRunThrough) {
  EXPECT_EQ(choices_of("1 4 8"), choices_of("suddenly, a little, less than usual"));
  EXPECT_EQ(choices_of("8,1"), choices_of("1 8"));
  EXPECT_NE(choices_of("1"), "");
}

TEST(JoinedAnswers, OfALineThatIsNotUnderstoodNothingIsTaken) {
  for (auto const* line : {"1 2", "1 10", "0", "1 wibbly", "", "yes", "1, maybe"})
    EXPECT_EQ(choices_of(line), "") << line;
}

// Every set of one number each says exactly these values; two of one question are refused.
TEST(JoinedAnswers, EveryPairOfNumbersIsTakenAsItStands) {
  auto const& pack = pack_here();
  std::vector<std::pair<SignId, std::uint32_t>> numbered;
  for (auto const sign : choices())
    for (std::uint32_t i = 0; i < pack[sign].values.size(); ++i) numbered.emplace_back(sign, i);
  for (std::size_t a = 0; a < numbered.size(); ++a)
    for (std::size_t b = 0; b < numbered.size(); ++b) {
      auto const reply =
          cli::read_choices(pack, choices(), std::to_string(a + 1) + " " + std::to_string(b + 1));
      bool const is_clash = a != b && numbered[a].first == numbered[b].first;
      EXPECT_EQ(reply.answers.empty(), is_clash);
      for (auto const& [sign, answer] : reply.answers)
        EXPECT_TRUE((sign == numbered[a].first && answer == Answer(Choice{numbered[a].second})) ||
                    (sign == numbered[b].first && answer == Answer(Choice{numbered[b].second})));
    }
}

}  // namespace
}  // namespace flinch::test
