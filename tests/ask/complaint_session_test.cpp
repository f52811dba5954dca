// What is typed when an interview asks what worries the keeper: nothing is stored that nobody said.
#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <sstream>

#include "ask/ask_session.hpp"
#include "flinch/explain/reasons.hpp"
#include "flinch/model/yes_and_no.hpp"
#include "pack/shipped_pack.hpp"
#include "support/tries.hpp"

namespace flinch::cli {
namespace {

class ComplaintSession : public testing::Test {
 protected:
  struct Played {
    Case patient;
    std::string screen;
  };

  // The interview after these lines, as if the keeper had hung up then.
  Played play(std::vector<std::string> const& lines) {
    std::string typed;
    for (auto const& line : lines) typed += line + "\n";
    std::istringstream in(typed);
    std::ostringstream out;
    std::ostringstream err;
    Session const session{out, err, {80, false, false, false}};
    CaseKeeper keeper;
    keeper.keep = [](Case const&, std::vector<SignId> const&) { return CaseKeeper::Kept{}; };
    AskSession ask(tables_, Reader::keeper, keeper, {2026, 11, 25}, in, Echo::by_us, session);
    auto const ended = ask.run({});
    auto text = out.str();
    // Without the assessment that ends it.
    if (auto const end = text.rfind("\n> \n"); end != std::string::npos) text.resize(end);
    return {ended.patient, text};
  }

  std::string told(Case const& patient) {
    std::string out;
    for (auto const& [sign, answer] : patient.answers)
      out +=
          (out.empty() ? "" : "; ") + (*pack_)[sign].name + " " + answer_text(*pack_, sign, answer);
    return out;
  }

  std::string came_for(Case const& patient) {
    std::string out;
    for (auto const sign : patient.came_for) out += (out.empty() ? "" : " ") + (*pack_)[sign].name;
    return out;
  }

  std::shared_ptr<Pack const> pack_ = test::shipped_pack();
  Tables tables_{pack_};
};

TEST_F(ComplaintSession, WhatIsUnderstoodIsKeptAsWhatTheDogCameFor) {
  auto const played = play({"limping on the left hind since yesterday, wibbly, itchy"});
  EXPECT_EQ(told(played.patient), "lame left hind leg; itches yes; duration days");
  EXPECT_EQ(came_for(played.patient), "lame itches");
  EXPECT_NE(played.screen.find("wibbly"), std::string::npos) << "the rest is asked again";
}

TEST_F(ComplaintSession, FactsOfThePatientAreTakenAndNoSigns) {
  auto const played = play({"male, 5 years old, labrador, limping, weighs 30 kg"});
  EXPECT_EQ(told(played.patient),
            "sex male; age 5 years; breed Labrador Retriever; lame somewhere; weight 30 kg");
  EXPECT_EQ(came_for(played.patient), "lame");
  EXPECT_EQ(played.screen.find("which do you mean"), std::string::npos) << played.screen;
  EXPECT_EQ(told(play({"5 year old male labrador"}).patient),
            "age 5 years; sex male; breed Labrador Retriever");
}

TEST_F(ComplaintSession, WhatMayBeAFactOrAnAmountIsAskedInItsTurnAndKept) {
  for (std::string const line :
       {"400 kg", "5 years", "8 weeks", "puppy", "hes only a pup", "200 g", "40 years old"}) {
    auto const played = play({line});
    EXPECT_EQ(told(played.patient), "") << line;
    EXPECT_NE(played.patient.note.find(line), std::string::npos) << line;
    EXPECT_NE(played.screen.find("is kept in the note"), std::string::npos) << played.screen;
    EXPECT_EQ(played.screen.find("was not understood"), std::string::npos) << played.screen;
    EXPECT_EQ(played.screen.find("may be a danger"), std::string::npos) << played.screen;
  }
}

TEST_F(ComplaintSession, AFactInDoubtIsNotTaken) {
  for (auto const* line :
       {"male?", "male or female", "not male", "spayed", "spayed yesterday", "he", "done",
        "castrated 5 days", "spayed 10 days", "neutered 1 year", "male 2 weeks", "female 8 weeks",
        "labrador 3 days", "sausage", "cross", "chow", "mix"}) {
    auto const played = play({line});
    EXPECT_EQ(told(played.patient), "") << line;
    EXPECT_EQ(came_for(played.patient), "") << line;
  }
  EXPECT_EQ(told(play({"2 year old male lab"}).patient),
            "age 2 years; sex male; breed Labrador Retriever");
  EXPECT_EQ(told(play({"male lab 7yo"}).patient),
            "age 7 years; sex male; breed Labrador Retriever");
  EXPECT_EQ(told(play({"dachshund"}).patient), "breed Dachshund");
  auto const otherwise = play({"male", "female"});
  EXPECT_EQ(told(otherwise.patient), "sex male")
      << "of two that differ none takes the other's place";
  EXPECT_NE(otherwise.screen.find("is kept in the note"), std::string::npos);
}

TEST_F(ComplaintSession, ADangerIsAnsweredAtOnce) {
  auto const played = play({"trying to be sick"});
  EXPECT_NE(played.screen.find("See a vet now"), std::string::npos);
  EXPECT_NE(played.screen.find("no food"), std::string::npos);
}

TEST_F(ComplaintSession, WhatLetsADangerSignWaitIsOfferedWithItsQuestion) {
  auto const asked = play({"teething blood"});
  EXPECT_TRUE(asked.patient.answers.empty());
  auto const mild = pack_->find_sign("teething_blood");
  ASSERT_TRUE(mild);
  EXPECT_NE(asked.screen.find("1  " + (*pack_)[*mild].label + ": Does a puppy"), std::string::npos)
      << asked.screen;
  EXPECT_EQ(told(play({"teething blood", "1"}).patient), "teething_blood yes");
}

TEST_F(ComplaintSession, WhatIsNotTheSameWordsNeedsItsNumber) {
  auto const asked = play({"licking at the paw"});
  EXPECT_TRUE(asked.patient.answers.empty());
  EXPECT_NE(asked.screen.find(" 1  licks or chews a paw"), std::string::npos) << asked.screen;
  EXPECT_TRUE(play({"licking at the paw", ""}).patient.answers.empty()) << "Enter takes nothing";
  EXPECT_TRUE(play({"licking at the paw", "none"}).patient.answers.empty());
  EXPECT_TRUE(play({"licking at the paw", "9"}).patient.answers.empty());
  EXPECT_TRUE(play({"licking at the paw", "1 2"}).patient.answers.empty());
  EXPECT_EQ(came_for(play({"licking at the paw", "1 2", "1"}).patient), "licks_paw");
  EXPECT_EQ(came_for(play({"licking at the paw", "1"}).patient), "licks_paw");
  EXPECT_EQ(came_for(play({"licking at the paw", "limping"}).patient), "lame") << "other words";
}

TEST_F(ComplaintSession, WordsOfDenialAreAskedAndNeverTakenForAYes) {
  auto const asked = play({"not limping"}).screen;
  auto const at = asked.find("  lame: yes or no?");
  ASSERT_NE(at, std::string::npos) << asked;
  auto const number = asked.substr(at - 1, 1);
  EXPECT_EQ(told(play({"not limping", number}).patient), "");
  EXPECT_EQ(told(play({"not limping", number, "no"}).patient), "lame nowhere");
  EXPECT_EQ(came_for(play({"not limping", number, "no"}).patient), "");
  EXPECT_EQ(came_for(play({"not limping", number, "yes"}).patient), "lame");
}

TEST_F(ComplaintSession, WhatIsPastFearedAskedOrOfAnotherDogIsNotTaken) {
  for (auto const* line :
       {"he was limping last week but is fine now", "limping last week, fine now",
        "vomiting but better now", "he was limping", "he used to limp, vomiting",
        "vet said no fit and vomiting", "in case he eats grapes, vomiting",
        "afraid he might bloat and vomiting", "to rule out bloat and vomiting",
        "my other dog has diarrhoea and vomiting", "is he limping", "limping but didn't",
        "had a fit last year"})
    EXPECT_EQ(told(play({line}).patient), "") << line;
  EXPECT_NE(play({"he was limping last week but is fine now"}).screen.find("Is the dog limping"),
            std::string::npos)
      << "it is asked at once";
}

TEST_F(ComplaintSession, WhatOnlyLooksTakenBackIsTaken) {
  EXPECT_EQ(told(play({"dropped then fine again"}).patient), "faints_and_recovers yes");
  EXPECT_EQ(told(play({"vomiting, no better now"}).patient), "vomiting yes");
  EXPECT_EQ(told(play({"vomiting, eating fine now"}).patient), "vomiting yes");
  EXPECT_EQ(told(play({"he was hit by a car"}).patient), "road_accident yes");
  EXPECT_EQ(told(play({"had a fit yesterday"}).patient), "seizure yes; duration days");
  EXPECT_EQ(told(play({"has the runs"}).patient), "diarrhoea yes");
  EXPECT_EQ(told(play({"my other dog is well but he is vomiting"}).patient), "vomiting yes");
}

TEST_F(ComplaintSession, WordsThatOnlyHintAreOffered) {
  for (auto const* line : {"blocked", "foaming at the mouth", "funny turn", "peeing a lot", "not",
                           "he isnt", "sore", "cane toad", "pus under her tail", "temp 40.1"})
    EXPECT_EQ(told(play({line}).patient), "") << line;
  EXPECT_EQ(told(play({"straining to pee"}).patient), "water_trouble yes");
  EXPECT_EQ(told(play({"isn't himself"}).patient), "unwell yes");
  EXPECT_EQ(told(play({"swollen tummy"}).patient), "belly_swollen yes");
  EXPECT_EQ(told(play({"sore tummy"}).patient), "pain_place belly");
  EXPECT_EQ(told(play({"swollen nipples"}).patient), "swollen udder");
}

TEST_F(ComplaintSession, WhatHasDegreesIsAskedAtOnceAndRecordsNothingBefore) {
  EXPECT_EQ(told(play({"off his food"}).patient), "");
  EXPECT_NE(play({"off his food"}).screen.find("How is the dog eating?"), std::string::npos);
  EXPECT_EQ(came_for(play({"off his food", "less"}).patient), "appetite");
  EXPECT_EQ(came_for(play({"off his food", "as usual"}).patient), "") << "nothing is wrong with it";
}

TEST_F(ComplaintSession, AYesToAnythingElseAsksWhat) {
  for (auto const* yes : {"yes", "y", "yeah"}) {
    auto const played = play({"limping", yes, "itchy"});
    EXPECT_EQ(came_for(played.patient), "lame itches") << yes;
    EXPECT_NE(played.screen.find("Then type it, in your own words."), std::string::npos) << yes;
  }
}

TEST_F(ComplaintSession, CorrectionsAndTheWayBack) {
  EXPECT_EQ(came_for(play({"limping, itchy", "not 1"}).patient), "itches");
  EXPECT_EQ(came_for(play({"limping, itchy", "not 7"}).patient), "lame itches");
  EXPECT_EQ(came_for(play({"limping", "itchy"}).patient), "lame itches");
  EXPECT_EQ(came_for(play({"limping", "itchy", "b"}).patient), "lame");
  EXPECT_EQ(came_for(play({"limping", "b", "itchy"}).patient), "itches");
  EXPECT_EQ(came_for(play({"limping", "no", "b", "not 1"}).patient), "");
}

TEST_F(ComplaintSession, NobodyHasToSay) {
  for (auto const* line : {"?", "skip", "don't know", "none"}) {
    auto const played = play({line});
    EXPECT_TRUE(played.patient.answers.empty());
    EXPECT_NE(played.screen.find("Is any of these so right now?"), std::string::npos) << line;
  }
}

// Hasty lines: each new answer stands in the same words in the line, or had its number on the
// screen before.
TEST_F(ComplaintSession, NothingIsStoredThatWasNotSaidOrConfirmed) {
  std::vector<std::string> words = {"",
                                    "1",
                                    "2",
                                    "9",
                                    "not 1",
                                    "y",
                                    "yes",
                                    "b",
                                    "f",
                                    "s",
                                    "k",
                                    "left",
                                    "xyzzy",
                                    "not 2",
                                    "0",
                                    "7,",
                                    "1 2",
                                    "-1",
                                    "99999999999999999999",
                                    "w",
                                    "h",
                                    "back",
                                    "more",
                                    "left hind"};
  for (std::uint32_t i = patient_sign::count; i < pack_->signs.size(); ++i)
    for (auto const& also : pack_->signs[i].also_said) words.push_back(also);
  constexpr std::size_t plain_words = 24;
  std::mt19937 random(20261130);
  auto const any = [&] {
    return random() % 2 == 0 ? words[random() % plain_words] : words[random() % words.size()];
  };
  constexpr auto sequences = static_cast<int>(test::tries(40));
  std::size_t answers = 0;
  for (int n = 0; n < sequences; ++n) {
    std::vector<std::string> lines;
    auto before = play(lines);
    for (int length = 0; length < 5; ++length) {
      auto line = any();
      if (random() % 3 == 0) line = "not " + line;
      if (random() % 3 == 0) line += ", " + any();
      bool const ends = line == "s";
      lines.push_back(line);
      auto now = play(lines);
      bool const may_take_back = line == "b" || line == "back" || line.starts_with("not ");
      for (auto const& answer : now.patient.answers) {
        auto const& earlier = before.patient.answers;
        if (std::find(earlier.begin(), earlier.end(), answer) != earlier.end() || may_take_back)
          continue;
        ++answers;
        auto const& sign = (*pack_)[answer.first];
        EXPECT_FALSE(says_no(answer.second)) << sign.name << " by: " << line;
        auto const last_list = before.screen.substr(before.screen.rfind("\n\n") + 1);
        auto const said = folded_words(line);
        bool const is_number =
            !line.empty() && line.find_first_not_of("0123456789") == std::string::npos;
        if (is_number) {
          EXPECT_NE(last_list.find(" " + line + "  "), std::string::npos)
              << sign.name << " by a number that was not there: " << line;
          continue;
        }
        // What is denied is asked at once, and the line answers that question.
        auto const last_question = folded_words(
            before.screen.substr(std::min(before.screen.rfind("-- So far"), before.screen.size())));
        auto const ask = folded_words(sign.ask);
        if (std::search(last_question.begin(), last_question.end(), ask.begin(), ask.end()) !=
            last_question.end())
          continue;
        // All telling words of one of the sign's phrases stand in the line.
        std::vector<std::string> phrases = sign.also_said;
        phrases.push_back(sign.label);
        phrases.push_back(sign.name);
        for (auto const& value : sign.values) {
          phrases.push_back(value.label);
          phrases.insert(phrases.end(), value.also_said.begin(), value.also_said.end());
        }
        bool const stands = std::any_of(phrases.begin(), phrases.end(), [&](auto const& phrase) {
          auto const parts = folded_words(phrase);
          return std::count_if(parts.begin(), parts.end(),
                               [&](auto const& word) {
                                 return std::find(said.begin(), said.end(), word) != said.end();
                               }) *
                     2 >
                 static_cast<std::ptrdiff_t>(parts.size());
        });
        EXPECT_TRUE(stands) << sign.name << " by: " << line;
      }
      before = std::move(now);
      if (ends) break;
    }
  }
  EXPECT_GT(answers, test::tries(20)) << "the sequences say something";
}

}  // namespace
}  // namespace flinch::cli
