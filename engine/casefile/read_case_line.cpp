#include "flinch/casefile/read_case_line.hpp"

#include <fmt/format.h>

#include "casefile/read_tree.hpp"
#include "json/line.hpp"

namespace flinch {

struct CaseLineReader::Parser {
  json::LineParser json{{.bytes = longest_line}};
};

CaseLineReader::CaseLineReader(Pack const& pack)
    : parser_(std::make_unique<Parser>()), pack_(&pack) {}
CaseLineReader::~CaseLineReader() = default;
CaseLineReader::CaseLineReader(CaseLineReader&&) noexcept = default;
CaseLineReader& CaseLineReader::operator=(CaseLineReader&&) noexcept = default;

Outcome<Case> CaseLineReader::read(std::string_view line) {
  name_.clear();
  Outcome<Case> out;
  if (line.size() > longest_line) {
    out.diagnostics.push_back(too_long(line.size()));
    return out;
  }
  Report report;
  if (auto const root = parser_->json.read(line, report)) {
    if (auto const* name = root->find("name")) name_ = name->scalar;
    auto read = read_case_tree(*root, *pack_, Outcomes::ignored, report);
    if (!report.has_errors()) out.value = std::move(read);
  }
  out.diagnostics = report.take();
  return out;
}

Diagnostic CaseLineReader::too_long(std::size_t bytes) {
  return {Code::too_large,
          Severity::error,
          {},
          fmt::format("the line has {} bytes; at most {} are read", bytes, longest_line),
          {}};
}

}  // namespace flinch
