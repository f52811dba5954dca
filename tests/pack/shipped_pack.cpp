#include "pack/shipped_pack.hpp"

#include <stdexcept>

#include "files/pack_source.hpp"
#include "files/prepared_pack.hpp"
#include "flinch/model/load.hpp"
#include "support/source_tree.hpp"

namespace flinch::test {

std::shared_ptr<Pack const> shipped_pack() {
  return cli::prepared_pack(cli::embedded_pack().prepared);
}

Care const& care_named(Pack const& pack, std::string_view name) {
  for (auto const& one : pack.care)
    if (one.name == name) return one;
  throw std::runtime_error("no care " + std::string(name));
}

std::shared_ptr<Pack const> parsed_shipped_pack() {
  SourceSet sources;
  auto const loaded = load_pack(
      "pack.flinch",
      [](std::string_view path) -> std::optional<std::string> {
        return source_file("rules/canine/" + std::string(path));
      },
      sources);
  if (!loaded) throw std::runtime_error(render(loaded.diagnostics, sources));
  return *loaded.value;
}

}  // namespace flinch::test
