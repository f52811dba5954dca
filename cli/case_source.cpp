#include "case_source.hpp"

#include <fmt/format.h>

#include <iostream>
#include <iterator>

#include "flinch/casefile/read_case.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {

std::optional<std::string> case_bytes(std::string const& path) {
  if (path == "-") return std::string(std::istreambuf_iterator<char>(std::cin), {});
  return read_file(path);
}

std::optional<OpenedCase> open_case(std::string const& pack, std::string const& path,
                                    std::ostream& err) {
  auto opened = open_pack(pack);
  if (!opened.outcome) {
    err << render(opened.outcome.diagnostics, opened.sources);
    return std::nullopt;
  }
  auto bytes = case_bytes(path);
  if (!bytes) {
    err << fmt::format("{}: error: cannot read this case file\n", inert(path));
    return std::nullopt;
  }
  auto const name = path == "-" ? std::string("standard input") : path;
  auto const file = opened.sources.add(name, std::move(*bytes));
  auto dog = read_case(opened.sources, file, **opened.outcome.value);
  err << render(dog.diagnostics, opened.sources);
  if (!dog) return std::nullopt;
  return OpenedCase{std::move(opened.sources), *opened.outcome.value, name, std::move(*dog.value)};
}

}  // namespace flinch::cli
