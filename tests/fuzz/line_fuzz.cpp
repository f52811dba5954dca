// Any bytes as one line of JSON for the shipped pack: no crash, no hang, mistakes with places
// inside the line; and a case that is read says the same when it is written as YAML and read again.
#include <cstdlib>

#include "flinch/assess/assessment.hpp"
#include "flinch/casefile/read_case.hpp"
#include "flinch/casefile/read_case_line.hpp"
#include "flinch/casefile/write_case.hpp"
#include "fuzz/target.hpp"
#include "pack/shipped_pack.hpp"

namespace {

void demand(bool holds) {
  if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  using namespace flinch;
  static auto const pack = test::shipped_pack();
  static Tables const tables(pack);
  static Assessor assessor(tables);
  static CaseLineReader reader(*pack);
  auto const patient = reader.read({reinterpret_cast<char const*>(data), size});
  demand(patient.value.has_value() == patient.diagnostics.empty());
  for (auto const& mistake : patient.diagnostics) {
    demand(mistake.at.span.begin <= mistake.at.span.end && mistake.at.span.end <= size);
    demand(!mistake.message.empty());
  }
  if (!patient) return 0;
  (void)assessor.assess(*patient.value);
  SourceSet sources;
  auto const again =
      read_case(sources, sources.add("case.yaml", write_case(*patient.value, *pack)), *pack);
  // Findings that say nothing are not written.
  auto silent = *patient.value;
  std::erase_if(silent.answers, [](auto const& answer) {
    auto const* findings = std::get_if<Findings>(&answer.second);
    return findings != nullptr && *findings == Findings{};
  });
  demand(again && again.value->answers == silent.answers &&
         again.value->cannot_tell == silent.cannot_tell);
  return 0;
}
