#include "flinch/interview/complaint.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "flinch/explain/reasons.hpp"
#include "flinch/model/yes_and_no.hpp"
#include "pack/shipped_pack.hpp"
#include "support/tries.hpp"

namespace flinch::test {
namespace {

class ComplaintTest : public testing::Test {
 protected:
  // "lame: left hind leg; ?wibbly; since days", in the order of the line.
  std::string read(std::string_view typed) {
    auto const said = read_complaint(*pack_, search_, typed, 6);
    std::string out;
    auto const add = [&](std::string const& text) { out += (out.empty() ? "" : "; ") + text; };
    for (auto const& part : said.parts)
      add(part.meant ? (*pack_)[part.meant->sign].label + ": " +
                           answer_text(*pack_, part.meant->sign, part.meant->answer)
                     : "?" + part.words);
    if (said.since) add("since " + answer_text(*pack_, said.since->sign, said.since->answer));
    return out;
  }

  std::shared_ptr<Pack const> pack_ = shipped_pack();
  SignSearch search_{*pack_};
};

TEST_F(ComplaintTest, AMildFactIsOfferedAndNeverTakenFromWordsAlone) {
  for (auto const* const words : {"teething blood", "blood on toys from teething"}) {
    auto const said = read_complaint(*pack_, search_, words, 6);
    ASSERT_EQ(said.parts.size(), 1U) << words;
    EXPECT_FALSE(said.parts[0].meant) << words;
    ASSERT_FALSE(said.parts[0].found.empty()) << words;
    EXPECT_EQ((*pack_)[said.parts[0].found[0].sign].name, "teething_blood") << words;
  }
}

TEST_F(ComplaintTest, SeveralThingsInOneLine) {
  EXPECT_EQ(read("limping, being sick and itchy"), "lame: somewhere; vomiting: yes; itches: yes");
  EXPECT_EQ(read("He's limping. Won't eat!"), "lame: somewhere; appetite: nothing at all");
  EXPECT_EQ(read("up and down constantly and limping"), "restless: yes; lame: somewhere")
      << "\"and\" inside a phrase parts nothing";
  EXPECT_EQ(read("my dog is limping but itchy"), "lame: somewhere; itches: yes");
}

TEST_F(ComplaintTest, AnUnknownWordDiscardsNothingElse) {
  EXPECT_EQ(read("limping, wibbly and itchy"), "lame: somewhere; ?wibbly; itches: yes");
  EXPECT_EQ(read("flurbled"), "?flurbled");
}

// A denial may cover what comes after it, and a question tells nothing.
TEST_F(ComplaintTest, WhatMayBeDeniedIsAsked) {
  EXPECT_EQ(read("no vomiting and diarrhoea"), "?no vomiting; ?diarrhoea");
  EXPECT_EQ(read("no vomiting, limping"), "?no vomiting; ?limping");
  EXPECT_EQ(read("no vomiting but limping"), "?no vomiting; lame: somewhere");
  EXPECT_EQ(read("not eating, limping"), "appetite: nothing at all; lame: somewhere")
      << "a phrase of the pack denies nothing else";
  EXPECT_EQ(read("is he limping?"), "?is he limping");
  EXPECT_EQ(read("was limping"), "?was limping");
}

TEST_F(ComplaintTest, ATimeNeitherSwallowsTheComplaintNorIsTakenFromHowLongItLasted) {
  EXPECT_EQ(read("vomiting this morning"), "vomiting: yes; since hours");
  EXPECT_EQ(read("collapsed for a minute"), "collapsed or hardly responding: yes");
  for (auto const& found : read_complaint(*pack_, search_, "had a fit this morning", 6).parts)
    for (auto const& one : found.found) EXPECT_NE(one.sign, *pack_->find_sign("duration"));
}

// Said of eating when that is asked; told alone they may be of anything.
TEST_F(ComplaintTest, WordsThatTellHowMuchAndNotOfWhatAreAsked) {
  for (std::string const words : {"hardly anything", "not much", "a bit less", "less than normal",
                                  "picking at it", "won't touch it", "like a horse", "bluish"})
    EXPECT_EQ(read(words).front(), '?') << words << ": " << read(words);
  EXPECT_EQ(read("eats less"), "appetite: less than usual");
  EXPECT_EQ(read("only treats"), "appetite: less than usual");
}

// Words of several troubles, of which one is urgent, are offered and never taken for the mildest.
TEST_F(ComplaintTest, WordsOfSeveralTroublesAreOffered) {
  auto const offers = [&](std::string_view typed, std::string const& sign) {
    auto const said = read_complaint(*pack_, search_, typed, 6);
    return said.parts.size() == 1 && !said.parts[0].meant &&
           std::any_of(said.parts[0].found.begin(), said.parts[0].found.end(),
                       [&](FoundSign const& one) { return (*pack_)[one.sign].name == sign; });
  };
  for (auto const* typed : {"foaming at the mouth", "frothing at the mouth"})
    for (auto const* sign : {"drools", "retching_dry", "seizure"})
      EXPECT_TRUE(offers(typed, sign)) << typed << ": " << sign;
  for (auto const* sign : {"unsteady", "balance_lost"})
    EXPECT_TRUE(offers("drunken walk", sign)) << sign;
  EXPECT_EQ(read("he dropped").front(), '?');
  EXPECT_EQ(read("fell down the stairs").front(), '?');
}

TEST_F(ComplaintTest, ALineTooLongIsRefusedWholeNotInPart) {
  std::string line = "limping";
  for (int i = 0; i < 60; ++i) line += " a";
  EXPECT_TRUE(read_complaint(*pack_, search_, line + ", collapsed", 6).parts.empty());
}

TEST_F(ComplaintTest, WhereAndSinceWhenAreTakenOutOfTheWords) {
  EXPECT_EQ(read("limping on the left hind leg"), "lame: left hind leg");
  EXPECT_EQ(read("limping, left hind, itchy"), "lame: left hind leg; itches: yes");
  EXPECT_EQ(read("itchy, left hind"), "itches: yes; ?left hind");
  EXPECT_EQ(read("limping LH for 3 weeks"), "lame: left hind leg; since weeks");
  EXPECT_EQ(read("bad left eye since yesterday"),
            "something wrong with an eye: left eye; since days");
  EXPECT_EQ(read("limping back left, itchy since months"),
            "lame: left hind leg; itches: yes; since months");
  EXPECT_EQ(read("limping for weeks, itchy for months"), "lame: somewhere; itches: yes")
      << "told twice, not alike: it is asked";
  EXPECT_EQ(read("trembling on the left hind leg").front(), '?')
      << "of a sign without places the place is no filler";
}

TEST_F(ComplaintTest, EverydayTimesNeedNoWordsOfThePack) {
  struct Row {
    char const* typed;
    char const* since;
  };
  for (auto const& [typed, since] : {Row{"limping since the day before yesterday", "days"},
                                     {"limping over the weekend", "days"},
                                     {"limping since yesterday evening", "days"},
                                     {"limping this morning", "hours"},
                                     {"limping since this afternoon", "hours"},
                                     {"limping since earlier today", "hours"},
                                     {"limping for a week", "weeks"},
                                     {"limping since last week", "weeks"},
                                     {"limping for over a year", "months"},
                                     {"limping for the last month", "months"},
                                     {"limping, since yesterday", "days"},
                                     {"limping, 2 days", "days"}})
    EXPECT_EQ(read(typed), std::string("lame: somewhere; since ") + since) << typed;
}

// A longer illness may wait longer: what is no length of the illness must not become one.
TEST_F(ComplaintTest, AnAgeOrTheLengthOfAWalkIsNotHowLongTheIllnessLasts) {
  for (std::string const line :
       {"lethargic, over 10 years old", "lethargic, puppy over 8 weeks",
        "limps after walks over 2 hours", "he is over 10 years old and limps",
        "lethargic, 10 years old", "limping, over 3 weeks old", "lethargic, 10 years",
        "lethargic, 8 weeks", "limping for a 10 years old"})
    EXPECT_EQ(read(line).find("since"), std::string::npos) << line << ": " << read(line);
  EXPECT_NE(read("he is over 10 years old and limps").find("?limps"), std::string::npos)
      << "what stands behind the age is still asked about";
}

TEST_F(ComplaintTest, TheTimeOfAnotherEventIsNotTheIllnesss) {
  for (std::string const line :
       {"lethargic, vaccinated last month", "lethargic, wormed this year",
        "lethargic, spayed last year", "lethargic, vaccinated last week",
        "lethargic, vaccinated this week", "lethargic, diabetic for 2 years",
        "lethargic, diabetic, for 2 years", "not limping since last week",
        "no vomiting, limping since last week", "was limping last week",
        "was limping, since last week"})
    EXPECT_EQ(read(line).find("since weeks"), std::string::npos) << line << ": " << read(line);
  for (std::string const line :
       {"lethargic, vaccinated last month", "lethargic, wormed this year",
        "lethargic, diabetic for 2 years", "lethargic, vaccinated this week"})
    EXPECT_EQ(read(line).find("; since "), std::string::npos) << line << ": " << read(line);
  EXPECT_EQ(read("limping back left last week"), "lame: left hind leg; since weeks");
  EXPECT_EQ(read("limping, left hind since last week"), "lame: left hind leg; since weeks");
}

// What is no reason to be seen by itself has a time of its own: it makes no new limp an old one.
TEST_F(ComplaintTest, HowLongAMedicineIsGivenIsNotHowLongTheIllnessLasts) {
  for (std::string const line :
       {"limping, on steroid tablets for 2 years", "lethargic, on steroid tablets for months",
        "limping, on steroid tablets, for 2 years", "limping, on heart pills for 3 years"})
    EXPECT_EQ(read(line).find("; since "), std::string::npos) << line << ": " << read(line);
  EXPECT_EQ(read("on steroid tablets for 2 years, limping since yesterday"),
            "on steroids: yes; lame: somewhere; since days");
  EXPECT_EQ(read("moves oddly for three weeks"), "moves or stands differently: yes; since weeks")
      << "a whole is a reason to be seen where one of its parts is";
}

// At the start of January "last year" was yesterday.
TEST_F(ComplaintTest, AMonthOrAYearByItsNameTellsNoLength) {
  for (std::string const time : {"this month", "last month", "this year", "last year"})
    for (std::string const lead : {"limping ", "limping since "})
      EXPECT_EQ(read(lead + time), "lame: somewhere") << lead << time;
}

TEST_F(ComplaintTest, ATimeBehindAPhraseThatBeginsWithNotIsTakenOut) {
  EXPECT_EQ(read("not eating since yesterday"), read("not eating") + "; since days");
  EXPECT_EQ(read("not eating for two days"), read("not eating") + "; since days");
  EXPECT_EQ(read("not vomiting since yesterday").front(), '?');
  EXPECT_EQ(read("not vomiting since yesterday, limping").front(), '?');
}

TEST_F(ComplaintTest, WhatIsNotTheSameWordsIsNotMeant) {
  for (auto const* typed : {"not limping", "limping no more", "stopped being sick", "no cough",
                            "limps less", "hardly limping", "licking his legs"})
    EXPECT_EQ(read(typed).front(), '?') << typed << ": " << read(typed);
}

TEST_F(ComplaintTest, NumbersLettersAndNamesOfValuesAloneMeanNothing) {
  for (auto const* typed : {"2", "1", "s", "h", "red", "more", "less", "weeks"})
    EXPECT_EQ(read(typed), "?" + std::string(typed));
  EXPECT_EQ(read("gum colour red"), "gum colour: brick red");
  EXPECT_EQ(read("for weeks"), "since weeks");
}

TEST_F(ComplaintTest, HostileLinesGiveNothing) {
  for (auto const& typed : {std::string("\x1b[2J"), std::string("\xff"), std::string(500, 'a')})
    EXPECT_TRUE(read_complaint(*pack_, search_, typed, 6).parts.empty());
  EXPECT_EQ(read(""), "");
  EXPECT_EQ(read(", ; and ."), "");
}

// Each word of the pack, alone, denied and with another: what is meant is what was said.
TEST_F(ComplaintTest, NoWordOfThePackIsTakenForAnotherOrForItsDenial) {
  constexpr std::size_t every = 5 * sanitised_share;
  std::size_t exact = 0;
  std::size_t looked_at = 0;
  for (std::uint32_t i = 0; i < pack_->signs.size(); ++i) {
    auto const& sign = pack_->signs[i];
    if (sign.of_the_patient) continue;
    for (auto const& words : sign.also_said) {
      auto const alone = read_complaint(*pack_, search_, words, 6);
      for (auto const& part : alone.parts) {
        if (!part.meant) continue;
        ++exact;
        EXPECT_TRUE(part.meant->sign == SignId{i} || alone.parts.size() > 1) << words;
        EXPECT_FALSE(says_no(part.meant->answer)) << words;
      }
      auto const plain = folded_words(words);
      if (++looked_at % every != 0 || std::any_of(plain.begin(), plain.end(), [](auto const& word) {
            return word == "not" || word == "no" || word == "never" || word == "without";
          }))
        continue;  // a denial of a denial
      auto const denied = read_complaint(*pack_, search_, "not " + words, 6);
      for (auto const& part : denied.parts)
        EXPECT_FALSE(part.meant && part.meant->sign == SignId{i} && part.words.starts_with("not"))
            << words;
    }
  }
  EXPECT_GT(exact, 1000U);
}

}  // namespace
}  // namespace flinch::test
