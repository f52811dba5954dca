#include "files/case_source.hpp"

#include <fmt/format.h>

#include <iostream>

#include "files/read_bytes.hpp"
#include "flinch/casefile/read_case.hpp"
#include "flinch/casefile/without_words.hpp"
#include "flinch/text/display.hpp"

namespace flinch::cli {
std::optional<CaseOfFile> open_case(std::string const& path, SourceSet& sources, Pack const& pack,
                                    std::ostream& err) {
  bool const is_input = path == "-";
  auto bytes = is_input ? std::optional(read_all(std::cin)) : read_file(path);
  if (!bytes) {
    err << fmt::format("{}: error: cannot read this case file: {}\n", inert(path),
                       why_unreadable(path).value_or("it may not be read"));
    return std::nullopt;
  }
  auto const name = is_input ? std::string("standard input") : path;
  auto const file = sources.add(name, std::move(*bytes));
  auto patient = read_case(sources, file, pack);
  err << render_without_words(patient.diagnostics, sources, file);
  if (!patient) return std::nullopt;
  return CaseOfFile{name, is_input ? "" : path, std::move(*patient.value)};
}

std::optional<PackAndCase> open_pack_and_case(std::string const& pack, std::string const& path,
                                              std::ostream& err) {
  auto opened = open_sound_pack(pack, err);
  if (!opened) return std::nullopt;
  auto one = open_case(path, opened->sources, *opened->pack, err);
  if (!one) return std::nullopt;
  return PackAndCase{std::move(opened->sources), opened->pack, std::move(*one)};
}

}  // namespace flinch::cli
