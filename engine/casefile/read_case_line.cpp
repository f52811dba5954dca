#include "flinch/casefile/read_case_line.hpp"

#include <fmt/format.h>

#include "casefile/plain_case.hpp"
#include "flinch/casefile/read_tree.hpp"
#include "json/line.hpp"
#include "json/plain_line.hpp"

namespace flinch {

struct CaseLineReader::Readers {
  Readers(Pack const& its_pack, Outcomes its_outcomes)
      : pack(its_pack), outcomes(its_outcomes), plain(its_pack, its_outcomes) {}

  // What is wrong with a line is found out here alone.
  void read_with_places(std::string_view line) {
    Report report;
    name.clear();
    out.value.reset();
    if (auto const root = json.read(line, report)) {
      if (auto const* its_name = root->find("name")) name = its_name->scalar;
      auto read = read_case_tree(*root, pack, outcomes, report);
      if (!report.has_errors()) out.value = std::move(read);
    }
    out.diagnostics = report.take();
  }

  Pack const& pack;
  Outcomes outcomes;
  json::LineParser json{{.bytes = longest_line}};
  json::PlainLineParser plain_json;
  PlainCaseReader plain;
  Outcome<Case> out;
  std::string name;  ///< when there is no case
};

CaseLineReader::CaseLineReader(Pack const& pack, Outcomes outcomes)
    : readers_(std::make_unique<Readers>(pack, outcomes)) {}
CaseLineReader::~CaseLineReader() = default;
CaseLineReader::CaseLineReader(CaseLineReader&&) noexcept = default;
CaseLineReader& CaseLineReader::operator=(CaseLineReader&&) noexcept = default;

Outcome<Case> const& CaseLineReader::read(std::string_view line) {
  auto& out = readers_->out;
  out.diagnostics.clear();
  if (line.size() > longest_line) {
    readers_->name.clear();
    out.value.reset();
    out.diagnostics.push_back(too_long(line.size()));
    return out;
  }
  if (!out.value) out.value.emplace();
  if (!readers_->plain.read(readers_->plain_json.read(line), *out.value))
    readers_->read_with_places(line);
  return out;
}

std::string const& CaseLineReader::name() const {
  return readers_->out.value ? readers_->out.value->name : readers_->name;
}

Diagnostic CaseLineReader::too_long(std::size_t bytes) {
  return {Code::too_large,
          Severity::error,
          {},
          fmt::format("the line has {} bytes; at most {} are read", bytes, longest_line),
          {}};
}

}  // namespace flinch
