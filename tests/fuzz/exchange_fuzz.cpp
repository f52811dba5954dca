// Any bytes as what another program sends: no crash, no hang, and a case that is taken is a case:
// it is written, read back as the same, and sent again as the same answers.
#include <cstdlib>

#include "exchange/read_response.hpp"
#include "exchange/response.hpp"
#include "flinch/casefile/read_case.hpp"
#include "flinch/casefile/write_case.hpp"
#include "fuzz/target.hpp"
#include "pack/shipped_pack.hpp"

namespace {

void require(bool fact) {
  if (!fact) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  using namespace flinch;
  static auto const pack = test::shipped_pack();
  SourceSet sources;
  auto const file =
      sources.add("sent.json", std::string(reinterpret_cast<char const*>(data), size));
  auto const taken = cli::read_response(sources, file, *pack);
  (void)render(taken.diagnostics, sources);
  require(taken.value.has_value() || !taken.diagnostics.empty());
  if (!taken) return 0;
  auto const written = write_case(*taken.value, *pack);
  SourceSet again;
  auto const back = read_case(again, again.add("case.yaml", written), *pack);
  require(back.value.has_value() && write_case(*back.value, *pack) == written);
  require(cli::response_items(*pack, *back.value, cli::Names::sent) ==
          cli::response_items(*pack, *taken.value, cli::Names::sent));
  return 0;
}
