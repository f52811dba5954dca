// What the language server knows of names: every word that must be a known name is one of the tree.
#include "flinch/syntax/names.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>

#include "flinch/syntax/parse.hpp"
#include "support/small_pack.hpp"

namespace flinch {
namespace {

// A pack with every clause that takes a name.
char const* const with_every_name = R"(pack full "Full"
  species dog
  weight from 0.1 to 130 kg
  unlisted 60 per 1000 of 70 from counted
  hold 1% of 70 from counted to 99% derived from counted
source counted
  text "Counted"
tier now "Now"
  within 1 hour
  harm 19
  say "Go."
tier watch "Watch"
  within 28 days
  say "Watch."
site foreleg "front leg" paired
site elbow "elbow" in foreleg
sign lame "lame"
  ask "Lame?"
  answer sites in foreleg
  seen by anyone
sign unsound "unsound"
  ask "Unsound?"
  answer yes or no
  seen by anyone
sign limps "limps"
  ask "Limps?"
  part of unsound
  applies if sex is male and lame at left elbow
  answer yes or no
  seen by anyone
sign gums "gums"
  ask "Gums?"
  answer one of pink, pale
  seen by anyone
sign eats "eats"
  ask "Eats?"
  answer steps well, less
  seen by anyone
sign fatness "fatness"
  ask "How fat?"
  answer number from 1 to 9
  seen by anyone
sign pill_mg "pill"
  ask "How many mg?"
  answer number in mg from 0 to 1000
  seen by anyone
sign pill_hours "hours"
  ask "When?"
  answer number in hours from 0 to 100
  seen by anyone
means poorly: eats at least less or gums is pale
cause arthritis "Arthritis"
  affects elbow, foreleg
  base 20 per 1000 of 70 from counted
  see watch
  because "x"
  cite counted
rule pale_gums "Pale gums"
  if poorly
  usual 1% of 70 from counted
  in arthritis 5% of 70 from counted
  because "x"
  cite counted
rule colour "Colour"
  over gums: pink, pale
  usual 90 10 of 70 from counted
  in arthritis 80 20 of 70 from counted
  because "x"
  cite counted
alarm white "White gums"
  if gums is pale
  see now
  say "Go."
  because "x"
  cite counted
overlap colours shares 50% of 70 from counted: pale_gums, colour
care diet "Diet"
  for arthritis
  how "Less."
  slims by fatness
  ideal score 5
  each point 10%
  lost a week 0.5% to 2%
  fit if lame
  never if poorly
  ask vet if gums is pale
  stop if limps "Stop."
  grade D
  because "x"
  cite counted
care pill "Pill"
  how "Ring."
  taken pill_mg
  since pill_hours
  level 25 mg per kg see now "harm"
  grade D
  because "x"
  cite counted
example one
  dog sex male
  yes lame
  found lame at left elbow
  clear lame at right elbow
  with gums pale, eats less
  expect first arthritis, among 2 arthritis, tier watch, ceiling now, alarm white
)";

bool is_word(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_'; }

// Every word of the text that stands outside of quotes.
std::vector<Span> words_of(std::string const& text) {
  std::vector<Span> out;
  for (std::size_t i = 0; i < text.size();) {
    if (text[i] == '"') {
      i = text.find('"', i + 1) + 1;
    } else if (is_word(text[i])) {
      auto const begin = i;
      while (i < text.size() && is_word(text[i])) ++i;
      out.push_back({static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(i)});
    } else {
      ++i;
    }
  }
  return out;
}

bool is_a_name_of_the_tree(std::string const& text, Span span) {
  SourceSet sources;
  Report report;
  auto const tree = syntax::parse(sources, sources.add("pack.flinch", text), {}, report);
  for (auto const& statement : tree.statements)
    for (auto const& place : syntax::names_in(statement))
      if (place.name->at.span.begin == span.begin) return true;
  return false;
}

TEST(Names, EveryWordThatMustBeAKnownNameIsANameOfTheTree) {
  std::string const sound = with_every_name;
  auto const loaded = test::load({{"pack.flinch", sound}});
  ASSERT_TRUE(loaded.outcome) << loaded.messages();
  std::size_t must_be_known = 0;
  for (auto const span : words_of(sound)) {
    auto text = sound;
    text.replace(span.begin, span.end - span.begin, "no_such_name");
    auto const broken = test::load({{"pack.flinch", text}});
    auto const& faults = broken.outcome.diagnostics;
    bool const is_unknown_there = std::any_of(faults.begin(), faults.end(), [&](auto const& fault) {
      bool const is_unknown = fault.code == Code::unknown_name || fault.code == Code::unknown_value;
      return is_unknown && !fault.message.starts_with("unknown unit") &&
             fault.at.span.begin == span.begin;
    });
    if (!is_unknown_there) continue;
    ++must_be_known;
    EXPECT_TRUE(is_a_name_of_the_tree(sound, span))
        << sound.substr(span.begin, span.end - span.begin) << " in\n"
        << broken.messages();
  }
  EXPECT_GE(must_be_known, 60U);
}

// The other way round: a name in use that is not defined is never passed over.
TEST(Names, EveryNameInUseMustBeKnown) {
  std::string const sound = with_every_name;
  SourceSet sources;
  Report report;
  auto const tree = syntax::parse(sources, sources.add("pack.flinch", sound), {}, report);
  std::size_t in_use = 0;
  for (auto const& statement : tree.statements)
    for (auto const& place : syntax::names_in(statement)) {
      if (place.role != syntax::Role::use) continue;
      auto const span = place.name->at.span;
      auto text = sound;
      text.replace(span.begin, span.end - span.begin, "no_such_name");
      EXPECT_FALSE(test::load({{"pack.flinch", text}}).outcome)
          << place.name->text << " at " << span.begin;
      ++in_use;
    }
  EXPECT_GE(in_use, 60U);
}

}  // namespace
}  // namespace flinch
