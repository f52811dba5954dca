// What the pages to hand over say, and may not leave out.
#include "report/report_page.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <regex>

#include "call/handover.hpp"
#include "care/care_text.hpp"
#include "flinch/assess/uncertainty.hpp"
#include "flinch/care/plan.hpp"
#include "flinch/telling/note.hpp"
#include "look/chance_words.hpp"
#include "pack/shipped_pack.hpp"
#include "report/report_causes.hpp"
#include "support/small_pack.hpp"

namespace flinch::cli {
namespace {

std::string const written = "2026-11-25 15:00";
Setting const setting{{}, 3, 900, written};

// The page of a dog of the shipped pack.
std::string page_of(std::string const& yaml, Reader reader) {
  auto const pack = test::shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  auto const patient = test::case_of(*pack, yaml);
  auto const result = assessor.assess(patient);
  return report_page({tables, assessor, patient, result}, reader, Paper::a4, setting, Extent::all);
}
std::string keeper_page(std::string const& yaml) { return page_of(yaml, Reader::keeper); }
std::string clinic_page(std::string const& yaml) { return page_of(yaml, Reader::clinician); }

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
    auto const result = assessor.assess(example.patient);
    auto const page = report_page({tables, assessor, example.patient, result}, Reader::keeper,
                                  Paper::a4, setting, Extent::all);
    auto const watch = part(page, "watch");
    EXPECT_TRUE(holds(watch, "gets worse")) << example.name;
    if (result.judgement.tier == TierId{0}) {
      // On the way nothing is waited for, so no list of lesser times stands there.
      EXPECT_TRUE(holds(watch, "do not wait for a change")) << example.name;
      EXPECT_FALSE(holds(watch, "book a visit")) << example.name;
      continue;
    }
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
  auto const page = keeper_page("answers: {lame: yes, appetite: normal, vomiting: no}");
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
  std::string const yaml =
      "dog: {age: 10 years, weight: 32 kg, breed: labrador}\n"
      "answers: {stiff_after_rest: yes, worse_after_exercise: yes, known_arthritis: yes, "
      "tender: [left elbow]}";
  auto const page = keeper_page(yaml);
  EXPECT_TRUE(holds(part(page, "until"), "until the danger signs that are still open"));
  EXPECT_FALSE(holds(page, "Flax oil"));
  EXPECT_TRUE(holds(part(clinic_page(yaml), "until"), "Flax oil"));
}

TEST(ReportPage, TellsUnknownFromClear) {
  std::string const rest = "answers: {lame: yes, stiff_after_rest: yes";
  for (auto const* unknown : {"}", ", tender: can't tell}"}) {
    for (auto const reader : {Reader::keeper, Reader::clinician}) {
      auto const page = page_of(rest + unknown, reader);
      EXPECT_TRUE(holds(part(page, "where"), "unknown and not clear: tender to touch, swollen,"))
          << unknown;
      EXPECT_FALSE(holds(part(page, "where"), "Nowhere on the dog"));
    }
  }
  auto const no = part(keeper_page(rest + ", tender: no}"), "where");
  EXPECT_TRUE(holds(no, "Nowhere on the dog: tender to touch"));
  EXPECT_FALSE(std::regex_search(no, std::regex("not clear:[^.]*tender to touch")));
  auto const yes = part(keeper_page(rest + ", tender: yes}"), "where");
  EXPECT_TRUE(holds(yes, "tender to touch: found, but the place was not said"));
  EXPECT_FALSE(std::regex_search(yes, std::regex("not clear:[^.]*tender to touch")));
  auto const one = part(keeper_page(rest + ", tender: [left elbow]}"), "where");
  EXPECT_TRUE(holds(one, "Only the places named were looked at for: tender to touch"));
}

TEST(ReportPage, SaysOfWhichSignAPlaceIsClearAndDrawsNoRingAtAFoundOne) {
  auto const where =
      part(clinic_page("answers: {tender: {clear: [hindlimb]}, swollen: {found: [left stifle]}}"),
           "where");
  EXPECT_TRUE(holds(where, "hind leg: checked and clear of &quot;tender to touch&quot;</li>"));
  EXPECT_FALSE(holds(where, "class=\"hollow\"")) << "a ring on the leg that is swollen";
  auto const other =
      part(clinic_page("answers: {tender: {clear: [forelimb]}, swollen: {found: [left stifle]}}"),
           "where");
  EXPECT_TRUE(holds(other, "clear of &quot;tender to touch&quot; (ring)"));
  EXPECT_TRUE(holds(other, "class=\"hollow\""));
  auto const sides = part(
      clinic_page("answers: {tender: {found: [left stifle], clear: [right stifle]}}"), "where");
  EXPECT_TRUE(holds(sides, "class=\"hollow\"")) << "the other leg is clear";
  auto const clash =
      part(clinic_page("answers: {tender: {found: [left hip], clear: [hindlimb]}}"), "where");
  EXPECT_TRUE(holds(clash, "that clashes with what was found there"));
}

TEST(ReportPage, TellsClashingAnswersHoweverFewThereAre) {
  for (auto const reader : {Reader::keeper, Reader::clinician})
    EXPECT_TRUE(holds(page_of("answers: {hindlegs_failing: no, drags_toes: yes}", reader),
                      "Answers that clash"));
}

TEST(ReportPage, CountsEveryFigureBehindACause) {
  auto const page = clinic_page(
      "dog: {age: 10 years, breed: labrador}\n"
      "answers: {stiff_after_rest: yes, lame: yes, tender: [left elbow], "
      "appetite: normal}");
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
  auto const page = clinic_page(
      "dog: {age: 3 years}\n"
      "answers: {lame: no, stiff_after_rest: no, vomiting: no, trauma: no, "
      "appetite: normal, getting_worse: no}");
  EXPECT_FALSE(holds(page, "<tbody>\n</tbody>"));
}

// The words stand at exactly those causes that the figures cannot place behind the first, and those
// that are not shown are counted.
TEST(ReportPage, SaysWhichCausesCannotBeToldFromTheFirst) {
  auto const pack = test::shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  int alike = 0;
  int apart = 0;
  int unseen = 0;
  for (auto const& example : pack->examples) {
    auto const result = assessor.assess(example.patient);
    if (result.judgement.nothing_told) continue;
    Uncertainty const uncertainty(tables, result);
    auto const causes = causes_in_short({tables, assessor, example.patient, result}, Reader::keeper,
                                        3, Extent::all);
    std::vector<std::string> items;
    std::regex const an_item("<li>(.*)</li>");
    for (std::sregex_iterator one(causes.begin(), causes.end(), an_item), end; one != end; ++one)
      items.push_back((*one)[1]);
    ASSERT_EQ(items.size(), 3U) << example.name;
    std::size_t told = 0;
    for (std::size_t i = 1; i < result.ranking.size(); ++i) {
      bool const is_apart =
          uncertainty.are_told_apart(result.ranking.front().cause, result.ranking[i].cause);
      if (i >= items.size()) {
        told += is_apart ? 0 : 1;
        continue;
      }
      EXPECT_EQ(holds(items[i], "not to be told apart from the first"), !is_apart) << example.name;
      ++(is_apart ? apart : alike);
    }
    EXPECT_EQ(holds(causes, "told apart from the first either"), told > 0) << example.name;
    EXPECT_EQ(holds(causes, fmt::format("<p>{} more causes", told)), told > 1) << example.name;
    unseen += told > 0 ? 1 : 0;
  }
  EXPECT_GT(alike, 20);
  EXPECT_GT(apart, 20);
  EXPECT_GT(unseen, 5);
}

std::vector<double> numbers_in(std::string const& text) {
  std::vector<double> out;
  std::regex const number("[0-9]+(\\.[0-9]+)?");
  for (std::sregex_iterator one(text.begin(), text.end(), number), end; one != end; ++one)
    out.push_back(std::stod(one->str()));
  return out;
}

// Each whisker, measured in the picture, ends where the engine says; the words beside it say the
// same.
TEST(ReportPage, DrawsHowFarTheFiguresAllowAChanceToBeOff) {
  auto const pack = test::shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  std::size_t measured = 0;
  for (auto const& example : pack->examples) {
    auto const result = assessor.assess(example.patient);
    if (result.judgement.nothing_told) continue;
    Uncertainty const uncertainty(tables, result);
    auto const causes = causes_in_short({tables, assessor, example.patient, result},
                                        Reader::clinician, 5, Extent::all);
    std::regex const whisker("<path class=\"axis\" d=\"(.*)\"/>");
    std::size_t place = 0;
    for (std::sregex_iterator one(causes.begin(), causes.end(), whisker), end; one != end;
         ++one, ++place) {
      // M low y v 6 M low y H high M high y v 6
      auto const drawn = numbers_in((*one)[1]);
      ASSERT_EQ(drawn.size(), 9U) << (*one)[1];
      auto const allowed = uncertainty.chance(result.ranking[place].cause);
      EXPECT_NEAR((drawn[0] - 0.5) / 379, allowed.low, 0.0002) << example.name;
      EXPECT_NEAR((drawn[5] - 0.5) / 379, allowed.high, 0.0002) << example.name;
      EXPECT_TRUE(holds(
          causes, fmt::format("({}), {} ({})", chance_range_in_words(allowed),
                              per_cent(result.ranking[place].posterior), chance_range(allowed))))
          << example.name;
      ++measured;
    }
  }
  EXPECT_GT(measured, 500U);
}

// Care page, page to hand over and note are drawn from one telling: none of them says what another
// does not.
TEST(ReportPage, SaysTheSameAsCareAndTheNote) {
  auto const pack = test::shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  std::size_t lines = 0;
  auto const one_line = [](std::string const& text) {
    return std::regex_replace(text, std::regex("\\s+"), " ");
  };
  for (std::size_t i = 0; i < pack->examples.size(); i += 5) {
    auto const& example = pack->examples[i];
    auto const result = assessor.assess(example.patient);
    auto const told = tell(tables, result, Reader::keeper, setting);
    auto const page = report_page({tables, assessor, example.patient, result}, Reader::keeper,
                                  Paper::a4, setting, Extent::in_short);
    auto const care = one_line(care_text(tables, example.patient, "", result, told, Look{}));
    auto const note =
        one_line(note_text(handover_note(tables, example.patient, result, setting), Look{}));
    for (auto const& line : told.script.lines) {
      ++lines;
      EXPECT_TRUE(holds(page, escaped(line))) << example.name << ": " << line;
      EXPECT_TRUE(holds(care, line)) << example.name << ": " << line;
      EXPECT_TRUE(holds(note, line)) << example.name << ": " << line;
    }
    EXPECT_TRUE(holds(page, escaped(told.mouth.food_and_water))) << example.name;
    EXPECT_TRUE(holds(care, told.mouth.food_and_water)) << example.name;
    EXPECT_TRUE(holds(note, told.mouth.food_and_water)) << example.name;
    std::size_t warnings = 0;
    auto const dont = part(page, "dont");
    for (auto const& warning : told.do_not) {
      EXPECT_TRUE(holds(dont, escaped(warning.text))) << example.name;
      EXPECT_TRUE(holds(care, warning.text)) << example.name;
    }
    for (auto at = dont.find("<li>"); at != std::string::npos; at = dont.find("<li>", at + 1))
      ++warnings;
    EXPECT_EQ(warnings, told.do_not.size() + 1) << example.name << ": one stands on every page";
  }
  EXPECT_GT(lines, 100U);
}

TEST(ReportPage, AKeepersPageHoldsNoPrivateNoteAndNamesThePractice) {
  auto const pack = test::shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  auto const patient = test::case_of(*pack, "note: owes money\nanswers: {retching_dry: yes}");
  auto const result = assessor.assess(patient);
  auto here = setting;
  here.practice = Practice{"Elder Lane", "555 0100", "4 Elder Lane", "", "AB", {}};
  auto const page_for = [&](Reader reader, Extent extent) {
    return report_page({tables, assessor, patient, result}, reader, Paper::a4, here, extent);
  };
  for (auto const extent : {Extent::in_short, Extent::all}) {
    EXPECT_FALSE(holds(page_for(Reader::keeper, extent), "owes money"));
    EXPECT_TRUE(holds(page_for(Reader::clinician, extent), "owes money"));
    EXPECT_TRUE(holds(page_for(Reader::keeper, extent), "by Elder Lane, telephone 555 0100"));
    EXPECT_TRUE(holds(page_for(Reader::keeper, extent),
                      "Go straight to Elder Lane, 4 Elder Lane; telephone 555 0100 on the way."));
  }
  EXPECT_FALSE(holds(page_for(Reader::clinician, Extent::in_short), "nomogram"));
}

// What is lost when sheets come apart: whose they are.
TEST(ReportPage, NamesTheDogAndTheTimeAboveEverySheet) {
  for (auto const reader : {Reader::keeper, Reader::clinician}) {
    auto const page = page_of("name: Tansy <b>\nanswers: {lame: yes, appetite: normal}", reader);
    EXPECT_TRUE(holds(page,
                      "<div class=\"running\" aria-hidden=\"true\"><bdi>Tansy &lt;b&gt;, written "
                      "2026-11-25 15:00</bdi></div>"));
    EXPECT_TRUE(holds(page, "<p>Written 2026-11-25 15:00.</p>"));
  }
}

}  // namespace
}  // namespace flinch::cli
