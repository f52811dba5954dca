// Writes docs/simulation.md: how the shipped pack ranks dogs drawn from its own frequencies, and
// how firmly its examples stand. Same seed, same page.
#include <fmt/format.h>
#include <fmt/ostream.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <iostream>

#include "pack/drawn_patients.hpp"
#include "pack/shaken_weights.hpp"
#include "pack/shipped_pack.hpp"

namespace flinch::test {
namespace {

constexpr double hidden = 0.4;
constexpr int population = 4000;
constexpr int patients_each = 50;
constexpr int shakes = 1000;

struct Tenth {
  int patients = 0;
  int right = 0;
  double claimed = 0;
};

struct Triage {
  int under = 0;
  int under_ranking = 0;  ///< had no alarm fired
  int over = 0;
};

void count_triage(Pack const& pack, Assessment const& result, CauseId truth, Triage& triage) {
  auto const needed = pack[truth].see;
  if (!result.judgement.tier || *result.judgement.tier > needed) ++triage.under;
  if (!result.judgement.ranking_tier || *result.judgement.ranking_tier > needed)
    ++triage.under_ranking;
  if (result.judgement.tier && *result.judgement.tier < needed) ++triage.over;
}

void write_population(Tables const& tables, std::ostream& out) {
  auto const& pack = tables.pack();
  Chance chance(20240601);
  PatientDrawer drawer(tables, chance);
  Assessor assessor(tables);
  std::array<Tenth, 10> tenths{};
  int first = 0;
  int top_three = 0;
  int listed = 0;
  double brier = 0;
  Triage triage;
  for (int i = 0; i < population; ++i) {
    auto const drawn = drawer.draw(drawer.draw_cause(), hidden);
    auto const result = assessor.assess(drawn.patient);
    auto const rank = result.place(drawn.truth) + 1;
    first += rank == 1 ? 1 : 0;
    top_three += rank <= 3 ? 1 : 0;
    for (auto const& ranked : result.ranking) {
      double const miss = ranked.posterior - (ranked.cause == drawn.truth ? 1 : 0);
      brier += miss * miss;
    }
    auto const claimed = result.ranking.front().posterior;
    auto& tenth = tenths[std::min<std::size_t>(9, static_cast<std::size_t>(claimed * 10))];
    ++tenth.patients;
    tenth.right += rank == 1 ? 1 : 0;
    tenth.claimed += claimed;
    if (!drawn.truth) continue;
    ++listed;
    count_triage(pack, result, *drawn.truth, triage);
  }
  auto const percent = [](int part, int whole) { return 100.0 * part / whole; };
  fmt::print(out,
             "## As they come\n\n{} dogs with causes by the base rates, {:.0f} % of the answers "
             "hidden. The true "
             "cause came first in {:.1f} %, among the first three in {:.1f} %. Brier score over "
             "all causes {:.3f} "
             "(0 is perfect; 2 always certain and always wrong). Of the dogs with a listed cause "
             "{:.1f} % were given "
             "a less urgent tier than their cause needs, {:.1f} % a more urgent one.\n\n",
             population, 100 * hidden, percent(first, population), percent(top_three, population),
             brier / population, percent(triage.under, listed), percent(triage.over, listed));
  out << "How far the first place can be believed:\n\n| probability given | dogs | mean given | "
         "right |\n|---|---|---|---|\n";
  for (std::size_t i = 0; i < tenths.size(); ++i) {
    auto const& t = tenths[i];
    if (t.patients == 0) continue;
    fmt::print(out, "| {} to {} % | {} | {:.1f} % | {:.1f} % |\n", 10 * i, 10 * i + 10, t.patients,
               100 * t.claimed / t.patients, percent(t.right, t.patients));
  }
}

void write_causes(Tables const& tables, std::ostream& out) {
  auto const& pack = tables.pack();
  Chance chance(20240602);
  PatientDrawer drawer(tables, chance);
  Assessor assessor(tables);
  fmt::print(out,
             "\n## By true cause\n\n{} dogs each, {:.0f} % of the answers hidden: how often the "
             "cause came first, "
             "among the first three, and how often the tier was less urgent than the cause needs, "
             "how often it would "
             "have been by the ranking alone, without alarms and floors, and how often it was more "
             "urgent.\n\n"
             "| cause | needs | first | top three | under | under by ranking alone | over "
             "|\n|---|---|---|---|---|---|---|\n",
             patients_each, 100 * hidden);
  constexpr int most_under = 20;  // per cent, of causes that need the first tier
  int most_urgent = 0;
  int highest = 0;
  std::vector<std::string> too_often;
  std::vector<std::string> by_alarms;
  for (std::uint32_t c = 0; c < pack.causes.size(); ++c) {
    CauseId const cause{c};
    int first = 0;
    int top_three = 0;
    Triage triage;
    for (int i = 0; i < patients_each; ++i) {
      auto const result = assessor.assess(drawer.draw(cause, hidden).patient);
      auto const rank = result.place(cause) + 1;
      first += rank == 1 ? 1 : 0;
      top_three += rank <= 3 ? 1 : 0;
      count_triage(pack, result, cause, triage);
    }
    auto const percent = [](int part) { return 100 * part / patients_each; };
    fmt::print(out, "| {} | {} | {} % | {} % | {} % | {} % | {} % |\n", pack[cause].title,
               pack[pack[cause].see].name, percent(first), percent(top_three),
               percent(triage.under), percent(triage.under_ranking), percent(triage.over));
    if (pack[cause].see != TierId{0}) continue;
    ++most_urgent;
    highest = std::max(highest, percent(triage.under));
    if (percent(triage.under) >= most_under) too_often.push_back(pack[cause].title);
    if (percent(triage.under_ranking) >= most_under)
      by_alarms.push_back(
          fmt::format("{} ({} %)", pack[cause].title, percent(triage.under_ranking)));
  }
  auto const named = [](std::vector<std::string> const& causes) {
    return causes.empty() ? std::string("none") : fmt::format("{}", fmt::join(causes, ", "));
  };
  fmt::print(out,
             "\nOf the {} causes that need the most urgent tier, the one that most often got less "
             "got it in {} %; in {} % or "
             "more: {}. By the ranking alone in {} % or more: {}. These are caught by alarms and "
             "floors. A dog with all its "
             "answers drawn has some danger sign by coincidence nearly always, as hundreds of "
             "signs are asked, so `under` is "
             "lower here and `over` higher than with a keeper who tells of what is wrong: "
             "[published.md](published.md) has "
             "dogs that were told of.\n",
             most_urgent, highest, most_under, named(too_often), most_under, named(by_alarms));
}

bool promises_first(Example const& example) {
  return std::any_of(example.promises.begin(), example.promises.end(), [](Promise const& p) {
    return p.kind == syntax::Promise::Kind::first || p.kind == syntax::Promise::Kind::among;
  });
}

void write_firmness(Tables const& tables, std::ostream& out) {
  auto const& pack = tables.pack();
  Chance chance(20240603);
  Assessor assessor(tables);
  struct Row {
    Example const* example;
    Firmness firmness;
  };
  std::vector<Row> rows;
  double first = 0;
  double tier = 0;
  double promising = 0;
  for (auto const& example : pack.examples) {
    rows.push_back({&example, shake(tables, assessor.assess(example.patient), shakes, chance)});
    tier += rows.back().firmness.tier_holds;
    if (!promises_first(example)) continue;
    ++promising;
    first += rows.back().firmness.first_cause_holds;
  }
  fmt::print(
      out,
      "\n## How firmly the examples stand\n\nEach weight multiplied by a factor of its own between "
      "a half and two, {} times. In the {:.0f} examples that promise a cause the first cause held "
      "in "
      "{:.1f} %; in all {} the tier held in {:.1f} %. Those that held less than nine times in ten "
      "(a "
      "dash where no cause is promised):\n\n| example | first cause | tier |\n|---|---|---|\n",
      shakes, promising, 100 * first / promising, rows.size(),
      100 * tier / static_cast<double>(rows.size()));
  for (auto const& [example, firmness] : rows) {
    constexpr double firm = 0.9;
    bool const promises = promises_first(*example);
    if ((!promises || firmness.first_cause_holds >= firm) && firmness.tier_holds >= firm) continue;
    fmt::print(out, "| {} | {} | {:.0f} % |\n", example->name,
               promises ? fmt::format("{:.0f} %", 100 * firmness.first_cause_holds) : "-",
               100 * firmness.tier_holds);
  }
}

void write_page(std::ostream& out) {
  Tables const tables(shipped_pack());
  out << "# The shipped pack, tried on dogs of its own making\n\n"
         "This page is written by the test suite. The dogs are drawn from the pack's own "
         "frequencies, each answer\n"
         "apart from the others, so it says how well the pack tells apart what it describes. It "
         "says nothing about\n"
         "whether the descriptions are right; no series of real cases has been run through it.\n\n";
  write_population(tables, out);
  write_causes(tables, out);
  write_firmness(tables, out);
}

}  // namespace
}  // namespace flinch::test

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "usage: simulate FILE\n";
    return 2;
  }
  std::ofstream out(argv[1], std::ios::binary);
  flinch::test::write_page(out);
  return out.flush() ? 0 : 2;
}
