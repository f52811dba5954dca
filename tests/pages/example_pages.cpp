// Writes the page for the keeper and the page for the clinic of every example of the shipped pack:
// example_pages FOLDER
#include <fstream>
#include <iostream>

#include "pack/shipped_pack.hpp"
#include "report/report_page.hpp"

int main(int argc, char** argv) {
  using namespace flinch;
  if (argc != 2) return 2;
  auto const pack = test::shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  for (auto const& example : pack->examples) {
    auto const result = assessor.assess(example.dog);
    cli::Reviewed const reviewed{tables, assessor, example.dog, result};
    for (auto const reader : {Reader::keeper, Reader::clinician}) {
      auto const path = std::string(argv[1]) + "/" + example.name +
                        (reader == Reader::keeper ? "-keeper.html" : "-clinic.html");
      std::ofstream(path, std::ios::binary) << cli::report_page(
          reviewed, reader, cli::Paper::a4, {{}, 3, 900, "2026-11-25 15:00"}, cli::Extent::all);
    }
  }
  std::cout << pack->examples.size() << " examples\n";
}
