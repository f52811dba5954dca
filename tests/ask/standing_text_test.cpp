// The line above each question of an interview: what it says must be so, and frighten nobody.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <regex>
#include <span>
#include <utility>

#include "ask/standing_text.hpp"
#include "pack/shipped_pack.hpp"

namespace flinch::cli {
namespace {

struct Step {
  std::string text;
  Outlook outlook;
};

// An interview of a keeper who answers all lists alike, yes to every `yes_every`th line.
std::vector<Step> interview(Tables const& tables, std::size_t yes_every) {
  auto const& pack = tables.pack();
  Assessor assessor(tables);
  Interview interview(tables, Reader::keeper);
  Case patient;
  std::vector<SignId> untold;
  std::vector<Step> out;
  std::size_t line = 0;
  for (;;) {
    auto const result = assessor.assess(patient);
    auto const outlook = interview.next(result, untold);
    auto text = standing_text(pack, result, outlook, outlook, {1000, false, false, false});
    out.push_back({std::move(text), outlook});
    if (outlook.is_enough) return out;
    for (auto const& question : outlook.screen->questions) {
      bool const is_yes = yes_every > 0 && ++line % yes_every == 0;
      auto const kind = pack[question.sign].kind;
      if (outlook.screen->kind == Screen::Kind::place)
        untold.push_back(question.sign);
      else if (kind == AnswerKind::yes_or_no)
        patient.answers.emplace_back(question.sign, is_yes);
      else if (kind == AnswerKind::sites)
        patient.answers.emplace_back(question.sign, Findings{is_yes, !is_yes, {}, {}});
      else
        patient.cannot_tell.push_back(question.sign);
    }
  }
}

TEST(StandingText, NumbersAreSmallAndSaidToBeAbout) {
  Tables const tables(test::shipped_pack());
  std::regex const number("[0-9]+");
  for (std::size_t const yes_every : {0U, 2U, 5U, 13U})
    for (auto const& step : interview(tables, yes_every))
      for (std::sregex_iterator at(step.text.begin(), step.text.end(), number), end; at != end;
           ++at) {
        EXPECT_LE(std::stoi(at->str()), 20) << step.text;
        EXPECT_TRUE(at->prefix().str().ends_with("about ")) << step.text;
      }
}

// In an interview of all no, what is said to be left is what comes: never more than one list above,
// and never half as much again below.
TEST(StandingText, AboutIsNearWhatComesWhenAllIsNo) {
  Tables const tables(test::shipped_pack());
  auto const steps = interview(tables, 0);
  std::size_t to_come = 0;
  for (auto step = steps.rbegin(); step != steps.rend(); ++step) {
    // What tells causes apart may settle a danger as well.
    auto const left_after = step == steps.rbegin() ? 0 : std::prev(step)->outlook.danger_left;
    if (step->outlook.danger_left > left_after) ++to_come;
    auto const said = step->outlook.danger_screens;
    EXPECT_LE(to_come, said + said / 2 + 1) << step->text;
    if (step->text.find("about") != std::string::npos) {
      EXPECT_LE(said, to_come + to_come / 2 + 1) << step->text;
    }
  }
  EXPECT_GT(to_come, 5U);
}

// To the end of an interview of all no, what only hands or a clinic can tell stands nowhere as
// open.
TEST(StandingText, TheLastWordOfAKeeperIsOneTierAndNothingForOtherHands) {
  Tables const tables(test::shipped_pack());
  auto const& pack = tables.pack();
  Case patient;
  patient.answers = {{*pack.find_sign("stiff_after_rest"), true}};
  patient.came_for = {*pack.find_sign("stiff_after_rest")};
  Assessor assessor(tables);
  Interview interview(tables, Reader::keeper);
  for (;;) {
    auto const result = assessor.assess(patient);
    auto const outlook = interview.next(result, {}, std::span(std::as_const(patient.came_for)));
    auto const word =
        last_word_text(tables, result, outlook, Reader::keeper, {}, {1000, false, false, false});
    auto const open = open_to(tables, result, Reader::keeper);
    for (auto const& one : open) EXPECT_TRUE(can_see(Reader::keeper, pack[one.sign].seen_by));
    EXPECT_EQ(word.find("clinic is open"), std::string::npos) << word;
    EXPECT_FALSE(word.find("Look out for") != std::string::npos && outlook.danger_left > 0);
    if (outlook.is_enough) {
      EXPECT_EQ(word.find("At least"), std::string::npos) << word;
      EXPECT_EQ(word.find("Dangers have not"), std::string::npos) << word;
      return;
    }
    for (auto const& question : outlook.screen->questions) {
      auto const kind = pack[question.sign].kind;
      if (kind == AnswerKind::yes_or_no)
        patient.answers.emplace_back(question.sign, false);
      else if (kind == AnswerKind::sites)
        patient.answers.emplace_back(question.sign, Findings{false, true, {}, {}});
      else
        patient.cannot_tell.push_back(question.sign);
    }
  }
}

TEST(StandingText, SaysWhetherOneAnswerCouldRaiseTheUrgency) {
  Tables const tables(test::shipped_pack());
  auto const steps = interview(tables, 0);
  std::size_t only_together = 0;
  for (auto const& step : steps) {
    bool const one = step.outlook.one_answer_reaches.has_value();
    bool const several = step.outlook.several_answers_reach.has_value();
    EXPECT_EQ(step.text.find("One answer could make it:") != std::string::npos, one) << step.text;
    EXPECT_EQ(step.text.find("Only several answers together") != std::string::npos, several && !one)
        << step.text;
    only_together += several && !one ? 1 : 0;
  }
  EXPECT_GT(only_together, 0U);
}

}  // namespace
}  // namespace flinch::cli
