#include "flinch/assess/weight_doubt.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "flinch/casefile/write_case.hpp"
#include "support/small_pack.hpp"

namespace flinch {
namespace {

constexpr char const* table = R"(
breeds:
  dwarf: {name: Dwarf, size: toy, weight: 2 to 3 kg}
  hound: {name: Hound, size: large, weight: 20 to 30 kg}
  crossbreed: {name: Crossbreed, weight: 3 to 60 kg}
  sized: {name: Sized, size: small}
  narrow: {name: Narrow, size: large, weight: 28 to 34 kg}
  labrador: {name: Labrador, size: large, weight: 25 to 36 kg}
)";

constexpr char const* bare_table = R"(
breeds:
  lop: {name: Lop, weight: 1 to 2 kg}
)";

std::shared_ptr<Pack const> pack_with(std::string const& breeds, std::string const& clauses = "") {
  std::string head = test::preamble;
  // The sizes belong to the table whose breeds have them.
  if (breeds == table)
    head.insert(head.find("  unlisted"),
                "  sizes toy to 5 kg, small to 10 kg, medium to 25 kg, large to 45 kg, giant\n"
                "  grown at 1 year\n");
  head.insert(head.find("  unlisted"), clauses);
  head.insert(head.find("  unlisted"), "  breed table \"breeds.yaml\"\n");
  auto loaded = test::load({{"pack.flinch", head}, {"breeds.yaml", breeds}});
  EXPECT_TRUE(loaded.outcome) << loaded.messages();
  return *loaded.outcome.value;
}

std::string doubt(std::string const& facts, std::string const& breeds = table) {
  auto const pack = pack_with(breeds);
  auto const patient = test::case_of(*pack, "dog: {" + facts + "}\nanswers: {}\n");
  auto const found = doubt_of_weight(*pack, patient);
  return found ? doubt_words(*pack, *found) : "none";
}

TEST(WeightDoubt, LiesWhereThePackSays) {
  auto const is_doubted = [](std::string const& clauses, std::string const& facts) {
    auto const pack = pack_with(table, clauses);
    auto const patient = test::case_of(*pack, "dog: {" + facts + "}\nanswers: {}\n");
    return doubt_of_weight(*pack, patient).has_value();
  };
  // 1.2 x 34 kg, and one more
  std::string const above = "  weight doubted above 120%\n";
  EXPECT_FALSE(is_doubted(above, "weight: 41.7 kg, breed: narrow"));
  EXPECT_TRUE(is_doubted(above, "weight: 41.9 kg, breed: narrow"));
  EXPECT_FALSE(is_doubted("", "weight: 41.9 kg, breed: narrow"));
  // 1.7 x 34 kg, and nothing more
  EXPECT_TRUE(is_doubted("  weight leeway 0 kg\n", "weight: 57.9 kg, breed: narrow"));
  EXPECT_FALSE(is_doubted("  weight leeway 100 g\n", "weight: 57.85 kg, breed: narrow"));
  // 0.8 x 20 kg
  std::string const below = "  weight doubted below 80%\n";
  EXPECT_TRUE(is_doubted(below, "weight: 15.9 kg, breed: hound, age: 3 years"));
  EXPECT_FALSE(is_doubted(below, "weight: 16 kg, breed: hound, age: 3 years"));
  EXPECT_FALSE(is_doubted("", "weight: 15.9 kg, breed: hound, age: 3 years"));
  // As pounds it would be usual: 1.1 x 3 kg, and a quarter of 3 kg
  std::string const pounds = "  pounds doubted above 110%\n";
  EXPECT_TRUE(is_doubted(pounds, "weight: 4.5 kg, breed: dwarf"));
  EXPECT_FALSE(is_doubted(pounds, "weight: 4 kg, breed: dwarf"));
  EXPECT_FALSE(is_doubted("", "weight: 4.5 kg, breed: dwarf"));
}

TEST(WeightDoubt, FarOutsideWhatTheBreedWeighs) {
  struct Row {
    char const* facts;
    bool is_doubted;
  };
  for (auto const& [facts, is_doubted] : {
           Row{"weight: 45 kg, breed: dwarf", true},
           // 1.7 times 34 kg, and one more: as pounds it would be too little
           Row{"weight: 58.7 kg, breed: narrow", false},
           Row{"weight: 58.9 kg, breed: narrow", true},
           // 1.6 times 3 kg, and a quarter of it: as pounds it would be usual
           Row{"weight: 5.5 kg, breed: dwarf", false},
           Row{"weight: 5.6 kg, breed: dwarf", true},
           Row{"weight: 48.9 kg, breed: hound", false},
           Row{"weight: 49.1 kg, breed: hound", true},
           Row{"weight: 45 kg, breed: labrador", false},  // an obese one
           Row{"weight: 60 kg, breed: labrador", true},   // 60 lb
           Row{"weight: 66 kg, breed: hound", true},      // 66 lb typed as kg
           Row{"weight: 9.9 kg, breed: hound, age: 3 years", true},
           Row{"weight: 10 kg, breed: hound, age: 3 years", false},
           Row{"weight: 9.9 kg, breed: hound, age: 11 months", false},  // it grows
           Row{"weight: 9.9 kg, breed: hound", false},                  // or may do so
           Row{"weight: 60 kg, breed: hound, age: 11 months", true},
           Row{"weight: 100 kg, breed: crossbreed", false},
           Row{"weight: 100 kg", false},
           Row{"breed: dwarf", false},
           Row{"weight: 20 kg, size: small", true},
           Row{"weight: 17 kg, size: small", false},
           Row{"weight: 18 kg, size: small", true},
           Row{"weight: 20 kg, breed: crossbreed, size: toy", true},
           Row{"weight: 20 kg, breed: sized, size: toy", true},
           Row{"weight: 7 kg, breed: dwarf, size: giant", true},
       })
    EXPECT_EQ(doubt(facts) != "none", is_doubted) << facts;
}

TEST(WeightDoubt, ATableWithoutSizesHasNoCrossbreeds) {
  EXPECT_EQ(doubt("weight: 45 kg, breed: lop", bare_table),
            "45 kg is far more than usual: a grown Lop weighs 1 to 2 kg");
}

TEST(WeightDoubt, IsEndedByTheSameWeightOnceMoreAlone) {
  auto const told = std::string("breed: dwarf, weight: 45 kg, weight_confirmed: ");
  EXPECT_EQ(doubt(told + "45 kg"), "none");
  EXPECT_EQ(doubt(told + "99 lb"), "none");  // 44.9 kg
  EXPECT_NE(doubt(told + "40 kg"), "none");
  EXPECT_NE(doubt(told + "can't tell"), "none");
}

TEST(WeightDoubt, SaysWhatIsUsual) {
  EXPECT_EQ(doubt("weight: 9 kg, breed: hound, age: 3 years"),
            "9 kg is far less than usual: a grown Hound weighs 20 to 30 kg");
  EXPECT_EQ(doubt("weight: 20 kg, size: small"),
            "20 kg is far more than usual: a grown one of the size \"small\" weighs 5 to 10 kg");
}

TEST(WeightDoubt, SmallSpeciesAreDoubtedInGrams) {
  auto const found = [](double kg) {
    auto pack = *pack_with(bare_table);
    pack.signs[index(patient_sign::weight)].low = 0.005;
    pack.signs[index(patient_sign::weight)].high = 0.2;
    pack.doses.lightest_kg = 0.015;
    pack.breeds.breeds[0].adult_weight = {0.025, 0.04};
    auto const patient =
        test::case_of(pack, fmt::format("dog: {{weight: {} kg, breed: lop}}\n", kg));
    auto const doubt = doubt_of_weight(pack, patient);
    return doubt ? doubt_words(pack, *doubt) : "none";
  };
  EXPECT_EQ(found(0.077), "77 g is far more than usual: a grown Lop weighs 25 to 40 g");
  EXPECT_EQ(found(0.06), "none");
}

TEST(WeightDoubt, IsSaidToThreeDigits) {
  EXPECT_EQ(doubt("weight: 15 lb, breed: dwarf"),
            "6.8 kg is far more than usual: a grown Dwarf weighs 2 to 3 kg");
}

TEST(WeightDoubt, AConfirmationIsKeptInTheCase) {
  auto const pack = pack_with(table);
  auto const patient = test::case_of(
      *pack, "dog: {weight: 99 lb, breed: dwarf, weight_confirmed: 45 kg}\nanswers: {}\n");
  EXPECT_EQ(test::case_of(*pack, write_case(patient, *pack)), patient);
  EXPECT_NE(write_case_line(patient, *pack).find(R"("weight_confirmed": "45 kg")"),
            std::string::npos);
  EXPECT_FALSE(doubt_of_weight(*pack, patient));
  EXPECT_TRUE(weight_for_amounts(*pack, patient));
}

}  // namespace
}  // namespace flinch
