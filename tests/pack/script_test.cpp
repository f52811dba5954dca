// The script of the shipped pack, for dogs of all kinds and for thousands with several dangers at
// once: short, in order, and never two lines that cannot both be done. What cannot is told here by
// words, apart from the clauses by which the pack says what gives way to what.
#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <regex>
#include <set>

#include "flinch/telling/telling.hpp"
#include "pack/made_patients.hpp"
#include "pack/shipped_pack.hpp"

namespace flinch::test {
namespace {

constexpr std::uint32_t seed = 20261130;
constexpr int random_patients = 2500;

class Words {
 public:
  explicit Words(char const* has, char const* lacks = nullptr)
      : has_(has, std::regex::icase), may_lack_(lacks != nullptr) {
    if (lacks != nullptr) lacks_ = std::regex(lacks, std::regex::icase);
  }
  [[nodiscard]] bool stand_in(std::string const& line) const {
    return std::regex_search(line, has_) && !(may_lack_ && std::regex_search(line, lacks_));
  }
  [[nodiscard]] bool stand_in_any(std::vector<std::string> const& lines) const {
    return std::any_of(lines.begin(), lines.end(),
                       [&](auto const& line) { return stand_in(line); });
  }

 private:
  std::regex has_;
  std::regex lacks_;
  bool may_lack_;
};

struct Pair {
  char const* what;
  Words one;
  Words other;
};

// A line may say itself when it gives way: then it stands on neither side.
std::vector<Pair> const& forbidden() {
  static std::vector<Pair> const pairs = {
      {"warm and cool", Words("\\bwarm\\b|blanket over|under a blanket", "unless|pups|lukewarm"),
       Words("pour cool water|wet the whole coat|cool it first", "is not cold")},
      {"a blanket and none", Words("no blanket"), Words("blanket over|under a blanket|wrap it")},
      {"on its side and sitting", Words("on its side|head up", "sits instead"),
       Words("let it sit")},
      {"flat and sitting", Words("\\bflat\\b|a board", "as it sits"), Words("let it sit")},
      {"one line and raised or turned", Words("head a little raised|steady its head"),
       Words("neck in one line|neck straight")},
      {"walking and carrying", Words("let it walk|walk it"), Words("carry|slide it")},
      {"making it vomit", Words("make it vomit", "not make it vomit"), Words(".")},
  };
  return pairs;
}

class ScriptOfThePack : public ::testing::Test {
 protected:
  std::shared_ptr<Pack const> pack = shipped_pack();
  Tables tables{pack};
  Assessor assessor{tables};
  Author author{*pack};

  [[nodiscard]] Telling told(Case const& patient) {
    return tell(tables, assessor.assess(patient), Reader::keeper);
  }

  // Causes that a line names as one: their titles and other names, where these say more than a sign
  // does.
  [[nodiscard]] std::vector<std::string> names_of_causes() const {
    std::vector<std::string> out;
    for (auto const& cause : pack->causes) {
      out.push_back(cause.title);
      out.insert(out.end(), cause.also_called.begin(), cause.also_called.end());
    }
    return out;
  }

  void expect_sound(Telling const& told, std::string const& which) {
    auto const& script = told.script;
    EXPECT_LE(script.lines.size(), 5U) << which;
    EXPECT_TRUE(script.further.empty() || script.lines.size() == 5U) << which;
    auto all = script.lines;
    all.insert(all.end(), script.further.begin(), script.further.end());
    for (auto const& line : all) {
      EXPECT_LE(line.size(), 165U) << line;
      EXPECT_TRUE(line.ends_with('.')) << line;
      EXPECT_EQ(std::count(all.begin(), all.end(), line), 1) << which << ": " << line;
    }
    auto const text = [&] {
      std::string out;
      for (auto const& line : all) out += line + "\n";
      return which + ":\n" + out + told.mouth.food_and_water;
    };
    for (auto const& pair : forbidden())
      EXPECT_FALSE(pair.one.stand_in_any(all) && pair.other.stand_in_any(all))
          << pair.what << " in " << text();
    static Words const by_mouth("honey|sugar|water to drink|to lick\\b|give .*water",
                                "allowed though");
    static Words const of_the_fast("no food|no water|nothing by mouth|water stays");
    EXPECT_FALSE(!told.mouth.food_and_water.empty() && by_mouth.stand_in_any(all)) << text();
    EXPECT_FALSE(of_the_fast.stand_in_any(all))
        << "food and water are told in one place: " << text();
  }
};

TEST_F(ScriptOfThePack, OfEachExampleIsShortAndFreeOfContradictions) {
  std::size_t scripts = 0;
  for (auto const& example : pack->examples) {
    auto const what = told(example.patient);
    expect_sound(what, example.name);
    if (!what.script.lines.empty()) ++scripts;
  }
  EXPECT_GT(scripts, pack->examples.size() / 4);
}

// One to ten conditions of alarms and of first aid are made true together; all else is unknown, or
// was answered no.
TEST_F(ScriptOfThePack, OfDogsWithSeveralDangersIsShortAndFreeOfContradictions) {
  std::mt19937 chance(seed);
  auto const below = [&](std::size_t count) { return chance() % count; };
  std::vector<Condition const*> conditions;
  for (auto const& alarm : pack->alarms) conditions.push_back(&alarm.condition);
  for (auto const& care : pack->care)
    if (care.first_aid && care.fit_if) conditions.push_back(&*care.fit_if);
  std::size_t full = 0;
  for (int i = 0; i < random_patients; ++i) {
    auto answers = below(2) == 0 ? well_patient(*pack) : Answers{};
    for (auto many = 1 + below(10); many > 0; --many)
      author.make(*conditions[below(conditions.size())], true, answers);
    Case patient;
    patient.answers.assign(answers.begin(), answers.end());
    auto const what = told(patient);
    expect_sound(what, "dog " + std::to_string(i) + " of seed " + std::to_string(seed));
    if (what.script.lines.size() == 5) ++full;
    if (HasFailure()) return;
  }
  EXPECT_GT(full, 400U) << "too few scripts are full to try the limit";
}

// Each two alarms that can be true of one dog: what makes the second true leaves the first
// standing.
TEST_F(ScriptOfThePack, OfEveryTwoAlarmsIsShortAndFreeOfContradictions) {
  std::size_t pairs = 0;
  std::set<std::vector<std::string>> seen;  // most scripts come again, and words are slow to hold
  for (std::uint32_t i = 0; i < pack->alarms.size(); ++i)
    for (std::uint32_t j = i + 1; j < pack->alarms.size(); ++j) {
      Answers answers;
      author.make(pack->alarms[i].condition, true, answers);
      author.make(pack->alarms[j].condition, true, answers);
      Case patient;
      patient.answers.assign(answers.begin(), answers.end());
      auto const result = assessor.assess(patient);
      auto const& fired = result.judgement.fired;
      auto const has_fired = [&](std::uint32_t alarm) {
        return std::find(fired.begin(), fired.end(), AlarmId{alarm}) != fired.end();
      };
      if (!has_fired(i) || !has_fired(j)) continue;
      ++pairs;
      auto const what = tell(tables, result, Reader::keeper);
      auto lines = what.script.lines;
      lines.insert(lines.end(), what.script.further.begin(), what.script.further.end());
      lines.push_back(what.mouth.food_and_water);
      if (!seen.insert(std::move(lines)).second) continue;
      expect_sound(what, pack->alarms[i].name + " with " + pack->alarms[j].name);
    }
  EXPECT_GT(pairs, pack->alarms.size() * pack->alarms.size() / 4);
}

TEST_F(ScriptOfThePack, NoLineNamesACause) {
  std::vector<std::string> lines;
  for (auto const& care : pack->care) lines.push_back(care.say);
  for (auto const& alarm : pack->alarms) lines.push_back(alarm.say);
  for (auto const& name : names_of_causes()) {
    if (name.size() < 7) continue;  // "GDV" and the like are not words of a script
    auto const plain = std::regex_replace(name, std::regex("[^A-Za-z ]"), ".");
    Words const words(("\\b" + plain + "\\b").c_str());
    for (auto const& line : lines) EXPECT_FALSE(words.stand_in(line)) << line << " names " << name;
  }
}

// Air comes before bleeding, both before the back, and that before the packet.
TEST_F(ScriptOfThePack, StandsInTheOrderInWhichItIsDone) {
  Case patient;
  for (auto const* name : {"breathing_trouble", "bleeding_wound", "road_accident", "ate_poison"})
    patient.answers.emplace_back(*pack->find_sign(name), true);
  auto const lines = told(patient).script.lines;
  auto const at = [&](char const* words) {
    return std::find_if(lines.begin(), lines.end(),
                        [&](auto const& line) { return line.find(words) != std::string::npos; }) -
           lines.begin();
  };
  EXPECT_LT(at("moving air"), at("Press a folded"));
  EXPECT_LT(at("Press a folded"), at("in one line"));
  EXPECT_LT(at("in one line"), at("Bring the packet"));
  EXPECT_LT(at("Bring the packet"), static_cast<std::ptrdiff_t>(lines.size()));
}

// A first aid that fits and a line of its own: it is told, or what it gives way to is.
TEST_F(ScriptOfThePack, EveryFirstAidForADangerHasItsLine) {
  for (auto const& care : pack->care) {
    bool const is_kept_for_the_page = care.name == "towel_roll" || care.name == "soft_muzzle" ||
                                      care.name == "cover_wound" || care.name == "water_at_hand";
    if (care.first_aid && !is_kept_for_the_page) {
      EXPECT_FALSE(care.say.empty()) << care.name;
    }
  }
}

}  // namespace
}  // namespace flinch::test
