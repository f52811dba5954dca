#include <gtest/gtest.h>

#include <random>

#include "call/call_desk.hpp"
#include "call/call_model.hpp"
#include "support/tries.hpp"

namespace flinch::cli {
namespace {

using test::press;

struct Desk {
  Tables tables{test::desk_pack()};
  CallModel call{tables, {}, Keeping::in_memory, test::desk_clock};
};

// Ten thousand hasty sequences: whatever is pressed, an answer appears only by a key that confirms
// one, and is the one that stood beside that key.
TEST(CallModel, HastyKeysRecordNothingThatStoodOnNoScreen) {
  std::mt19937 random(99);
  auto const pick = [&](std::size_t count) {
    return std::uniform_int_distribution<std::size_t>(0, count - 1)(random);
  };
  std::vector<std::string> const pieces = {
      "y",    "n",       "yes",  "no",     "\n",        "\n\n",       "?",        "0",
      "1",    "2",       "3",    "9",      "-",         "/",          "x",        "r",
      " ",    "\t",      "\b",   "\b\b\b", "\x1b",      "\x1a",       "\x0b",     "\x0e",
      "\x10", "\xff",    "\xc3", "!",      "pale",      "not eating", "yelps",    "gum",
      "limp", "bloated", "left", "weak",   "dont know", "none",       "10 years", "not "};
  std::size_t recorded = 0;
  std::size_t in_time = 0;
  for (std::size_t round = 0; round < test::tries(10000); ++round) {
    Desk desk;
    auto const lines = [&] {
      std::vector<SignId> out;
      if (auto const& screen = desk.call.state().outlook.screen)
        for (auto const& question : screen->questions) out.push_back(question.sign);
      return out;
    };
    auto const is_there_or_not = [&](SignId sign) {
      return traits(desk.call.pack()[sign]).takes_yes_or_no;
    };
    bool is_new_by_number = false;  // the list, by the key before: one for a line or for a search
    for (int i = 0; i < 8; ++i)
      for (char const key : pieces[pick(pieces.size())]) {
        auto const& state = desk.call.state();
        auto const before = state.patient;
        bool const was_finding = state.activity == Activity::finding;
        auto const on_enter = desk.call.on_enter();
        bool const is_typing = state.activity == Activity::typing;
        bool const on_questions = state.page == CallPage::questions && !state.shows_keys;
        bool const is_number = key >= '1' && key <= '9';
        bool const is_too_soon = std::exchange(is_new_by_number, false) && is_number &&
                                 on_questions && state.activity == Activity::asking;
        // A choice that stands there is a question of its own: what follows it is new to anybody.
        bool const is_list = !lines().empty() && is_there_or_not(lines().front());
        bool const may_bring_a_list = is_number && on_questions &&
                                      ((state.activity == Activity::asking && is_list) ||
                                       state.activity == Activity::finding);
        auto const stood_there = lines();
        press(desk.call, std::string(1, key));
        in_time += is_too_soon ? 1 : 0;
        ASSERT_FALSE(is_too_soon && state.patient.answers != before.answers)
            << key << " answered a list that was not there: " << state.last_answer;
        is_new_by_number =
            may_bring_a_list && state.patient.answers != before.answers && lines() != stood_there;
        if (state.patient.answers == before.answers &&
            state.patient.cannot_tell == before.cannot_tell)
          continue;
        if (key == '\x1a') continue;  // taken back
        ++recorded;
        ASSERT_NE(state.last_answer, "");
        bool const is_letter = std::isalpha(static_cast<unsigned char>(key)) != 0 || key == ' ';
        ASSERT_FALSE(is_letter) << "a letter recorded " << state.last_answer;
        if (key == '\n' && on_questions && was_finding) {
          ASSERT_FALSE(on_enter.empty()) << state.last_answer;
          ASSERT_TRUE(on_enter == state.last_answer || on_enter.starts_with("no to all") ||
                      on_enter.ends_with("yes"))
              << on_enter << " / " << state.last_answer;
        }
        if (key == '\n' && on_questions && !was_finding) {
          ASSERT_TRUE(is_typing) << state.last_answer;
        }
      }
    ASSERT_TRUE(!desk.call.state().outlook.screen ||
                desk.call.state().line < desk.call.state().outlook.screen->questions.size());
  }
  EXPECT_GT(recorded, test::tries(3000));
  EXPECT_GE(in_time, test::tries(10));
}

}  // namespace
}  // namespace flinch::cli
