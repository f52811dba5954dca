// Writes the page for the keeper and the page for the clinic of the shipped pack's examples, of
// each or, with a number N, of each N-th: example_pages FOLDER [N]
#include <fstream>
#include <string>

#include "pack/shipped_pack.hpp"
#include "report/report_page.hpp"

int main(int argc, char** argv) {
  using namespace flinch;
  if (argc != 2 && argc != 3) return 2;
  std::size_t const every = argc == 3 ? std::stoul(argv[2]) : 1;
  auto const pack = test::shipped_pack();
  Tables const tables(pack);
  Assessor assessor(tables);
  for (std::size_t i = 0; i < pack->examples.size(); i += every) {
    auto const& example = pack->examples[i];
    auto const result = assessor.assess(example.patient);
    cli::Reviewed const reviewed{tables, assessor, example.patient, result};
    for (auto const reader : {Reader::keeper, Reader::clinician}) {
      auto const path = std::string(argv[1]) + "/" + example.name +
                        (reader == Reader::keeper ? "-keeper.html" : "-clinic.html");
      std::ofstream(path, std::ios::binary) << cli::report_page(
          reviewed, reader, cli::Paper::a4, {{}, 3, 900, "2026-11-25 15:00"}, cli::Extent::all);
    }
  }
}
