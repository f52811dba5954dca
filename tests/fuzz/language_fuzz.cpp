// Any bytes as a pack: no crash, no hang, places inside the text, and what was read prints and
// reads back the same.
#include <cstdlib>

#include "flinch/model/load.hpp"
#include "flinch/syntax/print.hpp"
#include "fuzz/target.hpp"

namespace {

void require(bool fact) {
  if (!fact) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  using namespace flinch;
  std::string const text(reinterpret_cast<char const*>(data), size);
  SourceSet sources;
  auto const read = [&](std::string_view path) -> std::optional<std::string> {
    if (path == "pack.flinch") return text;
    return std::nullopt;
  };
  auto const loaded = load_pack("pack.flinch", read, sources);
  for (auto const& d : loaded.diagnostics) {
    auto const& source = sources[d.at.file];
    require(d.at.span.begin <= d.at.span.end && d.at.span.end <= source.text().size());
  }
  (void)render(loaded.diagnostics, sources);

  Report report;
  auto const file = sources.add("again.flinch", text);
  auto const tree = syntax::parse(sources, file, {}, report);
  bool const whole = !report.has_errors();
  auto const printed = sources.add("printed.flinch", print(tree));
  Report second;
  auto const again = syntax::parse(sources, printed, {}, second);
  require(!whole || (again == tree && !second.has_errors()));
  return 0;
}
