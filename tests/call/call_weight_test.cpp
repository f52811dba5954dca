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
  static void tell(CallModel& desk, std::string const& weight, std::string const& breed) {
    press(desk, "\t\x0e\x0e\x0e\x0e" + weight + "\n" + breed + "\n\x1b");
    ASSERT_EQ(desk.state().page, CallPage::questions);
  }
  // No to every danger that stands before the weight.
  static void go_through_dangers(CallModel& desk) {
    for (int keys = 0; keys < 400 && desk.state().outlook.screen &&
                       desk.asked() != patient_sign::weight_confirmed;
         ++keys) {
      auto const kind = desk.pack()[*desk.asked()].kind;
      bool const is_listed = kind == AnswerKind::yes_or_no || kind == AnswerKind::sites;
      press(desk, is_listed ? "0" : "?");
    }
  }
  void tell(std::string const& weight, std::string const& breed) {
    tell(call, weight, breed);
    go_through_dangers(call);
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

TEST_F(CallWeight, DangersAreAskedBeforeIt) {
  tell(call, "45 kg", "chihuahua");
  ASSERT_TRUE(call.state().outlook.screen);
  EXPECT_EQ(call.state().outlook.screen->kind, Screen::Kind::danger);
  EXPECT_FALSE(is_asked_whether_right());
  EXPECT_FALSE(weight_for_amounts(call.pack(), call.state().patient));
}

TEST_F(CallWeight, IsAskedAboutAndConfirmedByAYes) {
  tell("45 kg", "chihuahua");
  ASSERT_TRUE(is_asked_whether_right());
  EXPECT_NE(screen().find("45 kg is far more than usual"), std::string::npos) << screen();
  EXPECT_NE(screen().find("IS THE WEIGHT RIGHT?"), std::string::npos);
  EXPECT_NE(screen().find("yes it is right"), std::string::npos) << screen();
  EXPECT_EQ(screen().find("1-9 yes"), std::string::npos) << screen();
  press(call, "yes\n");
  EXPECT_EQ(kept(patient_sign::weight_confirmed), 45);
  EXPECT_EQ(kept(patient_sign::weight), 45);
  EXPECT_FALSE(is_asked_whether_right());
  press(call, "\x1a");
  EXPECT_FALSE(kept(patient_sign::weight_confirmed));
  EXPECT_TRUE(is_asked_whether_right());
}

TEST_F(CallWeight, ADigitBeginsTheWeightOnceMoreAndConfirmsNothing) {
  tell("45 kg", "chihuahua");
  ASSERT_TRUE(is_asked_whether_right());
  auto const answers = call.state().patient.answers.size();
  for (auto const* digit : {"1", "0", "4"}) {
    press(call, digit);
    EXPECT_EQ(call.state().activity, Activity::typing);
    EXPECT_EQ(call.state().typed, digit);
    EXPECT_EQ(call.state().patient.answers.size(), answers);
    press(call, "\x1b");
    EXPECT_TRUE(is_asked_whether_right());
  }
  press(call, "1.5 kg\n");
  EXPECT_EQ(kept(patient_sign::weight), 1.5);
  EXPECT_FALSE(kept(patient_sign::weight_confirmed));
  EXPECT_EQ(call.state().patient.answers.size(), answers);
  EXPECT_FALSE(is_asked_whether_right());
}

TEST_F(CallWeight, TheSameWeightOnceMoreConfirmsIt) {
  tell("45 kg", "chihuahua");
  press(call, "45 kg\n");
  EXPECT_EQ(kept(patient_sign::weight_confirmed), 45);
}

TEST_F(CallWeight, OnlyAYesAloneConfirmsIt) {
  for (auto const* half : {"yes pounds\n", "yes, 45 lb\n", "yes she is heavy\n"}) {
    CallModel other{tables, {}, Keeping::in_memory, test::desk_clock};
    tell(other, "45 kg", "chihuahua");
    go_through_dangers(other);
    auto const before = other.state().patient;
    press(other, half);
    EXPECT_EQ(other.state().patient, before) << half;
    EXPECT_TRUE(other.state().is_trouble) << half;
    EXPECT_EQ(other.asked(), patient_sign::weight_confirmed) << half;
  }
}

TEST_F(CallWeight, AYesWithAMeasureAnswersNoDanger) {
  auto const before = call.state().patient;
  press(call, "yes pounds\n");
  EXPECT_EQ(call.state().patient, before);
  EXPECT_TRUE(call.state().is_trouble);
}

TEST_F(CallWeight, ANoTakesItBackAndAsksForItAgain) {
  tell("45 kg", "chihuahua");
  press(call, "no\n");
  EXPECT_EQ(call.state().activity, Activity::typing);
  EXPECT_EQ(call.asked(), patient_sign::weight);
  EXPECT_FALSE(kept(patient_sign::weight));
  press(call, "4.5 lb\n");
  EXPECT_FALSE(doubt_of_weight(call.pack(), call.state().patient));
  EXPECT_TRUE(kept(patient_sign::weight));
}

TEST_F(CallWeight, TheAdviceDoesNotWaitForAValueThatIsRefused) {
  press(call, "\t\x0e\x0e\x0e\x0ewhat!");
  EXPECT_EQ(call.state().page, CallPage::advice);
  EXPECT_TRUE(call.state().is_trouble);
  EXPECT_NE(call.state().message.find("Not recorded"), std::string::npos);
  EXPECT_FALSE(kept(patient_sign::weight));
  press(call, "!");
  EXPECT_EQ(call.state().page, CallPage::note);
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
  press(call, "yes\n");
  press(call,
        "\t\x0e\x0e\x0e\x0e"
        "50 kg\n\x1b");
  go_through_dangers(call);
  EXPECT_FALSE(kept(patient_sign::weight_confirmed));
  EXPECT_TRUE(is_asked_whether_right());
}

}  // namespace
}  // namespace flinch::cli
