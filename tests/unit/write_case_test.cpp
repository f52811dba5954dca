#include "flinch/casefile/write_case.hpp"

#include <gtest/gtest.h>

#include "flinch/text/display.hpp"
#include "support/small_pack.hpp"

namespace flinch {
namespace {

std::shared_ptr<Pack const> pack() {
  static auto const made = test::pack_of(R"(
sign lame "lame"
  ask "Lame?"
  answer yes or no
  seen by anyone
sign null "a name that YAML takes for nothing"
  ask "Null?"
  answer steps none, no, yes
  seen by anyone
sign tender "tender"
  ask "Where?"
  answer sites
  seen by hands
sign chill "temperature"
  ask "Temperature?"
  answer number in C from -5 to 44
  seen by clinic
)");
  return made;
}

TEST(WriteCase, WritesWhatThePageOfCasesShows) {
  auto patient =
      test::case_of(*pack(),
                    "name: Bramble\ncaller: Jo\ncall back: 555 0142\nring back at: 15:40\n"
                    "dog: {age: 18 months, weight: 31 kg, sex: male}\n"
                    "answers: {lame: yes, tender: {found: [left elbow], clear: [belly]}}\n");
  patient.cannot_tell.push_back(*pack()->find_sign("null"));
  EXPECT_EQ(write_case(patient, *pack()),
            "name: \"Bramble\"\n"
            "caller: \"Jo\"\n"
            "call back: \"555 0142\"\n"
            "ring back at: \"15:40\"\n"
            "dog:\n"
            "  species: dog\n"
            "  age: 1.5 years\n"
            "  weight: 31 kg\n"
            "  sex: male\n"
            "answers:\n"
            "  lame: yes\n"
            "  \"null\": can't tell\n"
            "  tender: {found: [left elbow], clear: [belly]}\n");
}

void expect_same_after_reading(Case const& patient) {
  auto const text = write_case(patient, *pack());
  EXPECT_EQ(test::case_of(*pack(), text), patient) << text;
}

TEST(WriteCase, EveryKindOfAnswerComesBack) {
  auto const sign = [](char const* name) { return *pack()->find_sign(name); };
  SiteMark const elbow{*pack()->find_site("elbow"), Side::right};
  for (Answer const& answer :
       {Answer(Findings{true, false, {}, {}}), Answer(Findings{false, true, {}, {}}),
        Answer(Findings{true, false, {}, {elbow}}), Answer(Findings{false, false, {}, {elbow}}),
        Answer(Findings{true, false, {elbow, elbow}, {elbow}})})
    expect_same_after_reading({"", "", "", "", "", {{sign("tender"), answer}}, {}});
  for (double const value : {-5.0, 38.6, 0.1 + 0.2, 1e-300, 43.999999999999993})
    expect_same_after_reading({"", "", "", "", "", {{sign("chill"), value}}, {}});
  for (std::uint32_t value : {0U, 1U, 2U})
    expect_same_after_reading({"", "", "", "", "", {{sign("null"), Choice{value}}}, {}});
  expect_same_after_reading({"", "", "", "", "", {{sign("lame"), false}}, {sign("tender")}});
  expect_same_after_reading({});
}

TEST(WriteCase, FreeTextComesBackWordForWord) {
  for (std::string const& text :
       {std::string("plain"), std::string("a: b # c"), std::string("\"it's\" \\ said\n\ttwice\r\n"),
        std::string("- [x], {y}: |"), std::string("*alias &anchor !tag %x @ `"),
        std::string(" blanks "), std::string("null"), std::string("\n\n"),
        std::string("\0\x1b[2J\x7f", 6), std::string("caf\u00e9 \u202egnp.exe\u0085 \ufeff"),
        std::string(70000, 'x'), std::string("--- x\n...\n")}) {
    Case patient;
    patient.name = patient.note = patient.caller = patient.call_back = patient.ring_back_at = text;
    expect_same_after_reading(patient);
  }
}

TEST(WriteCase, NoByteOfTheFileActsOnAScreen) {
  Case patient;
  patient.note = std::string(
      "\0\x1b]0;title\x07\x9b"
      "31m\xff\xc2\x9b \u202e \u2066",
      26);
  auto const text = write_case(patient, *pack());
  for (char const c : text) EXPECT_TRUE(c == '\n' || static_cast<unsigned char>(c) >= 0x20) << text;
  std::string lines = text;
  std::erase(lines, '\n');
  EXPECT_EQ(inert(lines), lines);
  EXPECT_EQ(find_invalid_utf8(text), std::string::npos);
}

TEST(WriteCase, BytesThatAreNoTextAreReplaced) {
  Case patient;
  patient.note =
      "a\xff"
      "b\xe2\x82";
  EXPECT_EQ(test::case_of(*pack(), write_case(patient, *pack())).note, "a\ufffdb\ufffd\ufffd");
}

}  // namespace
}  // namespace flinch
