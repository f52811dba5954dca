// flinch_consumer FOLDER CASE: how soon the patient must be seen by the pack in FOLDER, and the
// likeliest cause.
#include <flinch/assess/assessment.hpp>
#include <flinch/casefile/read_case.hpp>
#include <flinch/model/load.hpp>
#include <fstream>
#include <iostream>
#include <iterator>

std::optional<std::string> bytes_of(std::string const& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) return std::nullopt;
  return std::string(std::istreambuf_iterator<char>(file), {});
}

int main(int, char** argv) {
  flinch::SourceSet sources;  // keeps the texts, so that mistakes can be shown in them
  auto const in_folder = [&](std::string_view path) {
    return flinch::FileRead(bytes_of(std::string(argv[1]) + "/" + std::string(path)));
  };
  auto const pack = flinch::load_pack("pack.flinch", in_folder, sources);
  if (!pack) return std::cerr << flinch::render(pack.diagnostics, sources), 2;
  auto const file = sources.add(argv[2], bytes_of(argv[2]).value_or(""));
  auto const patient = flinch::read_case(sources, file, **pack.value);
  if (!patient) return std::cerr << flinch::render(patient.diagnostics, sources), 2;
  flinch::Tables const tables(*pack.value);
  auto const told = flinch::Assessor(tables).assess(*patient.value).judgement;
  std::vector<std::uint32_t> first;
  told.most_probable(1, first);
  auto const& causes = (*pack.value)->causes;
  std::cout << "how soon: " << (told.tier ? (**pack.value)[*told.tier].title : "unknown")
            << "\nfirst: "
            << (first[0] < causes.size() ? causes[first[0]].title : "none of the listed causes")
            << "\nIt does not diagnose: a licensed veterinarian decides.\n";
}
