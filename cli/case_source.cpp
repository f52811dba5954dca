#include "case_source.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <iostream>
#include <iterator>

#include "flinch/casefile/read_case.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
namespace {

std::optional<std::string> case_bytes(std::string const& path) {
  if (path == "-") return std::string(std::istreambuf_iterator<char>(std::cin), {});
  return read_file(path);
}

std::string why_unreadable(std::string const& path) {
  std::error_code problem;
  auto const status = std::filesystem::status(path, problem);
  if (status.type() == std::filesystem::file_type::not_found) return "there is no such file";
  if (std::filesystem::is_directory(status)) return "it is a folder";
  return "it may not be read";
}

}  // namespace

std::optional<CaseOfFile> open_case(std::string const& path, SourceSet& sources, Pack const& pack,
                                    std::ostream& err) {
  auto bytes = case_bytes(path);
  if (!bytes) {
    err << fmt::format("{}: error: cannot read this case file: {}\n", inert(path),
                       why_unreadable(path));
    return std::nullopt;
  }
  auto const name = path == "-" ? std::string("standard input") : path;
  auto const file = sources.add(name, std::move(*bytes));
  auto dog = read_case(sources, file, pack);
  err << render(dog.diagnostics, sources);
  if (!dog) return std::nullopt;
  return CaseOfFile{name, std::move(*dog.value)};
}

std::optional<PackAndCase> open_pack_and_case(std::string const& pack, std::string const& path,
                                              std::ostream& err) {
  auto opened = open_pack(pack);
  if (!opened.outcome) {
    err << render(opened.outcome.diagnostics, opened.sources);
    return std::nullopt;
  }
  auto const& sound = *opened.outcome.value;
  auto one = open_case(path, opened.sources, *sound, err);
  if (!one) return std::nullopt;
  return PackAndCase{std::move(opened.sources), sound, std::move(*one)};
}

}  // namespace flinch::cli
