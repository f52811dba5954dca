// One line as the facts of the dog: in doubt nothing of it is taken.
#include "flinch/interview/fact_entry.hpp"

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

std::string text_of(std::vector<std::pair<SignId, Answer>> const& answers) {
  auto const& pack = pack_here();
  std::vector<std::string> parts;
  for (auto const& [sign, answer] : answers)
    parts.push_back(pack[sign].name + " " + answer_text(pack, sign, answer));
  std::sort(parts.begin(), parts.end());
  std::string out;
  for (auto const& part : parts) out += (out.empty() ? "" : "; ") + part;
  return out;
}

FactsEntry read_line(std::string const& line) {
  return read_facts(pack_here(), facts, line, {{2026, 11, 25}, {}});
}

std::string facts_of(std::string const& line) { return text_of(read_line(line).answers); }

TEST(FactsLine, FactsInAnyOrderAreTheSame) {
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

TEST(FactsLine, TheWeightOfTheExampleFitsItsBreed) {
  auto const& breeds = pack_here().breeds.breeds;
  std::size_t tried = 0;
  for (std::uint32_t i = 0; i < breeds.size(); ++i) {
    auto const& grown = breeds[i].adult_weight;
    if (grown.high_kg <= 0) continue;
    ++tried;
    auto const kg = std::stod(weight_example(pack_here(), i));
    EXPECT_GE(kg, grown.low_kg) << breeds[i].name;
    EXPECT_LE(kg, grown.high_kg) << breeds[i].name;
  }
  EXPECT_GT(tried, 100U);
}

TEST(FactsLine, AWordForTheYoungIsToldToBeNoAge) {
  EXPECT_TRUE(read_line("puppy, male").answers.empty());
  EXPECT_NE(read_line("male, labrador, puppy").remark.find("how old"), std::string::npos)
      << read_line("male, labrador, puppy").remark;
}

TEST(FactsLine, AsPeopleTypeThem) {
  auto const whole = facts_of("8 years, male neutered, Labrador, 30 kg");
  EXPECT_EQ(whole, "age 8 years; breed Labrador Retriever; neutered yes; sex male; weight 30 kg");
  for (auto const* line :
       {"8yo MN lab 30kg", "age: 8, weight: 30 kg, male neutered lab",
        "8 years and MN and lab and 30 kg", "he is an 8 year old neutered male lab, weighs 30 kg",
        "lab 30 kg male neutered 8 years", "8 years; 30 kg; MN; lab"})
    EXPECT_EQ(facts_of(line), whole) << line;
  EXPECT_EQ(facts_of("8 years 30 kg"), "age 8 years; weight 30 kg");
  EXPECT_EQ(facts_of("2 years and 3 months, lab"), "age 2.25 years; breed Labrador Retriever");
  EXPECT_EQ(facts_of("male, not neutered"), "neutered no; sex male");
  EXPECT_EQ(facts_of("born 2019-11-25"), "age 7.001 years");
  EXPECT_EQ(facts_of("31,5 kg"), "weight 31.5 kg");
}

TEST(FactsLine, ANumberWithoutItsUnitIsNeitherAgeNorWeight) {
  for (auto const* line : {"8", "8, lab, 30", "about 30", "eight", "he's 8",
                           "male neutered, about 12", "lab, about 30, male", "lab 30"}) {
    EXPECT_EQ(facts_of(line), "") << line;
    EXPECT_NE(read_line(line).remark.find("the age or the weight"), std::string::npos)
        << line << ": " << read_line(line).remark;
  }
}

TEST(FactsLine, ACommaBetweenTwoNumbersIsAsked) {
  for (auto const* line : {"8,30kg", "lab,8,30kg", "lab,9,31 kg", "8,5 kg", "31,25 kg"}) {
    EXPECT_EQ(facts_of(line), "") << line;
    EXPECT_NE(read_line(line).remark.find("one number, or two"), std::string::npos) << line;
  }
}

TEST(FactsLine, OfACorrectionNothingStands) {
  for (auto const* line :
       {"8 years, no 9 years", "male, no female", "male, sorry female", "was entire, now done",
        "done, no", "lab, or maybe a collie", "8 years, actually 9 years", "8 or 9 years", "male?",
        "8 years, ?, lab", "male, not female", "male not", "not male"})
    EXPECT_EQ(facts_of(line), "") << line;
}

TEST(FactsLine, WhatIsToldTwiceIsRefused) {
  for (auto const* line : {"8 years, 9 years, lab", "8 years, 9 years, 10 years",
                           "8 years, 8 years", "male, female", "30 kg, 31 kg", "lab, collie"})
    EXPECT_EQ(facts_of(line), "") << line;
  EXPECT_NE(read_line("8 years, 9 years").remark.find("a second time"), std::string::npos);
}

TEST(FactsLine, OfALineThatIsNotUnderstoodNothingIsTaken) {
  for (auto const* line : {"8 years, wibble", "12/04/2019", "born 2019", "8 m lab", "", "yes",
                           ",,;", "8 years, male neutered, Labrador, 31.5 stones of gold"}) {
    EXPECT_EQ(facts_of(line), "") << line;
    EXPECT_FALSE(read_line(line).remark.empty()) << line;
  }
}

TEST(FactsLine, NobodyCanTell) {
  EXPECT_TRUE(read_line("?").cannot_tell);
  EXPECT_TRUE(read_line("don't know").cannot_tell);
}

TEST(FactsLine, ABreedThatIsNearIsAskedAndTheLineStandsWithIt) {
  auto const reply = read_line("8 years, pomeranien, male");
  EXPECT_TRUE(reply.answers.empty());
  ASSERT_EQ(reply.suggested.size(), 1U) << reply.remark;
  EXPECT_EQ(text_of(reply.suggested.front()), "age 8 years; breed Pomeranian; sex male");
}

// Any words thrown together: what is taken is among what each stands for.
TEST(FactsLine, NoMixtureOfWordsTellsWhatNoneOfThemSays) {
  std::vector<std::string> const words = {"8",  "years", "30",  "kg",  "male", "neutered", "lab",
                                          "no", "and",   ",",   "or",  "not",  "9",        "was",
                                          "m",  "?",     "age", "mix", ":",    "female"};
  std::mt19937 random(20261201);
  for (int i = 0; i < 3000; ++i) {
    std::string line;
    for (auto left = 1 + random() % 8; left > 0; --left)
      line += words[random() % words.size()] + " ";
    auto const has = [&](std::string const& word) {
      return (" " + line).find(" " + word + " ") != std::string::npos;
    };
    for (auto const& [sign, answer] : read_line(line).answers) {
      for (auto const* word : {"no", "or", "was", "?"}) EXPECT_FALSE(has(word)) << line;
      if (sign == patient_sign::sex) {
        EXPECT_NE(has("male") || has("m"), has("female")) << line;
      }
      if (sign == patient_sign::neutered) {
        EXPECT_EQ(std::get<bool>(answer), !has("not")) << line;
      }
      if (sign == patient_sign::weight) {
        EXPECT_TRUE(has("kg")) << line;
      }
      if (sign == patient_sign::age) {
        EXPECT_TRUE(has("years") || has("age")) << line;
      }
    }
  }
}

}  // namespace
}  // namespace flinch::test
