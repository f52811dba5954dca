// What is read back, and what is refused: every loss has its place and a remedy.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "exchange/shared_case.hpp"
#include "flinch/casefile/write_case.hpp"
#include "pack/shipped_pack.hpp"
#include "support/small_pack.hpp"

namespace flinch::test {
namespace {

using cli::Json;
using cli::Names;

Pack const& pack() {
  static auto const shipped = shipped_pack();
  return *shipped;
}

// A response with these items, of the shipped pack's form.
std::string response(std::string const& items) {
  return fmt::format(
      R"({{"resourceType":"QuestionnaireResponse","status":"completed","questionnaire":"{}","item":[{}]}})",
      cli::address(pack(), cli::Vocabulary::form), items);
}

std::string item(std::string const& link, std::string const& answer) {
  return fmt::format(R"({{"linkId":"{}","answer":[{}]}})", link, answer);
}

std::string coded(std::string const& system, std::string const& code) {
  return fmt::format(R"({{"valueCoding":{{"system":"{}","code":"{}"}}}})", system, code);
}
std::string yes() { return coded(cli::fhir::yes_no, "Y"); }
std::string site(std::string const& code) {
  return coded(cli::address(pack(), cli::Vocabulary::sites), code);
}
std::string amount(std::string const& value, std::string const& code) {
  return fmt::format(
      R"({{"valueQuantity":{{"value":{},"system":"http://unitsofmeasure.org","code":"{}"}}}})",
      value, code);
}

// A response with a patient of this species.
std::string of_species(std::string const& species) {
  return fmt::format(
      R"({{"resourceType":"Bundle","entry":[{{"resource":{}}},{{"resource":{{"resourceType":)"
      R"("Patient","extension":[{{"url":"http://hl7.org/fhir/StructureDefinition/patient-animal",)"
      R"("extension":[{{"url":"species","valueCodeableConcept":{}}}]}}]}}}}]}})",
      response(""), species);
}

struct Refused {
  char const* what;
  std::string text;
  Code code;
  char const* says;
};

TEST(Take, WhatCannotBeTakenIsRefusedWithItsReason) {
  auto const not_ours = "urn:uuid:00000000-0000-4000-8000-00000000000f";
  std::vector<Refused> const cases = {
      {"an unknown item", response(item("vomitting", yes())), Code::exchange_item,
       "did you mean `vomiting`"},
      {"an item without a link", response(R"({"answer":[]})"), Code::exchange_shape, "linkId"},
      {"a group that is answered", response(item("case.signs", yes())), Code::exchange_item,
       "group"},
      {"items below a question", response(R"({"linkId":"vomiting","item":[{"linkId":"lame"}]})"),
       Code::exchange_item, "no items of its own"},
      {"another type", response(item("vomiting", R"({"valueBoolean":true})")),
       Code::exchange_answer, "valueCoding"},
      {"no value", response(item("vomiting", "{}")), Code::exchange_answer, "without a value"},
      {"two values", response(item("vomiting", R"({"valueBoolean":true,"valueString":"x"})")),
       Code::exchange_shape, "one value"},
      {"two answers", response(item("vomiting", yes() + "," + yes())), Code::exchange_item,
       "one answer"},
      {"an item twice", response(item("vomiting", yes()) + "," + item("vomiting", yes())),
       Code::answered_twice, "twice"},
      {"a code without its system", response(item("vomiting", R"({"valueCoding":{"code":"Y"}})")),
       Code::exchange_answer, "system"},
      {"a code of another system", response(item("vomiting", coded(not_ours, "Y"))),
       Code::exchange_answer, "no answer to `vomiting`"},
      {"the value of another sign",
       response(
           item("appetite", coded(cli::address(pack(), cli::Vocabulary::values), "thirst/less"))),
       Code::exchange_answer, "no answer to `appetite`"},
      {"a value that is not there",
       response(item("appetite",
                     coded(cli::address(pack(), cli::Vocabulary::values), "appetite/lesss"))),
       Code::unknown_value, "did you mean `less`"},
      {"a site that is not there", response(item("tender", site("left elbo"))), Code::unknown_name,
       "did you mean `elbow`"},
      {"no and a site",
       response(item("tender", coded(cli::fhir::yes_no, "N") + "," + site("spine"))),
       Code::exchange_item, "at once"},
      {"yes and no", response(item("tender", coded(cli::fhir::yes_no, "N") + "," + yes())),
       Code::exchange_item, "at once"},
      {"a word among clear sites", response(item("tender.clear", yes())), Code::exchange_answer,
       "by sites"},
      {"clear sites of what has none", response(item("vomiting.clear", site("spine"))),
       Code::exchange_item, "no item"},
      {"a unit that does not fit", response(item("temperature", amount("30", "kg"))),
       Code::exchange_answer, "`Cel`"},
      {"an unknown unit", response(item("weight", amount("3", "[stone_av]"))),
       Code::exchange_answer, "[lb_av]"},
      {"no unit", response(item("weight", R"({"valueQuantity":{"value":3}})")),
       Code::exchange_answer, "unitsofmeasure"},
      {"more than",
       response(item("weight", R"({"valueQuantity":{"value":3,"comparator":">",)"
                               R"("system":"http://unitsofmeasure.org","code":"kg"}})")),
       Code::exchange_answer, "cannot be kept"},
      {"a number as a text", response(item("weight", amount("\"3\"", "kg"))), Code::exchange_answer,
       "no number"},
      {"beyond belief", response(item("weight", amount("3e5", "kg"))), Code::answer_range,
       "not believable"},
      {"what it came for, not told",
       response(
           item("case.came_for", coded(cli::address(pack(), cli::Vocabulary::signs), "vomiting"))),
       Code::case_complaint, "not answered"},
      {"a modifier", response(R"({"linkId":"vomiting","modifierExtension":[]})"),
       Code::exchange_shape, "modifier"},
      {"an unknown element", response(R"({"linkId":"vomiting","answr":[]})"), Code::exchange_shape,
       "`answr` is not read"},
      {"another form",
       R"({"resourceType":"QuestionnaireResponse","status":"completed","questionnaire":"urn:x"})",
       Code::exchange_shape, "another form"},
      {"entered in error",
       R"({"resourceType":"QuestionnaireResponse","status":"entered-in-error"})",
       Code::exchange_shape, "error"},
      {"no status", R"({"resourceType":"QuestionnaireResponse"})", Code::exchange_shape, "status"},
      {"no response", R"({"resourceType":"Bundle","entry":[]})", Code::exchange_shape,
       "no QuestionnaireResponse"},
      {"two responses",
       fmt::format(R"({{"resourceType":"Bundle","entry":[{{"resource":{0}}},{{"resource":{0}}}]}})",
                   response("")),
       Code::exchange_shape, "second"},
      {"a Bundle in a Bundle",
       R"({"resourceType":"Bundle","entry":[{"resource":{"resourceType":"Bundle"}}]})",
       Code::exchange_shape, "within"},
      {"another species",
       of_species(R"({"coding":[{"system":"http://hl7.org/fhir/animal-species","code":"ovisa"}]})"),
       Code::case_species, "ovisa"},
      {"another species in words", of_species(R"({"text":"cat"})"), Code::case_species, "`cat`"},
      {"a species in codes of others",
       of_species(R"({"coding":[{"system":"http://example.org/animals","code":"17"}]})"),
       Code::case_species, "another code"},
      {"a cat in codes of others and in words",
       of_species(R"({"coding":[{"system":"urn:x","code":"17"}],"text":"cat"})"),
       Code::case_species, "`cat`"},
      {"no JSON", "x", Code::json_syntax, "not JSON"},
      {"a list", "[]", Code::case_shape, "object"},
      {"a key twice", R"({"resourceType":"Bundle","resourceType":"Bundle"})", Code::json_key_twice,
       "twice"},
      {"cut off", response(item("vomiting", yes())).substr(0, 150), Code::json_syntax, "not JSON"},
  };
  for (auto const& one : cases) {
    auto const taken = take(pack(), one.text);
    EXPECT_FALSE(taken.patient) << one.what;
    bool const has_code = std::any_of(
        taken.diagnostics.begin(), taken.diagnostics.end(), [&](Diagnostic const& diagnostic) {
          return diagnostic.code == one.code && diagnostic.severity == Severity::error;
        });
    EXPECT_TRUE(has_code) << one.what << '\n' << taken.messages;
    EXPECT_NE(taken.messages.find(one.says), std::string::npos) << one.what << '\n'
                                                                << taken.messages;
  }
}

TEST(Take, TheSpeciesOfThePackIsTakenByItsCodeOrItsName) {
  for (auto const* species :
       {R"({"text":"dog"})", R"({"text":"Dog"})", R"({})",
        R"({"coding":[{"system":"http://hl7.org/fhir/animal-species","code":"canislf"}]})",
        R"({"coding":[{"system":"urn:x","code":"17"}],"text":"dog"})"}) {
    auto const taken = take(pack(), of_species(species));
    EXPECT_TRUE(taken.patient) << species << '\n' << taken.messages;
  }
}

TEST(Take, AllMistakesOfADocumentAreToldAtOnce) {
  auto const taken =
      take(pack(), response(item("vomitting", yes()) + "," + item("weight", amount("3", "Cel")) +
                            "," + item("lame", site("left elbo"))));
  EXPECT_EQ(taken.diagnostics.size(), 3U) << taken.messages;
}

TEST(Take, WhatStandsBesideTheAnswersIsNamedAndTheCaseIsTaken) {
  auto const taken = take(
      pack(),
      fmt::format(
          R"({{"resourceType":"Bundle","entry":[{{"resource":{{"resourceType":"Observation"}}}},)"
          R"({{"resource":{}}}]}})",
          response(R"({"linkId":"case.signs","extension":[],"item":[)" + item("vomiting", yes()) +
                   "]}")));
  ASSERT_TRUE(taken.patient) << taken.messages;
  EXPECT_EQ(taken.patient->answers.size(), 1U);
  EXPECT_NE(taken.messages.find("Observation"), std::string::npos) << taken.messages;
  EXPECT_NE(taken.messages.find("extensions"), std::string::npos) << taken.messages;
}

TEST(Take, AnEmptyItemIsNotKnownAndNeverNo) {
  auto const taken =
      take(pack(), response(R"({"linkId":"vomiting"},{"linkId":"lame","answer":[]})"));
  ASSERT_TRUE(taken.patient) << taken.messages;
  EXPECT_EQ(*taken.patient, Case{});
}

TEST(Take, AmountsAreConverted) {
  auto const taken = take(pack(), response(item("weight", amount("1.6e1", "[oz_av]")) + "," +
                                           item("temperature", amount("104", "[degF]")) + "," +
                                           item("age", amount("6", "mo"))));
  ASSERT_TRUE(taken.patient) << taken.messages;
  auto const value = [&](char const* name) {
    for (auto const& [sign, answer] : taken.patient->answers)
      if (pack()[sign].name == name) return std::get<double>(answer);
    return 0.0;
  };
  EXPECT_NEAR(value("weight"), 0.45359237, 1e-12);
  EXPECT_NEAR(value("temperature"), 40, 1e-9);
  EXPECT_NEAR(value("age"), 0.5, 1e-12);
}

TEST(Take, AnotherReasonForNoValueLeavesItUnknown) {
  auto const taken =
      take(pack(),
           response(item("heart_rate",
                         R"({"valueQuantity":{"extension":[{"url":"http://hl7.org/fhir/)"
                         R"(StructureDefinition/data-absent-reason","valueCode":"masked"}]}})")));
  ASSERT_TRUE(taken.patient) << taken.messages;
  EXPECT_EQ(*taken.patient, Case{});
  EXPECT_NE(taken.messages.find("masked"), std::string::npos);
}

TEST(Take, AFormOfAnotherVersionIsTakenWithAWarning) {
  auto text = response(item("vomiting", yes()));
  text.replace(text.find("\",\"item\""), 0, "|0.1");
  auto const taken = take(pack(), text);
  ASSERT_TRUE(taken.patient) << taken.messages;
  EXPECT_NE(taken.messages.find("version 0.1"), std::string::npos) << taken.messages;
}

TEST(Take, HostileDocumentsGiveAMessage) {
  std::string deep;
  for (int i = 0; i < 50000; ++i) deep += R"({"item":[)";
  std::string wide = R"({"linkId":"nothing"})";
  for (int i = 0; i < 20000; ++i) wide += R"(,{"linkId":"nothink","answer":[{}]})";
  std::string warned = R"({"linkId":"vomiting","extension":[]})";
  for (int i = 0; i < 20000; ++i) warned += R"(,{"linkId":"vomiting","extension":[]})";
  for (auto const& text :
       {deep, std::string(5U << 20U, 'x'), std::string("\xff\xfe"), std::string("{\"a\":\"\x01\"}"),
        std::string("{\"resourceType\":\"\\ud800\"}"), response(wide), std::string(),
        response(item("\\u202evomiting\\u001b[31m", yes())), std::string(100000, '[')}) {
    auto const taken = take(pack(), text);
    EXPECT_FALSE(taken.patient);
    EXPECT_FALSE(taken.diagnostics.empty());
    EXPECT_LE(taken.diagnostics.size(), 210U);
    for (char const c : taken.messages)
      EXPECT_TRUE(c == '\n' || c == '\t' || static_cast<unsigned char>(c) >= 0x20);
    EXPECT_EQ(taken.messages.find("\xE2\x80\xAE"), std::string::npos);
  }
  auto const many = take(pack(), response(warned));
  EXPECT_TRUE(many.patient);
  EXPECT_LE(many.diagnostics.size(), 100U);
}

}  // namespace
}  // namespace flinch::test
