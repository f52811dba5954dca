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
