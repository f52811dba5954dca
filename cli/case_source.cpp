#include "case_source.hpp"

#include <fmt/format.h>

#include <iostream>
#include <iterator>

#include "flinch/casefile/read_case.hpp"
#include "flinch/text/display.hpp"
#include "pack_source.hpp"

namespace flinch::cli {
namespace {

std::optional<std::string> case_bytes(std::string const& path) {
  if (path == "-") return std::string(std::istreambuf_iterator<char>(std::cin), {});
  return read_file(path);
}

}  // namespace

std::optional<NamedCase> open_case(std::string const& path, SourceSet& sources, Pack const& pack,
                                   Session const& session) {
  auto bytes = case_bytes(path);
  if (!bytes) {
    session.err << fmt::format("{}: error: cannot read this case file\n", inert(path));
    return std::nullopt;
  }
  auto const name = path == "-" ? std::string("standard input") : path;
  auto const file = sources.add(name, std::move(*bytes));
  auto dog = read_case(sources, file, pack);
  session.err << render(dog.diagnostics, sources);
  if (!dog) return std::nullopt;
  return NamedCase{name, std::move(*dog.value)};
}

}  // namespace flinch::cli
