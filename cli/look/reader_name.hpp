#pragma once
// Who reads, by the words of the command line.
#include <string_view>

#include "flinch/model/reader.hpp"

namespace flinch::cli {

/// `nurse`, `handler` or `clinician`; the keeper, who is told least, for all else.
[[nodiscard]] inline Reader reader_named(std::string_view name) {
  if (name == "nurse") return Reader::nurse;
  if (name == "handler") return Reader::handler;
  return name == "clinician" ? Reader::clinician : Reader::keeper;
}

}  // namespace flinch::cli
