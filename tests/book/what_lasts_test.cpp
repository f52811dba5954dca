// A new call begins with what lasts, and with nothing that may have changed.
#include "book/what_lasts.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "book/limping_pack.hpp"

namespace flinch::test {
namespace {

constexpr std::time_t year_s = 31557600;  // of 365.25 days

std::shared_ptr<Pack const> pack() {
  return limping_pack(R"(
sign diabetes "diabetes"
  ask "Does it have diabetes?"
  answer yes or no
  seen by anyone
  lasts
)");
}

cli::CallLine call(long long number, std::time_t begun, std::string line,
                   std::string words = "{}") {
  cli::CallLine out;
  out.call = cli::CallId{number};
  out.begun = begun;
  out.line = std::move(line);
  out.words = std::move(words);
  return out;
}

Answer const* answer_to(Case const& patient, SignId sign) {
  for (auto const& [answered, answer] : patient.answers)
    if (answered == sign) return &answer;
  return nullptr;
}

TEST(WhatLasts, AYesToAnIllnessSexAndAgeStayAndTheRestDoesNot) {
  auto const its_pack = pack();
  auto const found = cli::what_lasts(
      {call(1, 0,
            R"({"dog": {"age": "9 years", "weight": "31 kg", "sex": "male", "neutered": "no"},
                "came for": ["limping"], "answers": {"limping": "yes", "diabetes": "yes"}})",
            R"({"name": "Bramble", "caller": "Jo", "call back": "0142", "note": "x",
                "ring back at": "15:40"})")},
      *its_pack, year_s);
  EXPECT_EQ(found.from, cli::CallId{1});
  EXPECT_EQ(found.patient.name, "Bramble");
  EXPECT_EQ(found.patient.caller, "Jo");
  EXPECT_EQ(found.patient.call_back, "0142");
  EXPECT_EQ(found.patient.note, "");
  EXPECT_EQ(found.patient.ring_back_at, "");
  EXPECT_TRUE(found.patient.came_for.empty());
  ASSERT_NE(answer_to(found.patient, patient_sign::age), nullptr);
  EXPECT_DOUBLE_EQ(std::get<double>(*answer_to(found.patient, patient_sign::age)), 10);
  EXPECT_NE(answer_to(found.patient, patient_sign::sex), nullptr);
  EXPECT_NE(answer_to(found.patient, *its_pack->find_sign("diabetes")), nullptr);
  EXPECT_EQ(answer_to(found.patient, patient_sign::weight), nullptr);
  EXPECT_EQ(answer_to(found.patient, patient_sign::neutered), nullptr) << "it may be by now";
  EXPECT_EQ(answer_to(found.patient, *its_pack->find_sign("limping")), nullptr);
  EXPECT_EQ(found.signs.size(), found.patient.answers.size());
}

TEST(WhatLasts, AnAgeGrowsOverManyCallsShortlyAfterEachOther) {
  auto const its_pack = pack();
  constexpr std::time_t day_s = 86400;
  auto const years_at = [&](std::vector<cli::CallLine> const& calls, std::time_t now) {
    auto const found = cli::what_lasts(calls, *its_pack, now);
    return std::get<double>(*answer_to(found.patient, patient_sign::age));
  };
  std::vector<cli::CallLine> calls = {call(1, 0, R"({"dog": {"age": "3 months"}})")};
  for (long long i = 1; i <= 10; ++i) {
    auto const begun = i * 20 * day_s;
    calls.push_back(
        call(i + 1, begun + 300,
             fmt::format(R"({{"dog": {{"age": "{} years"}}}})", years_at(calls, begun))));
  }
  EXPECT_NEAR(years_at(calls, 200 * day_s), 9.0 / 12, 1e-6) << "3 months and 200 days";
  calls.push_back(call(12, 201 * day_s, R"({"dog": {"age": "2 years"}})"));
  EXPECT_NEAR(years_at(calls, 202 * day_s), 2, 1e-6) << "what a person says counts";
}

TEST(WhatLasts, ALaterNoTakesAnEarlierYesBackAndIsNotKeptItself) {
  auto const its_pack = pack();
  auto const found = cli::what_lasts({call(1, 0, R"({"answers": {"diabetes": "yes"}})"),
                                      call(2, 10, R"({"answers": {"diabetes": "no"}})")},
                                     *its_pack, 20);
  EXPECT_TRUE(found.patient.answers.empty());
}

}  // namespace
}  // namespace flinch::test
