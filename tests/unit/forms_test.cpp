// The form of every clause and statement, which messages show, is one that can be read.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "flinch/syntax/parse.hpp"
#include "syntax/clauses.hpp"

namespace flinch::syntax {
namespace {

// What the forms leave open, filled in.
std::string filled(std::string_view form) {
  std::string out(form);
  for (auto const* open : {"SPECIES", "NAME", "BREED"})
    for (auto at = out.find(open); at != std::string::npos; at = out.find(open, at + 1))
      out.replace(at, std::string_view(open).size(), "something");
  return out;
}

std::string mistakes_in(std::string const& text) {
  SourceSet sources;
  Report report;
  (void)parse(sources, sources.add("form", text), {}, report);
  return render(report.take(), sources);
}

template <class T>
void expect_forms_to_be_read() {
  auto const head = filled(opening<T>.form);
  EXPECT_FALSE(head.empty());
  EXPECT_EQ(mistakes_in(head), "");
  for (auto const& clause : clauses_of<T>()) {
    ASSERT_FALSE(clause.form.empty()) << clause.phrase;
    EXPECT_TRUE(clause.form.starts_with(clause.phrase)) << clause.form;
    EXPECT_EQ(mistakes_in(fmt::format("{}\n  {}\n", head, filled(clause.form))), "");
  }
}

// What is said where each word of the text in turn, and all that stands behind it, makes room for
// something that fits nowhere, or for a piece that fits elsewhere.
template <class T>
void expect_words_of_the_language() {
  auto const look = [](std::string const& before, std::string const& text) {
    for (std::size_t at = 0; at <= text.size(); ++at) {
      bool const begins_word = at == text.size() || (at > 0 && text[at - 1] == ' ') ||
                               text.find_first_of("<>(),:%", at) == at;
      if (!begins_word) continue;
      for (auto const* misfit : {"<", "~", "", ",", "(", ":", "%", "7", "\"x\"", "word", "not"})
        for (auto const& behind : {std::string(), " " + text.substr(at)}) {
          auto const said = mistakes_in(before + text.substr(0, at) + misfit + behind + "\n");
          for (auto const* inside : {"boost", "spirit", "x3", "N5", "flinch::", "_GLOBAL_"})
            EXPECT_EQ(said.find(inside), std::string::npos) << said;
        }
    }
  };
  auto const head = filled(opening<T>.form);
  look({}, head);
  for (auto const& clause : clauses_of<T>()) look(head + "\n  ", filled(clause.form));
}

TEST(Forms, NoMessageNamesATypeOfTheProgram) {
  expect_words_of_the_language<Include>();
  expect_words_of_the_language<PackHead>();
  expect_words_of_the_language<Source>();
  expect_words_of_the_language<Tier>();
  expect_words_of_the_language<Site>();
  expect_words_of_the_language<Breeds>();
  expect_words_of_the_language<Sign>();
  expect_words_of_the_language<Means>();
  expect_words_of_the_language<Cause>();
  expect_words_of_the_language<Family>();
  expect_words_of_the_language<Rule>();
  expect_words_of_the_language<Alarm>();
  expect_words_of_the_language<Overlap>();
  expect_words_of_the_language<Care>();
  expect_words_of_the_language<Example>();
}

TEST(Forms, EveryClauseIsReadAsItIsShown) {
  expect_forms_to_be_read<Include>();
  expect_forms_to_be_read<PackHead>();
  expect_forms_to_be_read<Source>();
  expect_forms_to_be_read<Tier>();
  expect_forms_to_be_read<Site>();
  expect_forms_to_be_read<Breeds>();
  expect_forms_to_be_read<Sign>();
  expect_forms_to_be_read<Means>();
  expect_forms_to_be_read<Cause>();
  expect_forms_to_be_read<Family>();
  expect_forms_to_be_read<Rule>();
  expect_forms_to_be_read<Alarm>();
  expect_forms_to_be_read<Overlap>();
  expect_forms_to_be_read<Care>();
  expect_forms_to_be_read<Example>();
}

}  // namespace
}  // namespace flinch::syntax
