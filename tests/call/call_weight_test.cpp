// A weight that can hardly be, told in a call: what the nurse is asked, and what is recorded.
#include <gtest/gtest.h>

#include "call/call_desk.hpp"
#include "call/call_view.hpp"
#include "flinch/care/plan.hpp"
#include "pack/shipped_pack.hpp"

namespace flinch::cli {
namespace {

using test::press;

class CallWeight : public testing::Test {
 protected:
  // Weight and breed as typed on the page of caller and patient, then back to the questions.
  void tell(std::string const& weight, std::string const& breed) {
    press(call, "\t\x0e\x0e\x0e\x0e" + weight + "\n" + breed + "\n\x1b");
    ASSERT_EQ(call.state().page, CallPage::questions);
  }
  [[nodiscard]] std::optional<double> kept(SignId sign) const {
    for (auto const& [id, answer] : call.state().patient.answers)
      if (id == sign) return std::get<double>(answer);
    return std::nullopt;
  }
  [[nodiscard]] bool is_asked_whether_right() const {
    return call.asked() == patient_sign::weight_confirmed;
  }
  [[nodiscard]] std::string screen() const {
    return plain_text(call_view(call, {80, 24}, Letters::ascii));
  }

  Tables tables{test::shipped_pack()};
  CallModel call{tables, {}, Keeping::in_memory, test::desk_clock};
};

TEST_F(CallWeight, ABelievableOneIsNotAskedAbout) {
  tell("2.5 kg", "chihuahua");
  EXPECT_FALSE(is_asked_whether_right());
}

TEST_F(CallWeight, IsAskedAboutAndConfirmedByAYes) {
  tell("45 kg", "chihuahua");
  ASSERT_TRUE(is_asked_whether_right());
  EXPECT_NE(screen().find("45 kg is far more than usual"), std::string::npos) << screen();
  EXPECT_NE(screen().find("IS THE WEIGHT RIGHT?"), std::string::npos);
  press(call, "1");
  EXPECT_EQ(kept(patient_sign::weight_confirmed), 45);
  EXPECT_EQ(kept(patient_sign::weight), 45);
  EXPECT_FALSE(is_asked_whether_right());
  press(call, "\x1a");
  EXPECT_FALSE(kept(patient_sign::weight_confirmed));
  EXPECT_TRUE(is_asked_whether_right());
}

TEST_F(CallWeight, AWordAnswersAsTheNumberDoes) {
  tell("45 kg", "chihuahua");
  press(call, "yes\n");
  EXPECT_EQ(kept(patient_sign::weight_confirmed), 45);
}

TEST_F(CallWeight, ANoTakesItBackAndAsksForItAgain) {
  for (auto const* no : {"0", "no\n"}) {
    CallModel other{tables, {}, Keeping::in_memory, test::desk_clock};
    press(other,
          "\t\x0e\x0e\x0e\x0e"
          "45 kg\nchihuahua\n\x1b");
    press(other, no);
    EXPECT_EQ(other.state().activity, Activity::typing);
    EXPECT_EQ(other.asked(), patient_sign::weight);
    for (auto const& [sign, answer] : other.state().patient.answers)
      EXPECT_NE(sign, patient_sign::weight);
    press(other, "4.5 lb\n");
    EXPECT_FALSE(doubt_of_weight(other.pack(), other.state().patient));
    EXPECT_TRUE(other.state().result.find(patient_sign::weight) != nullptr);
  }
}

TEST_F(CallWeight, NobodyCanTellIsNoConfirmation) {
  tell("45 kg", "chihuahua");
  press(call, "?");
  EXPECT_FALSE(is_asked_whether_right());
  EXPECT_TRUE(doubt_of_weight(call.pack(), call.state().patient));
  auto const plan = plan_care(tables, call.state().result, Reader::nurse);
  EXPECT_TRUE(plan.weight_doubt);
}

TEST_F(CallWeight, AnotherWeightIsAskedAboutAnew) {
  tell("45 kg", "chihuahua");
  press(call, "1");
  press(call,
        "\t\x0e\x0e\x0e\x0e"
        "50 kg\n\x1b");
  EXPECT_FALSE(kept(patient_sign::weight_confirmed));
  EXPECT_TRUE(is_asked_whether_right());
}

}  // namespace
}  // namespace flinch::cli
