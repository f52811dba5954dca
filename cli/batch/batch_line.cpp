#include "batch/batch_line.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "look/schema.hpp"

namespace flinch::cli {
namespace {

std::size_t column(std::string_view line, std::uint32_t offset) {
  auto const before = line.substr(0, offset);
  return 1 + static_cast<std::size_t>(std::count_if(before.begin(), before.end(), [](char c) {
           return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
         }));
}

void add_errors(std::uint64_t number, std::string_view line, std::string_view name,
                std::vector<Diagnostic> const& mistakes, std::string& out) {
  auto to = std::back_inserter(out);
  fmt::format_to(to, R"({{"line":{},"case":{},"schema":{},"errors":[)", number,
                 in_quotes_or_null(name), schema_json(batch_schema).dump());
  bool is_first = true;
  for (auto const& mistake : mistakes) {
    fmt::format_to(to, R"({}{{"column":{},"code":"{}","message":{},"notes":[)", is_first ? "" : ",",
                   column(line, mistake.at.span.begin), code_text(mistake.code),
                   in_quotes(mistake.message));
    is_first = false;
    for (std::size_t i = 0; i < mistake.notes.size(); ++i) {
      auto const& [message, at] = mistake.notes[i];
      auto const place = at ? fmt::format(" (column {})", column(line, at->span.begin)) : "";
      out += (i == 0 ? "" : ",") + in_quotes(message + place);
    }
    out += "]}";
  }
  out += "]}\n";
}

}  // namespace

LineAssessor::LineAssessor(Tables const& tables, std::size_t causes)
    : assessor_(tables), reader_(tables.pack()), writer_(tables.pack()), causes_(causes) {}

Line LineAssessor::assess(std::uint64_t number, std::string_view line, std::string& out) {
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  if (number == 1 && line.starts_with(byte_order_mark)) line.remove_prefix(byte_order_mark.size());
  if (line.find_first_not_of(" \t\r") == std::string_view::npos) return Line::blank;
  auto const& patient = reader_.read(line);
  if (!patient) {
    add_errors(number, line, reader_.name(), patient.diagnostics, out);
    return Line::bad;
  }
  auto const& judgement = assessor_.judge(*patient.value);
  judgement.most_probable(causes_, head_);
  writer_.write(number, patient.value->name, judgement, head_, out);
  return Line::good;
}

void LineAssessor::refuse(std::uint64_t number, std::uint64_t bytes, std::string& out) {
  add_errors(number, {}, {}, {CaseLineReader::too_long(bytes)}, out);
}

}  // namespace flinch::cli
