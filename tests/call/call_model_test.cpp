#include "call/call_model.hpp"

#include <gtest/gtest.h>

#include "call/call_desk.hpp"
#include "desk/ring_back_time.hpp"
#include "files/clock.hpp"
#include "flinch/casefile/write_case.hpp"

namespace flinch::cli {
namespace {

using test::press;

struct Desk {
  Tables tables{test::desk_pack()};
  CallModel call{tables, {}, Keeping::in_memory, test::desk_clock};

  [[nodiscard]] std::string answer(char const* name) const {
    auto const sign = *call.pack().find_sign(name);
    for (auto const unknown : call.state().patient.cannot_tell)
      if (unknown == sign) return "can't tell";
    for (auto const& [id, answer] : call.state().patient.answers)
      if (id == sign) {
        if (auto const* yes = std::get_if<bool>(&answer)) return *yes ? "yes" : "no";
        if (auto const* choice = std::get_if<Choice>(&answer))
          return call.pack()[sign].values[choice->index].name;
        if (auto const* findings = std::get_if<Findings>(&answer))
          return findings->found_somewhere ? "found" : "nowhere";
        return "number";
      }
    return "not asked";
  }
  [[nodiscard]] std::string tier() const {
    auto const tier = call.state().result.judgement.tier;
    return tier ? call.pack()[*tier].name : "none";
  }
};

TEST(CallModel, LifeThreatsAreAskedFirst) {
  Desk const desk;
  ASSERT_TRUE(desk.call.state().outlook.screen);
  for (auto const& question : desk.call.state().outlook.screen->questions)
    EXPECT_EQ(question.could_reach, TierId{0}) << desk.call.pack()[question.sign].name;
  EXPECT_EQ(desk.call.urgency(), Urgency::one_answer_away);
}

TEST(CallModel, WhatHasBecomeDecisiveIsAskedFirst) {
  Desk desk;
  EXPECT_NE(desk.call.pack()[*desk.call.focus()].name, "retching_dry");
  press(desk.call, "bloat1");
  EXPECT_EQ(desk.call.pack()[*desk.call.focus()].name, "retching_dry");
}

TEST(CallModel, ASearchThatFindsNothingBeginsAnew) {
  Desk desk;
  press(desk.call, "xyzzy\n");
  EXPECT_TRUE(desk.call.state().is_trouble);
  EXPECT_NE(desk.call.state().message.find("xyzzy"), std::string::npos);
  press(desk.call, "bloat");
  EXPECT_EQ(desk.call.state().typed, "bloat") << "not typed behind what was not found";
}

TEST(CallModel, AWholeWordAnswersTheQuestionBeingRead) {
  Desk desk;
  auto const first = desk.call.pack()[*desk.call.focus()].name;
  press(desk.call, "no\n");
  EXPECT_EQ(desk.answer(first.c_str()), "no");
  auto const second = desk.call.pack()[*desk.call.focus()].name;
  EXPECT_NE(first, second);
  press(desk.call, "?");
  EXPECT_EQ(desk.answer(second.c_str()), "can't tell");
  auto const third = desk.call.pack()[*desk.call.focus()].name;
  press(desk.call, "yes\n");
  EXPECT_NE(desk.answer(third.c_str()), "no");
  EXPECT_NE(desk.answer(third.c_str()), "not asked");
}

TEST(CallModel, TheUrgencyFollowsEachAnswer) {
  Desk desk;
  EXPECT_EQ(desk.tier(), "none");
  press(desk.call, "passed1");
  EXPECT_EQ(desk.answer("collapsed"), "yes");
  EXPECT_EQ(desk.tier(), "now");
  EXPECT_NE(desk.call.state().message.find("Urgency rose to: See a vet now"), std::string::npos);
}

TEST(CallModel, ADigitSaysYesToThatOneOfTheList) {
  Desk desk;
  ASSERT_GE(desk.call.state().outlook.screen->questions.size(), 2U);
  auto const second = desk.call.pack()[desk.call.state().outlook.screen->questions[1].sign].name;
  press(desk.call, "2");
  EXPECT_NE(desk.answer(second.c_str()), "not asked");
  EXPECT_NE(desk.answer(second.c_str()), "no");
  press(desk.call, "\x1b");
  press(desk.call, "9");
  EXPECT_TRUE(desk.call.state().is_trouble);
}

TEST(CallModel, ZeroSaysNoToAllThatIsListedAndUndoesAtOnce) {
  Desk desk;
  auto const listed = desk.call.state().outlook.screen->questions;
  press(desk.call, "0");
  EXPECT_EQ(desk.call.state().patient.answers.size(), listed.size());
  for (auto const& question : listed) {
    auto const text = desk.answer(desk.call.pack()[question.sign].name.c_str());
    EXPECT_TRUE(text == "no" || text == "nowhere") << text;
  }
  press(desk.call, "\x1a");
  EXPECT_TRUE(desk.call.state().patient.answers.empty());
}

TEST(CallModel, LettersFindASignAndOneKeyMarksIt) {
  Desk desk;
  press(desk.call, "limp");
  ASSERT_EQ(desk.call.state().activity, Activity::finding);
  press(desk.call, "1");
  EXPECT_EQ(desk.answer("lame"), "yes");
  EXPECT_EQ(desk.call.state().activity, Activity::asking);
  press(desk.call, "not eating0");
  EXPECT_EQ(desk.answer("off_food"), "no");
  press(desk.call, "bloated?");
  EXPECT_EQ(desk.answer("belly_swollen"), "can't tell");
  press(desk.call, "zzzz\n");
  EXPECT_TRUE(desk.call.state().is_trouble);
  EXPECT_EQ(desk.call.state().activity, Activity::finding);
  press(desk.call, "\x1b");
  EXPECT_EQ(desk.call.state().activity, Activity::asking);
}

// What a caller says may hold a hyphen; it is no answer.
TEST(CallModel, AHyphenInASearchAnswersNothing) {
  Desk desk;
  press(desk.call, "/drum-like");
  EXPECT_TRUE(desk.call.state().patient.answers.empty());
  EXPECT_EQ(desk.call.state().typed, "drum-like");
  ASSERT_FALSE(desk.call.state().found.empty());
  EXPECT_EQ(desk.call.pack()[desk.call.state().found[0].sign].name, "belly_swollen");
}

// Each of these once stored what nobody had said.
TEST(CallModel, WordsThatBeginAsAnAnswerAreSearchedFor) {
  for (auto const* keys :
       {"not eating", "nlimp", "nsaid\n\n", "yorkie\n\n", "yelps\n\n", "nauseous\n\n"}) {
    Desk desk;
    press(desk.call, keys);
    EXPECT_TRUE(desk.call.state().patient.answers.empty()) << keys;
    EXPECT_TRUE(desk.call.state().patient.cannot_tell.empty()) << keys;
  }
}

TEST(CallModel, WhatEnterRecordsIsShownBeforeItIsPressed) {
  Desk desk;
  press(desk.call, "no");
  EXPECT_EQ(desk.call.on_enter(), "collapsed: no");
  EXPECT_EQ(desk.call.pack()[*desk.call.focus()].name, "collapsed") << "and its question";
  press(desk.call, "t eating");
  EXPECT_EQ(desk.call.on_enter(), "off its food: yes");
  press(desk.call, "\x15 much");
  EXPECT_EQ(desk.call.on_enter(), "");
  press(desk.call, "\n\n");
  EXPECT_TRUE(desk.call.state().patient.answers.empty());
}

TEST(CallModel, WordsForAChoiceLeadToIt) {
  for (auto const* keys : {"pale\n", "gum1pale\n", "gums pale1", "gum12"}) {
    Desk desk;
    press(desk.call, keys);
    EXPECT_EQ(desk.answer("gum_colour"), "pale") << keys;
    EXPECT_EQ(desk.call.state().last_answer, "gum colour: pale");
  }
}

TEST(CallModel, OtherWordsAtAChoiceChooseNothing) {
  for (auto const* keys :
       {"gum1\n\n", "gum1not eating", "gum1yelps\n\n", "gum1yes\n\n", "gum1no\n", "gum1p\n"}) {
    Desk desk;
    press(desk.call, keys);
    EXPECT_EQ(desk.answer("gum_colour"), "not asked") << keys;
    EXPECT_TRUE(desk.call.state().patient.answers.empty()) << keys;
  }
}

TEST(CallModel, TheFirstMarksAreWhatTheDogCameFor) {
  Desk desk;
  press(desk.call, "limp1bloated\n");
  auto const lame = *desk.call.pack().find_sign("lame");
  auto const swollen = *desk.call.pack().find_sign("belly_swollen");
  EXPECT_EQ(desk.call.state().patient.came_for, (std::vector<SignId>{lame, swollen}));
  press(desk.call, "limping0");
  EXPECT_EQ(desk.call.state().patient.came_for, std::vector<SignId>{swollen}) << "taken back";
  press(desk.call, "no\nnot eating\n");
  EXPECT_EQ(desk.answer("off_food"), "yes");
  EXPECT_EQ(desk.call.state().patient.came_for, std::vector<SignId>{swollen}) << "told when asked";
}

TEST(CallModel, WordsThatDenyAskWhichIsSo) {
  Desk desk;
  press(desk.call, "not bloated1");
  EXPECT_EQ(desk.answer("belly_swollen"), "not asked");
  EXPECT_EQ(desk.call.state().activity, Activity::choosing);
  press(desk.call, "2");
  EXPECT_EQ(desk.answer("belly_swollen"), "no");
}

TEST(CallModel, NoToTheRestOfAListAnsweredInPartIsSaidTwice) {
  Desk desk;
  auto const listed = desk.call.state().outlook.screen->questions.size();
  press(desk.call, "10");  // an age, typed in a hurry
  EXPECT_EQ(desk.call.state().patient.answers.size(), 1U);
  EXPECT_NE(desk.call.state().message.find("says NO to: "), std::string::npos);
  press(desk.call, "0");
  EXPECT_EQ(desk.call.state().patient.answers.size(), listed);
}

// "Only the second": the rest of the list that was read out is no, whatever has become urgent.
TEST(CallModel, NumbersAndTheRestAreOfTheListThatWasReadOut) {
  Desk desk;
  auto const listed = desk.call.state().outlook.screen->questions;
  ASSERT_GE(listed.size(), 3U);
  press(desk.call, "2");
  auto const& now = desk.call.state().outlook.screen->questions;
  ASSERT_EQ(now.size(), listed.size());
  for (std::size_t i = 0; i < listed.size(); ++i) EXPECT_EQ(now[i].sign, listed[i].sign);
  press(desk.call, "00");
  for (auto const& [sign, answer] : desk.call.state().patient.answers)
    EXPECT_TRUE(std::any_of(listed.begin(), listed.end(),
                            [&, wanted = sign](Question const& q) { return q.sign == wanted; }));
  EXPECT_EQ(desk.call.state().patient.answers.size(), listed.size());
  EXPECT_EQ(desk.answer(desk.call.pack()[listed[1].sign].name.c_str()), "yes");
}

TEST(CallModel, AListThatTookThePlaceOfAnotherIsNotDeniedUnread) {
  Desk desk;
  press(desk.call, "bloat1");
  ASSERT_EQ(desk.call.pack()[*desk.call.focus()].name, "retching_dry");
  press(desk.call, "0");
  EXPECT_EQ(desk.answer("retching_dry"), "not asked");
  EXPECT_TRUE(desk.call.state().is_trouble);
  press(desk.call, "0");
  EXPECT_EQ(desk.answer("retching_dry"), "no");
}

TEST(CallModel, ChoicesAreChosenAndNumbersTyped) {
  Desk desk;
  press(desk.call, "gum1");
  EXPECT_EQ(desk.call.state().activity, Activity::choosing);
  press(desk.call, "9");
  EXPECT_TRUE(desk.call.state().is_trouble);
  press(desk.call, "2");
  EXPECT_EQ(desk.answer("gum_colour"), "pale");
  EXPECT_EQ(desk.tier(), "today");
  press(desk.call, "minute1");
  EXPECT_EQ(desk.call.state().activity, Activity::typing);
  press(desk.call, "many\n");
  EXPECT_TRUE(desk.call.state().is_trouble);
  EXPECT_EQ(desk.answer("breathing_rate"), "not asked");
  press(desk.call, "\b\b\b\b24 per minute\n");
  EXPECT_EQ(desk.answer("breathing_rate"), "number");
}

TEST(CallModel, TheAdviceOpensWhateverIsBeingAnswered) {
  for (auto const* keys : {"", "gum", "gum1", "minute1", "minute124"}) {
    Desk desk;
    press(desk.call, keys + std::string("!"));
    EXPECT_EQ(desk.call.state().page, CallPage::advice) << keys;
    EXPECT_EQ(desk.answer("breathing_rate"),
              std::string(keys).ends_with("24") ? "number" : "not asked");
  }
}

// "Collapsed, and the third as well": the list that was read out is still what the numbers mean.
TEST(CallModel, AListStaysWhenALineOfItBringsTheTopTier) {
  Desk desk;
  auto const list = desk.call.state().outlook.screen->questions;
  press(desk.call, "yes\n");
  ASSERT_EQ(desk.tier(), "now");
  auto const& then = desk.call.state().outlook.screen->questions;
  ASSERT_EQ(then.size(), list.size());
  for (std::size_t i = 0; i < list.size(); ++i) EXPECT_EQ(then[i].sign, list[i].sign);
  EXPECT_EQ(desk.call.state().activity, Activity::asking);
}

TEST(CallModel, AFindingCountsBeforeItsPlaceIsKnown) {
  Desk desk;
  press(desk.call, "bleed1");
  EXPECT_EQ(desk.answer("bleeding"), "found");
  EXPECT_EQ(desk.tier(), "now");
  EXPECT_EQ(desk.call.state().activity, Activity::typing);
  press(desk.call, "left elbow\n");
  auto const& answers = desk.call.state().patient.answers;
  ASSERT_EQ(answers.size(), 1U);
  EXPECT_EQ(std::get<Findings>(answers[0].second).found.size(), 1U);
}

// No condition names a place of it: nobody waits for one, and it can be added all the same.
TEST(CallModel, APlaceThatTellsNothingIsNotAskedFor) {
  Desk desk;
  press(desk.call, "licks\n");
  EXPECT_EQ(desk.answer("licks"), "found");
  EXPECT_EQ(desk.call.state().activity, Activity::asking);
  press(desk.call, "licks\nleft elbow\n");
  EXPECT_EQ(std::get<Findings>(desk.call.state().patient.answers.at(0).second).found.size(), 1U);
}

TEST(CallModel, APlaceIsAddedToThoseKnownAndTakesNothingBack) {
  Desk desk;
  auto const places = [&] {
    return std::get<Findings>(desk.call.state().patient.answers.at(0).second).found.size();
  };
  press(desk.call, "bleed1left elbow\n");
  EXPECT_EQ(places(), 1U);
  press(desk.call, "bleed1");
  EXPECT_EQ(places(), 1U);
  press(desk.call, "belly\n");
  EXPECT_EQ(places(), 2U);
  EXPECT_EQ(desk.tier(), "now");
}

TEST(CallModel, NoWordForAPlaceTakesTheFindingBack) {
  for (auto const* keys : {"none\n", "no\n", "?\n"}) {
    Desk desk;
    press(desk.call, "bleed1");
    press(desk.call, keys);
    EXPECT_EQ(desk.answer("bleeding"), "found") << keys;
    EXPECT_EQ(desk.tier(), "now") << keys;
  }
}

TEST(CallModel, ANumberIsNoPlace) {
  Desk desk;
  press(desk.call, "bleed12\n");
  EXPECT_TRUE(desk.call.state().is_trouble);
  EXPECT_TRUE(std::get<Findings>(desk.call.state().patient.answers.at(0).second).found.empty());
}

TEST(CallModel, AnUrgencyThatFallsIsSaid) {
  Desk desk;
  press(desk.call, "passed1\t\t0");
  EXPECT_NE(desk.call.state().message.find("Urgency fell to: "), std::string::npos)
      << desk.call.state().message;
}

TEST(CallModel, ATimeAgreedAtALesserUrgencyIsCalledIntoQuestion) {
  Desk desk;
  press(desk.call, "gum12!1");
  ASSERT_FALSE(desk.call.state().patient.ring_back_at.empty());
  press(desk.call, "\x1bpassed1");
  EXPECT_NE(desk.call.state().message.find("Ring back was agreed for"), std::string::npos);
  EXPECT_TRUE(desk.call.state().is_trouble);
  auto const agreed = desk.call.state().patient.ring_back_at;
  desk.call.set_now(test::desk_clock + 1200);
  press(desk.call, "!1");
  EXPECT_EQ(desk.call.state().patient.ring_back_at,
            clock_text(ring_back_time(desk.call.pack().tiers[0], test::desk_clock + 1200)));
  EXPECT_NE(desk.call.state().patient.ring_back_at, agreed);
}

TEST(CallModel, ATypedTimeToRingBackIsKeptWithItsDay) {
  Desk desk;
  press(desk.call, "gum12\t");
  auto const past = clock_text(test::desk_clock - 1800).substr(11);
  for (int i = 0; i < 20 && desk.call.state().patient.ring_back_at.empty(); ++i) {
    auto const fields = detail_fields(desk.call.pack());
    bool const is_it = fields[desk.call.state().field].text == &Case::ring_back_at;
    press(desk.call, is_it ? past + "\n" : std::string("\n"));
  }
  EXPECT_EQ(desk.call.state().patient.ring_back_at,
            clock_text(test::desk_clock - 1800 + 24 * 3600));
  EXPECT_NE(desk.call.state().message.find("later than"), std::string::npos)
      << desk.call.state().message;
  EXPECT_TRUE(desk.call.state().is_trouble);
}

TEST(CallModel, WhatIsBeingTypedIsNotLostByLeavingThePage) {
  for (auto const* way : {"\t", "\x03"}) {
    Desk desk;
    press(desk.call, "minute124 per minute");
    press(desk.call, way);
    EXPECT_EQ(desk.answer("breathing_rate"), "number");
  }
  Desk desk;
  press(desk.call, "minute124 per minute\x1a");
  EXPECT_EQ(desk.call.state().activity, Activity::typing) << "undo takes back the typing alone";
  press(desk.call, "many\t");
  EXPECT_EQ(desk.call.state().page, CallPage::questions) << "what is not understood stays";
  EXPECT_TRUE(desk.call.state().is_trouble);
}

TEST(CallModel, WordsOfTheDetailsAreInTheCaseLetterByLetter) {
  Desk desk;
  press(desk.call, "\tJo");
  EXPECT_EQ(desk.call.state().patient.caller, "Jo");
  press(desk.call, "\x1b");
  EXPECT_EQ(desk.call.state().patient.caller, "") << "Escape leaves the field as it was";
  press(desk.call, "Jo Alder\n\x1a");
  EXPECT_EQ(desk.call.state().patient.caller, "") << "a field is one step";
}

TEST(CallModel, SexAndNeuteringAreTypedTogether) {
  Desk desk;
  press(desk.call, "\t\x0e\x0e\x0e\x0e\x0e\x0emale neutered\n");
  EXPECT_EQ(desk.answer("sex"), "male");
  EXPECT_EQ(desk.answer("neutered"), "yes");
}

TEST(CallModel, WordsForTheSexAreAFactOfThePatientAnywhere) {
  Desk desk;
  press(desk.call, "spayed female");
  EXPECT_TRUE(desk.call.state().found.empty()) << "no number marks a sign by these words";
  EXPECT_NE(desk.call.on_enter().find("female"), std::string::npos) << desk.call.on_enter();
  press(desk.call, "\n");
  EXPECT_EQ(desk.answer("sex"), "female");
  EXPECT_EQ(desk.answer("neutered"), "yes");
  press(desk.call, "\x1a");
  EXPECT_EQ(desk.answer("sex"), "not asked");
}

TEST(CallModel, SmallWordsTellNoSex) {
  for (auto const* words : {"he\n", "she\n", "done\n", "him\n", "dog\n", "dogs\n"}) {
    Desk desk;
    press(desk.call, words);
    EXPECT_EQ(desk.answer("sex"), "not asked") << words;
    EXPECT_EQ(desk.answer("neutered"), "not asked") << words;
  }
}

TEST(CallModel, WhatWasDeniedFitsTheLineOnWhichItStands) {
  Desk desk;
  press(desk.call, "0");
  auto const& last = desk.call.state().last_answer;
  EXPECT_TRUE(last.starts_with("none of: ")) << last;
  EXPECT_LE(last.size(), 80U - std::string("  recorded; ^Z takes it back").size() - 4) << last;
  EXPECT_NE(last.find(" more"), std::string::npos) << last;
}

TEST(CallModel, UndoGoesBackStepByStep) {
  Desk desk;
  std::vector<Case> before;
  for (auto const* keys : {"no\n", "yes\n", "limp1", "00", "gum11", "?"}) {
    before.push_back(desk.call.state().patient);
    press(desk.call, keys);
  }
  // A finding takes a second step only when its place is given.
  for (std::size_t i = before.size(); i > 0; --i) {
    press(desk.call, "\x1a");
    if (desk.call.state().patient == before[i - 1]) continue;
    ADD_FAILURE() << "step " << i;
  }
  press(desk.call, "\x1a");
  EXPECT_EQ(desk.call.state().message, "Nothing to undo");
}

TEST(CallModel, DetailsAreTypedAndChecked) {
  Desk desk;
  press(desk.call, "\tJo Alder\n555 0142\nBramble\n10 years\n31 kg\n");
  EXPECT_EQ(desk.call.state().patient.caller, "Jo Alder");
  EXPECT_EQ(desk.call.state().patient.call_back, "555 0142");
  EXPECT_EQ(desk.call.state().patient.name, "Bramble");
  EXPECT_EQ(desk.answer("age"), "number");
  EXPECT_EQ(desk.answer("weight"), "number");
  press(desk.call,
        "\x10"
        "x\t");  // the weight again: no such amount, the page stays
  EXPECT_TRUE(desk.call.state().is_trouble);
  EXPECT_EQ(desk.call.state().page, CallPage::details);
  press(desk.call, "\x1b\t");
  EXPECT_EQ(desk.call.state().page, CallPage::answers);
  EXPECT_EQ(desk.answer("weight"), "number");
}

TEST(CallModel, AFilledFieldGoesOnOrIsTypedAnew) {
  Desk desk;
  press(desk.call, "\tJo\n\n\n10 years\n");
  press(desk.call,
        "\x10"
        "11 years\n\x10\x10\x10\x10 Alder\n");
  EXPECT_EQ(desk.call.state().patient.caller, "Jo Alder");
  ASSERT_EQ(desk.call.state().patient.answers.size(), 1U);
  EXPECT_EQ(desk.call.state().patient.answers[0].second, Answer(11.0));
}

TEST(CallModel, ARefusedValueIsTypedAnewAndItsUnitGoesBehindIt) {
  auto const typed = [](std::string_view keys) {
    Desk desk;
    press(desk.call, "\tJo\n\n\n\n30\n");  // kg or lb?
    EXPECT_TRUE(desk.call.state().is_trouble);
    press(desk.call, keys);
    return desk.call.state().typed;
  };
  EXPECT_EQ(typed("31 kg"), "31 kg");
  EXPECT_EQ(typed(" kg"), "30 kg");
  EXPECT_EQ(typed("\b"), "3");
  EXPECT_EQ(typed("\x1b\x10\x10\x10\x10 Alder"), "Jo Alder") << "another field is not emptied";
  Desk desk;
  press(desk.call, "\tJo\n\n\n\n30\n31 kg\n");
  EXPECT_EQ(desk.answer("weight"), "number");
}

TEST(CallModel, AnAnswerCanBeChangedAndTakenOut) {
  Desk desk;
  press(desk.call, "limp1\t\t");
  ASSERT_EQ(desk.call.state().page, CallPage::answers);
  press(desk.call, "0");
  EXPECT_EQ(desk.answer("lame"), "no");
  press(desk.call, "\b");
  EXPECT_EQ(desk.answer("lame"), "not asked");
}

TEST(CallModel, PastedTextIsSearchedForAndAnswersNothing) {
  Desk desk;
  desk.call.press({Key::Kind::paste, "y\n0\x1b[31m123 won't\teat"});
  EXPECT_TRUE(desk.call.state().patient.answers.empty());
  EXPECT_EQ(desk.call.state().activity, Activity::finding);
  EXPECT_EQ(desk.call.state().typed, "y 0[31m123 won't eat");
}

TEST(CallModel, LeavingWithoutAFileAsksTwice) {
  Desk desk;
  press(desk.call, "no\n\x03");
  EXPECT_FALSE(desk.call.state().is_over);
  press(desk.call, "no\n\x03");
  EXPECT_FALSE(desk.call.state().is_over) << "an answer in between asks anew";
  press(desk.call, "\x03");
  EXPECT_TRUE(desk.call.state().is_over);
}

}  // namespace
}  // namespace flinch::cli
