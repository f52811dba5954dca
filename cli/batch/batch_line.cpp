#include "batch/batch_line.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <nlohmann/json.hpp>

namespace flinch::cli {
namespace {

// In ASCII alone: whatever a caller wrote comes out inert on a terminal.
std::string in_quotes(std::string_view text) {
  using nlohmann::json;
  return json(text).dump(-1, ' ', true, json::error_handler_t::replace);
}

std::string in_quotes_or_null(std::string_view text) {
  return text.empty() ? "null" : in_quotes(text);
}

std::string tier(Pack const& pack, std::optional<TierId> id) {
  return id ? fmt::format("\"{}\"", pack[*id].name) : "null";
}

std::size_t column(std::string_view line, std::uint32_t offset) {
  auto const before = line.substr(0, offset);
  return 1 + static_cast<std::size_t>(std::count_if(before.begin(), before.end(), [](char c) {
           return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
         }));
}

void add_errors(std::uint64_t number, std::string_view line, std::string_view name,
                std::vector<Diagnostic> const& mistakes, std::string& out) {
  auto to = std::back_inserter(out);
  fmt::format_to(to, R"({{"line":{},"case":{},"errors":[)", number, in_quotes_or_null(name));
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
    : pack_(tables.pack()), assessor_(tables), reader_(pack_), causes_(causes) {
  ending_ = fmt::format(
      R"(],"pack":{{"name":"{}","version":{}}},"caution":"does not diagnose; a licensed veterinarian and local rules decide"}})",
      pack_.name, in_quotes(pack_.version));
  ending_ += '\n';
}

Line LineAssessor::assess(std::uint64_t number, std::string_view line, std::string& out) {
  if (line.find_first_not_of(" \t\r") == std::string_view::npos) return Line::blank;
  auto const dog = reader_.read(line);
  if (!dog) {
    add_errors(number, line, reader_.name(), dog.diagnostics, out);
    return Line::bad;
  }
  answer(number, *dog.value, out);
  return Line::good;
}

void LineAssessor::refuse(std::uint64_t number, std::uint64_t bytes, std::string& out) {
  add_errors(number, {}, {}, {CaseLineReader::too_long(bytes)}, out);
}

void LineAssessor::answer(std::uint64_t number, Case const& dog, std::string& out) {
  auto const result = assessor_.assess(dog);
  auto to = std::back_inserter(out);
  fmt::format_to(
      to,
      R"({{"line":{},"case":{},"tier":{},"alarm_tier":{},"ranking_tier":{},"ceiling":{},)"
      R"("too_few_answers":{},"contradictions":{},"alarms":[)",
      number, in_quotes_or_null(dog.name), tier(pack_, result.tier), tier(pack_, result.alarm_tier),
      tier(pack_, result.ranking_tier), tier(pack_, result.ceiling), result.too_few_answers,
      result.contradictions.size());
  bool is_first = true;
  for (auto const& outcome : result.alarms) {
    if (outcome.truth != Truth::yes) continue;
    fmt::format_to(to, R"({}"{}")", is_first ? "" : ",", pack_[outcome.alarm].name);
    is_first = false;
  }
  out += R"(],"taken":[)";
  is_first = true;
  for (auto const& exposure : result.exposures) {
    if (!exposure.see) continue;
    fmt::format_to(to, R"({}"{}")", is_first ? "" : ",", pack_.care[exposure.care].name);
    is_first = false;
  }
  out += R"(],"causes":[)";
  for (std::size_t i = 0; i < std::min(causes_, result.ranking.size()); ++i) {
    auto const& ranked = result.ranking[i];
    auto const name = ranked.cause ? fmt::format("\"{}\"", pack_[*ranked.cause].name) : "null";
    fmt::format_to(to, R"({}{{"name":{},"posterior":{:.6f}}})", i == 0 ? "" : ",", name,
                   ranked.posterior);
  }
  out += ending_;
}

}  // namespace flinch::cli
