// What a pack says of its species, and what follows where it says nothing.
#include <gtest/gtest.h>

#include "flinch/care/plan.hpp"
#include "flinch/casefile/read_case.hpp"
#include "flinch/interview/answer_entry.hpp"
#include "flinch/model/outline.hpp"
#include "flinch/telling/care_words.hpp"
#include "support/small_pack.hpp"

namespace flinch {
namespace {

using test::Files;
using test::load;

constexpr char const* rest = R"(
  unlisted 1 per 10
source judgement
  text "Judgement"
  grade judgement
tier now "Now"
  within 1 hour
  harm 19
  say "Go."
tier watch "Watch"
  within 1 day
  say "Stay."
site leg "leg" paired
site hoof "hoof" in leg
site back "back"
sign falls
  ask "Does it fall?"
  answer yes or no
  seen by anyone
  alone see now because "x" cite judgement
)";

std::shared_ptr<Pack const> pack_with(std::string const& clauses, std::string const& more = "",
                                      Files files = {}) {
  files["pack.flinch"] = "pack p \"P\"\n" + clauses + rest + more;
  return test::sound_pack(std::move(files));
}

std::string mistakes(std::string const& clauses, std::string const& more = "", Files files = {}) {
  files["pack.flinch"] = "pack p \"P\"\n" + clauses + rest + more;
  return load(files).messages();
}

constexpr char const* ibex =
    "  species ibex \"ibex\", \"ibexes\"\n"
    "  called male \"billy\", female \"nanny\" or \"she goat\", young \"kid\"\n";

TEST(Species, WithoutWordsThePatientIsAPatient) {
  auto const none = pack_with("");
  EXPECT_EQ(none->patient_key(), "patient");
  EXPECT_EQ(none->words.one, "patient");
  auto const keyed = pack_with("  species ibex\n");
  EXPECT_EQ(keyed->patient_key(), "ibex");
  EXPECT_EQ(keyed->words.many, "patients");
  EXPECT_EQ(pack_with(ibex)->words.many, "ibexes");
}

// Where weights are told in grams a number by itself is grams; elsewhere grams are asked for: a
// slip of the key looks the same.
TEST(Species, ABareWeightIsTakenForGramsOnlyWhereWeightsAreToldInGrams) {
  auto const small = pack_with("  weight from 15 to 90 g\n");
  EXPECT_EQ(read_entry(*small, patient_sign::weight, "38", {}).answer, Answer(0.038));
  EXPECT_FALSE(read_entry(*small, patient_sign::weight, "380", {}).answer);
  EXPECT_FALSE(read_entry(*small, patient_sign::weight, "0.05", {}).answer);
  auto const middling = pack_with("  weight from 500 g to 12 kg\n");
  EXPECT_EQ(read_entry(*middling, patient_sign::weight, "900", {}).remark,
            "900 what? Write 900 g, if grams are meant.");
  auto const large = pack_with("  weight from 500 g to 150 kg\n");
  EXPECT_EQ(read_entry(*large, patient_sign::weight, "38", {}).remark,
            "38 what? Write 38 kg or 38 lb.");
}

TEST(Species, WordsThatCouldBeMoreThanWordsAreRefused) {
  for (auto const* word : {"<b>", "a\"b", "x\xe2\x80\xaey", "a\xc2\x9bm", " ", "1bex"}) {
    std::string quoted;
    for (auto const* c = word; *c != 0; ++c) quoted += *c == '"' ? "\\\"" : std::string(1, *c);
    auto const said = mistakes("  species ibex \"" + quoted + "\", \"ibexes\"\n");
    EXPECT_NE(said.find("[species-word]"), std::string::npos) << word;
  }
  EXPECT_NE(mistakes("  species answers\n").find("[species-word]"), std::string::npos);
  EXPECT_EQ(mistakes("  species ibex \"Alpine-ibex\", \"b\xc3\xb6"
                     "cke\"\n"),
            "");
}

TEST(Species, EverydayWordsTellTheSexAndNothingElseDoes) {
  auto const sex = [](std::shared_ptr<Pack const> const& pack, char const* typed) {
    auto const entry = read_sex(*pack, typed);
    if (!entry.remark.empty()) return std::string("?");
    std::string out;
    if (entry.sex) out += std::get<Choice>(*entry.sex).index == 0 ? "male" : "female";
    if (entry.neutered) out += std::get<bool>(*entry.neutered) ? " neutered" : " entire";
    return out;
  };
  auto const pack = pack_with(ibex);
  EXPECT_EQ(sex(pack, "a billy"), "male");
  EXPECT_EQ(sex(pack, "castrated billy"), "male neutered");
  EXPECT_EQ(sex(pack, "she goat"), "female");
  EXPECT_EQ(sex(pack, "nanny kid, entire"), "female entire");
  EXPECT_EQ(sex(pack, "female ibex"), "female");
  EXPECT_EQ(sex(pack, "kid"), "?") << "a young one has a sex that was not told";
  EXPECT_EQ(sex(pack, "bitch"), "?") << "a word of another species";
  // Where the word for the species is that for its male as well.
  auto const ram = pack_with("  species ram \"ram\", \"rams\"\n  called male \"ram\"\n");
  EXPECT_EQ(sex(ram, "ram"), "male");
  EXPECT_EQ(sex(ram, "female ram"), "female");
  EXPECT_EQ(sex(ram, "neutered ram"), " neutered");
}

constexpr char const* donkey =
    "  species donkey \"donkey\", \"donkeys\"\n"
    "  called male \"jack\", neutered male \"gelding\" or \"cut jack\", female \"jenny\", neutered "
    "female \"spayed jenny\"\n";

TEST(Species, AWordForTheNeuteredTellsTheSexAsWell) {
  auto const pack = pack_with(donkey);
  auto const sex = [&](char const* typed) {
    auto const entry = read_sex(*pack, typed);
    if (!entry.remark.empty()) return std::string("?");
    std::string out;
    if (entry.sex) out += std::get<Choice>(*entry.sex).index == 0 ? "male" : "female";
    if (entry.neutered) out += std::get<bool>(*entry.neutered) ? " neutered" : " entire";
    return out;
  };
  EXPECT_EQ(sex("a gelding"), "male neutered");
  EXPECT_EQ(sex("Cut Jack"), "male neutered");
  EXPECT_EQ(sex("jack"), "male");
  EXPECT_EQ(sex("donkey gelding"), "male neutered");
  EXPECT_EQ(sex("spayed jenny"), "female neutered");
  EXPECT_EQ(sex("jenny, not spayed"), "female entire");
  EXPECT_EQ(sex("not a gelding"), "?");
  EXPECT_EQ(sex("gelding, entire"), "?") << "the one contradicts the other";
  EXPECT_EQ(sex("gelding mare"), "?");
}

TEST(Species, WordsForTheNeuteredThatTellNothingApartAreRefused) {
  auto const said = [](std::string const& clauses) {
    return mistakes("  species goat \"goat\", \"goats\"\n" + clauses);
  };
  EXPECT_EQ(said("  called neutered male \"wether\"\n  never neutered female\n"), "");
  EXPECT_NE(said("  called male \"buck\", neutered male \"Buck\"\n").find("[species-word]"),
            std::string::npos);
  EXPECT_NE(said("  called neutered male \"x\", neutered female \"x\"\n").find("[species-word]"),
            std::string::npos);
  for (auto const* never : {"never neutered", "never neutered male"})
    EXPECT_NE(said(std::string("  called neutered male \"wether\"\n  ") + never + "\n")
                  .find("[species-word]"),
              std::string::npos)
        << never;
}

TEST(Species, ListsWithoutEndAreCutShort) {
  std::string words = "  called male \"m\"", sizes = "  sizes a";
  for (int i = 0; i < 20'000; ++i) {
    words += " or \"w\"";
    sizes += " to 1 kg, a";
  }
  auto const said = mistakes(words + "\n" + sizes + "\n  grown at 1 year\n");
  EXPECT_NE(said.find("`male` is called by at most 64 words"), std::string::npos);
  EXPECT_NE(said.find("from 2 to 64 sizes"), std::string::npos);
  EXPECT_EQ(said.find("[size-order]"), std::string::npos);
}

TEST(Species, ACaseTellsTheSexByTheWordsOfThePack) {
  auto const pack = pack_with(donkey);
  auto const told = [&](std::string const& facts) {
    auto const patient = test::case_of(*pack, "donkey: {" + facts + "}\n");
    std::string out;
    for (auto const& [sign, answer] : patient.answers)
      out += sign == patient_sign::sex ? (std::get<Choice>(answer).index == 0 ? "male" : "female")
                                       : (answer == Answer(true) ? " neutered" : " entire");
    return out;
  };
  EXPECT_EQ(told("sex: gelding"), "male neutered");
  EXPECT_EQ(told("sex: Jenny"), "female");
  EXPECT_EQ(told("sex: spayed jenny"), "female neutered");
  EXPECT_EQ(told("sex: gelding, neutered: yes"), "male neutered");
  EXPECT_EQ(told("neutered: yes, sex: gelding"), told("sex: male, neutered: yes"));
  auto const mistake = [&](std::string const& facts) {
    SourceSet sources;
    auto const file = sources.add("case", "donkey: {" + facts + "}\n");
    return render(read_case(sources, file, *pack).diagnostics, sources);
  };
  EXPECT_NE(mistake("sex: gelding, neutered: no").find("`gelding` says neutered"),
            std::string::npos);
  EXPECT_NE(mistake("neutered: no, sex: gelding").find("`gelding` says neutered"),
            std::string::npos);
}

TEST(Species, AgesAndWeightsAreBelievedAsThePackSays) {
  auto const pack = pack_with(
      "  species ibex\n  age up to 20 years\n  weight from 500 g to 150 kg\n"
      "  doses from 5 to 120 kg\n");
  EXPECT_DOUBLE_EQ((*pack)[patient_sign::age].high, 20);
  EXPECT_DOUBLE_EQ((*pack)[patient_sign::weight].low, 0.5);
  EXPECT_DOUBLE_EQ(pack->doses.lightest_kg, 5);
  EXPECT_DOUBLE_EQ(pack_with("  weight from 1 to 2 kg\n")->doses.heaviest_kg, 2);
  EXPECT_NE(mistakes("  weight from 3 to 2 kg\n").find("[empty-range]"), std::string::npos);
  EXPECT_NE(mistakes("  weight from 0 to 2 kg\n").find("[empty-range]"), std::string::npos);
  EXPECT_NE(mistakes("  weight from 1 to 2 years\n").find("[unit-misfit]"), std::string::npos);
  EXPECT_NE(mistakes("  weight from 1 to 2 kg\n  doses from 1 to 3 kg\n").find("[empty-range]"),
            std::string::npos);
  auto const dose =
      "care c\n  give 1 mg per kg by mouth\n  grade D\n  because \"x\"\n  cite judgement\n";
  EXPECT_NE(mistakes("", dose).find("[missing-clause]"), std::string::npos)
      << "amounts by weight need to know which weights are slips";
}

TEST(Species, SizesHaveTheNamesAndWeightsOfThePack) {
  auto const pack = pack_with(
      "  species ibex\n  sizes light to 40 kg, middling to 80 kg, heavy\n  grown at 3 years\n");
  auto const size = [&](std::string const& patient) -> std::string {
    Tables const tables(pack);
    auto const result = Assessor(tables).assess(test::case_of(*pack, "ibex: {" + patient + "}\n"));
    auto const* known = result.find(patient_sign::size);
    return known == nullptr
               ? ""
               : (*pack)[patient_sign::size].values[std::get<Choice>(known->answer).index].name;
  };
  EXPECT_EQ(size("age: 4 years, weight: 39.9 kg"), "light");
  EXPECT_EQ(size("age: 4 years, weight: 40 kg"), "middling");
  EXPECT_EQ(size("age: 3 years, weight: 300 kg"), "heavy");
  EXPECT_EQ(size("age: 2 years, weight: 300 kg"), "") << "not grown";
  EXPECT_EQ(pack_with("")->size_by_weight, std::nullopt);
  EXPECT_NE(mistakes("  sizes a to 5 kg, b\n").find("[missing-clause]"), std::string::npos);
  EXPECT_NE(mistakes("  grown at 1 year\n").find("[missing-clause]"), std::string::npos);
}

TEST(Species, NobodyIsToldToFastUnlessThePackSaysSo) {
  auto const told = [](std::string const& care, std::string const& answers) {
    auto const pack = pack_with("  species ibex\n", care);
    Tables const tables(pack);
    auto const result = Assessor(tables).assess(test::case_of(*pack, answers));
    return mouth_words(*pack, result, plan_care(tables, result, Reader::keeper)).food_and_water;
  };
  EXPECT_EQ(told("", "answers: {falls: yes}"), "Ask about food and water when you telephone.");
  std::string const hay =
      "care hay\n  fasting \"Hay stays.\"\n  grade C\n  because \"x\"\n  cite judgement\n";
  EXPECT_EQ(told(hay, "answers: {falls: yes}"), "Hay stays.");
}

TEST(Species, AnotherSpeciesIsRefusedByNameWithTheRemedy) {
  auto const pack = pack_with("  species ibex\n");
  auto const said = [&](std::string const& yaml) -> std::string {
    try {
      (void)test::case_of(*pack, yaml);
    } catch (std::runtime_error const& mistake) {
      return mistake.what();
    }
    return "";
  };
  EXPECT_EQ(said("ibex: {age: 2 years}\n"), "");
  for (auto const* other : {"gnu: {age: 2 years}\n", "ibex: {species: gnu}\n"}) {
    EXPECT_NE(said(other).find("`ibex`; nothing here holds for `gnu`"), std::string::npos);
    EXPECT_NE(said(other).find("--pack"), std::string::npos);
  }
  EXPECT_NE(said("anwsers: {age: 2 years}\n").find("[case-"), std::string::npos);
  EXPECT_NE(
      mistakes("  species ibex\n", "example e\n  gnu age 2 years\n  yes falls\n  expect tier now\n")
          .find("[case-species]"),
      std::string::npos);
}

constexpr char const* drawing = R"(
width: 100
height: 50
left:
  body: ["M0 0L50 40q1,1 2-2l.5.5 +1-1Z"]
  sites: {leg: [10, 20]}
)";

TEST(Outline, ASiteWithoutAPointLiesAtTheOneThatCoversIt) {
  auto const pack = pack_with("  outline \"o.yaml\"\n", "",
                              {{"o.yaml",
                                "width: 100\nheight: 50\nleft:\n  body: [M0 0 L50 40 Z]\n"
                                "  sites: {leg: [10, 20]}\n"}});
  ASSERT_TRUE(pack->outline);
  auto const at = [&](char const* site) {
    return find_point(*pack, pack->outline->left, *pack->find_site(site));
  };
  ASSERT_NE(at("hoof"), nullptr);
  EXPECT_EQ(at("hoof"), at("leg"));
  EXPECT_EQ(at("back"), nullptr);
}

TEST(Outline, WhatIsNoPathDataIsRefusedWithItsPlace) {
  EXPECT_EQ(mistakes("  outline \"o.yaml\"\n", "", {{"o.yaml", drawing}}), "");
  for (auto const* path :
       {"M0 0\\\"/><script>", "L0 0", "", "M0", "M0 0 L1", "M0 0 L1e9 2", "M0 0 Z1", "M0 0 Lnan 1",
        "M0 0 L0x10 1", "M0 0 url(#a)", "M0 0 L99999 1", "M0 0 L- 1", "M0 0 L. 1", "7 7"}) {
    auto const yaml =
        std::string("width: 9\nheight: 9\nleft:\n  body: [\"") + path + "\"]\n  sites: {}\n";
    auto const said = mistakes("  outline \"o.yaml\"\n", "", {{"o.yaml", yaml}});
    EXPECT_NE(said.find("o.yaml:4:10: error: this is no path data"), std::string::npos)
        << path << '\n'
        << said;
  }
}

}  // namespace
}  // namespace flinch
