// What was typed for one thing is not recorded for another that took its place on the screen.
#include <gtest/gtest.h>

#include <algorithm>

#include "call/call_desk.hpp"
#include "call/call_model.hpp"
#include "pack/shipped_pack.hpp"

namespace flinch::test {
namespace {

class CallGuard : public testing::Test {
 protected:
  [[nodiscard]] bool is_yes(std::string const& name) const {
    auto const* known = call_.state().result.find(*pack_->find_sign(name));
    return known != nullptr && known->answer == Answer(true);
  }
  [[nodiscard]] bool is_known(std::string const& name) const {
    return call_.state().result.find(*pack_->find_sign(name)) != nullptr;
  }
  [[nodiscard]] bool asks_a_choice() const {
    auto const kind = (*pack_)[call_.state().outlook.screen->questions[0].sign].kind;
    return kind == AnswerKind::steps || kind == AnswerKind::one_of;
  }

  std::shared_ptr<Pack const> pack_ = shipped_pack();
  Tables tables_{pack_};
  cli::CallModel call_{tables_, {}, cli::Keeping::in_memory, desk_clock};
};

TEST_F(CallGuard, ADigitForTheListIsNoChoice) {
  press(call_, "vomiting\n");
  ASSERT_TRUE(is_yes("vomiting"));
  EXPECT_FALSE(asks_a_choice()) << "what any dog could die of comes before how often";
  press(call_, "1");
  EXPECT_FALSE(is_known("vomited_times"));
  EXPECT_NE(call_.state().result.judgement.tier, std::nullopt);
}

TEST_F(CallGuard, TheFirstDigitAfterAListOnlySaysThatTheQuestionIsNew) {
  // What any dog could die of was denied.
  Case patient;
  for (std::uint32_t i = 0; i < pack_->signs.size(); ++i)
    if (auto const& sign = pack_->signs[i]; sign.asked_first && sign.kind == AnswerKind::yes_or_no)
      patient.answers.emplace_back(SignId{i}, false);
  cli::CallModel call(tables_, patient, cli::Keeping::in_memory, desk_clock);
  auto const first_asked = [&] { return call.state().outlook.screen->questions[0].sign; };
  ASSERT_EQ((*pack_)[first_asked()].kind, AnswerKind::yes_or_no);
  press(call, "limping\n");
  press(call, "\x1b");
  auto const degree = *pack_->find_sign("limp_degree");
  ASSERT_EQ(first_asked(), degree);
  press(call, "1");
  EXPECT_EQ(call.state().result.find(degree), nullptr);
  EXPECT_TRUE(call.state().is_trouble);
  press(call, "3");
  EXPECT_NE(call.state().result.find(degree), nullptr) << "the next one answers it";
}

// Which kind of wound was told too, but it is no highest urgency yet: what kills is asked before.
TEST_F(CallGuard, AKindThatWasToldWaitsForTheLifeThreats) {
  press(call_, "puncture hole\n\n");
  ASSERT_TRUE(call_.asked());
  ASSERT_NE(call_.state().result.judgement.tier, TierId{0});
  EXPECT_TRUE((*pack_)[*call_.asked()].asked_first) << (*pack_)[*call_.asked()].name;
}

// "Ate chocolate" is recorded as a poison, and which one is asked next, at the top tier as well.
TEST_F(CallGuard, AKindThatWasToldIsAskedNextAndItsWordsAreKept) {
  auto const kind = *pack_->find_sign("chocolate_kind");
  press(call_, "ate chocolate\n");
  ASSERT_TRUE(is_yes("ate_poison"));
  EXPECT_EQ(call_.state().result.judgement.tier, TierId{0});
  EXPECT_FALSE(is_known("chocolate_kind")) << "it is asked, not taken";
  ASSERT_TRUE(call_.asked());
  EXPECT_EQ((*pack_)[*call_.asked()].name, "chocolate_kind");
  EXPECT_NE(call_.state().patient.note.find("ate chocolate"), std::string::npos);
  press(call_, "2");
  EXPECT_FALSE(is_known("chocolate_kind")) << "the digit may be meant for what stood there";
  press(call_, "2");
  EXPECT_TRUE(is_known("chocolate_kind"));
  press(call_, "\x1a\x1a");
  EXPECT_EQ(call_.state().patient.note, "");
  ASSERT_TRUE(call_.asked());
  EXPECT_NE(*call_.asked(), kind) << "without the whole its kind is not asked";
}

TEST_F(CallGuard, TheFirstDigitAfterUndoAnswersNoListThatCameBack) {
  auto const lines = [&] {
    std::vector<SignId> out;
    for (auto const& question : call_.state().outlook.screen->questions)
      out.push_back(question.sign);
    return out;
  };
  press(call_, "0");
  auto const stood_there = lines();
  press(call_, "\x1a");
  ASSERT_NE(lines(), stood_there);
  press(call_, "1");
  EXPECT_TRUE(call_.state().patient.answers.empty());
  EXPECT_TRUE(call_.state().is_trouble);
  press(call_, "1");
  EXPECT_FALSE(call_.state().patient.answers.empty()) << "the next one answers it";
}

// What is found by a search brings another list: a digit that was meant for the list of before
// answers no line of it.
TEST_F(CallGuard, TheFirstDigitAfterASearchAnswersNoNewList) {
  std::size_t changed = 0;
  for (auto const* words :
       {"vomiting", "itchy", "drinks more", "head shaking", "coughs", "swollen belly", "diarrhoea"})
    for (char const digit : {'1', '2', '3', '4', '5', '6', '7'}) {
      cli::CallModel call(tables_, {}, cli::Keeping::in_memory, desk_clock);
      auto const lines = [&] {
        std::vector<SignId> out;
        for (auto const& question : call.state().outlook.screen->questions)
          out.push_back(question.sign);
        return out;
      };
      auto const stood_there = lines();
      press(call, std::string(words) + "1");
      press(call, "\x1b");
      ASSERT_EQ(call.state().patient.answers.size(), 1U) << words;
      auto const answers = call.state().patient.answers;
      if (lines() == stood_there) continue;
      ++changed;
      press(call, std::string(1, digit));
      EXPECT_EQ(call.state().patient.answers, answers) << words << digit;
      EXPECT_TRUE(call.state().is_trouble);
      press(call, "1");
      EXPECT_NE(call.state().patient.answers, answers) << "read out, its number answers it";
    }
  EXPECT_GE(changed, 14U);
}

TEST_F(CallGuard, ADigitForChoicesAnswersNoListThatTookTheirPlace) {
  press(call_, "colour of his gums\n");
  ASSERT_EQ(call_.state().activity, cli::Activity::choosing);
  press(call_, "vomiting\n");
  press(call_, "\x1b");
  auto const answers = call_.state().patient.answers;
  ASSERT_EQ(answers.size(), 1U);
  press(call_, "2");
  EXPECT_EQ(call_.state().patient.answers, answers);
}

TEST_F(CallGuard, TheLowestDegreeBesideAYesIsTold) {
  press(call_, "vomiting\n");
  press(call_, "times vomited1");
  ASSERT_EQ(call_.state().activity, cli::Activity::choosing);
  press(call_, "1");
  EXPECT_TRUE(is_known("vomited_times"));
  EXPECT_NE(call_.state().message.find("Told before: vomiting: yes"), std::string::npos)
      << call_.state().message;
}

TEST_F(CallGuard, WorseAtARingBackIsTheNoteAndNoAnswer) {
  cli::Visit then;
  then.begun = desk_clock - 24 * 3600;
  then.patient.answers = {{*pack_->find_sign("vomiting"), Answer(true)}};
  cli::EarlierVisits earlier;
  earlier.visits = {then};
  earlier.rung_back = then;
  for (auto const* said : {"yes worse", "yes, he's worse", "yes it got worse"}) {
    cli::CallModel call(tables_, {}, cli::Keeping::in_memory, desk_clock, {}, earlier);
    press(call, std::string(said) + "\n");
    EXPECT_EQ(call.state().result.find(*pack_->find_sign("vomiting")), nullptr) << said;
    EXPECT_NE(call.state().patient.note.find(said), std::string::npos) << call.state().message;
  }
  cli::CallModel call(tables_, {}, cli::Keeping::in_memory, desk_clock, {}, earlier);
  press(call, "yes\n");
  EXPECT_NE(call.state().result.find(*pack_->find_sign("vomiting")), nullptr);
}

TEST_F(CallGuard, TwoLettersAreNoSexWhereItIsNotAsked) {
  for (auto const* letters : {"fi", "me", "mi", "fe", "mc", "mn", "fs", "fn"}) {
    press(call_, std::string(letters) + "\n");
    press(call_, "\x1b");
    EXPECT_FALSE(is_known("sex")) << letters;
    EXPECT_FALSE(is_known("neutered")) << letters;
  }
}

TEST_F(CallGuard, AnotherSexThanWasToldIsTold) {
  press(call_, "female spayed\n");
  EXPECT_EQ(call_.state().message.find("Told before"), std::string::npos);
  press(call_, "male\n");
  EXPECT_NE(call_.state().message.find("Told before as sex: female"), std::string::npos)
      << call_.state().message;
  EXPECT_TRUE(call_.state().is_trouble);
}

// "11" of fourteen lines is no 1 and then a 1 of the list behind it.
TEST_F(CallGuard, OfTenChoicesAndMoreANumberHasTwoDigits) {
  auto const kind = *pack_->find_sign("poison_kind");
  auto const chosen = [&] {
    auto const* known = call_.state().result.find(kind);
    return known == nullptr ? std::string()
                            : (*pack_)[kind].values[std::get<Choice>(known->answer).index].name;
  };
  press(call_, "ate onions1");
  ASSERT_EQ(call_.state().activity, cli::Activity::choosing);
  press(call_, "11");
  EXPECT_TRUE(call_.state().patient.answers.empty()) << "not before Enter";
  press(call_, "\n");
  EXPECT_EQ(chosen(), "onion");
  press(call_, "\x1a");
  ASSERT_TRUE(call_.state().patient.answers.empty());
  press(call_, "ate onions11\n");
  EXPECT_EQ(chosen(), "nothing");
}

// "Did you mean ...?" is answered by yes where one breed was named, by its number where several
// were.
TEST_F(CallGuard, NearBreedsAreOffered) {
  auto const breed = [&] {
    auto const* known = call_.state().result.find(*pack_->find_sign("breed"));
    return known == nullptr ? std::string()
                            : pack_->breeds.breeds[std::get<Choice>(known->answer).index].name;
  };
  auto const page = [&] {
    press(call_, "\t");
    auto const fields = cli::detail_fields(*pack_);
    while (fields[call_.state().field].label != "breed") press(call_, "\x0e");
  };
  page();
  press(call_, "labradoor\n");
  EXPECT_EQ(breed(), "");
  EXPECT_NE(call_.state().message.find("Did you mean"), std::string::npos);
  press(call_, "no\n");
  EXPECT_EQ(breed(), "") << "no takes none";
  press(call_, "labradoor\n");
  press(call_, "yes\n");
  EXPECT_NE(breed().find("Labrador"), std::string::npos) << call_.state().message;
  EXPECT_NE(call_.state().last_answer.find("Labrador"), std::string::npos);
}

TEST_F(CallGuard, AClashThatTakesAnothersPlaceIsTold) {
  press(call_, "labour stopped1male\n");
  ASSERT_EQ(call_.state().result.judgement.contradictions.size(), 1U);
  press(call_, "sore scrotum1");
  press(call_, "\x1b");
  press(call_, "female\n");
  ASSERT_EQ(call_.state().result.judgement.contradictions.size(), 1U);
  EXPECT_NE(call_.state().message.find("cannot apply"), std::string::npos) << call_.state().message;
}

}  // namespace
}  // namespace flinch::test
