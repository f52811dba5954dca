// Any bytes as a case file for the shipped pack: no crash, no hang, and a case that is read can be
// assessed, its posteriors summing to one.
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "flinch/assess/assessment.hpp"
#include "flinch/assess/localisation.hpp"
#include "flinch/assess/open_questions.hpp"
#include "flinch/casefile/read_case.hpp"
#include "flinch/model/load.hpp"
#include "fuzz/target.hpp"

namespace {

std::shared_ptr<flinch::Pack const> shipped_pack() {
  flinch::SourceSet sources;
  auto const read = [](std::string_view path) -> std::optional<std::string> {
    std::ifstream file(std::string(FLINCH_SOURCE_DIR "/rules/canine/") + std::string(path),
                       std::ios::binary);
    if (!file) return std::nullopt;
    return std::string(std::istreambuf_iterator<char>(file), {});
  };
  auto loaded = flinch::load_pack("pack.flinch", read, sources);
  if (!loaded) std::abort();
  return *loaded.value;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  using namespace flinch;
  static auto const pack = shipped_pack();
  static Tables const tables(pack);
  static Assessor assessor(tables);
  SourceSet sources;
  auto const file =
      sources.add("case.yaml", std::string(reinterpret_cast<char const*>(data), size));
  auto const patient = read_case(sources, file, *pack);
  (void)render(patient.diagnostics, sources);
  if (!patient) return 0;
  auto const result = assessor.assess(*patient.value);
  (void)open_questions(tables, result);
  (void)localise(tables, result);
  double sum = 0;
  for (auto const& ranked : result.ranking) sum += ranked.posterior;
  if (std::abs(sum - 1) > 1e-9) std::abort();
  return 0;
}
