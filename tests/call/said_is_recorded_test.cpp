// What was said is what is recorded: every word of the shipped pack, typed in every state of the
// screen, records what it says or nothing; its number then records what stands beside it.
#include <gtest/gtest.h>

#include <algorithm>

#include "call/call_desk.hpp"
#include "flinch/model/tested_signs.hpp"
#include "pack/shipped_pack.hpp"
#include "support/tries.hpp"

namespace flinch::test {
namespace {

using cli::Activity;

// The words of which each `step`-th is tried.
constexpr std::size_t step = sanitised_share * sanitised_share;

std::string plain(std::string_view words) {
  std::string out;
  for (auto const& word : folded_words(words)) out += word + " ";
  return out;
}

bool says(std::vector<std::string> const& all, std::string const& words) {
  return std::any_of(all.begin(), all.end(),
                     [&](std::string const& one) { return plain(one) == plain(words); });
}

// Whether the sign, or this value of it, has the words, small ones apart.
bool has_words(Sign const& sign, std::optional<std::uint32_t> value, std::string const& words) {
  auto const folded = plain(words);
  auto const is_in = [&](std::string const& text) {
    auto rest = folded_words(folded);
    for (auto const& word : folded_words(text)) std::erase(rest, word);
    return std::all_of(rest.begin(), rest.end(),
                       [](std::string const& word) { return word.size() <= 4; });
  };
  if (!value)
    return says(sign.also_said, words) || is_in(sign.label) || is_in(sign.name) ||
           std::any_of(sign.also_said.begin(), sign.also_said.end(), is_in);
  auto const& v = sign.values[*value];
  return is_in(v.label) || is_in(v.name) || is_in(sign.label + " " + v.label) ||
         std::any_of(v.also_said.begin(), v.also_said.end(), is_in);
}

// What was recorded, and does not contradict the words.
void expect_says(Pack const& pack, std::pair<SignId, Answer> const& recorded,
                 std::string const& words, char const* state) {
  auto const& sign = pack[recorded.first];
  std::optional<std::uint32_t> value;
  if (auto const* yes = std::get_if<bool>(&recorded.second)) {
    EXPECT_TRUE(*yes) << words << " recorded no to " << sign.name << ", " << state;
  }
  if (auto const* findings = std::get_if<Findings>(&recorded.second)) {
    EXPECT_TRUE(findings->found_somewhere) << words << ", " << state;
  }
  if (auto const* choice = std::get_if<Choice>(&recorded.second)) value = choice->index;
  EXPECT_TRUE(has_words(sign, value, words))
      << '"' << words << "\" recorded " << sign.name
      << (value ? ": " + sign.values[*value].name : "") << ", " << state;
}

struct Said {
  SignId sign{};
  std::optional<std::uint32_t> value;
  std::string words;
};

std::vector<Said> all_words(Pack const& pack) {
  std::vector<Said> out;
  for (std::uint32_t i = patient_sign::count; i < pack.signs.size(); ++i) {
    auto const& sign = pack.signs[i];
    out.push_back({SignId{i}, {}, sign.label});
    for (auto const& words : sign.also_said) out.push_back({SignId{i}, {}, words});
    for (std::uint32_t v = 0; v < sign.values.size(); ++v) {
      out.push_back({SignId{i}, v, sign.values[v].label});
      for (auto const& words : sign.values[v].also_said) out.push_back({SignId{i}, v, words});
    }
  }
  return out;
}

// The words in small letters, as they are typed in a hurry.
std::string typed(std::string words) {
  std::erase_if(words, [](char c) { return c == '?' || (c >= '0' && c <= '9'); });
  return words;
}

// What lets a danger sign wait: only its number, beside its question, records it.
TEST(SaidIsRecorded, NoWordsAloneRecordWhatAnUnlessAsksFor) {
  auto const pack = shipped_pack();
  Tables const tables(pack);
  std::size_t tried = 0;
  for (auto const& alarm : pack->alarms) {
    if (alarm.unless() == nullptr) continue;
    std::vector<bool> asked_for(pack->signs.size());
    mark_tested_signs(*pack, *alarm.unless(), asked_for);
    for (auto const& said : all_words(*pack)) {
      if (!asked_for[index(said.sign)]) continue;
      ++tried;
      cli::CallModel call(tables, {}, cli::Keeping::in_memory, desk_clock);
      press(call, typed(said.words) + "\n");
      EXPECT_TRUE(call.state().patient.answers.empty()) << said.words;
      auto const& found = call.state().found;
      auto const at = std::find_if(found.begin(), found.end(),
                                   [&](FoundSign const& one) { return one.sign == said.sign; });
      ASSERT_NE(at, found.end()) << said.words;
      EXPECT_TRUE(at->may_calm);
      press(call, std::to_string(at - found.begin() + 1));
      // Words that tell no step ask which one it is.
      if (pack->signs[index(said.sign)].kind == AnswerKind::steps && !said.value) {
        EXPECT_EQ(call.state().activity, cli::Activity::choosing) << said.words;
        EXPECT_EQ(call.state().subject, said.sign) << said.words;
        EXPECT_TRUE(call.state().patient.answers.empty()) << said.words;
        continue;
      }
      ASSERT_EQ(call.state().patient.answers.size(), 1U) << said.words;
      EXPECT_EQ(call.state().patient.answers[0].first, said.sign);
    }
  }
  EXPECT_GT(tried, 6U);
}

TEST(SaidIsRecorded, EveryWordOfThePackInEveryStateOfTheScreen) {
  auto const pack = shipped_pack();
  Tables const tables(pack);
  struct Start {
    char const* name;
    std::string keys;
  };
  // A list; a choice being made; a list answered in part; a search under way.
  std::size_t by_enter = 0;
  std::size_t by_number = 0;
  std::size_t lost = 0;
  for (Start const& start : {Start{"a list", ""}, Start{"a choice", "colour of his gums\n"},
                             Start{"a list answered in part", "3"}}) {
    cli::CallModel call(tables, {}, cli::Keeping::in_memory, desk_clock);
    if (start.keys == "3") press(call, start.keys);
    auto const all = all_words(*pack);
    // Every word where nothing has been said yet, each sixth in the other states.
    for (std::size_t i = 0; i < all.size(); i += step * (start.keys.empty() ? 1 : 6)) {
      auto const& said = all[i];
      if (start.keys.size() > 1) {
        press(call, start.keys);
        ASSERT_EQ(call.state().activity, Activity::choosing);
      }
      auto const before = call.state().patient;
      auto const expect_told = [&] {
        EXPECT_EQ(call.state().patient.cannot_tell, before.cannot_tell) << said.words;
        for (auto const& one : call.state().patient.answers)
          if (std::find(before.answers.begin(), before.answers.end(), one) == before.answers.end())
            expect_says(*pack, one, said.words, start.name);
        EXPECT_GE(call.state().patient.answers.size(), before.answers.size());
      };
      press(call, typed(said.words) + "\n");
      expect_told();
      if (call.state().patient.answers.size() > before.answers.size()) {
        ++by_enter;
      } else if (call.state().activity == Activity::finding) {
        auto const& found = call.state().found;
        auto const at = std::find_if(found.begin(), found.end(), [&](FoundSign const& one) {
          return one.sign == said.sign && (!said.value || one.value == said.value);
        });
        if (at == found.end()) {
          ++lost;
        } else {
          auto const shown = call.would_record(*at);
          press(call, std::to_string(at - found.begin() + 1));
          if (call.state().patient.answers.size() > before.answers.size()) {
            EXPECT_EQ(shown.substr(0, shown.find(':')),
                      (*pack)[said.sign].label.substr(0, shown.find(':')));
            ++by_number;
          }
        }
      }
      // As it was before.
      while (call.state().patient.answers != before.answers) press(call, "\x1b\x1a");
      press(call, "\x1b\n");
    }
  }
  EXPECT_GT(by_enter, 1500U / step);
  EXPECT_GT(by_number, 10U / step);
  EXPECT_LE(50 * lost, by_enter + by_number) << "words that do not find their own sign";
}

// Cases tried in a real terminal that once stored the opposite of what was said.
TEST(SaidIsRecorded, WordsThatOnceStoredWhatNobodySaid) {
  auto const pack = shipped_pack();
  Tables const tables(pack);
  struct Tried {
    char const* keys;
    char const* recorded;  // "" for nothing
  };
  for (auto const& one : std::initializer_list<Tried>{
           {"gums look pale\n\n", "gum colour: pale or white"},
           {"pale\n", "gum colour: pale or white"},
           {"not eating\n\n", "appetite: nothing at all"},
           {"colour of his gums\nnot eating\n", "appetite: nothing at all"},
           {"colour of his gums\nyelps\n", ""},
           {"colour of his gums\n\n\n", ""},
           {"yes\n", "collapsed or hardly responding: yes"},
           {"no\n", "collapsed or hardly responding: no"},
           {"don't know\n", "collapsed or hardly responding: can't tell"},
           {"big bell\n\n", ""},
           {"weak\n\n", ""},
           {"left\n\n", ""},
           {"left hi\n\n", ""},
           {"nsaid\n\n", ""},
           {"nauseous\n\n", ""},
           {"yorkie\n\n", ""},
       }) {
    cli::CallModel call(tables, {}, cli::Keeping::in_memory, desk_clock);
    press(call, one.keys);
    EXPECT_EQ(call.state().last_answer, one.recorded) << one.keys;
    EXPECT_EQ(call.state().patient.answers.size() + call.state().patient.cannot_tell.size(),
              *one.recorded == '\0' ? 0U : 1U)
        << one.keys;
  }
}

}  // namespace
}  // namespace flinch::test
