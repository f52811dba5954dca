#include "flinch/interview/answer_entry.hpp"

#include <gtest/gtest.h>

#include "flinch/explain/reasons.hpp"
#include "pack/shipped_pack.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

class AnswerEntry : public testing::Test {
 protected:
  // The answer in words; "can't tell"; or the remark after a `!`.
  std::string read(std::string const& sign, std::string_view typed, Side walk = Side::any) {
    auto const id = pack_->find_sign(sign);
    if (!id) return "no such sign";
    auto const entry = read_entry(*pack_, *id, typed, {{2026, 11, 25}, walk});
    if (entry.answer) return answer_text(*pack_, *id, *entry.answer);
    return entry.cannot_tell ? "can't tell" : "!" + entry.remark;
  }
  std::string sex(std::string_view typed) {
    auto const entry = read_sex(*pack_, typed);
    std::string out;
    if (entry.sex) out += answer_text(*pack_, patient_sign::sex, *entry.sex);
    if (entry.neutered) out += std::get<bool>(*entry.neutered) ? " neutered" : " entire";
    return entry.remark.empty() ? (entry.cannot_tell ? "can't tell" : out) : "!";
  }
  double number(std::string const& sign, std::string_view typed) {
    auto const entry = read_entry(*pack_, *pack_->find_sign(sign), typed, {{2026, 11, 25}, {}});
    return entry.answer ? std::get<double>(*entry.answer) : -1;
  }
  std::shared_ptr<Pack const> pack_ = shipped_pack();
};

TEST_F(AnswerEntry, YesNoAndCannotTellInSeveralWordings) {
  for (auto const* typed : {"y", "Yes", " YES ", "yep", "yes."})
    EXPECT_EQ(read("stiff_after_rest", typed), "yes");
  for (auto const* typed : {"n", "No", "nope", "not at all"})
    EXPECT_EQ(read("stiff_after_rest", typed), "no");
  for (auto const* typed :
       {"?", "can't tell", "can’t tell", "cannot tell", "don't know", "not sure"})
    EXPECT_EQ(read("stiff_after_rest", typed), "can't tell") << typed;
  EXPECT_EQ(read("stiff_after_rest", "maybe"),
            "!Not understood: \"maybe\". Answer yes, no, or ? if you cannot tell.");
  EXPECT_EQ(read("stiff_after_rest", "").front(), '!');
}

TEST_F(AnswerEntry, AmountsInAVolumeAndRates) {
  pack_ = pack_of(R"(
sign glucose "sugar"
  ask "?"
  answer number in mmol per L from 0 to 60
  seen by clinic
sign creatinine "creatinine"
  ask "?"
  answer number in mg per dL from 0 to 30
  seen by clinic
sign drips "drips"
  ask "?"
  answer number in per hour from 0 to 600
  seen by clinic
)");
  for (auto const* typed : {"5.2 mmol/L", "5.2 mmol per l", "5,2", "5200 umol/l"})
    EXPECT_DOUBLE_EQ(number("glucose", typed), 5.2) << typed;
  EXPECT_EQ(number("glucose", "90 mg/dl"), -1) << "a mass is no amount of substance";
  for (auto const* typed : {"1.4 mg/dl", "0.014 g/l", "1.4"})
    EXPECT_DOUBLE_EQ(number("creatinine", typed), 1.4) << typed;
  EXPECT_DOUBLE_EQ(number("drips", "2 per minute"), 120);
  EXPECT_DOUBLE_EQ(number("drips", "48 a day"), 2);
}

TEST_F(AnswerEntry, WordsThatPeopleUse) {
  EXPECT_EQ(read("stiff_after_rest", "yes she struggles"), "yes");
  EXPECT_EQ(read("stiff_after_rest", "not that i can see"), "no");
  for (auto const* doubt : {"yes and no", "yes but only at night", "yes i think", "yes not now"})
    EXPECT_EQ(read("stiff_after_rest", doubt).front(), '!') << doubt;
  EXPECT_DOUBLE_EQ(number("age", "about 6ish"), 6);
  EXPECT_DOUBLE_EQ(number("age", "13 and a half"), 13.5);
  EXPECT_DOUBLE_EQ(number("age", "7yo"), 7);
  EXPECT_DOUBLE_EQ(number("age", "7 years or so"), 7);
  EXPECT_NEAR(number("weight", "4 stone 3"), 59 * 0.45359237, 0.01);
  EXPECT_NEAR(number("weight", "4 st 3 lb"), 59 * 0.45359237, 0.01);
  EXPECT_EQ(read("duration", "since yesterday"), "days");
  for (auto const& [said, step] : {std::pair("years", "months"),
                                   {"for years", "months"},
                                   {"a year", "months"},
                                   {"for 3 weeks now", "weeks"},
                                   {"10 days", "days"},
                                   {"14 days", "weeks"},
                                   {"a few days", "days"},
                                   {"couple of hours", "hours"},
                                   {"48 hours", "days"},
                                   {"last two months", "months"}})
    EXPECT_EQ(read("duration", said), step) << said;
  for (auto const* said : {"since", "long", "a while", "10 kg", "5"})
    EXPECT_EQ(read("duration", said).front(), '!') << said;
  EXPECT_EQ(read("appetite", "not eating"), "nothing at all");
  EXPECT_EQ(read("breed", "lab mix"), "Labrador cross");
  EXPECT_EQ(read("breed", "akita mix"), read("breed", "crossbreed"));
  EXPECT_EQ(read("breed", "staffie x"), "Staffie cross");
  for (auto const* mixture : {"Maltese cross", "akita x", "mutt"})
    EXPECT_EQ(read("breed", mixture), read("breed", "crossbreed")) << mixture;
  EXPECT_NE(read("breed", "cavapoo").front(), '!');
  EXPECT_EQ(sex("boy been done"), "male neutered");
  EXPECT_EQ(sex("MN"), "male neutered");
  EXPECT_EQ(sex("FS"), "female neutered");
  EXPECT_EQ(sex("bitch spayed"), "female neutered");
  EXPECT_EQ(sex("bitch not been done"), "female entire");
  EXPECT_EQ(sex("boy hasn't been done"), "male entire");
  EXPECT_EQ(sex("F/S"), "female neutered");
  EXPECT_EQ(sex("she's been done"), "female neutered");
  auto const place = [&](char const* typed) { return read("tender", typed); };
  EXPECT_EQ(place("left hind"), place("left hind leg"));
  EXPECT_EQ(place("LH"), place("left hind leg"));
  EXPECT_EQ(place("rf"), place("right front leg"));
  EXPECT_EQ(place("back left"), place("left hind leg"));
  EXPECT_EQ(place("left back foot"), place("left hind paw"));
  EXPECT_EQ(place("bottom"), place("rear end"));
  EXPECT_EQ(place("off fore"), place("right front leg"));
  EXPECT_EQ(place("near hind"), place("left hind leg"));
  EXPECT_EQ(place("left armpit"), place("left front leg"));
  EXPECT_EQ(place("paws"), "front paw, hind paw");
  EXPECT_EQ(place("all four legs"), "front leg, hind leg");
  EXPECT_EQ(place("left paws"), "left front paw, left hind paw");
  EXPECT_EQ(read("licks_paw", "paws"), "front paw, hind paw");
  EXPECT_EQ(place("off").front(), '!');
  EXPECT_EQ(place("left hind").front() == '!', false) << place("left hind");
}

// Of a question about not being able it is a yes; no list and no such question may be denied by it.
TEST_F(AnswerEntry, NoHeCannotIsNoNo) {
  for (auto const* typed : {"no he can't", "no, she cant", "no it can’t"}) {
    EXPECT_FALSE(read_yes_or_no(typed)) << typed;
    EXPECT_EQ(read("restless", typed).front(), '!') << typed;
  }
  EXPECT_EQ(read("restless", "no, he isn't"), "no");
}

TEST_F(AnswerEntry, AllOverNamesNoPlace) {
  for (auto const* typed : {"all over", "all", "all of them", "all over the left"})
    for (auto const* sign : {"wound", "tender", "lame", "eye_red"})
      EXPECT_EQ(read(sign, typed).front(), '!') << sign << ": " << typed;
  EXPECT_EQ(read("tender", "yes all over"), "somewhere");
  EXPECT_EQ(read("tender", "all four"), "front leg, hind leg");
  EXPECT_EQ(read("tender", "all over his paws"), "front paw, hind paw");
}

// A dog of "no more than 2 years" may be a puppy; of what was swallowed the most is the safe side.
TEST_F(AnswerEntry, AnUpperLimitIsNoAgeAndNoWeight) {
  for (std::string const lead :
       {"no more than", "not more than", "up to", "at most", "under", "less than"}) {
    EXPECT_EQ(read("age", lead + " 2 years").front(), '!') << lead;
    EXPECT_EQ(read("weight", lead + " 5 kg").front(), '!') << lead;
    EXPECT_EQ(read("human_painkiller_hours", lead + " 5 hours").front(), '!') << lead;
    EXPECT_EQ(read("duration", lead + " 3 weeks").front(), '!') << lead;
    EXPECT_DOUBLE_EQ(number("human_painkiller_mg", lead + " 400 mg"), 400) << lead;
  }
  EXPECT_DOUBLE_EQ(number("age", "a bit over 2 years"), 2);
}

// What stands on a packet is the strength of one tablet; on a bar of chocolate the whole weight.
TEST_F(AnswerEntry, APacketTellsTheStrengthOfOne) {
  for (auto const* typed : {"a box of 200 mg", "a packet of 200 mg", "the whole pack of 200 mg",
                            "one strip of 500 mg", "a bar of 200 mg", "a tub of 400 mg"})
    EXPECT_EQ(read("human_painkiller_mg", typed).front(), '!') << typed;
  EXPECT_EQ(read("human_painkiller_mg", "a box of 200 mg"),
            "!a box of 200 mg: how many, of what strength? Write it as 16 x 200 mg; or ?.");
  EXPECT_DOUBLE_EQ(number("swallowed_g", "a whole bar of 200 g"), 200);
  EXPECT_DOUBLE_EQ(number("swallowed_g", "a tub of 1 kg"), 1000);
  for (auto const* typed : {"a bag of 200 mg", "a packet of 200 g"})
    EXPECT_EQ(read("swallowed_g", typed).front(), '!') << typed;
}

// "Was" tells nothing of now.
TEST_F(AnswerEntry, WhatWasIsNoAnswer) {
  EXPECT_EQ(read("gum_colour", "they look pink"), read("gum_colour", "pink"));
  for (auto const* typed : {"was pink", "were pink", "has been pink", "they had been pink"})
    EXPECT_EQ(read("gum_colour", typed).front(), '!') << typed;
}

TEST_F(AnswerEntry, AnArticleIsANumberOnlyBeforeAUnit) {
  EXPECT_EQ(read("age", "a").front(), '!');
  EXPECT_EQ(read("weight", "a").front(), '!');
  EXPECT_DOUBLE_EQ(number("age", "a year and a half"), 1.5);
  EXPECT_EQ(read("age", "a year"), "1 year");
}

TEST_F(AnswerEntry, OfAnAgeMIsMonths) {
  EXPECT_NEAR(number("age", "8m"), 8 / 12.0, 0.01);
  EXPECT_NEAR(number("age", "8 mo."), 8 / 12.0, 0.01);
  EXPECT_NEAR(number("age", "2y 3m"), 2.25, 0.01);
}

TEST_F(AnswerEntry, WeightsInBothSystems) {
  EXPECT_NEAR(number("weight", "68 lb"), 68 * 0.45359237, 1e-9);
  EXPECT_NEAR(number("weight", "68lbs"), 68 * 0.45359237, 1e-9);
  EXPECT_NEAR(number("weight", "5 lb 8 oz"), 5.5 * 0.45359237, 1e-9);
  EXPECT_DOUBLE_EQ(number("weight", "31,5 kg"), 31.5);
  EXPECT_DOUBLE_EQ(number("weight", "about 31.5 kilos"), 31.5);
  EXPECT_DOUBLE_EQ(number("weight", "900 g"), 0.9);
}

// Milligrams of a substance are no body weight.
TEST_F(AnswerEntry, WhatWasSwallowedInItsOwnUnitOrCounted) {
  EXPECT_DOUBLE_EQ(number("human_painkiller_mg", "400"), 400);
  EXPECT_DOUBLE_EQ(number("human_painkiller_mg", "400 mg"), 400);
  EXPECT_DOUBLE_EQ(number("human_painkiller_mg", "2 x 200 mg"), 400);
  EXPECT_DOUBLE_EQ(number("human_painkiller_mg", "2x200"), 400);
  EXPECT_DOUBLE_EQ(number("human_painkiller_mg", "200 mg x 2"), 400);
  EXPECT_DOUBLE_EQ(number("human_painkiller_mg", "2 \u00D7 200"), 400);
  EXPECT_DOUBLE_EQ(number("human_painkiller_mg", "half x 325"), 162.5);
  EXPECT_DOUBLE_EQ(number("human_painkiller_mg", "5 mg"), 5);
  EXPECT_DOUBLE_EQ(number("human_painkiller_mg", "1.5 g"), 1500);
  EXPECT_EQ(read("human_painkiller_mg", "2 tablets"),
            "!Not understood: \"2 tablets\". Write one such as 400 mg or 2 x 200 mg; or ?.");
  for (auto const* typed : {"2 x", "x 200", "2 x 200 x 3", "2 mg x 200 mg", "0x10", "-2 x 200"})
    EXPECT_EQ(read("human_painkiller_mg", typed).front(), '!') << typed;
  EXPECT_EQ(read("weight", "2 x 15 kg").front(), '!');
}

// Each could be a thousandth, or a two-hundredth, of what the dog has had.
TEST_F(AnswerEntry, AmountsThatMayBeMoreAreAskedAgain) {
  EXPECT_EQ(read("human_painkiller_mg", "2"),
            "!2 what? Write 2 mg; or, of 2 tablets or pieces, what each holds: 2 x 200 mg.");
  EXPECT_EQ(read("human_painkiller_mg", "half").front(), '!');
  EXPECT_EQ(read("human_painkiller_mg", "1,000 mg"),
            "!1,000 mg can be read in two ways: write a thousand as 1000 mg.");
  for (auto const* typed : {"1,000", "1.000 mg", "2 x 1,000", "1,000,000", "1'000", "12.500 mg"})
    EXPECT_EQ(read("human_painkiller_mg", typed).front(), '!') << typed;
  EXPECT_DOUBLE_EQ(number("human_painkiller_mg", "162.5 mg"), 162.5);
  EXPECT_DOUBLE_EQ(number("human_painkiller_mg", "162,5 mg"), 162.5);
}

TEST_F(AnswerEntry, ABareNumberCountsOnlyWhenOneReadingCanBeBelieved) {
  EXPECT_EQ(read("weight", "30"), "!30 what? Write 30 kg or 30 lb.");
  EXPECT_NEAR(number("weight", "200"), 200 * 0.45359237, 1e-9) << "no dog weighs 200 kg";
  EXPECT_DOUBLE_EQ(number("temperature", "39"), 39);
  EXPECT_NEAR(number("temperature", "102.2"), 39, 1e-9);
  EXPECT_EQ(read("temperature", "60").front(), '!') << "too hot in C, too cold in F";
}

TEST_F(AnswerEntry, TemperaturesAndRates) {
  EXPECT_NEAR(number("temperature", "102.2 F"), 39, 1e-9);
  EXPECT_NEAR(number("temperature", "102.2°F"), 39, 1e-9);
  EXPECT_DOUBLE_EQ(number("temperature", "38,6 degrees celsius"), 38.6);
  EXPECT_DOUBLE_EQ(number("heart_rate", "120 per minute"), 120);
  EXPECT_DOUBLE_EQ(number("heart_rate", "120/min"), 120);
  EXPECT_DOUBLE_EQ(number("heart_rate", "120 bpm"), 120);
  EXPECT_DOUBLE_EQ(number("heart_rate", "120"), 120);
  EXPECT_EQ(read("heart_rate", "120 kg").front(), '!');
}

TEST_F(AnswerEntry, Ages) {
  EXPECT_DOUBLE_EQ(number("age", "11"), 11);
  EXPECT_DOUBLE_EQ(number("age", "11 and a half"), 11.5);
  EXPECT_DOUBLE_EQ(number("age", "eleven and a half years old"), 11.5);
  EXPECT_DOUBLE_EQ(number("age", "11½"), 11.5);
  EXPECT_DOUBLE_EQ(number("age", "11 1/2 years"), 11.5);
  EXPECT_DOUBLE_EQ(number("age", "a year and a half"), 1.5);
  EXPECT_DOUBLE_EQ(number("age", "half a year"), 0.5);
  EXPECT_NEAR(number("age", "8 months"), 8.0 / 12, 1e-12);
  EXPECT_NEAR(number("age", "2 years 3 months"), 2.25, 1e-12);
  EXPECT_NEAR(number("age", "2 yrs and 3 mo"), 2.25, 1e-12);
  EXPECT_NEAR(number("age", "10 weeks"), 70 / 365.25, 1e-12);
}

// Days between the dates, counted by hand: 2019-04-12 to 2026-04-12 holds the leap days of 2020 and
// 2024, so 7 * 365 + 2 = 2557; to 25 November another 18 + 31 + 30 + 31 + 31 + 30 + 31 + 25 = 227.
TEST_F(AnswerEntry, BirthDates) {
  EXPECT_NEAR(number("age", "2019-04-12"), (2557 + 227) / 365.25, 1e-12);
  EXPECT_NEAR(number("age", "born 2026-11-25"), 0, 1e-12);
  EXPECT_NEAR(number("age", "2024-02"), number("age", "2024-02-15"), 1e-12);
  EXPECT_EQ(read("age", "2026-11-26"), "!That day is still to come; write it as 2019-04-12.");
  EXPECT_EQ(read("age", "2023-02-29").front(), '!');
  EXPECT_EQ(read("age", "1950-01-01").front(), '!');
}

TEST_F(AnswerEntry, AmountsThatMakeNoSenseAreRefused) {
  for (auto const* typed : {"", "-3 kg", "kg", "3 C", "1e3 kg", "nan", "inf", "0x10 kg", "3 kg dog",
                            "999999999999999999999999 kg", "3 kg 2 years"})
    EXPECT_EQ(read("weight", typed).front(), '!') << typed;
}

TEST_F(AnswerEntry, StepsAndChoicesByNumberOrWord) {
  EXPECT_EQ(read("appetite", "2"), "less than usual");
  EXPECT_EQ(read("appetite", "less"), "less than usual");
  EXPECT_EQ(read("appetite", "Nothing at all"), "nothing at all");
  EXPECT_EQ(read("appetite", "noth"), "nothing at all");
  EXPECT_EQ(read("gum_colour", "blue"), "blue or grey");
  EXPECT_EQ(read("appetite", "4").front(), '!');
  EXPECT_EQ(read("appetite", "n").front(), '!') << "one letter may be a key";
}

// "Three times" is a count where labels count; a digit may be the line or the count, and is asked.
TEST_F(AnswerEntry, CountsAndLinesOfAListAreToldApart) {
  for (auto const* typed :
       {"three times", "3 times", "twice", "thrice", "3x", "3 x today", "about three times today",
        "3 or 4 times", "two to three times", "three", "line 3", "number 3"})
    EXPECT_EQ(read("vomited_times", typed), "two to four times") << typed;
  EXPECT_EQ(read("vomited_times", "once"), "once");
  EXPECT_EQ(read("vomited_times", "one time"), "once");
  EXPECT_EQ(read("vomited_times", "line 2"), "once");
  for (auto const* typed : {"five times", "8 times a day", "at least 5 times", "ten times or more"})
    EXPECT_EQ(read("vomited_times", typed), "five times or more") << typed;
  for (auto const* typed : {"4 or 5 times", "at least three times", "1", "2", "4", "7",
                            "three times an hour", "line 9", "not three times", "many times over"})
    EXPECT_EQ(read("vomited_times", typed).front(), '!') << typed;
  EXPECT_EQ(read("vomited_times", "3"), "two to four times") << "the line and the count agree";
  EXPECT_EQ(read("vomited_times", "2"),
            "!Line 2 (\"once\"), or the count 2 (\"two to four times\")? Type line 2 or line 3.");
  EXPECT_EQ(read("fits_in_a_day", "1").front(), '!') << "one fit is not \"no fit\"";
  EXPECT_EQ(read("fits_in_a_day", "once"), "one");
  EXPECT_EQ(read("fits_in_a_day", "three times").front(), '!') << "awake between was not said";
  EXPECT_EQ(read("wound_size", "2").front(), '!') << "line 2 is under 2 cm";
  EXPECT_EQ(read("wound_size", "3 cm"), "2 to 5 cm");
  EXPECT_EQ(read("wound_size", "1 cm"), "under 2 cm");
  EXPECT_EQ(read("wound_size", "6 cm"), "over 5 cm");
  EXPECT_EQ(read("bait_kind", "1"), "no bait") << "\"one against clotting\" counts nothing";
  EXPECT_EQ(read("loose_stools", "three times").front(), '!') << "how loose was not said";
  EXPECT_EQ(read("appetite", "2"), "less than usual");
  EXPECT_EQ(read("appetite", "twice").front(), '!');
}

TEST_F(AnswerEntry, AWeightToldInTwoSystemsIsNoSum) {
  for (auto const* typed : {"20 kg 44 lb", "44 lb 20 kg", "20 kg, 44 pounds", "9 kg 3 oz"})
    EXPECT_EQ(read("weight", typed).front(), '!') << typed;
  EXPECT_EQ(read("weight", "4 stone 3").front(), '2') << "stone and pounds are one weight";
  EXPECT_EQ(read("weight", "20 kg 500 g"), "20.5 kg");
}

TEST_F(AnswerEntry, AmountsComeBackInTheUnitThatWasTyped) {
  auto const told = [&](char const* sign, char const* typed) {
    auto const id = *pack_->find_sign(sign);
    auto const entry = read_entry(*pack_, id, typed, {{2026, 11, 25}, {}});
    return entry.answer ? amount_as_typed((*pack_)[id], std::get<double>(*entry.answer), typed)
                        : std::optional<std::string>("no answer");
  };
  EXPECT_EQ(told("weight", "20 lb"), "20 lb");
  EXPECT_EQ(told("weight", "68 pounds"), "68 lb");
  EXPECT_EQ(told("weight", "4 stone 3"), "59 lb");
  EXPECT_EQ(told("weight", "31.5 kg"), std::nullopt);
  EXPECT_EQ(told("temperature", "102.2 F"), "102.2 F");
  EXPECT_EQ(told("temperature", "39 C"), std::nullopt);
  EXPECT_EQ(told("age", "8 months"), std::nullopt);
  EXPECT_EQ(amount_as_typed((*pack_)[patient_sign::weight], 20, "8 years, st bernard, 20 kg"),
            std::nullopt);
}

// A danger is not taken for its opposite, nor the other way round.
TEST_F(AnswerEntry, ABareNoIsNoChoiceThatSaysMore) {
  pack_ = pack_of(R"(
sign droppings "droppings"
  ask "?"
  answer one of pellets, soft, watery, none "none since yesterday"
  seen by anyone
sign teeth "teeth"
  ask "?"
  answer one of few, none
  seen by anyone
sign tablets "tablets"
  ask "?"
  answer one of no "no, another medicine", some "some"
  seen by anyone
sign appetite "appetite"
  ask "?"
  answer steps usual, less, none "nothing at all"
  seen by anyone
)");
  for (auto const* typed : {"no", "No.", "nope", "not at all", "none", "they are none", "nothing"})
    EXPECT_EQ(read("droppings", typed).front(), '!') << typed << ": " << read("droppings", typed);
  EXPECT_EQ(read("droppings", "none since yesterday"), "none since yesterday");
  EXPECT_EQ(read("droppings", "4"), "none since yesterday");
  EXPECT_EQ(read("teeth", "none"), "none");
  EXPECT_EQ(read("teeth", "no").front(), '!');
  EXPECT_EQ(read("tablets", "no"), "no, another medicine");
  EXPECT_EQ(read("appetite", "none"), "nothing at all");
  EXPECT_EQ(read("appetite", "nothing"), "nothing at all");
}

// "Last month" is yesterday at the start of this one; an age is no length of an illness.
TEST_F(AnswerEntry, WhatIsNoLengthOfTheIllness) {
  for (auto const* typed : {"last month", "this month", "since last year", "this year",
                            "over 10 years old", "8 weeks old"})
    EXPECT_EQ(read("duration", typed).front(), '!') << typed << ": " << read("duration", typed);
  EXPECT_EQ(read("duration", "for the last month"), "months");
  EXPECT_EQ(read("duration", "over a year"), "months");
  EXPECT_EQ(read("duration", "the last 3 months"), "months");
}

TEST_F(AnswerEntry, BreedsAreFoundOrTheNearestOffered) {
  EXPECT_EQ(read("breed", "labrador"), "Labrador Retriever");
  EXPECT_EQ(read("breed", "Golden-Retriever"), "Golden Retriever");
  EXPECT_EQ(read("breed", "mongrel"), "Crossbreed");
  EXPECT_NE(read("breed", "labradro retreiver").find("Did you mean Labrador Retriever"),
            std::string::npos);
  EXPECT_NE(read("breed", "dacshund").find("Dachshund"), std::string::npos);
  EXPECT_EQ(read("breed", "zzzzzzzz").find("Did you mean"), std::string::npos);
}

TEST_F(AnswerEntry, SitesByName) {
  EXPECT_EQ(read("tender", "left elbow"), "left elbow");
  EXPECT_EQ(read("tender", "left elbow, right knee and belly"), "left elbow, right knee, belly");
  EXPECT_EQ(read("tender", "both hips"), "left hip, right hip");
  EXPECT_EQ(read("tender", "the left front leg"), "left front leg");
  EXPECT_EQ(read("tender", "front left leg"), "left front leg");
  EXPECT_EQ(read("tender", "none"), "nowhere");
  EXPECT_EQ(read("tender", "no"), "nowhere");
  EXPECT_EQ(read("tender", "somewhere"), "somewhere");
  EXPECT_EQ(read("tender", "left belly"), "!belly has no left and right.");
  EXPECT_EQ(read("tender", "left").front(), '!');
  EXPECT_NE(read("tender", "left elbwo").find("elbow"), std::string::npos);
}

// "Is it so, and which?": a yes, a side, or both together.
TEST_F(AnswerEntry, AYesAndTheSideOfASignWithPlaces) {
  EXPECT_EQ(read("lame", "yes"), "somewhere");
  EXPECT_EQ(read("lame", "no"), "nowhere");
  EXPECT_EQ(read("lame", "left hind"), "left hind leg");
  EXPECT_EQ(read("lame", "yes, the right front"), "right front leg");
  EXPECT_EQ(read("eye_red", "left"), "left eye");
  EXPECT_EQ(read("eye_red", "y both"), "left eye, right eye");
  EXPECT_EQ(read("eye_red", "right eye"), "right eye");
  EXPECT_EQ(read("lame", "left").front(), '!') << "front or hind leg is not told";
  EXPECT_EQ(read("eye_red", "no left").front(), '!');
}

TEST_F(AnswerEntry, SitesByTheNumbersOfTheWalk) {
  auto const tender = *pack_->find_sign("tender");
  auto const walk = site_walk(*pack_, tender, Side::left);
  ASSERT_GE(walk.size(), 10U);
  EXPECT_EQ(site_text(*pack_, walk.front()), "left toes of the front paw") << "from the toes up";
  EXPECT_EQ(read("tender", "left 1"), site_text(*pack_, walk[0]));
  EXPECT_EQ(read("tender", "1 3", Side::left),
            site_text(*pack_, walk[0]) + ", " + site_text(*pack_, walk[2]));
  EXPECT_EQ(read("tender", "left 99").front(), '!');
  EXPECT_EQ(read("tender", "0", Side::left).front(), '!');
}

// Clear sites must never hold a place that was found, and must settle all that lies elsewhere.
TEST_F(AnswerEntry, WhatIsClearElsewhere) {
  auto const tender = *pack_->find_sign("tender");
  SiteMark const elbow{*pack_->find_site("elbow"), Side::left};
  auto const clear = clear_elsewhere(*pack_, tender, {elbow});
  std::string text;
  for (auto const& mark : clear) text += site_text(*pack_, mark) + ", ";
  EXPECT_NE(text.find("right front leg"), std::string::npos) << text;
  EXPECT_NE(text.find("left shoulder"), std::string::npos) << text;
  EXPECT_NE(text.find("hind leg"), std::string::npos) << text;
  for (auto const& mark : clear)
    EXPECT_FALSE(pack_->covers(mark.site, elbow.site) && mark.side != Side::right) << text;
}

TEST_F(AnswerEntry, SexAndNeuteredTogether) {
  EXPECT_EQ(sex("male neutered"), "male neutered");
  EXPECT_EQ(sex("M, castrated"), "male neutered");
  EXPECT_EQ(sex("f spayed"), "female neutered");
  EXPECT_EQ(sex("entire bitch"), "female entire");
  EXPECT_EQ(sex("male, not neutered"), "male entire");
  EXPECT_EQ(sex("female"), "female");
  EXPECT_EQ(sex("spayed"), " neutered");
  EXPECT_EQ(sex("?"), "can't tell");
  EXPECT_EQ(sex("male female"), "!");
  EXPECT_EQ(sex("blue"), "!");
}

TEST_F(AnswerEntry, HostileBytesAreRefusedInOneHarmlessLine) {
  for (std::string const& typed : {std::string("\x1b[2J"), std::string("\xff\xfe"),
                                   std::string("yes\0no", 6), std::string(500, 'a'),
                                   std::string("\xc2\x9b"
                                               "31m"),
                                   std::string("a\rb")}) {
    auto const remark = read("stiff_after_rest", typed);
    EXPECT_EQ(remark.front(), '!');
    for (auto const c : remark) EXPECT_GE(static_cast<unsigned char>(c), 0x20U);
  }
}

}  // namespace
}  // namespace flinch::test
