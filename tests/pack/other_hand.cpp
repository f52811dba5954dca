// Writes docs/other_hand.md: how the shipped pack ranks dogs written by someone who knew its
// vocabulary and none of its rules.
#include <fmt/format.h>
#include <fmt/ostream.h>

#include <algorithm>
#include <fstream>
#include <iostream>
#include <sstream>

#include "pack/shipped_pack.hpp"
#include "support/small_pack.hpp"
#include "support/source_tree.hpp"

namespace flinch::test {
namespace {

char const* const folder = "tests/pack/by_another_hand/";

struct Written {
  std::string name;
  std::string cause;
  std::string latest_tier;
};

std::vector<Written> read_truth() {
  std::istringstream lines(source_file(std::string(folder) + "truth.tsv"));
  std::vector<Written> out;
  std::string line;
  std::getline(lines, line);  // the heading
  while (std::getline(lines, line)) {
    std::istringstream cells(line);
    Written one;
    std::getline(cells, one.name, '\t');
    std::getline(cells, one.cause, '\t');
    std::getline(cells, one.latest_tier, '\t');
    out.push_back(std::move(one));
  }
  return out;
}

struct Reading {
  Written truth;
  std::size_t rank = 0;
  std::string first;
  std::string tier;
  bool is_under = false;
};

std::size_t tier_place(Pack const& pack, std::string const& name) {
  for (std::size_t i = 0; i < pack.tiers.size(); ++i)
    if (pack.tiers[i].name == name) return i;
  throw std::runtime_error("no such tier: " + name);
}

Reading read(std::shared_ptr<Pack const> const& pack, Written const& truth) {
  auto const result = assess(pack, source_file(folder + truth.name + ".yaml"));
  Reading out{truth, 0, {}, tier_name(*pack, result.tier), false};
  for (auto const& ranked : result.ranking) {
    if (!ranked.cause) continue;
    ++out.rank;
    if (out.first.empty()) out.first = (*pack)[*ranked.cause].name;
    if ((*pack)[*ranked.cause].name == truth.cause) break;
  }
  out.is_under = !result.tier || index(*result.tier) > tier_place(*pack, truth.latest_tier);
  return out;
}

void write_page(std::shared_ptr<Pack const> const& pack, std::ostream& out) {
  std::vector<Reading> all;
  for (auto const& truth : read_truth()) all.push_back(read(pack, truth));
  auto const count = [&](auto const& is) { return std::count_if(all.begin(), all.end(), is); };
  out << "# Dogs by another hand\n\n"
         "Invented dogs, each with one true cause and the latest tier that would do, written from "
         "textbook "
         "knowledge and\npublished case reports by two writers who knew the vocabulary of the pack "
         "and none of "
         "its rules\n(`tests/pack/by_another_hand`; those of the second writer are numbered b1, "
         "b2). This page is "
         "written by the test\nsuite. The dogs are no series of real cases. At the first, blind "
         "reading the first "
         "writer's 84 dogs came out 61\nfirst, 71 among the first three, 3 under-triaged; after "
         "the general "
         "faults that they showed had been mended, the second\nwriter's 90 came out 65 first, 80 "
         "among the first "
         "three, 5 under-triaged. Their general remarks have been taken up\nsince, so none of the "
         "dogs is blind "
         "any more.\n\n";
  fmt::print(out,
             "{} dogs: the true cause first in {}, among the first three in {}, among the first "
             "five in {}; "
             "{} given a less\nurgent tier than would do.\n\n",
             all.size(), count([](Reading const& r) { return r.rank == 1; }),
             count([](Reading const& r) { return r.rank <= 3; }),
             count([](Reading const& r) { return r.rank <= 5; }),
             count([](Reading const& r) { return r.is_under; }));
  out << "Those not first, or less urgent:\n\n| dog | rank | first instead | tier | latest that "
         "would do "
         "|\n|---|---|---|---|---|\n";
  for (auto const& one : all)
    if (one.rank > 1 || one.is_under)
      fmt::print(out, "| {} | {} | {} | {}{} | {} |\n", one.truth.name, one.rank,
                 one.rank > 1 ? one.first : "", one.tier, one.is_under ? " (less urgent)" : "",
                 one.truth.latest_tier);
}

}  // namespace
}  // namespace flinch::test

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "usage: other_hand PAGE\n";
    return 2;
  }
  std::ofstream out(argv[1], std::ios::binary);
  flinch::test::write_page(flinch::test::shipped_pack(), out);
  return out.good() ? 0 : 1;
}
