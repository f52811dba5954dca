// What the pages to hand over say, and may not leave out.
#include "report_page.hpp"

#include <gtest/gtest.h>

#include <regex>

#include "flinch/care/plan.hpp"
#include "pack/shipped_pack.hpp"
#include "support/small_pack.hpp"

namespace flinch::cli {
namespace {

// A dog of the shipped pack and both its pages.
struct Pages {
  std::string keeper;
  std::string clinic;
};

Pages pages_of(std::string const& yaml) {
  auto const pack = test::shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  auto const dog = test::case_of(*pack, yaml);
  auto const result = assessor.assess(dog);
  Reviewed const reviewed{tables, assessor, dog, result};
  return {report_page(reviewed, Reader::keeper, Paper::a4),
          report_page(reviewed, Reader::clinic, Paper::a4)};
}

bool holds(std::string const& page, std::string_view words) {
  return page.find(words) != std::string::npos;
}

// A part of a page by its id, up to the next.
std::string part(std::string const& page, std::string const& id) {
  auto const from = page.find("<h2 id=\"" + id + "\"");
  if (from == std::string::npos) return {};
  return page.substr(from, page.find("<h2 ", from + 1) - from);
}

TEST(ReportPage, TellsTheKeeperOfEveryDogWhatCannotWait) {
  auto const pack = test::shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  auto const spine = *pack->find_site("spine");
  int sore_backs = 0;
  for (auto const& example : pack->examples) {
    auto const result = assessor.assess(example.dog);
    auto const page =
        report_page({tables, assessor, example.dog, result}, Reader::keeper, Paper::a4);
    auto const watch = part(page, "watch");
    EXPECT_TRUE(holds(watch, "gets worse")) << example.name;
    EXPECT_TRUE(holds(watch, "Retching that brings nothing up")) << example.name;
    EXPECT_TRUE(holds(watch, "no urine") || holds(watch, "No urine")) << example.name;
    auto const* tender = result.find(*pack->find_sign("tender"));
    if (tender == nullptr) continue;
    auto const& found = std::get<Findings>(tender->answer).found;
    if (std::none_of(found.begin(), found.end(),
                     [&](SiteMark const& mark) { return pack->covers(spine, mark.site); }))
      continue;
    ++sore_backs;
    EXPECT_TRUE(holds(watch, "cannot stand")) << example.name;
  }
  EXPECT_GT(sore_backs, 3);
}

TEST(ReportPage, TellsTheKeeperFirstWhatToDoThenWhatToWatch) {
  auto const page = pages_of("answers: {lame: yes, appetite: normal, vomiting: no}").keeper;
  std::size_t before = 0;
  for (auto const* id : {"urgency", "do", "watch", "until", "where", "causes", "told"}) {
    auto const at = page.find("<h2 id=\"" + std::string(id) + "\"");
    ASSERT_NE(at, std::string::npos) << id;
    EXPECT_GT(at, before) << id;
    before = at;
  }
  EXPECT_TRUE(holds(part(page, "watch"), "Look again"));
  EXPECT_FALSE(holds(page, "expert opinion"));
}

// With danger signs open nothing new goes by mouth: one sentence, no list of supplements.
TEST(ReportPage, ListsNoSupplementThatMayNotBeGivenYet) {
  auto const pages = pages_of(
      "dog: {age: 10 years, weight: 32 kg, breed: labrador}\n"
      "answers: {stiff_after_rest: yes, worse_after_exercise: yes, getting_worse: yes, "
      "known_arthritis: yes, tender: [left "
      "elbow]}");
  EXPECT_TRUE(holds(part(pages.keeper, "until"), "Danger signs are still open"));
  EXPECT_FALSE(holds(pages.keeper, "Flax oil"));
  EXPECT_TRUE(holds(part(pages.clinic, "until"), "Flax oil"));
}

TEST(ReportPage, TellsUnknownFromClear) {
  std::string const rest = "answers: {lame: yes, stiff_after_rest: yes";
  for (auto const* unknown : {"}", ", tender: can't tell}"}) {
    auto const pages = pages_of(rest + unknown);
    for (auto const& page : {pages.keeper, pages.clinic}) {
      EXPECT_TRUE(holds(part(page, "where"), "unknown and not clear: tender to touch, swollen,"))
          << unknown;
      EXPECT_FALSE(holds(part(page, "where"), "Nowhere on the dog"));
    }
  }
  auto const no = part(pages_of(rest + ", tender: no}").keeper, "where");
  EXPECT_TRUE(holds(no, "Nowhere on the dog: tender to touch"));
  EXPECT_FALSE(std::regex_search(no, std::regex("not clear:[^.]*tender to touch")));
  auto const yes = part(pages_of(rest + ", tender: yes}").keeper, "where");
  EXPECT_TRUE(holds(yes, "tender to touch: found, but the place was not said"));
  EXPECT_FALSE(std::regex_search(yes, std::regex("not clear:[^.]*tender to touch")));
  auto const one = part(pages_of(rest + ", tender: [left elbow]}").keeper, "where");
  EXPECT_TRUE(holds(one, "Only the places named were looked at for: tender to touch"));
}

TEST(ReportPage, SaysOfWhichSignAPlaceIsClearAndDrawsNoRingAtAFoundOne) {
  auto const where = part(
      pages_of("answers: {tender: {clear: [hindlimb]}, swollen: {found: [left stifle]}}").clinic,
      "where");
  EXPECT_TRUE(holds(where, "hind leg: checked and clear of &quot;tender to touch&quot;</li>"));
  EXPECT_FALSE(holds(where, "class=\"hollow\"")) << "a ring on the leg that is swollen";
  auto const other = part(
      pages_of("answers: {tender: {clear: [forelimb]}, swollen: {found: [left stifle]}}").clinic,
      "where");
  EXPECT_TRUE(holds(other, "clear of &quot;tender to touch&quot; (ring)"));
  EXPECT_TRUE(holds(other, "class=\"hollow\""));
  auto const sides = part(
      pages_of("answers: {tender: {found: [left stifle], clear: [right stifle]}}").clinic, "where");
  EXPECT_TRUE(holds(sides, "class=\"hollow\"")) << "the other leg is clear";
  auto const clash =
      part(pages_of("answers: {tender: {found: [left hip], clear: [hindlimb]}}").clinic, "where");
  EXPECT_TRUE(holds(clash, "that clashes with what was found there"));
}

TEST(ReportPage, TellsClashingAnswersHoweverFewThereAre) {
  auto const pages = pages_of("answers: {hindlegs_failing: no, drags_toes: yes}");
  ASSERT_TRUE(holds(pages.clinic, "Too few answers for the ranking"));
  for (auto const& page : {pages.keeper, pages.clinic})
    EXPECT_TRUE(holds(page, "Answers that clash"));
}

TEST(ReportPage, CountsEveryFigureBehindACause) {
  auto const page = pages_of(
                        "dog: {age: 10 years, breed: labrador}\n"
                        "answers: {stiff_after_rest: yes, lame: yes, tender: [left elbow], "
                        "appetite: normal}")
                        .clinic;
  std::regex const words(
      "Of its ([0-9]+) figures ([0-9]+) were counted, ([0-9]+) derived from what is published, "
      "([0-9]+) judged");
  std::size_t told = 0;
  for (std::sregex_iterator one(page.begin(), page.end(), words), end; one != end; ++one, ++told)
    EXPECT_EQ(std::stoi((*one)[1]),
              std::stoi((*one)[2]) + std::stoi((*one)[3]) + std::stoi((*one)[4]));
  EXPECT_GT(told, 0U);
}

TEST(ReportPage, SaysThatNothingSpeaksForACauseInsteadOfAnEmptyTable) {
  auto const page = pages_of(
                        "dog: {age: 3 years}\n"
                        "answers: {lame: no, stiff_after_rest: no, vomiting: no, trauma: no, "
                        "appetite: normal, getting_worse: no}")
                        .clinic;
  EXPECT_FALSE(holds(page, "<tbody>\n</tbody>"));
}

}  // namespace
}  // namespace flinch::cli
