// Any bytes as a case file for the shipped pack: no crash, no hang, and a case that is read can be
// assessed, its posteriors summing to one.
#include <cmath>
#include <cstdlib>

#include "flinch/assess/assessment.hpp"
#include "flinch/assess/localisation.hpp"
#include "flinch/assess/open_questions.hpp"
#include "flinch/casefile/read_case.hpp"
#include "fuzz/target.hpp"
#include "pack/shipped_pack.hpp"

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  using namespace flinch;
  static auto const pack = test::shipped_pack();
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
