#include "exchange/shared_case.hpp"

#include <memory>
#include <stdexcept>

#include "exchange/read_response.hpp"

namespace flinch::test {

cli::Json shared(std::shared_ptr<Pack const> const& pack, Case const& patient, cli::Names names) {
  // Tests share hundreds of cases of one pack.
  static std::unique_ptr<Tables> kept;
  if (!kept || &kept->pack() != pack.get()) kept = std::make_unique<Tables>(pack);
  auto const& tables = *kept;
  Assessor assessor(tables);
  auto const result = assessor.assess(patient);
  auto const told = tell(tables, result, Reader::keeper);
  cli::PieceIds const ids{"p", "q", "r", "s", "c", "d", "v", "b"};
  return cli::bundle({tables, patient, result, told, ids, 1764000000, names});
}

Taken take(Pack const& pack, std::string text) {
  SourceSet sources;
  auto const file = sources.add("sent.json", std::move(text));
  auto read = cli::read_response(sources, file, pack);
  auto messages = render(read.diagnostics, sources);
  return {std::move(read.value), std::move(read.diagnostics), std::move(messages)};
}

cli::Json& resource_of(cli::Json& bundle, std::string const& type) {
  for (auto& entry : bundle["entry"])
    if (entry["resource"]["resourceType"] == type) return entry["resource"];
  throw std::runtime_error("no " + type);
}

cli::Json* item_of(cli::Json& of, std::string const& link) {
  if (!of.contains("item")) return nullptr;
  for (auto& item : of["item"]) {
    if (item["linkId"] == link) return &item;
    if (auto* inside = item_of(item, link)) return inside;
  }
  return nullptr;
}

}  // namespace flinch::test
