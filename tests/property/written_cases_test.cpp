// What is written of any case reads back as the same case.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <random>

#include "casefile/plain_case.hpp"
#include "flinch/casefile/read_case.hpp"
#include "flinch/casefile/read_case_line.hpp"
#include "flinch/casefile/write_case.hpp"
#include "pack/shipped_pack.hpp"
#include "property/random_pack.hpp"

namespace flinch::test {
namespace {

std::string random_text(std::mt19937& random) {
  static std::vector<std::string> const pieces = {
      "a",    "the dog", " ",    "\n",  "\t",   ": ",       "'",      "\"",     "\\",
      "#",    "- ",      "{",    "]",   "%",    "\x1b[31m", "\u00e9", "\u202e", "\U0001f415",
      "\x01", "\u0085",  "=1+1", "<b>", "null", "~",        ","};
  std::string out;
  for (auto i = std::uniform_int_distribution(0, 12)(random); i > 0; --i)
    out += pieces[std::uniform_int_distribution<std::size_t>(0, pieces.size() - 1)(random)];
  return out;
}

using Json = nlohmann::ordered_json;

Json site_list(Pack const& pack, std::vector<SiteMark> const& marks) {
  auto out = Json::array();
  for (auto const& mark : marks) {
    auto const* side = mark.side == Side::left ? "left " : mark.side == Side::right ? "right " : "";
    out.push_back(side + pack[mark.site].name);
  }
  return out;
}

Json answer_json(Pack const& pack, Sign const& sign, Answer const& answer, bool in_words) {
  if (auto const* yes = std::get_if<bool>(&answer))
    return in_words ? Json(*yes ? "yes" : "no") : Json(*yes);
  if (auto const* choice = std::get_if<Choice>(&answer))
    return sign.kind == AnswerKind::breed ? pack.breeds.breeds[choice->index].name
                                          : sign.values[choice->index].name;
  if (auto const* number = std::get_if<double>(&answer)) {
    if (sign.unit.name.empty() && !in_words) return *number;
    return fmt::format("{} {}", *number, sign.unit.name);
  }
  auto const& findings = std::get<Findings>(answer);
  if (findings.found.empty() && findings.clear.empty()) return findings.found_somewhere;
  if (findings.clear.empty() && in_words) return site_list(pack, findings.found);
  auto out = Json::object();
  out["clear"] = site_list(pack, findings.clear);
  if (!findings.found.empty())
    out["found"] = site_list(pack, findings.found);
  else if (findings.found_somewhere)
    out["found"] = true;
  return out;
}

std::string json_line(Pack const& pack, Case const& patient, std::mt19937& random) {
  Json out = {{"answers", Json::object()}, {"name", patient.name}, {"note", patient.note}};
  auto const section = [&](SignId sign) -> Json& {
    return out[pack[sign].of_the_patient ? "dog" : "answers"];
  };
  for (auto const& [sign, answer] : patient.answers)
    section(sign)[pack[sign].name] =
        answer_json(pack, pack[sign], answer, std::bernoulli_distribution()(random));
  for (auto const sign : patient.cannot_tell) section(sign)[pack[sign].name] = "can't tell";
  for (auto const sign : patient.came_for) out["came for"].push_back(pack[sign].name);
  return out.dump();
}

TEST(Properties, ALineOfJsonReadsAsTheSameCaseAsYaml) {
  auto const pack = shipped_pack();
  CaseLineReader reader(*pack);
  std::mt19937 random(1848);
  std::size_t answers = 0;
  for (int i = 0; i < 400; ++i) {
    auto patient = random_case(*pack, random);
    drop_misplaced(*pack, patient);
    add_complaint(*pack, patient, random);
    answers += patient.answers.size();
    patient.name = random_text(random);
    patient.note = random_text(random);
    auto const line = json_line(*pack, patient, random);
    auto from_json = reader.read(line);
    ASSERT_TRUE(from_json) << i << '\n' << line << '\n' << from_json.diagnostics.front().message;
    SourceSet sources;
    auto const from_yaml =
        read_case(sources, sources.add("written.yaml", write_case(patient, *pack)), *pack);
    ASSERT_TRUE(from_yaml) << i;
    // The writer of YAML keeps the order of the pack, this one that of the case.
    std::sort(from_json.value->cannot_tell.begin(), from_json.value->cannot_tell.end());
    ASSERT_EQ(*from_json.value, *from_yaml.value) << i << '\n' << line;
    ASSERT_EQ(reader.name(), patient.name);
  }
  EXPECT_GT(answers, 400U * 50U) << "too few answers to say anything";
}

// An ordinary line is read by a quicker way than one that holds something else, such as an outcome
// (which lines leave aside).
TEST(Properties, AnOrdinaryLineReadsAsAnyOther) {
  auto const pack = shipped_pack();
  json::PlainLineParser parser;
  PlainCaseReader plain(*pack, Outcomes::ignored);
  CaseLineReader reader(*pack);
  std::mt19937 random(1864);
  int ordinary = 0;
  for (int i = 0; i < 400; ++i) {
    auto patient = random_case(*pack, random);
    if (i % 4 > 0) drop_misplaced(*pack, patient);
    patient.name = random_text(random);
    auto line = json_line(*pack, patient, random);
    Case quickly;
    bool const is_ordinary = plain.read(parser.read(line), quickly);
    line.insert(1, R"("outcome": {"cause": 1}, )");
    EXPECT_TRUE(parser.read(line).empty());
    auto const& slowly = reader.read(line);
    if (!is_ordinary) continue;
    ++ordinary;
    ASSERT_TRUE(slowly) << i << '\n' << line << '\n' << slowly.diagnostics.front().message;
    std::sort(quickly.cannot_tell.begin(), quickly.cannot_tell.end());
    auto wanted = *slowly.value;
    std::sort(wanted.cannot_tell.begin(), wanted.cannot_tell.end());
    ASSERT_EQ(quickly, wanted) << i << '\n' << line;
  }
  EXPECT_GT(ordinary, 50) << "too few lines are ordinary to say anything";
}

// Whatever is wrong with a line, or only unusual, the quick way leaves to the other.
TEST(Properties, ALineThatIsNotOrdinaryIsLeftAlone) {
  auto const pack = shipped_pack();
  json::PlainLineParser parser;
  PlainCaseReader plain(*pack, Outcomes::ignored);
  Case patient;
  for (auto const* line : {R"({"answers": {"lame": true, "lame": true}})",
                           R"({"name": "a", "name": "b"})",
                           R"({"answers": {"lamee": true}})",
                           R"({"answers": {"lame": null}})",
                           R"({"answers": {"lame": 1}})",
                           R"({"answers": {"lame": "perhaps"}})",
                           R"({"answers": {"vomiting": ["left elbow"]}})",
                           R"({"answers": {"tender": ["left spine"]}})",
                           R"({"answers": {"tender": [["spine"]]}})",
                           R"({"answers": {"tender": {"found": "yes"}}})",
                           R"({"answers": {"tender": {"found": [], "found": []}}})",
                           R"({"answers": []})",
                           R"({"answers": {"temperature": "38.6"}})",
                           R"({"answers": {"temperature": "88 C"}})",
                           R"({"answers": {"age": "2 years"}, "dog": {"age": "2 years"}})",
                           R"({"nam": "a"})",
                           R"({"dog": {"lame": true}})",
                           R"({"dog": {"species": "cat"}})",
                           R"({"dog": "spaniel"})",
                           R"({"dog": {"breed": "labradoor"}})",
                           R"({"name": true})",
                           R"([])",
                           R"({} {})",
                           "{",
                           ""})
    EXPECT_FALSE(plain.read(parser.read(line), patient)) << line;
  EXPECT_TRUE(
      plain.read(parser.read(R"({"answers": {"lame": true, "tender": ["spine"]}})"), patient));
  EXPECT_EQ(patient.answers.size(), 2U) << "nothing is left over from other lines";
}

std::optional<CaseOutcome> random_outcome(Pack const& pack, std::mt19937& random) {
  auto const below = [&](std::size_t n) {
    return std::uniform_int_distribution<std::uint32_t>(0,
                                                        static_cast<std::uint32_t>(n - 1))(random);
  };
  CaseOutcome out;
  out.is_cause_known = below(3) > 0;
  if (out.is_cause_known && below(3) > 0) out.cause = CauseId{below(pack.causes.size())};
  if (below(3) > 0) out.needed = TierId{below(pack.tiers.size())};
  if (out == CaseOutcome{}) return std::nullopt;
  return out;
}

TEST(Properties, AWrittenCaseReadsBackAsTheSame) {
  auto const pack = shipped_pack();
  CaseLineReader lines(*pack, Outcomes::read);
  std::mt19937 random(4711);
  std::size_t answers = 0;
  for (int i = 0; i < 400; ++i) {
    auto patient = random_case(*pack, random);
    drop_misplaced(*pack, patient);
    answers += patient.answers.size();
    for (auto* text :
         {&patient.name, &patient.caller, &patient.call_back, &patient.ring_back_at, &patient.note})
      *text = random_text(random);
    patient.outcome = random_outcome(*pack, random);
    auto const written = write_case(patient, *pack);
    SourceSet sources;
    auto const read = read_case(sources, sources.add("written.yaml", written), *pack);
    ASSERT_TRUE(read) << i << '\n' << render(read.diagnostics, sources) << written;
    ASSERT_EQ(*read.value, patient) << i << '\n' << written;
    ASSERT_EQ(write_case(*read.value, *pack), written) << i;
    auto const line = write_case_line(patient, *pack);
    ASSERT_EQ(line.find('\n'), line.npos);
    auto const& from_line = lines.read(line);
    ASSERT_TRUE(from_line) << i << '\n' << line << '\n' << from_line.diagnostics.front().message;
    ASSERT_EQ(*from_line.value, patient) << i << '\n' << line;
  }
  EXPECT_GT(answers, 400U * 50U) << "too few answers to say anything";
}

}  // namespace
}  // namespace flinch::test
